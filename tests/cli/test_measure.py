"""`fitwright measure`: typed line by line, durable line by line."""

import signal
import subprocess
import sys
import time

import pytest

from fitwright.wiring import open_shop


def readings(folder, build="trial"):
    """What counts in a build: dimension -> what was typed, in order."""
    shop = open_shop(folder, create=False)
    try:
        found = {}
        for record in shop.bench(build).build.readings.values():
            if record.effective:
                observation = record.body.observation
                text = getattr(observation, "answer", None) or observation.value.typed
                found.setdefault(record.dimension, []).append(text)
        return found
    finally:
        shop.close()


@pytest.fixture
def measure(run, trial):
    def command(station, *lines, options=()):
        given = "".join(f"{line}\n" for line in lines)
        return run("measure", "trial", station, "--data", trial, "--person", "builder", *options, given=given)

    return command


def test_a_row_typed_by_its_full_sizes(measure, trial):
    code, out, _ = measure("shims", "2.400", "2,552", "2.801", "0.10425 in", "3.050", "2.903")
    assert code == 0
    assert "Every place of this station was read or passed over." in out
    assert "6 readings kept." in out
    assert readings(trial)["shim.4.thickness"] == ["0.10425 in"]


def test_from_the_end_the_last_place_comes_first(measure, trial):
    measure("shims", "2.903", "end", options=["--from-the-end"])
    assert readings(trial) == {"shim.6.thickness": ["2.903"]}


def test_the_place_shows_blank_digits_limits_and_what_was_read(measure):
    measure("pump", "5.612")
    _, out, _ = measure("pump", "again", "end")
    assert "5.6__ mm" not in out, "the place has its reading in this sitting"
    _, out, _ = measure("pump", "end", options=["--sitting", "S1"])
    assert "limits from 0.045 mm to 0.070 mm" in out


def test_short_entries_are_shown_in_full_in_both_units(measure, trial):
    _, out, _ = measure("pump", "12", "end")
    assert "= 5.612 mm (0.2209 in)" in out
    assert readings(trial) == {"pump.width": ["5.6[12] mm"]}


def test_a_touched_verdict_is_printed(measure):
    _, out, _ = measure("pump", "skip", "0.056", "end")
    assert "✓ Pump shaft clearance: within" in out


@pytest.mark.parametrize(
    "lines, kept",
    [
        (["56.00", "1"], "5.600 mm"),
        (["56.00", "5.600 mm"], "5.600 mm"),
        (["56.00", "keep", "keep"], "56.00"),
        (["56.00", "5.604"], "5.604"),
    ],
    ids=["by number", "by its words", "keep", "typed again"],
)
def test_a_question_holds_the_value_back_until_it_is_answered(measure, trial, lines, kept):
    _, out, _ = measure("pump", *lines)
    assert "did you mean 5.600 mm?" in out
    assert readings(trial)["pump.width"] == [kept]


def test_without_an_answer_nothing_is_taken(measure, trial):
    measure("pump", "56.00")
    assert readings(trial) == {}


def test_blades_stay_at_the_place_until_they_bound_it(measure, trial):
    code, out, _ = measure("pump", "skip", "F2:0.06 goes", "0.07 n", "end")
    assert code == 0
    assert readings(trial) == {"pump.shaft_gap": ["goes", "does not go"]}
    assert out.count("Pump shaft in its bore") == 2
    assert "Pump cover gap" in out


def test_undo_again_and_instead(measure, trial):
    measure(
        "shims",
        "2.400",
        "undo",
        "2.410",
        "instead 2.411 because misread the thimble",
        "again",
        "2.412",
        "end",
    )
    assert readings(trial) == {"shim.1.thickness": ["2.411", "2.412"]}


def test_a_correction_keeps_its_reason(measure, trial):
    measure("shims", "2.410", "instead 2.411 because misread the thimble", "end")
    shop = open_shop(trial, create=False)
    last = [entry for entry in shop.record.entries() if entry.kind == "reading"][-1]
    shop.close()
    assert last.body["reason"] == "misread the thimble"
    assert last.body["supersedes"]


def test_not_measured_because(measure, trial, run):
    measure("pump", "because it is at the grinder", "end")
    _, out, _ = run("check", "trial", "--data", trial)
    assert "it is at the grinder" in out


