"""`fitwright oil`: the prediction in full, what-ifs, the card, pictures, JSON; and in short below `check`."""

import contextlib
import io
import json
from xml.etree import ElementTree as ET

import pytest
from rich.console import Console

from fitwright.assess.oil.desk import OilDesk, oil_case
from fitwright.assess.oil.points import named_points
from fitwright.assess.oil.results import Band
from fitwright.assess.results import State
from fitwright.cli.errors import UsageError
from fitwright.cli.oil_asking import OilAsking, OilFlags
from fitwright.cli.oil_lines import change_words, print_section
from fitwright.cli.oil_otherwise import what_if_words
from fitwright.drawing.oil_figures import OilReader
from fitwright.wiring import open_shop
from tests.support.oil_predictions import prediction
from tests.support.story import Story


@pytest.fixture(scope="module")
def shop(prepared_demo):
    """The demo shop held open, so that what one command worked out need not be worked out again."""
    held = open_shop(prepared_demo, create=False)
    yield held
    held.close()


@pytest.fixture
def answer(shop, monkeypatch, run):
    """Run a command on the demo shop; exit code, standard output, standard error."""

    @contextlib.contextmanager
    def opened(_):
        yield shop

    for command in ("check", "oil"):
        monkeypatch.setattr(f"fitwright.cli.{command}.opened", opened)
    return run


@pytest.fixture(scope="module")
def desk():
    story = Story.of("brackengill-eleven")
    return OilDesk(oil_case(story.assessor(State.CURRENT).judge))


def part(text, heading):
    """The lines below a heading, up to the next empty one."""
    return text.split(f"\n{heading}", 1)[1].split("\n\n", 1)[0]


def test_the_whole_prediction_has_its_parts(answer):
    code, out, err = answer("oil", "brackengill-eleven")
    assert (code, err) == (0, "")
    assert (
        "\nOil of Brackengill Eleven\njob 362, sheet brackengill-eleven revision A, record up to entry "
        in out
    )
    assert "Straight SAE 30 type: 105.0 mm²/s at 104 °F" in out
    assert "Caution: A prediction, not a limit" in out
    grid = part(out, "Pressure at the gauge by speed and oil temperature")
    assert "oil 68 °F" in grid
    assert "oil 185 °F" in grid
    assert "600 rev/min" in grid
    assert " psi (" in grid
    assert "hot idle" in part(out, "Pressure at the gauge at the operating points")
    stops = part(out, "Stop values")
    assert "No less than 10.0 psi at 600 rev/min, oil 185 °F: the restorer at Hollin Bank" in stops
    assert "L/min" in part(out, "Where the oil goes at hot idle (600 rev/min, oil 185 °F)")
    assert "Main 1" in part(out, "Films of the bearings at hot idle")
    assert "Pump end clearance" in part(out, "What costs pressure at hot idle")
    assert "seat held open by 0.10 mm" in part(out, "What a fault would cost at hot idle")
    assert "It rests on 24 sizes, all measured." in part(out, "What it rests on")
    assert "bar" not in grid + stops


def test_the_card_has_a_blank_column_and_the_fixed_lines(answer):
    code, out, _ = answer("oil", "brackengill-eleven", "--card")
    assert code == 0
    assert out.startswith("Expected pressures: Oil of Brackengill Eleven\njob 362")
    head = next(line for line in out.splitlines() if line.startswith("rev/min"))
    assert head.split()[-2:] == ["oil", "read"]
    idle = next(line for line in out.splitlines() if line.startswith("600 rev/min"))
    assert idle.count("psi") == 3
    assert idle.rstrip().endswith("________  ________")
    assert "[ ] A knock, or any noise that was not there: stop." in out
    assert "[ ] No less than 10.0 psi at 600 rev/min, oil 185 °F: the restorer at Hollin Bank" in out
    assert "One named person calls stop" in out
    assert "within ________ (the engine maker's) seconds" in out, "nobody stated them"


def test_a_what_if_is_held_against_the_build_as_measured(answer):
    moved = ("--change", "mains=+0.03 mm", "--speed", "2500", "--temperature", "93")
    code, out, _ = answer("oil", "brackengill-eleven", "--units", "mm", *moved)
    assert code == 0
    assert "What if: mains +0.03 mm." in out
    rows = part(out, "Pressure at the gauge at the operating points").splitlines()
    idle = next(row for row in rows if "hot idle" in row)
    assert idle.split()[-1] == "bar"
    assert idle.split()[-2].startswith("−"), "wider mains lower the pressure"
    assert rows[-1].split()[:7] == ["the", "point", "asked", "for", "2500", "rev/min,", "oil"]
    assert "Where the oil goes at the point asked for (2500 rev/min, oil 93 °C)" in out


