"""Forms of a build: what follows is said first, questions are answered in place, no PIN is kept."""

import re

import pytest

from fitwright.records.kinds import Person
from fitwright.web import pins, rendering
from fitwright.web.entering import effects, entry_form
from fitwright.web.entering.effects import EffectLine, EffectPoint, Effects
from fitwright.web.entering.entry_form import EntryContext, EntryForm, Said, UndoForm
from fitwright.web.forms import Answered, Asked, answers_in
from fitwright.web.people import PersonOption
from fitwright.web.pins import NO_PIN, PIN_FIELDS, PinPart, pin_part
from tests.support.contexts import unread

LINE = EffectLine("Main 1", "/fit", "within", "unproven", "swapped", "/measure")
FOLLOWS = Effects(
    "echo", "What follows.", (LINE,), "and 3 more", done=True, points=(EffectPoint("A", "/a", "is so"),)
)


def form(**given):
    usual = {
        "name": "grant",
        "title": "Grant a concession",
        "lead": "Main 1.",
        "caution": "It mends nothing.",
        "first": False,
        "address": "/sent",
        "effects_address": "/sent/effects",
        "token": "t",
        "entry_id": "0" * 32,
        "units": "mm",
        "files": False,
        "controls": (),
        "people": (PersonOption("builder", "Builder", chosen=True),),
        "pin": PinPart(asked=True, without=("Second builder",)),
        "button": "Grant it",
        "ask": "What follows?",
        "effects": FOLLOWS,
        "question": None,
        "earlier": (),
        "close": "/closed",
    }
    return EntryForm(**usual | given)


def shown(entry=None, said=None):
    return rendering.page(EntryContext(said, entry)).body.decode()


def test_every_field_of_a_form_and_of_what_came_of_it_is_shown(read):
    undo = UndoForm("/undo", "t", "1" * 32, "1" * 32, "builder")
    said = Said("kept", "Granted.", "Kept as entry 9.", FOLLOWS, undo, "/again", "Another one", "/closed")
    question = Asked("k", "Is it so?", ("0.05 mm",))
    shown(form(), said)
    shown(form(first=True))
    shown(form(question=question, earlier=(Answered("answered-x", "keep"),)))
    assert not unread([effects, entry_form, pins], read)


def test_a_question_takes_the_place_of_the_button_and_offers_its_guesses():
    page = shown(form(question=Asked("k", "Is it so?", ("0.05 mm",))))
    assert "Grant it" not in page
    assert 'name="answer_to_question" value="0.05 mm"' in page
    assert 'name="question" value="k"' in page


@pytest.mark.parametrize("name", PIN_FIELDS)
def test_what_is_typed_as_a_pin_is_asked_for_as_a_password_and_never_looked_up(name):
    page = shown(form())
    field = re.search(rf'<input[^>]*name="{name}"[^>]*>', page)[0]
    assert 'type="password"' in field
    assert "value=" not in field
    assert name in re.search(r'hx-params="not ([^"]*)"', page)[1].split(",")


def test_no_pin_is_asked_of_a_lone_builder_and_one_is_of_two(empty_shop):
    people = [Person(code=each, name=each.title()) for each in ("first", "second")]
    empty_shop.write([empty_shop.entry(people[0])])
    assert pin_part(empty_shop.state) == NO_PIN
    empty_shop.write([empty_shop.entry(people[1])])
    assert pin_part(empty_shop.state) == PinPart(asked=True, without=("First", "Second"))


def test_answers_given_before_and_now_are_read_from_a_form():
    fields = {"answered-first": "keep", "question": "second", "answer_to_question": "0.05 mm", "size": "5"}
    assert answers_in(fields) == {"first": "keep", "second": "0.05 mm"}
    assert answers_in({"question": "second", "size": "5"}) == {}
