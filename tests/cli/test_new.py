"""`fitwright new`: flags or questions to a sheet that validates and takes readings."""

import inspect
import re

import pytest

from fitwright.bench.order import stops
from fitwright.cli.new import new
from fitwright.starter.questions import QUESTIONS
from fitwright.wiring import open_shop

LAYOUTS = {
    "single": ["--arrangement", "single", "--bearings", "rolling", "--cooling", "air", "--pump", "none"],
    "twin": ["--arrangement", "twin", "--units", "inch", "--bore", "2 3/4 in", "--valve-train", "pushrod"],
    "inline": [
        "--arrangement",
        "inline",
        "--cylinders",
        "5",
        "--bore",
        "83.5 mm",
        "--aspiration",
        "turbocharged",
    ],
    "vee": ["--arrangement", "vee", "--cylinders", "8", "--pump", "dry sump", "--pump-stages", "3"],
    "flat": ["--arrangement", "flat", "--cylinders", "6", "--cooling", "air", "--pump", "camshaft-driven"],
}


def test_each_question_is_a_flag():
    flags = list(inspect.signature(new).parameters)
    assert [question.name for question in QUESTIONS] == flags[3:]


@pytest.mark.parametrize("layout", LAYOUTS)
def test_a_sheet_validates_opens_and_takes_readings(run, tmp_path, layout):
    sheet, data = tmp_path / "engine.toml", tmp_path / "shop"
    code, out, err = run("new", sheet, "--name", f"Trial {layout}", *LAYOUTS[layout])
    assert (code, err) == (0, "")
    assert f"Next: fitwright sheet validate {sheet}" in out
    assert re.search(r" \d+ tightening groups, \d+ steps\.\n", out)
    assert "Its joints have no value yet" in out
    assert f"fitwright build start {sheet} JOB" in out
    code, out, _ = run("sheet", "validate", sheet)
    assert code == 0
    assert re.search(r": no problems; .* tightening groups, \d+ steps\.\n", out)
    assert run("build", "start", sheet, "job", "--data", data)[0] == 0
    run("shop", "person", "builder", "Builder", "--data", data)
    blades = [f"0.{number:02}" for number in range(3, 30)]
    run("shop", "blade-set", "F1", "Blades", *blades, "--data", data)
    station, given = to_the_first_gap(data)
    code, out, _ = run("measure", "job", station, "--data", data, given=given)
    assert (code, "1 reading kept." in out) == (0, True)
    assert run("check", "job", "--data", data, "--no-oil")[0] == 0


def to_the_first_gap(data):
    """A station, and what to type there to try a blade in its first gap."""
    shop = open_shop(data, create=False)
    sheet = shop.bench("job").sheet
    shop.close()
    for station in sheet.stations:
        for number, stop in enumerate(stops(sheet, station)):
            if "feeler blades" in sheet.dimensions[stop.dimension].instruments:
                return station, "skip\n" * number + "0.05 goes\nend\n"
    raise AssertionError("no gap in this engine")


def test_a_file_that_is_there_is_not_written_over(run, tmp_path):
    sheet = tmp_path / "engine.toml"
    sheet.write_text("mine")
    code, _, err = run("new", sheet, "--name", "Trial")
    assert (code, "--force" in err, sheet.read_text()) == (2, True, "mine")
    assert run("new", sheet, "--name", "Trial", "--only", "pump", "--force")[0] == 0
    assert sheet.read_text().startswith("# Engine sheet of Trial")


def test_without_a_file_the_short_name_is_taken(run, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    assert run("new", "--name", "My Pump", "--only", "pump")[0] == 0
    assert (tmp_path / "my-pump.toml").is_file()


@pytest.mark.parametrize(
    "flags, said",
    [
        ([], 'name: "" is missing'),
        (["--name", "X", "--bore", "83.5 bar"], "bore: "),
        (["--name", "X", "--cylinders", "five"], 'cylinders: "five" is no whole number'),
        (["--name", "X", "--arrangement", "square"], "one of: single, twin, inline, vee, flat"),
    ],
)
def test_a_wrong_answer_is_said_in_one_sentence(run, tmp_path, flags, said):
    code, out, err = run("new", tmp_path / "x.toml", *flags)
    assert (code, out) == (2, "")
    assert said in err
    assert len(err.splitlines()) == 1
    assert not (tmp_path / "x.toml").exists()


def test_asked_one_by_one_a_wrong_answer_is_asked_again(run, tmp_path):
    sheet = tmp_path / "x.toml"
    answers = ["", "Asked", "", "inch", "pump", *[""] * 3, "square", "inline", "five", "5", *[""] * 30]
    code, out, _ = run("new", sheet, "--ask", given="\n".join(answers) + "\n")
    assert code == 0
    assert out.count("! ") == 3
    text = sheet.read_text()
    assert 'units = "inch"' in text
    assert "cylinders = 5" in text


def test_questions_that_end_early_write_nothing(run, tmp_path):
    code, _, err = run("new", tmp_path / "x.toml", "--ask", given="Asked\n")
    assert (code, "no sheet was written" in err) == (2, True)
    assert not (tmp_path / "x.toml").exists()
