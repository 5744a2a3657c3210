"""`fitwright check` as one reads it: short lists, limits as written, numbers in ink."""

import io
import re

import pytest
from rich.console import Console

from fitwright.cli import report
from fitwright.cli.report import in_rows
from fitwright.records.kinds import Concession
from fitwright.wiring import open_shop
from tests.support.assembly_shop import CODE, Workshop


@pytest.fixture
def check(run, prepared_demo):
    return lambda *options: run("check", "brackengill-eleven", "--data", prepared_demo, "--no-oil", *options)


@pytest.mark.parametrize(
    "texts, rows",
    [
        (["Main 1 journal", "Crank", "Main 2 journal", "Main 3 journal"], ["Main {1..3} journal", "Crank"]),
        (["Main 1 bore", "Main 2 bore", "Main 5 bore"], ["Main {1,2,5} bore"]),
        (["Pin 1 beside rod 1", "Pin 2 beside rod 2"], ["Pin 1 beside rod 1", "Pin 2 beside rod 2"]),
        (["Crank", "Flywheel"], ["Crank", "Flywheel"]),
        (["Pump gears, play, 0", "Pump gears, play, 90"], ["Pump gears, play, {0,90}"]),
    ],
)
def test_what_differs_in_one_number_takes_one_row(texts, rows):
    assert in_rows(texts) == rows


def test_eight_valves_not_recorded_take_two_lines_under_their_number(check):
    _, out, _ = check()
    listed = out.partition("Not recorded (10):")[2]
    rows = [line.strip() for line in listed.splitlines() if line.strip().startswith("– Cylinder")]
    assert [row.partition(":")[0] for row in rows] == [
        "– Cylinder {1..4} inlet valve, rocker to stem, engine hot",
        "– Cylinder {1..4} exhaust valve, rocker to stem, engine hot",
    ]


def test_one_verdict_asked_for_stands_alone(check):
    _, out, _ = check("--only", "outside")
    assert "No fit has the verdict outside." in out
    assert "Not recorded" not in out
    assert "10 things were not recorded" in out


def test_limits_are_as_the_manual_has_them_and_both_ends_of_a_clearance_are_said(check):
    _, out, _ = check()
    assert "0.75 to 1.50 thou" in out, "three quarters of a thou, not 0.8"
    assert "3.0 to 5.0 thou, hot" in out
    centre = next(line for line in out.splitlines() if "Main 2 running clearance" in line)
    assert "1.90 to 2.10 thou" in centre, "2.0015 in and 2.0016 in over 1.9996 in and 1.9995 in"


@pytest.mark.parametrize("width", [80, 100])
def test_a_narrow_terminal_breaks_no_name_and_cuts_nothing_off(check, monkeypatch, width):
    shown = io.StringIO()
    monkeypatch.setattr(report, "console", lambda: Console(width=width, file=shown, highlight=False))
    check("--state", "as-received", "--only", "outside")
    lines = shown.getvalue().splitlines()
    assert max(map(len, lines)) <= width
    words = shown.getvalue().split()
    assert words.count("clearance") == 2
    assert words.count("loose") == 4


def test_numbers_are_never_coloured(check, monkeypatch):
    monkeypatch.setenv("FORCE_COLOR", "1")
    _, out, _ = check("--only", "outside")
    assert "\x1b[" in out, "headings stand out on a terminal"
    assert "\x1b[1;36m" not in out
    assert "job 362, engine 11-362" in out


@pytest.mark.parametrize("fit", ["main.2.running_clearance", "cylinder.1.compression_ratio"])
def test_a_working_keeps_to_the_units_of_the_shop_and_names_what_it_rests_on(check, fit):
    _, out, _ = check("--working", fit)
    assert "e-06 m" not in out
    uncertainty = out.partition("\nUncertainty\n")[2].partition("\n\n")[0]
    assert re.search(r"reading (main\.2\.bore|cylinder\.1\.bore) \w+", uncertainty)
    assert not re.search(r"[0-9a-f]{32}", uncertainty)
    assert re.search(r"^= standard uncertainty", uncertainty, re.MULTILINE)


def test_the_uncertainty_stands_beside_its_value_in_thou(check):
    _, out, _ = check("--working", "main.2.running_clearance")
    assert "= Main 2 running clearance  2.098 thou (u 0.105 thou)" in out


def test_what_somebody_accepted_says_so_and_stays_outside(run, tmp_path):
    workshop = Workshop.open(open_shop(tmp_path / "shop"))
    workshop.read_outside()
    workshop.says(Concession(code="C-1", subject="clearance", granted_by="builder", because="short duty"))
    workshop.shop.close()
    _, out, _ = run("check", CODE, "--data", tmp_path / "shop", "--no-oil", "--only", "outside")
    said = " ".join(out.split())
    assert "outside" in said
    assert "under concession C-1" in said
    assert "1 of those outside stands under a concession or permit." in said
    _, out, _ = run("check", CODE, "--data", tmp_path / "shop", "--working", "clearance")
    assert "It stands under concession C-1, and stays outside its limits." in " ".join(out.split())
