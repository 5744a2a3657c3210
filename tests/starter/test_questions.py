"""The questions: which are asked, how answers are read, what is said when one cannot be used."""

import math
from dataclasses import fields

import pytest

from fitwright.starter.answers import WORDS, Answers
from fitwright.starter.errors import AnswerError
from fitwright.starter.plan import plan_of
from fitwright.starter.questions import QUESTIONS, AnswerKind, answers_from_words, questions_for
from fitwright.starter.sheet import write_sheet


def asked(**known):
    return {question.name for question in questions_for(known)}


def test_there_is_one_question_for_each_answer():
    assert {question.name for question in QUESTIONS} == {field.name for field in fields(Answers)}


def test_word_questions_have_their_words():
    for question in QUESTIONS:
        assert (question.kind is AnswerKind.WORD) == (question.name in WORDS) == bool(question.choices)


def test_a_two_stroke_is_asked_nothing_about_valves():
    assert not asked(valve_train="two-stroke") & {"valves_per_cylinder", "valve_adjustment", "cam_drive"}
    assert asked() >= {"valves_per_cylinder", "valve_adjustment", "cam_drive"}


def test_only_what_the_job_needs_is_asked():
    assert "pump" not in asked(only="head")
    assert not asked(only="pump") & {"piston", "valve_adjustment", "main_journal", "rear_seal"}
    assert "pump_stages" in asked(pump="dry sump")
    assert "pump_stages" not in asked(pump="external spur")
    assert "bank_angle" not in asked(arrangement="flat")
    assert "cylinders" not in asked(arrangement="twin")


@pytest.mark.parametrize("question", QUESTIONS, ids=lambda question: question.name)
def test_an_irrelevant_answer_changes_no_line(question):
    """What is not asked does not matter: the sheet is the same whatever was answered."""
    cases = (
        {"valve_train": "two-stroke"},
        {"only": "head"},
        {"only": "pump"},
        {"only": "bottom-end"},
        {"arrangement": "twin"},
        {"arrangement": "inline"},
    )
    for known in cases:
        if question.irrelevant(known) and question.name in CHANGED:
            base = answers_from_words({"name": "X", **known})
            other = answers_from_words({"name": "X", **known, question.name: CHANGED[question.name]})
            assert blocks(write_sheet(base)) == blocks(write_sheet(other))


CHANGED = {
    "bank_angle": "60 deg",
    "rods_per_pin": "2",
    "piston": "forged",
    "piston_pin": "pressed",
    "valves_per_cylinder": "4",
    "valve_adjustment": "hydraulic",
    "cam_drive": "belt",
    "rear_seal": "rope",
    "piston_jets": "yes",
    "pump_stages": "4",
    "main_journal": "61 mm",
    "rod_journal": "51 mm",
}


def blocks(text):
    """The sheet below its layout, which repeats some answers as words."""
    return text.partition("[engine.directions]")[2]


def test_lengths_take_the_unit_of_the_shop_or_their_own():
    given = answers_from_words({"name": "B", "units": "inch", "bore": "2.625", "stroke": "106.68 mm"})
    assert given.bore == pytest.approx(0.066675, abs=1e-12)
    assert given.stroke == pytest.approx(0.10668, abs=1e-12)


def test_angles_are_degrees():
    vee = answers_from_words({"name": "V", "arrangement": "vee", "bank_angle": "60"})
    assert vee.bank_angle == pytest.approx(math.radians(60))
    assert 'bank_angle = "60 deg"' in write_sheet(vee)


@pytest.mark.parametrize(
    "words, question, problem",
    [
        ({}, "name", "is missing"),
        ({"name": "X", "colour": "red"}, "colour", "answers no question"),
        ({"name": "X", "duty": "racing"}, "duty", "is not a word"),
        ({"name": "X", "cylinders": "four"}, "cylinders", "is no whole number"),
        ({"name": "X", "arrangement": "vee", "cylinders": "5"}, "cylinders", "two equal banks"),
        ({"name": "X", "arrangement": "single", "cylinders": "2"}, "cylinders", "does not suit"),
        ({"name": "X", "mains": "9"}, "mains", "does not suit"),
        ({"name": "X", "bore": "83.5 s"}, "bore", "83.5 s"),
        ({"name": "X", "bore": "3.25 mm"}, "bore", "is no such size"),
        ({"name": "X", "engine_id": "Corrie Five"}, "engine_id", "is no id"),
        (
            {"name": "X", "valve_train": "side valve", "valves_per_cylinder": "4"},
            "valves_per_cylinder",
            "suit",
        ),
        ({"name": "X", "valve_train": "two-stroke", "pump": "camshaft-driven"}, "pump", "needs a camshaft"),
        ({"name": "X", "valve_train": "two-stroke", "only": "pump"}, "only", "without an oil pump"),
        ({"name": "X", "arrangement": "vee", "bank_angle": "0 deg"}, "bank_angle", "is no bank angle"),
    ],
)
def test_an_answer_that_cannot_be_used_is_one_clear_sentence(words, question, problem):
    with pytest.raises(AnswerError) as caught:
        answers_from_words(words)
    assert caught.value.question == question
    assert problem in str(caught.value)
    assert "; answer " in str(caught.value)
    assert "\n" not in str(caught.value)


@pytest.mark.parametrize(
    "words, mains, pins",
    [
        ({"arrangement": "inline", "cylinders": 5}, 6, 5),
        ({"arrangement": "inline", "cylinders": 4, "duty": "historic"}, 3, 4),
        ({"arrangement": "vee", "cylinders": 8}, 5, 4),
        ({"arrangement": "flat", "cylinders": 6}, 4, 6),
        ({"arrangement": "flat", "cylinders": 12, "rods_per_pin": 2}, 7, 6),
        ({"arrangement": "single"}, 2, 1),
        ({"arrangement": "twin"}, 2, 2),
    ],
)
def test_bearings_and_pins_follow_from_the_layout(words, mains, pins):
    plan = plan_of(Answers(name="X", **words))
    assert (plan.mains, plan.pins) == (mains, pins)


def test_rods_that_share_a_pin_each_have_a_track_on_it():
    text = write_sheet(Answers(name="V", arrangement="vee"))
    assert '[dimensions."rod.{1..8}.pin"]' in text
    assert 'by_parts = "pin.4.width - rod.7.width - rod.8.width"' in text
