"""The page of films over the cycle: reached from the page Oil with its what-if, words without numbers."""

from __future__ import annotations

import re
from dataclasses import replace
from html import unescape

import pytest

from fitwright.assess.oil import orbits
from fitwright.assess.oil.desk import OilDesk
from fitwright.web.cycle_work import CycleWork
from fitwright.web.pages.oil import cycle
from tests.support.contexts import unread
from tests.support.oil_bands import banded_at_once
from tests.support.oil_unmeasured import shop_not_measured

OIL = "/builds/corrie-five/oil"
HERE = f"{OIL}/cycle"


@pytest.fixture(autouse=True)
def patient(monkeypatch):
    """Compiled code may have to be made first."""
    monkeypatch.setattr(cycle, "SOON", 300.0)
    monkeypatch.setattr(cycle, "_WORK", CycleWork())


def rows(text):
    found = re.findall(r'<tr><th scope="row">(.*?)</th>(.*?)</tr>', text, re.DOTALL)
    return {name: re.findall(r"<td.*?>(.*?)</td>", cells) for name, cells in found}


def test_every_field_is_shown_somewhere(client, asking, begun_shop, read):
    assert client.get(f"{HERE}?at=pull-6000&w.mains=0.02").status_code == 200
    assert asking(begun_shop).get("/builds/first/oil/cycle").status_code == 200
    assert not unread([cycle], read)


def test_each_main_and_big_end_has_its_row(looking):
    text = looking.get(f"{HERE}?at=pull-6000").text
    found = rows(text)
    assert list(found) == [f"Main {n}" for n in range(1, 7)] + [f"Big end {n}" for n in range(1, 6)]
    film, at, after, pressure, load, flow, loss = found["Big end 2"]
    assert re.fullmatch(r"\d\.\d µm", film)
    assert re.fullmatch(r"\d+°", at)
    assert re.fullmatch(r"\d+°", after)
    assert found["Main 1"][2] == ""
    assert pressure.endswith("MPa")
    assert load.endswith("kN")
    assert flow.endswith("L/min")
    assert loss.endswith(" W")
    assert "not modelled" in text
    assert text.count("<svg") == 2


def test_a_film_that_touches_is_a_word(looking):
    film, at, after, pressure, load, *rest = rows(looking.get(f"{HERE}?at=pull-8000").text)["Big end 1"]
    assert (film, at, after, pressure, *rest) == ("touching: no film predicted", "", "", "", "", "")
    assert load.endswith("kN")


def test_the_page_oil_leads_here_and_back_with_what_is_moved(client, monkeypatch):
    monkeypatch.setattr(OilDesk, "banded", banded_at_once)
    moved = "?units=mm&at=pull-4000&w.mains=0.020"
    for _ in range(300):
        text = client.get(OIL + moved).text
        if "/oil/cycle" in text:
            break
    link = unescape(re.search(r'href="([^"]*/oil/cycle[^"]*)"', text)[1])
    assert {"at=pull-4000", "w.mains=0.020"} <= set(re.split("[?&]", link))
    there = client.get(link).text
    said = re.search(r"<strong>What if:</strong> (.*?)</p>", there)[1]
    assert said == "Clearance of mains +0.020 mm."
    before, after = rows(client.get(f"{HERE}?units=mm&at=pull-4000").text), rows(there)
    assert before["Main 1"] != after["Main 1"]
    back = unescape(re.search(r'<a href="([^"]*)">Back', there)[1])
    assert "w.mains=0.020" in back
    assert client.get(back).status_code == 200


def test_below_idle_there_are_words(looking):
    text = looking.get(f"{HERE}?at=on-the-starter-plugs-out").text
    assert orbits.BELOW_IDLE in text
    assert rows(text) == {}


def test_a_sheet_without_a_circuit_or_a_crank_train_says_so(asking, begun_shop, client, shop, monkeypatch):
    assert "describes no oil circuit" in asking(begun_shop).get("/builds/first/oil/cycle").text
    desk = shop.oil("corrie-five")
    bare = OilDesk(replace(desk.case, train=None))
    monkeypatch.setattr(type(shop), "oil", lambda *_: bare)
    assert orbits.NO_TRAIN[:40] in client.get(HERE).text


def test_until_it_is_there_the_page_says_so(client, monkeypatch):
    monkeypatch.setattr(CycleWork, "answer", lambda *_, **__: None)
    text = client.get(HERE).text
    assert "Getting ready." in text
    assert 'hx-select="#over-cycle"' in text


def test_without_critical_sizes_it_does_not_carry_the_engines_name(asking, begun_shop):
    text = asking(shop_not_measured(begun_shop)).get("/builds/second/oil/cycle").text
    assert "<h1>Films over the cycle of an engine of this sheet</h1>" in text
    assert "sizes are not measured: the middle of the limits counts" in text


def test_work_that_failed_is_tried_again():
    class Desk:
        calls = 0

        def films_over_cycle(self, point, what_if):
            self.calls += 1
            if self.calls == 1:
                raise RuntimeError("once")
            return "films"

    work, desk = CycleWork(), Desk()
    with pytest.raises(RuntimeError):
        work.answer(desk, None, None, wait=5.0)
    assert work.answer(desk, None, None, wait=5.0) == "films"
    assert work.answer(desk, None, None, wait=5.0) == "films"
    assert desk.calls == 2
