"""Kill 20 writers again and again: `python -m benchmarks.kill_writers 100`; exits with 1 if one is lost."""

import random
import sys
import tempfile
from pathlib import Path

from fitwright.store.record import open_record
from fitwright.store.verify import verify
from tests.support.writers import killed_while_writing, lost_of


def main():
    kills = int(sys.argv[1]) if len(sys.argv) > 1 else 100
    chance = random.Random(kills)
    acknowledged, faults = [], 0
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place) / "shop"
        for _ in range(kills):
            acknowledged += killed_while_writing(folder, 20, 200, after=chance.uniform(0.02, 0.6))
            record = open_record(folder)
            lost = lost_of(acknowledged, record)
            faults += len(lost) + (record.read_only_because is not None)
            record.close()
        record = open_record(folder)
        sound = verify(record).sound
        record.close()
    print(f"{kills} kills, {len(acknowledged)} acknowledged entries, {faults} lost, chain sound: {sound}")
    return 1 if faults or not sound else 0


if __name__ == "__main__":
    sys.exit(main())
