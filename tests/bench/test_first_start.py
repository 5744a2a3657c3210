"""Oil pressures of a first start: typed, asked about, corrected for the gauge's zero, and listed."""

from dataclasses import replace

import pytest

from fitwright.bench.asking import KEEP
from fitwright.bench.carrying import rested_on, without_readings
from fitwright.bench.errors import BenchError
from fitwright.bench.first_start import PressureTaken, PressureTaking, PressureTyped, take_pressure
from fitwright.bench.first_start_typing import EXAMPLES, read_line
from fitwright.bench.first_start_view import (
    CAUTIONS,
    ZERO_NOT_READ,
    last_zero_of,
    pressure_gauges,
    pressure_lines,
)
from fitwright.bench.oil_choice import OilTyped, choose_oil
from fitwright.bench.settings import setting_from, take_setting
from fitwright.bench.told import told
from fitwright.bench.withdrawing import withdrawal
from fitwright.bench.work_taking import EntryTaking
from fitwright.model.slips import Question
from fitwright.units import QuantityError

IDLE = PressureTyped(speed="900", temperature="92", gauge="2.4", zero="0.1", step="reference idle")


def take(shop, read, **taking):
    return take_pressure(shop.bench("trial"), read, PressureTaking(**{"person": "builder"} | taking))


def keep(shop, read, **taking):
    """Taken whatever is asked, and written."""
    answers = {}
    while isinstance(found := take(shop, read, answers=answers, **taking), Question):
        answers[found.key] = KEEP
    shop.write(found.entries)
    return found


def lines(shop):
    return pressure_lines(shop.bench("trial"))


@pytest.mark.parametrize(
    "family, read",
    [
        ("mm", IDLE),
        ("mm", replace(IDLE, speed="900 rev/min", temperature="92 C", gauge="240 kPa", zero="10 kPa")),
        ("inch", replace(IDLE, temperature="197.6", gauge="34.809", zero="1.4504")),
        ("inch", replace(IDLE, temperature="92 degC", gauge="2,4 bar", zero="0,1 bar")),
    ],
)
def test_a_reading_is_the_same_in_the_units_of_both_families(shop, family, read):
    taken = take(shop, read, family=family)
    assert isinstance(taken, PressureTaken)
    assert taken.body.angular_speed.si == pytest.approx(94.24777960769379, rel=1e-12)
    assert taken.body.oil_temperature.si == pytest.approx(365.15, rel=1e-12)
    assert taken.body.gauge_reading.si == pytest.approx(2.4e5, rel=1e-4)
    assert taken.body.gauge_pressure == pytest.approx(2.3e5, rel=1e-4)
    assert taken.body.gauge_reading.typed == read.gauge
    assert taken.cautions == ()


def test_a_gauge_on_the_shelf_says_in_which_unit_it_is_read(shop):
    taken = take(shop, replace(IDLE, instrument="P1"), family="inch", answers={})
    assert taken.body.gauge_reading.unit == taken.body.zero.unit == "bar"
    assert [each.code for each in pressure_gauges(shop.bench("trial"))] == ["P1"]


def test_without_its_zero_it_is_taken_and_told_so(shop):
    taken = keep(shop, replace(IDLE, zero=""))
    assert taken.cautions == (ZERO_NOT_READ,)
    assert "vented shifts every reading" in ZERO_NOT_READ
    (line,) = lines(shop)
    assert (line.has_zero, line.caution) == (False, ZERO_NOT_READ)
    assert line.gauge_pressure == line.gauge_reading == pytest.approx(2.4e5)
    assert line.words == "gauge 2.4 bar at 900 rev/min, oil 92 °C; zero not read; reference idle"


def test_the_words_hold_the_pressure_and_what_the_needle_showed(shop):
    keep(shop, replace(IDLE, instrument="P1", seconds="6"))
    (line,) = lines(shop)
    assert line.words == (
        "2.3 bar at 900 rev/min, oil 92 °C; gauge 2.4 bar, zero 0.1 bar; gauge lifted after 6 s; "
        "with P1; reference idle"
    )
    bench = shop.bench("trial")
    assert told(line.body, bench) == told(line.body, None) == line.words


SLIPS = [
    pytest.param("mm", {"temperature": "230"}, "230 °F", "oil_temperature", 383.15, id="F as C"),
    pytest.param("inch", {"temperature": "230 C"}, "230 °F", "oil_temperature", 383.15, id="C"),
    pytest.param("mm", {"gauge": "57"}, "57 psi", "gauge_reading", 393001.1657105966, id="psi as bar"),
    pytest.param("mm", {"gauge": "390"}, "390 kPa", "gauge_reading", 3.9e5, id="kPa as bar"),
    pytest.param("mm", {"speed": "25000"}, "2500.0 rev/min", "angular_speed", 261.799387799, id="digit"),
]


