"""`fitwright first-start` and the oil of a build: lines typed, kept durably, asked about and taken back."""

import json
import re

import pytest

from fitwright.cli import main
from fitwright.wiring import open_shop
from tests.cli.test_how_to_pages import PAGES, commands


@pytest.fixture
def start(run, trial):
    """Run `first-start` on the trial build with lines typed."""

    def command(given, *words):
        return run("first-start", "trial", *words, "--data", trial, given=given)

    return command


@pytest.fixture
def shop(run, trial):
    """Run a command of `fitwright shop` on the trial shop."""
    return lambda *words: run("shop", *words, "--data", trial)


def kept(folder):
    """The pressure readings of the trial build that count."""
    opened = open_shop(folder, create=False)
    held = [each.body for each in opened.bench("trial").build.pressure_readings]
    opened.close()
    return held


def test_lines_are_kept_one_by_one(start, trial):
    code, out, err = start(
        "180 21 0 4s cranking\nzero 0.1\n900 24 5.2 warm\nlist\nend\n", "--person", "builder"
    )
    assert (code, err) == (0, "")
    assert out.startswith("Caution: Before the engine turns, try the stop")
    assert "One named person may call stop" in out
    assert "Oil: no oil is known: choose one." in out
    assert "Zero not read: a gauge whose needle is not at zero when vented" in out
    assert re.search(
        r"5\.1 bar at 900 rev/min, oil 24 °C; gauge 5\.2 bar, zero 0\.1 bar; warm, entry \d+\n", out
    )
    assert out.endswith("2 readings kept.\n")
    first, second = kept(trial)
    assert (first.step, first.seconds_to_pressure.si, first.zero) == ("cranking", 4.0, None)
    assert second.gauge_pressure == pytest.approx(5.1e5)
    assert (second.typed_by, second.measured_by) == ("builder", "builder")


def test_what_ends_the_lines_keeps_what_was_kept(start, trial):
    _, out, _ = start("900 24 5.2\n")
    assert out.endswith("1 reading kept.\n")
    assert len(kept(trial)) == 1


def test_an_undo_takes_the_last_back(start, trial):
    _, out, _ = start("900 24 5.2\n2000 30 6\nundo\nundo\nundo\nend\n")
    assert out.count("Taken back: ") == 2
    assert "! Nothing was entered here" in out
    assert out.endswith("0 readings kept.\n")
    assert kept(trial) == []


def test_a_slip_is_asked_about_at_once(start, trial):
    _, out, _ = start("900 24 57\n1\n900 230 2\n90\n25000 90 3\nkeep\n900 24 57 psi\n1000 24 5\nend\n")
    assert "? Gauge: 57 bar would be 827 psi; did you mean" in out
    assert "? Entry" in out
    speeds = [round(each.angular_speed.si * 9.5493) for each in kept(trial)]
    assert speeds == [900, 900, 25000, 1000]
    first, second, *_ = kept(trial)
    assert (first.gauge_reading.typed, second.oil_temperature.si) == ("57 psi", pytest.approx(363.15))


def test_units_of_the_other_family_and_another_gauge(start, trial):
    _, out, _ = start("900 212 57\nend\n", "--units", "inch")
    assert "Type speed (rev/min), oil temperature (°F) and gauge (psi)" in out
    _, out, _ = start("1000 212 4\nend\n", "--units", "inch", "--instrument", "P1")
    assert "gauge (bar)" in out
    first, second = kept(trial)
    assert first.oil_temperature.si == second.oil_temperature.si == pytest.approx(373.15)
    assert (first.gauge_reading.unit, second.gauge_reading.unit) == ("psi", "bar")


@pytest.mark.parametrize(
    "line, words",
    [
        ("warm", "has no speed: type speed, oil temperature and gauge in a line"),
        ("900 24 nothing", "has no gauge reading"),
        ("zero a bit", '"a bit"'),
        ("900 24.2.1 3", '"24.2.1"'),
    ],
)
def test_what_cannot_be_taken_is_said_and_the_next_line_asked_for(start, trial, line, words):
    code, out, _ = start(f"{line}\n900 24 5\nend\n")
    said = next(each for each in out.splitlines() if each.startswith("! "))
    assert words in said
    assert code == 0
    assert len(kept(trial)) == 1


def test_help_within_lists_what_can_be_typed(start):
    _, out, _ = start("?\nend\n")
    for word in ("zero AMOUNT", "undo", "list", "end"):
        assert f"  {word}" in out


