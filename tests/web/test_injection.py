"""No words of a sheet or record become part of a page: neither in HTML nor in the drawings."""

from __future__ import annotations

import re
from html.parser import HTMLParser

import httpx
import pytest

from fitwright.assess.results import State
from fitwright.bench.taking import Taken, Taking, take_blade, take_value
from fitwright.formats.readings.csv_file import write_csv
from fitwright.formats.readings.exporting import rows_of
from fitwright.records.kinds import (
    BladeOnShelf,
    BladeSet,
    BuildStarted,
    Instrument,
    LimitAdopted,
    NotInThisJob,
    NotMeasured,
    OilChosen,
    OilDataSheet,
    Person,
    PressureReading,
    Setting,
    Sitting,
    Typed,
)
from fitwright.web.app import create_app
from fitwright.wiring import open_shop
from tests.support.serving import serving
from tests.support.small_sheet import BORE_GAUGE, MICROMETER, SHEET
from tests.web.every_page import CODE, DEMO

EVIL = "\"'></text></svg></option><script>alert(1)</script><img src=x onerror=alert(1)>{{7*7}}{% raw %}=1+1"
TOML_EVIL = EVIL.partition("{")[0].replace('"', '\\"')
FIRST_START = {
    "angular_speed": Typed(typed="900", unit="rpm", decimals=0, si=94.24777960769379),
    "oil_temperature": Typed(typed="92", unit="degC", decimals=0, si=365.15),
    "gauge_reading": Typed(typed="2.4", unit="bar", decimals=1, si=2.4e5),
}
VISCOSITIES = {
    "kinematic_viscosity_40": Typed(typed="98", unit="mm2/s", decimals=0, si=98e-6),
    "kinematic_viscosity_100": Typed(typed="10.9", unit="mm2/s", decimals=1, si=10.9e-6),
}


def hostile_sheet():
    """The small sheet with hostile words wherever words are free."""
    words = re.sub(r'(?m)^(title|name|revision|edition) = "([^"]*)"', rf'\1 = "\2 {TOML_EVIL}"', SHEET)
    words = re.sub(r'(?m)^(top|right|bottom|left) = "([^"]*)"', rf'\1 = "\2 {TOML_EVIL}"', words)
    return words.replace('depends_on = "length"', f'depends_on = "{TOML_EVIL}"')


@pytest.fixture
def shop(tmp_path):
    """A shop in which everything has a hostile name."""
    shop = open_shop(tmp_path / "shop")
    mark = EVIL.replace("+", "").replace(":", "")[:70]
    blade = BladeOnShelf(marking=mark, thickness=5e-5, standard_uncertainty=1e-6)
    for body in (
        Person(code=EVIL[:80], name=EVIL),
        Instrument(code=mark, title=EVIL, **MICROMETER),
        Instrument(code="B", title=EVIL, **BORE_GAUGE),
        Setting(code=EVIL[:80], instrument=mark, against=EVIL),
        Setting(code="S-B", instrument="B", against=EVIL),
        BladeSet(code=mark, title=EVIL, blades=(blade,)),
    ):
        shop.write([shop.entry(body)])
    started = BuildStarted(code="b", title=EVIL, sheet="", owner_words=EVIL, job_number=EVIL, duty=EVIL)
    shop.start_build("b", hostile_sheet(), started)
    adopted = Typed(typed="0.05", unit="mm", decimals=2, si=5e-5)
    for body in (
        Sitting(code=EVIL[:80], measured_by=EVIL[:80], words=EVIL, attitude=EVIL),
        NotMeasured(subject="seat_bore", because=EVIL),
        NotInThisJob(subject="end_float", reason=EVIL),
        LimitAdopted(subject="side", source="trade", upper=adopted, adopted_by=EVIL[:80], reason=EVIL),
        PressureReading(oil=EVIL, step=EVIL, note=EVIL, instrument="B", **FIRST_START),
        OilChosen(data_sheet=OilDataSheet(title=EVIL, source=EVIL, **VISCOSITIES), reason=EVIL),
        OilChosen(oil=EVIL, reason=EVIL),
    ):
        shop.write([shop.entry(body, build="b")])
    taking = Taking(instrument=mark, setting=EVIL[:80], note=EVIL, person=EVIL[:80])
    bench = shop.bench("b")
    taken = [take_value(bench, "journal", place, "55.450", taking) for place in ("front", "rear")]
    taken.append(take_value(bench, "fitted", None, "55.500", Taking(instrument="B", setting="S-B")))
    taken.append(take_blade(bench, "gap", None, f"{mark}:{mark}", "goes", Taking(note=EVIL)))
    for each in taken:
        assert isinstance(each, Taken)
        shop.write(each.entries)
    yield shop
    shop.close()


class Page(HTMLParser):
    """Counts elements, and notes handlers and addresses that run something."""

    def __init__(self):
        super().__init__()
        self.tags = []
        self.running = []

    def handle_starttag(self, tag, attrs):
        self.tags.append(tag)
        for name, value in attrs:
            if name.startswith("on") or str(value).strip().lower().startswith(("javascript:", "data:")):
                self.running.append((tag, name, value))


def test_hostile_words_stay_words(shop):
    subjects = shop.assessor("b").judge.subjects
    addresses = ["/", "/builds/b/fits", "/builds/b/fits?state=both", "/builds/b/fits?state=as-received"]
    addresses += [f"/builds/b/fits/{name}{more}" for name in subjects for more in ("", "/history")]
    addresses += [address.replace(CODE, "b") for address in DEMO.values()]
    stations = shop.bench("b").sheet.stations
    addresses += [f"/builds/b/{page}/{name}" for page in ("measure", "forms", "paper") for name in stations]
    addresses += [f"/{where}/record/{seq}" for where in ("builds/b", "shop") for seq in range(1, 18)]
    shown, pages = 0, 0
    with serving(create_app(shop)) as base, httpx.Client(base_url=base, timeout=30) as client:
        for address in addresses:
            answer = client.get(address)
            assert answer.status_code in (200, 404), address
            pages += answer.status_code == 200
            page = Page()
            page.feed(answer.text)
            assert "img" not in page.tags, address
            assert page.running == [], address
            assert "<script>" not in answer.text, address
            shown += answer.text.count("&lt;script&gt;")
        assert "{{7*7}}{% raw %}" in client.get("/").text
    print(f"{pages} pages, {shown} hostile texts shown as text")
    assert pages > 70
    assert shown > 500


def test_no_cell_of_an_exported_table_begins_a_formula(shop, tmp_path):
    file = tmp_path / "r.csv"
    with file.open("w", newline="") as out:
        assert write_csv(rows_of(shop.bench("b"), State.CURRENT), out)
    cells = [cell for line in file.read_text().splitlines() for cell in line.split(",")]
    assert not [cell for cell in cells if cell.lstrip('" ')[:1] in ("=", "@", "+", "\t")]
