"""Slips at the bench: each is caught as a question, once, and the answer is kept beside the reading."""

import pytest

from fitwright.bench.asking import KEEP
from fitwright.bench.settings import take_setting
from fitwright.bench.taking import Taken, Taking, take_value
from fitwright.model.slips import Question
from fitwright.records.kinds import Setting

SLIPS = [
    pytest.param("pump.drive_gap", "0.0022 thou", "0.0022 in", 5.588e-5, id="a thousandth of a thou"),
    pytest.param("pump.width", "56.00", "5.600 mm", 5.6e-3, id="the point one place off"),
    pytest.param("pump.shaft_gap", "0.028", "0.056 mm", 5.6e-5, id="radial for diametral"),
    pytest.param("pump.cover_gap", "0.05 thou", "0.5 thou", 1.27e-5, id="half a thou as 0.05"),
]


@pytest.mark.parametrize("dimension, typed, guess, meant", SLIPS)
def test_a_slip_is_asked_about_and_its_guess_taken(bench, dimension, typed, guess, meant):
    question = take_value(bench, dimension, None, typed, Taking(person="builder"))
    assert isinstance(question, Question)
    assert guess in [each.label for each in question.guesses]
    taken = take_value(bench, dimension, None, typed, Taking(person="builder", answers={question.key: guess}))
    assert isinstance(taken, Taken)
    reading, answer = taken.entries
    assert reading.body["observation"]["value"]["si"] == pytest.approx(meant, rel=1e-12)
    assert reading.body["observation"]["value"]["typed"] == guess
    assert answer.kind == "question answered"
    assert (answer.body["typed"], answer.body["answer"]) == (typed, guess)
    assert answer.body["entry"] == reading.id


def kept(bench, dimension, typed):
    """The value kept as typed, whatever is asked about it."""
    answers = {}
    while isinstance(found := take_value(bench, dimension, None, typed, Taking(answers=answers)), Question):
        answers[found.key] = KEEP
    return found


@pytest.mark.parametrize("dimension, typed, guess, meant", SLIPS)
def test_kept_as_typed_it_is_asked_about_only_once(shop, dimension, typed, guess, meant):
    first = kept(shop.bench("trial"), dimension, typed)
    assert len(first.entries) > 1
    shop.write(first.entries)
    again = take_value(shop.bench("trial"), dimension, None, typed, Taking(person="builder"))
    assert isinstance(again, Taken), "the same value at the same place is not asked about again"
    assert len(again.entries) == 1
    assert first.quantity.si == again.quantity.si != pytest.approx(meant)


def test_the_same_answer_sent_twice_changes_nothing(shop):
    question = take_value(shop.bench("trial"), "pump.width", None, "56.00", Taking())
    taking = Taking(entry_id="a" * 32, answers={question.key: "5.600 mm"})
    entries = take_value(shop.bench("trial"), "pump.width", None, "56.00", taking).entries
    first = shop.write(entries).acknowledgements
    assert shop.write(entries).acknowledgements == first


def test_a_gauge_of_another_range_is_asked_about_after_the_slip(bench):
    found = kept(bench, "pump.width", "56.00")
    assert [entry.body["question"].partition(":")[0] for entry in found.entries[1:]] == ["slip", "range"]


def test_a_gauge_zero_beyond_its_limit_is_asked_for_its_sign(shop):
    setting = Setting(code="P1-1", instrument="P1")
    question = take_setting(shop.state, setting, zero="-0.2")
    assert isinstance(question, Question)
    below = question.guesses[0].label
    entries = take_setting(shop.state, setting, zero="-0.2", answers={question.key: below}, person="builder")
    shop.write(entries)
    held = shop.state.settings["P1-1"].body
    assert held.zero.si == pytest.approx(-0.2e5)
    assert entries[1].body["answer"] == below


def test_the_other_sign_of_a_gauge_zero_can_be_meant(shop):
    setting = Setting(code="P1-1", instrument="P1")
    question = take_setting(shop.state, setting, zero="0.2 bar")
    above = question.guesses[1].label
    reading, _ = take_setting(shop.state, setting, zero="0.2 bar", answers={question.key: above})
    assert reading.body["zero"]["si"] == pytest.approx(0.2e5)


def test_a_gauge_zero_within_its_limit_is_taken(shop):
    entries = take_setting(shop.state, Setting(code="P1-1", instrument="P1"), zero="-0.1")
    assert len(entries) == 1


def test_an_inch_gauge_reads_bare_numbers_in_its_own_unit(bench):
    taken = take_value(bench, "pump.cover_gap", None, "0.5", Taking())
    assert taken.quantity.si == pytest.approx(1.27e-5)