def test_json_is_in_si_and_a_stop_value_that_is_crossed_exits_with_1(answer, tmp_path):
    worn = ("--size", "paths.rocker_feed.diameter=3.0 mm", "--pump-speed", "0.5", "--seat", "0.3 mm")
    files = ("--svg", tmp_path / "p", "--json", "--fail-on", "stop-value")
    code, out, err = answer("oil", "brackengill-eleven", *worn, *files)
    found = json.loads(out)
    assert any("below your stop value" in each["crossed"] for each in found["stops"])
    assert code == 1
    assert found["what_if"]["sizes"] == {"paths.rocker_feed.diameter": 3e-3}
    assert found["rests_on"]["build"] == "brackengill-eleven"
    assert len(found["rests_on"]["sheet"]) == 64
    idle, before = found["points"][0], found["as_measured"][0]
    assert idle["gauge_pressure"]["best"] < 10.0 * 6894.757 < before["gauge_pressure"]["best"]
    assert before["oil_temperature"] == idle["oil_temperature"] == pytest.approx(358.15)
    names = {each.name for each in (tmp_path / "p").iterdir()}
    assert names == {f"{name}.svg" for name in ("circuit", "pressure", "budget", "costs", "faults", "films")}
    for name in names:
        assert str(tmp_path / "p" / name) in err
        root = ET.fromstring((tmp_path / "p" / name).read_text("utf-8"))
        assert root.tag.endswith("svg")
        assert float(root.get("width")) > 300
        assert "not converged" not in "".join(root.itertext())
    assert "95 % band" in (tmp_path / "p" / "pressure.svg").read_text("utf-8"), "of the build as measured"


def test_check_says_it_in_short_below_the_fits(answer):
    code, out, _ = answer("check", "corrie-five")
    assert code == 0
    section = out.partition("\nOil of Corrie Five\n")[2]
    assert section.startswith("10W-60 type: 152.0 mm²/s at 40 °C")
    rows = [line for line in section.splitlines() if "rev/min, oil" in line]
    assert rows[0].split()[:2] == ["hot", "idle"]
    assert len(rows) == 13
    assert all("bar" in row for row in rows)
    assert "Jets that open at 1.8 bar (26 psi) are open at idle" in section
    costs = section.partition("Costs most at hot idle:\n")[2].partition("\nCaution")[0].splitlines()
    assert len(costs) == 3
    assert all("−" in each for each in costs)
    assert section.rstrip().endswith("All of it: fitwright oil corrie-five")


def test_check_as_json_carries_it(answer):
    code, out, _ = answer("check", "corrie-five", "--json")
    assert code == 0
    oil = json.loads(out)["oil"]
    assert oil["title"] == "Oil of Corrie Five"
    assert oil["rests_on"]["state"] == "current"
    assert oil["points"][0]["gauge_pressure"]["low"] is not None
    assert json.loads(answer("check", "corrie-five", "--json", "--no-oil")[1])["oil"] is None


@pytest.mark.parametrize(
    "words", [["--no-oil"], ["--only", "outside"], ["--working", "main.1.running_clearance"]]
)
def test_check_leaves_it_out_where_it_is_not_asked_for(answer, words):
    _, out, _ = answer("check", "corrie-five", *words)
    assert "Oil of" not in out
    assert "Costs most" not in out


def test_a_day_old_build_is_predicted_from_limits_and_not_by_its_name(run, tmp_path):
    sheet, data = tmp_path / "engine.toml", tmp_path / "shop"
    run("new", sheet, "--name", "Harrow Four")
    run("build", "start", sheet, "job", "--data", data)
    code, out, err = run("check", "job", "--data", data)
    assert (code, err) == (0, "")
    section = out.partition("\nOil of an engine of this sheet, while ")[2]
    count = int(section.partition(" ")[0])
    assert count > 5
    assert f"Not measured ({count}):" in section
    assert "(critical): not measured: anywhere from " in section
    assert "Oil of Harrow Four" not in out


def printed(found, *, state=State.CURRENT, family="mm"):
    out = io.StringIO()
    print_section(Console(width=140, file=out, highlight=False), found, "job", state, OilReader(family))
    return out.getvalue()


def test_a_crossed_stop_value_a_finding_and_what_is_not_known_are_said():
    text = printed(prediction())
    assert "Oil of an engine of this sheet, while 2 sizes are not measured" in text
    assert "✗ Do not start." in text
    assert "No less than 3.00 bar at 900 rev/min, oil 110 °C: the shop's foreman" in text
    assert "– hot idle; pull: Fed with less than half" in text
    assert "– With hot oil the pressure falls." in text
    assert "9000 rev/min, oil 120 °C  not converged" in " ".join(text.split()).replace(
        "120 °C not", "120 °C  not"
    )
    named = text.partition("Not measured (2):\n")[2].splitlines()
    assert named[0] == "  – Main 1 clearance (critical): not measured: anywhere from 0.030 to 0.070 mm"
    assert "fitwright oil job --state as-received" in printed(prediction(), state=State.AS_RECEIVED)