def test_readings_shifted_by_one_place_are_mended_in_one_step(measure, trial):
    measure("shims", "2.400", "2.552", "2.801", "2.648", "3.050", "2.903", options=["--sitting", "S1"])
    shop = open_shop(trial, create=False)
    from fitwright.records.kinds import Sitting

    shop.write([shop.entry(Sitting(code="S2", measured_by="builder"), build="trial")])
    shop.close()
    _, out, _ = measure("shims", "2.552", "withdraw", "end")
    assert "does not agree with 2.400 mm" in out
    lines = ["2.552", "keep both", "2.801", "keep both", "2.648", "keep both", "yes", "end"]
    _, out, _ = measure("shims", *lines)
    assert "look one place off" in out
    assert "moved 3 readings (undo takes the move back)" in out
    found = readings(trial)
    assert found["shim.1.thickness"] == ["2.400"]
    assert found["shim.4.thickness"] == ["2.648", "2.648"]


def test_move_on_and_undo(measure, trial):
    _, out, _ = measure("shims", "2.400", "2.552", "move on 2", "end")
    assert "moved 2 readings" in out
    assert readings(trial) == {"shim.2.thickness": ["2.400"], "shim.3.thickness": ["2.552"]}


def test_what_cannot_be_read_is_said_and_the_place_is_kept(measure, trial):
    _, out, _ = measure("shims", "two", "with M9", "set Z9", "move on 9", "instead 3", "2.400", "end")
    assert out.count("\n! ") == 5
    assert readings(trial) == {"shim.1.thickness": ["2.400"]}


def test_unknown_names_are_answered_with_the_known(run, trial):
    code, _, err = run("measure", "trial", "shim", "--data", trial)
    assert code == 2
    assert "name one of: shims, pump" in err
    code, _, err = run("measure", "trial", "shims", "--data", trial, "--person", "nobody")
    assert (code, "name one of: builder" in err) == (2, True)


def test_a_sitting_is_begun_where_none_suits(run, tmp_path, trial):
    shop = open_shop(trial, create=False)
    from fitwright.records.kinds import Person

    shop.write([shop.entry(Person(code="apprentice", name="Apprentice"))])
    shop.close()
    code, out, _ = run(
        "measure", "trial", "shims", "--data", trial, "--person", "apprentice", given="2.400\n"
    )
    assert code == 0
    assert "Sitting T-02 begun: apprentice measures" in out


def test_ctrl_c_loses_nothing_that_was_acknowledged(trial):
    begin = [sys.executable, "-c", "from fitwright.cli import main; main()"]
    command = [*begin, "measure", "trial", "shims", "--person", "builder"]
    process = subprocess.Popen(
        [*command, "--data", str(trial)], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True, bufsize=1
    )
    process.stdin.write("2.400\n2.552\n")
    process.stdin.flush()
    acknowledged = 0
    deadline = time.monotonic() + 30
    while acknowledged < 2 and process.poll() is None and time.monotonic() < deadline:
        acknowledged += process.stdout.readline().startswith("kept ")
    process.send_signal(signal.SIGINT)
    process.communicate(timeout=30)
    assert process.returncode == 130
    assert readings(trial) == {"shim.1.thickness": ["2.400"], "shim.2.thickness": ["2.552"]}


def test_the_same_typed_again_keeps_it(measure, trial):
    _, out, _ = measure("pump", "9.876", "9.876", "end")
    assert out.count("Keep it?") == 1
    assert readings(trial)["pump.width"] == ["9.876"]


def test_a_gauge_of_another_kind_is_said_and_not_passed_over(measure):
    _, out, _ = measure("shims", "with D1", "end")
    assert "! D1 (dial indicator) does not read shim.1.thickness, which the sheet reads with outside" in out


def test_a_blade_does_not_read_a_size(measure, trial):
    _, out, _ = measure("shims", "F2:0.06 g", "end")
    assert "! A feeler blade does not read shim.1.thickness" in out
    assert readings(trial) == {}


def test_nothing_to_go_back_to_is_said(measure):
    _, out, _ = measure("shims", "again", "instead 2.400 because misread", "end")
    assert "! Nothing was read here yet in this run." in out
    assert "! Nothing was read in this run that could be corrected." in out