@pytest.mark.parametrize(
    "words, sentence",
    [
        (["--instrument", "M9"], 'No instrument "M9"'),
        (["--person", "nobody"], "Nobody is called"),
        (["--zero", "nothing"], '"nothing"'),
    ],
)
def test_a_wrong_option_is_one_sentence(start, words, sentence):
    code, _, err = start("", *words)
    assert code == 2
    assert sentence in err
    assert err.count("\n") == 1


def test_one_reading_by_one_command_and_its_correction(shop, trial):
    code, out, _ = shop("pressure-reading", "trial", "900", "92", "4.2", "--step", "reference idle")
    assert code == 0
    number = re.search(r"\(entry (\d+)\)", out)[1]
    assert "! Zero not read" in out
    right = ["pressure-reading", "trial", "900", "92", "2.4", "--zero", "-0.1", "--instead-of", number]
    assert shop(*right) == (2, "", "A correction needs its reason: say it in a few words.\n")
    assert shop(*right, "--reason", "misread")[0] == 0
    (body,) = kept(trial)
    assert body.gauge_pressure == pytest.approx(2.5e5)
    _, out, _ = shop("list", "--build", "trial")
    assert "Oil pressure\n" in out


def test_a_question_is_answered_by_an_option(shop, trial):
    slip = ["pressure-reading", "trial", "900", "230", "2.4", "--zero", "0"]
    code, _, err = shop(*slip)
    assert code == 2
    assert 'Say it with --answer: "230 °F", keep.' in err
    code, _, err = shop(*slip, "--answer", "no")
    assert (code, err.startswith("Nothing was entered.")) == (2, True)
    assert kept(trial) == []
    assert shop(*slip, "--answer", "230 F")[0] == 2
    assert shop(*slip, "--answer", "230 °F")[0] == 0
    assert kept(trial)[0].oil_temperature.si == pytest.approx(383.15)


def test_the_oil_of_a_build(shop):
    code, out, _ = shop("oil", "trial", "--grade", "sae 10w40", "--reason", "what was there")
    assert (code, out.splitlines()[0][:48]) == (0, "trial is filled with SAE 10W-40 (grade only) (en")
    assert "! A grade is a range" in out
    sheet = ["oil", "trial", "--title", "Running-in oil", "--viscosity-40", "98", "--viscosity-100", "10.9"]
    assert shop(*sheet, "--source", "data sheet of 2031")[0] == 0
    assert "Oil: Running-in oil" in shop("list", "--build", "trial")[1]
    assert shop("oil", "trial")[0] == 2
    assert shop("oil", "trial", "nothing")[2] == 'No oil of the sheet "nothing".\n'


def test_readings_are_carried_to_another_shop(run, shop, trial, tmp_path):
    shop("oil", "trial", "--grade", "30")
    shop("pressure-reading", "trial", "900", "92", "2.4", "--zero", "0.1", "--instrument", "P1")
    file, other = tmp_path / "b.json", tmp_path / "other"
    assert run("export", "trial", file, "--data", trial)[0] == 0
    kinds = [each["kind"] for each in json.loads(file.read_text("utf-8"))["entries"]]
    assert {"pressure reading", "oil chosen"} <= set(kinds)
    assert run("import", file, "--data", other)[0] == 0
    assert kept(other) == kept(trial) != []
    assert run("verify", "--data", other)[0] == 0


def test_the_lines_on_the_page_run(run, trial):
    for line in commands("first-start-readings.md", "Which oil is in it"):
        words = ["trial" if word == "JOB" else word for word in line]
        assert run(*words, "--data", trial)[0] == 0, line
    text = (PAGES / "first-start-readings.md").read_text("utf-8")
    shown = re.findall(r"^> (.+)\n(.+), entry \d+$", text, re.MULTILINE)
    assert len(shown) == 3
    typed = "\n".join(["zero 0.1", *(each for each, _ in shown), "end", ""])
    _, out, _ = run("first-start", "trial", "--data", trial, given=typed)
    for _, said in shown:
        assert f"\n{said}, entry " in out


def test_without_a_shop_it_is_said(capsys, tmp_path):
    with pytest.raises(SystemExit) as stopped:
        main(["first-start", "trial", "--data", str(tmp_path / "nowhere")])
    assert stopped.value.code == 2
    assert "No shop in" in capsys.readouterr().err
