"""The server killed while 20 devices send readings: no acknowledged entry is lost, over HTTP."""

import random
import threading
import time

import httpx

from fitwright.records.entry import Acknowledgement
from fitwright.records.ids import new_id
from fitwright.store.record import open_record
from fitwright.store.verify import verify
from tests.support.serving import form_of, served
from tests.support.writers import lost_of

FIT = "/builds/corrie-five/fits/main.4.running_clearance"
READINGS = "/builds/corrie-five/readings"
BRIEF = {"accept": "application/json", "prefer": "return=minimal"}
KILLS, DEVICES, READINGS_EACH = 3, 20, 200


def send(address, form, acknowledged, begun):
    """One device: readings one after the other, until the server is gone."""
    with httpx.Client(base_url=address, timeout=10, headers=BRIEF) as device:
        begun.wait()
        for number in range(READINGS_EACH):
            entry = form | {"entry_id": new_id(), "value": f"60.51{number % 10}"}
            try:
                answer = device.post(READINGS, data=entry)
            except httpx.TransportError:
                return
            assert answer.status_code == 200, answer.text
            said = answer.json()["acknowledgement"]
            acknowledged.append(Acknowledgement(entry["entry_id"], said["seq"], said["hash"]))


def test_the_server_killed_while_20_devices_write_loses_no_acknowledged_entry(folder):
    chance = random.Random(20310505)
    acknowledged = []
    for _ in range(KILLS):
        with served(folder) as server:
            form = form_of(httpx.get(server.address + FIT).text) | {"place": "main.4.housing_bore|front/0"}
            begun = threading.Barrier(DEVICES + 1)
            devices = [
                threading.Thread(target=send, args=(server.address, form, acknowledged, begun))
                for _ in range(DEVICES)
            ]
            for device in devices:
                device.start()
            begun.wait()
            before = len(acknowledged)
            time.sleep(chance.uniform(0.2, 0.8))
            server.process.kill()
            for device in devices:
                device.join()
            kept = len(acknowledged) - before
            assert 0 < kept < DEVICES * READINGS_EACH, "no kill came while they wrote, so nothing was tested"
        record = open_record(folder)
        assert record.read_only_because is None
        assert lost_of(acknowledged, record) == []
        assert verify(record).sound
        record.close()
    print(f"{KILLS} kills, {len(acknowledged)} acknowledged entries, 0 lost")