@pytest.mark.parametrize("family, typed, guess, field, meant", SLIPS)
def test_a_slip_is_asked_about_and_its_guess_taken(shop, family, typed, guess, field, meant):
    ((name, text),) = typed.items()
    read = replace(IDLE, zero="", **typed)
    question = take(shop, read, family=family)
    assert isinstance(question, Question)
    assert question.key.startswith(f"{name}:")
    assert guess in [each.label for each in question.guesses]
    taken = take(shop, read, family=family, answers={question.key: guess})
    assert getattr(taken.body, field).si == pytest.approx(meant, rel=1e-9)
    reading, answer = taken.entries
    assert (answer.kind, answer.body["entry"]) == ("question answered", reading.id)
    assert answer.body["typed"] == text
    kept = take(shop, read, family=family, answers={question.key: KEEP})
    assert getattr(kept.body, field).typed == text


@pytest.mark.parametrize(
    "typed",
    [
        {"speed": "20000"},
        {"speed": "0"},
        {"temperature": "-40"},
        {"temperature": "200"},
        {"gauge": "0", "zero": ""},
        {"gauge": "20"},
    ],
)
def test_what_an_engine_can_show_is_not_asked_about(shop, typed):
    assert isinstance(take(shop, replace(IDLE, **typed)), PressureTaken)


@pytest.mark.parametrize(
    "typed, words",
    [
        ({"temperature": "-41"}, "Oil temperature"),
        ({"temperature": "201"}, "Oil temperature"),
        ({"gauge": "20.1"}, "Gauge"),
        ({"seconds": "300"}, "Time until it lifted"),
        ({"zero": "2.4"}, "Zero"),
        ({"gauge": "0.0", "zero": "0.1"}, "Less its zero that is −0.1 bar"),
    ],
)
def test_what_it_can_hardly_show_is_asked_about(shop, typed, words):
    question = take(shop, replace(IDLE, **typed))
    assert isinstance(question, Question)
    assert question.text.startswith(words)
    assert isinstance(keep(shop, replace(IDLE, **typed)), PressureTaken)


def test_a_zero_beyond_the_gauge_s_own_limit_is_asked_for_its_sign_once(shop):
    read = replace(IDLE, instrument="P1", zero="0.3")
    question = take(shop, read)
    assert [each.label for each in question.guesses] == ["−0.3 bar", "0.3 bar"]
    for label, pressure in (("−0.3 bar", 2.7e5), ("0.3 bar", 2.1e5)):
        taken = take(shop, read, answers={question.key: label})
        assert taken.body.gauge_pressure == pytest.approx(pressure)


def test_the_same_reading_is_not_entered_twice_unasked(shop):
    first = keep(shop, IDLE)
    question = take(shop, IDLE)
    assert isinstance(question, Question)
    assert "says the same already" in question.text
    assert isinstance(take(shop, replace(IDLE, step="warm")), PressureTaken)
    assert isinstance(take(shop, replace(IDLE, gauge="2.5")), PressureTaken)
    keep(shop, IDLE)
    assert len(lines(shop)) == 2
    sent = take(shop, IDLE, entry_id=first.entries[0].id, answers={question.key: KEEP})
    assert isinstance(sent, Question), "the second one stands there too"


def test_a_form_sent_again_is_the_same_entry(shop):
    taken = take(shop, IDLE, entry_id="a" * 32)
    first = shop.write(taken.entries).acknowledgements
    again = take(shop, IDLE, entry_id="a" * 32)
    assert shop.write(again.entries).acknowledgements == first
    assert len(lines(shop)) == 1


def test_a_reading_is_corrected_and_taken_back(shop):
    wrong = keep(shop, replace(IDLE, gauge="4.2")).entries[0].id
    with pytest.raises(BenchError, match="needs its reason"):
        take(shop, IDLE, supersedes=wrong)
    right = keep(shop, IDLE, supersedes=wrong, reason="misread")
    assert [each.gauge_reading for each in lines(shop)] == [pytest.approx(2.4e5)]
    shop.write([withdrawal(shop.bench("trial"), right.entries[0].id, reason="it was right before")])
    assert [each.gauge_reading for each in lines(shop)] == [pytest.approx(4.2e5)]
    shop.write([withdrawal(shop.bench("trial"), wrong, reason="not this engine")])
    assert lines(shop) == ()
    with pytest.raises(BenchError, match="No pressure reading"):
        take(shop, IDLE, supersedes="b" * 32, reason="why")


def test_readings_stand_by_temperature_then_speed(shop):
    for speed, temperature in (("3000", "90"), ("900", "90"), ("900", "25")):
        keep(shop, replace(IDLE, speed=speed, temperature=temperature))
    found = [(round(each.oil_temperature - 273.15), round(each.angular_speed)) for each in lines(shop)]
    assert found == [(25, 94), (90, 94), (90, 314)]