INCH_SHEET = """
format = 1
[engine]
id = "inch-single"
name = "Inch single"
revision = "A"
units = "inch"
[engine.layout]
arrangement = "single"
cylinders = 1
mains = 2
[sources.manual]
title = "Manual"
kind = "engine maker"
[sources.thumb]
title = "Rules"
kind = "rule of thumb"
[materials.steel]
title = "Steel"
expansion = "11.5e-6 /K"
[parts.crank]
title = "Crank"
material = "steel"
[parts."main.{1..2}"]
title = "Main {}"
material = "steel"
[stations.mains]
title = "Mains"
[dimensions."main.{1..2}.journal"]
title = "Main {} journal"
part = "crank"
sense = "diametral"
nominal = "2.0000 in"
places = ["front", "rear"]
instrument = "outside micrometer"
station = "mains"
[dimensions."main.{1..2}.bore"]
title = "Main {} bore"
part = "main.{}"
sense = "diametral"
places = ["front", "rear"]
instrument = "bore gauge"
station = "mains"
[dimensions."main.{1..2}.gap"]
title = "Main {} gap"
through = ["main.{}"]
sense = "axial"
instrument = "feeler blades"
station = "mains"
limits = [{ source = "manual", upper = "6 thou", governs = true }]
[fits."main.{1..2}.running_clearance"]
title = "Main {} running clearance"
kind = "running clearance"
sense = "diametral"
station = "mains"
by_parts = "main.{}.bore - main.{}.journal"
limits = [{ source = "manual", lower = "1.5 thou", upper = "2.5 thou", governs = true }]
[fits."main.{1..2}.critical_clearance"]
title = "Main {} clearance by the rule"
kind = "running clearance"
sense = "diametral"
station = "mains"
class = "critical"
by_parts = "main.{}.bore - main.{}.journal"
limits = [{ source = "thumb", lower = "1.5 thou", upper = "2.0 thou" }]
"""


@pytest.fixture
def inch(run, tmp_path):
    """The readings kept of a station of an inch engine, and what was shown."""
    folder, sheet = tmp_path / "inch", tmp_path / "inch.toml"
    sheet.write_text(INCH_SHEET, encoding="utf-8")
    run("build", "start", sheet, "inch", "--data", folder)
    run("shop", "person", "builder", "Builder", "--data", folder)
    for code, kind in (("M12", "outside micrometer"), ("B1", "bore gauge")):
        run(
            *("shop", "instrument", code, kind, "--type", kind, "--unit", "in"),
            *("--resolution", "0.0001", "--data", folder),
        )

    def command(*lines):
        given = "".join(f"{line}\n" for line in lines)
        _, out, _ = run("measure", "inch", "mains", "--data", folder, "--person", "builder", given=given)
        return readings(folder, "inch"), out

    return command


def test_a_bore_without_a_nominal_is_expected_at_the_size_of_its_journal(inch):
    found, out = inch(*["skip"] * 4, "16", "17", "end")
    assert "2.00__ in; B1" in out
    assert found["main.1.bore"] == ["2.00[16] in", "2.00[17] in"]


def test_a_size_far_from_its_mate_is_asked_about(inch):
    found, out = inch(*["skip"] * 4, "16.001", "end")
    assert "16.001 in is far from what is expected" in out
    assert found == {}


def test_a_journal_ground_undersize_leads_the_digits_of_its_other_places(inch):
    found, out = inch("1.9796", "95", "end")
    assert "1.97__ in; M12" in out
    assert found["main.1.journal"] == ["1.9796", "1.97[95] in"]


def test_a_size_kept_once_is_not_asked_about_at_its_other_places(inch):
    _, out = inch("1.8746", "keep", "1.8745", "end")
    assert out.count("Keep it?") == 1


def test_limits_read_with_blades_are_shown_in_the_unit_of_the_shop(inch):
    _, out = inch(*["skip"] * 8, "end")
    assert "limits to 6.0 thou" in out


def test_what_is_still_incomplete_takes_one_line(inch):
    _, out = inch("97", "end")
    lines = [line for line in out.splitlines() if "incomplete so far" in line]
    assert len(lines) == 1
    assert "Main 1 running clearance (main.1.bore wanted: 2.0015 to 2.0019 in)" in lines[0]


def test_that_a_limit_waits_for_a_name_is_not_repeated_as_something_to_read(inch):
    _, out = inch("97", "skip", "skip", "skip", "17", "end")
    assert "Main 1 clearance by the rule: unproven, no limit adopted" in out
    assert "a named person adopts" not in out