def test_without_a_prediction_the_reason_stands_alone():
    text = printed(prediction(problem="Nothing is known of main 1: measure it."))
    assert text.strip().splitlines()[1:] == ["Nothing is known of main 1: measure it."]


ERRORS = {
    "group": (
        OilFlags(changes=["main=+1 thou"]),
        'No group "main" of clearances; there are these: .*; mains; big ends',
    ),
    "no change": (OilFlags(changes=["mains"]), "--change: mains is not a group with its change"),
    "no unit": (OilFlags(changes=["mains=+0.02"]), "without a unit"),
    "too much": (OilFlags(changes=["mains=+1 mm"]), "say −1.181 thou to 2.362 thou"),
    "oil": (OilFlags(oil="thick"), 'No oil "thick" in the sheet; there are these: straight_30'),
    "size": (OilFlags(sizes=["paths.skew_jets.diameter=1 mm"]), "did you mean paths.skew_jet.diameter"),
    "measured": (
        OilFlags(sizes=["main.1.running_clearance=1 mm"]),
        'change its group instead: --change "mains=',
    ),
    "nothing": (OilFlags(sizes=["paths.skew_jet.diameter=0 mm"]), "is too little"),
    "shim": (OilFlags(shim="1 in"), "--shim is beyond what can be asked; say 0 thou to 78.74 thou"),
    "fuel": (OilFlags(fuel="30 %"), "say 0 % to 10 %"),
    "pump": (OilFlags(pump_speed="9"), "say 0.5 to 1.5"),
}


@pytest.mark.parametrize("name", ERRORS)
def test_what_cannot_be_asked_is_said_in_one_sentence(desk, name):
    flags, words = ERRORS[name]
    with pytest.raises(UsageError, match=words) as refused:
        OilAsking(desk, "inch").what_if(flags)
    assert "\n" not in str(refused.value)


@pytest.mark.parametrize("speed, warm", [("99999", ""), ("", "400 degC"), ("0", "")])
def test_a_point_beyond_the_circuit_is_refused(desk, speed, warm):
    with pytest.raises(UsageError, match="Ask at up to 5400 rev/min"):
        OilAsking(desk, "inch").point(speed, warm)


def test_what_is_not_said_of_a_point_is_that_of_hot_idle(desk):
    asking, idle = OilAsking(desk, "inch"), named_points(desk.circuit)[0]
    assert asking.point("", "") is None
    warm = asking.point("", "194")
    assert (warm.angular_speed, round(warm.oil_temperature, 2)) == (idle.angular_speed, 363.15)


def test_everything_that_may_be_otherwise_is_said_in_words(desk):
    flags = OilFlags(
        changes=["mains=+1 thou", "pump end clearance=-0.5 thou"],
        sizes=["paths.*_jet.diameter=30 thou"],
        shim="20 thou",
        seat="1 thou",
        pump_speed="1.1",
        fuel="3 %",
        temperature_change="-18 degF",
        misalignment="0.1 thou",
    )
    what_if = OilAsking(desk, "inch").what_if(flags)
    assert list(what_if_words(desk, what_if, "inch")) == [
        "mains +1 thou",
        "pump end clearance −0.5 thou",
        "Jet on the skew gears: diameter 30 thou",
        "relief spring shimmed by 20 thou",
        "relief seat held open by 1 thou",
        "pump 1.1 times as fast",
        "3 % of fuel in the oil, by mass",
        "journals tilted by 0.1 thou from end to end",
        "all oil temperatures −18 °F",
    ]
    assert what_if.fuel_share == pytest.approx(0.03)


def test_without_a_circuit_there_is_one_sentence(run, trial):
    code, out, err = run("oil", "trial", "--data", trial)
    assert (code, out) == (2, "")
    assert (
        err
        == "trial: The sheet describes no oil circuit: write one into it, and the pressure is predicted.\n"
    )


def test_a_narrow_terminal_cuts_nothing_off(answer, monkeypatch):
    shown = io.StringIO()
    narrow = Console(width=80, file=shown, highlight=False)
    monkeypatch.setattr("fitwright.cli.console.console", lambda: narrow)
    assert answer("oil", "brackengill-eleven")[0] == 0
    assert max(map(len, shown.getvalue().splitlines())) <= 80
    films = part(shown.getvalue(), "Films of the bearings at hot idle")
    assert "takes" in films
    assert "friction" not in films, "left out where there is no room"


@pytest.mark.parametrize(
    "now, words", [(2.400e5, "the same"), (2.3e5, "−0.100 bar"), (3.6e5, "+1.20 bar"), (None, "")]
)
def test_a_change_has_its_sign_and_nothing_is_said_so(now, words):
    assert change_words(Band(now), Band(2.4e5), OilReader("mm")) == words