def test_each_reading_is_on_the_oil_that_was_in_the_engine_then(shop):
    def fill(grade):
        choice = choose_oil(shop.bench("trial"), OilTyped(grade=grade), EntryTaking())
        shop.write(choice.entries)

    keep(shop, IDLE)
    fill("30")
    keep(shop, replace(IDLE, speed="1000"))
    keep(shop, replace(IDLE, speed="1100", oil="what was left in the can"))
    assert [each.oil for each in lines(shop)] == ["", "grade only", "what was left in the can"]


def test_the_last_zero_of_a_gauge_is_offered(shop):
    bench = shop.bench("trial")
    assert last_zero_of(bench, "P1") is None
    shop.write(take_setting(shop.state, setting_from(shop.state, "Z9", "P1"), zero="0.05"))
    assert last_zero_of(shop.bench("trial"), "P1").typed == "0.05"
    keep(shop, replace(IDLE, instrument="P1", zero="0.15"))
    assert last_zero_of(shop.bench("trial"), "P1").typed == "0.15"


@pytest.mark.parametrize(
    "typed, words",
    [
        ({"speed": ""}, "Speed is missing"),
        ({"temperature": " "}, "Oil temperature is missing"),
        ({"gauge": ""}, "Gauge is missing"),
        ({"instrument": "M1"}, "M1 reads mm"),
        ({"instrument": "P9"}, 'No instrument "P9"'),
        ({"taken_at": "yesterday"}, "is no date and time"),
        ({"measured_by": "nobody"}, "Nobody is called"),
    ],
)
def test_what_cannot_be_entered_is_said_in_a_sentence(shop, typed, words):
    with pytest.raises(BenchError, match=words) as caught:
        take(shop, replace(IDLE, **typed))
    assert "\n" not in str(caught.value)


@pytest.mark.parametrize("typed", [{"gauge": "a bit"}, {"gauge": "2.4 mm"}, {"temperature": "-300"}])
def test_what_is_no_amount_is_refused(shop, typed):
    with pytest.raises(QuantityError):
        take(shop, replace(IDLE, **typed))


def test_readings_go_with_the_build_and_stay_behind_with_its_set_up(shop):
    keep(shop, replace(IDLE, instrument="P1"))
    shop.write(choose_oil(shop.bench("trial"), OilTyped(grade="30"), EntryTaking()).entries)
    entries = rested_on(shop.record.entries(), "trial")
    assert {"pressure reading", "oil chosen", "instrument"} <= {each.kind for each in entries}
    assert any(each.kind == "instrument" and each.body["code"] == "P1" for each in entries)
    left = {each.kind for each in without_readings(entries)}
    assert "oil chosen" in left
    assert "pressure reading" not in left


def test_readings_move_no_verdict_and_the_record_verifies(shop):
    shop.assessment("trial")
    taken = take(shop, IDLE)
    assert shop.write(taken.entries).touched == frozenset()
    found = shop.verify()
    assert found.sound
    assert found.typed_checked >= 4


@pytest.mark.parametrize(
    "text, found",
    [
        ("900 42 3.9", ("900", "42", "3.9", "", "")),
        ("900 42 3.9 warm", ("900", "42", "3.9", "", "warm")),
        ("900 42C 3,9bar 6s reference idle", ("900", "42C", "3,9bar", "6s", "reference idle")),
        ("2500 rpm 212 F 57 psi 4 s", ("2500 rpm", "212 F", "57 psi", "4 s", "")),
        ("180 -5 0 cranking 2", ("180", "-5", "0", "", "cranking 2")),
    ],
)
def test_a_line_is_read(text, found):
    line = read_line(text)
    assert (line.speed, line.temperature, line.gauge, line.seconds, line.step) == found


@pytest.mark.parametrize(
    "text, missing", [("", "speed"), ("warm", "speed"), ("900 rpm", "oil temperature"), ("900 42 C", "gauge")]
)
def test_a_line_without_an_amount_is_refused(text, missing):
    with pytest.raises(BenchError, match=f"has no {missing}"):
        read_line(text)


def test_the_examples_of_a_line_can_be_typed(shop):
    for family, example in EXAMPLES.items():
        line = read_line(example)
        read = PressureTyped(speed=line.speed, temperature=line.temperature, gauge=line.gauge)
        assert isinstance(take(shop, read, family=family), PressureTaken)


def test_cautions_name_the_stop_and_who_calls_it():
    said = " ".join(CAUTIONS)
    for words in ("fuel and ignition", "One named person may call stop", "hot", "engine maker's manual"):
        assert words in said
