"""`fitwright oil --cycle` and `--load-cycle`: tables, JSON, chart, one sentence for what cannot be."""

import contextlib
import json
import math
import re
import shlex
from dataclasses import replace
from xml.etree import ElementTree as ET

import pytest

from fitwright.assess.oil.desk import OilDesk
from fitwright.wiring import open_shop
from tests.support.codebase import ROOT

PAGE = ROOT / "docs" / "how-to" / "films-over-the-cycle.md"
HEAD = "crank angle [deg], across [kN], along [kN]"


@pytest.fixture(scope="module")
def shop(prepared_demo):
    held = open_shop(prepared_demo, create=False)
    yield held
    held.close()


@pytest.fixture
def answer(shop, monkeypatch, run):
    """Run a command on the demo shop."""

    @contextlib.contextmanager
    def opened(_):
        yield shop

    monkeypatch.setattr("fitwright.cli.oil.opened", opened)
    return run


@pytest.fixture
def loads(tmp_path):
    """A load that turns with the crank and one that fires, as a file."""
    rows = [HEAD]
    for angle in range(0, 720, 5):
        theta = math.radians(angle)
        rows.append(f"{angle}, {3.0 * math.sin(theta):.4f}, {3.0 * math.cos(theta) - 8.0:.4f}")
    file = tmp_path / "loads.csv"
    file.write_text("\n".join(rows) + "\n", encoding="utf-8")
    return file


def part(text, heading):
    """The lines below a heading, up to the next empty one."""
    return text.split(f"\n{heading}", 1)[1].split("\n\n", 1)[0]


def test_every_bearing_has_its_row_and_every_point_its_thinnest(answer):
    code, out, err = answer("oil", "corrie-five", "--cycle", "--speed", "6000", "--temperature", "112")
    assert (code, err) == (0, "")
    assert out.startswith("\nFilms over the cycle of Corrie Five\njob 25-07")
    points = part(out, "Thinnest film at the operating points")
    assert "not fired" in next(line for line in points.splitlines() if "plugs out" in line)
    assert "touching: no film predicted (Big end" in next(row for row in points.splitlines() if "8000" in row)
    table = part(out, "Films over the cycle at the point asked for (6000 rev/min, oil 112 °C)")
    assert len([row for row in table.splitlines() if row.startswith(("  Main ", "  Big end "))]) == 11
    row = next(each for each in table.splitlines() if each.startswith("  Big end 4"))
    assert re.search(r"\d\.\d µm\s+\d+°\s+\d+°\s+\d+ MPa\s+\d+\.\d kN", row)
    assert "Peak gas pressure 100 bar absolute, as the sheet states it for this speed." in out
    assert "not modelled" in out


def test_an_inch_shop_reads_inches(answer):
    code, out, _ = answer("oil", "brackengill-eleven", "--cycle")
    assert code == 0
    assert "µin" in out
    assert "lbf" in out
    assert "psi absolute" in out
    assert "µm" not in out


def test_a_what_if_changes_the_films(answer):
    asked = ("oil", "corrie-five", "--cycle", "--speed", "4000", "--json")
    before = json.loads(answer(*asked)[1])["films_over_cycle"]
    found = json.loads(answer(*asked, "--change", "mains=+0.02 mm")[1])
    after = found["films_over_cycle"]
    assert found["what_if"]["clearance_changes"]
    assert found["rests_on"]["models"]["films over the cycle"] == "1"
    films = [[each["film_thickness"] for each in one["bearings"]] for one in (before, after)]
    assert films[0][0] != films[1][0]
    assert len(before["bearings"][0]["course"]["crank_angle"]) == 720
    assert before["peak_gas_pressure"] == pytest.approx(95e5)


def test_a_load_cycle_from_a_file_is_that_of_one_bearing(answer, loads):
    asked = ("oil", "corrie-five", "--load-cycle", loads, "--bearing", "main.3.bearing", "--speed", "3000")
    code, out, _ = answer(*asked)
    assert code == 0
    assert "Main 3" in out
    assert "Main 2" not in out
    assert "11.0 kN" in out
    assert "Peak gas pressure" not in out


SLIPS = [
    (("--load-cycle", "loads.csv"), "give --load-cycle and --bearing together"),
    (("--bearing", "main.1.bearing"), "give --load-cycle and --bearing together"),
    (("--load-cycle", "none.csv", "--bearing", "main.1.bearing"), "none.csv: No such file"),
    (("--load-cycle", "slip.csv", "--bearing", "main.1.bearing"), 'slip.csv:3: "1O" is no number'),
    (
        ("--load-cycle", "loads.csv", "--bearing", "main.7.bearing"),
        "no bearing main.7.bearing; it has main.1",
    ),
    (("--cycle", "--speed", "300"), "Below idle no gas pressure is stated"),
]


@pytest.mark.parametrize("words, sentence", SLIPS, ids=[each[1][:30] for each in SLIPS])
def test_what_cannot_be_is_one_sentence(answer, loads, monkeypatch, words, sentence):
    monkeypatch.chdir(loads.parent)
    (loads.parent / "slip.csv").write_text(f"{HEAD}\n0, 1, 2\n1O, 1, 2\n", encoding="utf-8")
    code, out, err = answer("oil", "corrie-five", *words)
    assert (code, out) == (2, "")
    assert sentence in err
    assert len(err.strip().splitlines()) == 1


def test_a_sheet_without_a_crank_train_says_so(answer, shop, monkeypatch):
    bare = OilDesk(replace(shop.oil("corrie-five").case, train=None))
    monkeypatch.setattr(type(shop), "oil", lambda *_: bare)
    code, _, err = answer("oil", "corrie-five", "--cycle")
    assert code == 2
    assert "describes no crank train" in err


def test_the_commands_of_the_how_to_page_run(answer, loads, monkeypatch):
    monkeypatch.chdir(loads.parent)
    text = PAGE.read_text(encoding="utf-8")
    blocks = [
        re.search(r"^```\n(.*?)^```", text.split(f"## {heading}\n")[1], re.DOTALL | re.MULTILINE)[1]
        for heading in ("Under the crank train", "Under a load cycle from a file")
    ]
    lines = [line for block in blocks for line in block.splitlines()]
    assert len(lines) == 6
    for line in lines:
        code, _, err = answer(*shlex.split(line)[1:])
        assert code == 0, line
        assert err in ("", "pictures/films-over-cycle.svg\n")
    root = ET.fromstring((loads.parent / "pictures" / "films-over-cycle.svg").read_text("utf-8"))
    assert root.tag.endswith("svg")
