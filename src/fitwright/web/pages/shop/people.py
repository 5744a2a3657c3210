"""People of the shop: listed, entered, changed."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import chain, count
from typing import ClassVar

from fitwright.bench.shelf import person_from
from fitwright.records.kinds import Person
from fitwright.web.addresses import measure_address
from fitwright.web.frame import Frame
from fitwright.web.own_units import family_of_build, family_of_shop
from fitwright.web.pages.choices import Choice
from fitwright.web.pages.shop.amounts import (
    SMALL_UNIT,
    family_of_unit,
    in_unit_shown,
    small,
    usual_in,
)
from fitwright.web.pages.shop.entering import Asking, EntryForm, FormOf, Link, Made, Order, shop_route
from fitwright.web.pages.shop.history import HistoryLine, history_of
from fitwright.web.pages.shop.pins import pin_forms, pin_words, proof_fields, set_forgotten, set_pin
from fitwright.web.pages.shop.ways import shop_frame, shop_ways, thing_address

MOST_BUILDS = 3
USUAL_DRAG, USUAL_DRAG_UNCERTAINTY = "0.003 mm", "0.002 mm"


@dataclass(frozen=True, slots=True)
class PersonLine:
    """Somebody in one line."""

    name: str
    role: str
    drag: str
    address: str


@dataclass(frozen=True, slots=True)
class PeopleContext:
    """The page People of the shop."""

    template: ClassVar[str] = "shop/people.html"
    frame: Frame
    ways: tuple[Choice, ...]
    people: tuple[PersonLine, ...]
    form: EntryForm


@dataclass(frozen=True, slots=True)
class PersonContext:
    """The page of one person."""

    template: ClassVar[str] = "shop/person.html"
    frame: Frame
    ways: tuple[Choice, ...]
    person: PersonLine
    pin: str
    form: EntryForm
    pin_forms: tuple[EntryForm, ...]
    history: tuple[HistoryLine, ...]


def _people(asking: Asking) -> PeopleContext:
    shop = asking.hands.shop.state
    form = FormOf(asking, "person")
    return PeopleContext(
        frame=shop_frame(asking.hands, "People"),
        ways=shop_ways("People"),
        people=tuple(_line(held.body, _unit(asking)) for held in shop.people.values()),
        form=_form(form, "Enter somebody", None, is_open=not shop.people),
    )


def _person(asking: Asking) -> PersonContext | None:
    shop = asking.hands.shop.state
    held = shop.people.get(asking.code)
    if held is None:
        return None
    return PersonContext(
        frame=shop_frame(asking.hands, held.body.name),
        ways=shop_ways("People"),
        person=_line(held.body, _unit(asking)),
        pin=pin_words(shop, asking.code),
        form=_form(FormOf(asking, "change"), "Change what is said of this person", held.body, is_open=False),
        pin_forms=pin_forms(asking, asking.code),
        history=history_of(shop, Person.kind, asking.code),
    )


def _line(person: Person, unit: str) -> PersonLine:
    drag = f"{small(person.drag, unit)}, known to {small(person.drag_uncertainty, unit)}"
    return PersonLine(person.name, person.role or "", drag, thing_address("people", person.code))


def _unit(asking: Asking) -> str:
    return SMALL_UNIT[family_of_shop(asking.hands)]


def _form(form: FormOf, title: str, person: Person | None, *, is_open: bool) -> EntryForm:
    unit = _unit(form.asking)
    family = family_of_unit(unit)
    usual, usual_known = usual_in(family, USUAL_DRAG), usual_in(family, USUAL_DRAG_UNCERTAINTY)
    drag = usual if person is None else small(person.drag, unit).partition(" (")[0]
    known = usual_known if person is None else small(person.drag_uncertainty, unit).partition(" (")[0]
    name = "" if person is None else person.name
    return form.made(
        title,
        [
            form.text("name", "Name", name, required=True),
            form.text(
                "role", "Role", "" if person is None else person.role or "", hint="builder, apprentice"
            ),
            form.hidden("unit_shown", unit),
            *proof_fields(form, person),
        ],
        more_title="How blades feel in this hand",
        more=[
            form.amount(
                "drag", "Drags from a gap over the blade of", drag, unit=unit, hint=f"usually {usual}"
            ),
            form.amount("drag_uncertainty", "Known to", known, unit=unit, hint=f"usually {usual_known}"),
        ],
        button="Enter" if person is None else "Change",
        is_open=is_open,
    )


def _enter(order: Order) -> Made:
    body = _body(order)
    return _made(order, body.model_copy(update={"code": order.code_given(lambda: _free(body.code, order))}))


def _free(code: str, order: Order) -> str:
    """The code made of the name, with a number behind it where somebody else has it."""
    taken = order.hands.shop.state.people
    numbered = (f"{code}-{number}" for number in count(2))
    return next(each for each in chain([code], numbered) if each not in taken)


def _change(order: Order) -> Made:
    return _made(order, _body(order, code=order.code))


def _body(order: Order, code: str = "") -> Person:
    shown = order.sent.get("unit_shown")
    return person_from(
        order.sent.get("name"),
        code=code,
        role=order.optional("role"),
        drag=in_unit_shown(order.optional("drag"), shown) or USUAL_DRAG,
        drag_uncertainty=in_unit_shown(order.optional("drag_uncertainty"), shown) or USUAL_DRAG_UNCERTAINTY,
    )


def _made(order: Order, body: Person) -> Made:
    entry = order.hands.shop.entry(body, person=order.person, entry_id=order.entry_id)
    link = Link(body.name, thing_address("people", body.code))
    role = f", {body.role}" if body.role else ""
    return Made([entry], f"{body.name}{role}.", lambda: (link, *_to_measure(order)))


def _to_measure(order: Order) -> Iterator[Link]:
    """The way to the builds started last, from which one may have come to say who measures."""
    builds = list(order.hands.shop.builds().items())
    for code, started in builds[-MOST_BUILDS:]:
        yield Link(f"Measure {started.title}", measure_address(code, family_of_build(order.hands, code)))


ROUTES = [
    shop_route("/shop/people", "people", _people, {"person": _enter}),
    shop_route(
        "/shop/people/{code}",
        "person",
        _person,
        {"change": _change, "pin": set_pin, "forgotten": set_forgotten},
    ),
]
