"""Nobody becomes somebody else by an entry: names, people and PINs are changed only by whom they are of."""

from __future__ import annotations

import pytest

from fitwright.bench.errors import BenchError
from fitwright.bench.guarding_errors import (
    CannotTakeAwayError,
    GuardError,
    PinWantedError,
    UnknownSignerError,
    WrongPinError,
)
from fitwright.records import kinds
from fitwright.records.errors import BodyError
from tests.support.guarded_shop import BUILD, BUILDER, PINS, SECOND

OTHER = "8642"


def entries(shop):
    return sum(1 for _ in shop.wired.record.entries())


def refused(shop, error, write, words=None):
    before = entries(shop)
    with pytest.raises(error, match=words):
        write()
    assert entries(shop) == before


def set_pin(shop, person, pin, *, pins=None, vouched_by=None):
    shop.wired.write([shop.wired.pin_entry(person, pin, vouched_by=vouched_by)], pins=pins)


def person_entry(shop, code):
    return shop.wired.state.people[code].entry.id


def says(shop, body, pins=None, person=BUILDER):
    shop.wired.write([shop.wired.entry(body, person=person)], pins=pins)


# PINs.


def test_a_first_pin_is_set_by_whoever_it_is_and_a_change_takes_the_old_one(two):
    refused(two, CannotTakeAwayError, lambda: set_pin(two, BUILDER, OTHER), "change the PIN of Builder")
    refused(two, WrongPinError, lambda: set_pin(two, BUILDER, OTHER, pins={BUILDER: OTHER}))
    set_pin(two, BUILDER, OTHER, pins={BUILDER: PINS[BUILDER]})
    refused(two, WrongPinError, lambda: signs(two, PINS[BUILDER]))
    signs(two, OTHER)


def signs(shop, pin):
    body = kinds.Concession(code=f"C-{entries(shop)}", subject="clearance", granted_by=BUILDER, because="b")
    shop.wired.write([shop.wired.entry(body, build=BUILD, person=BUILDER)], pins={BUILDER: pin})


def test_a_forgotten_pin_is_set_anew_where_another_person_vouches(two):
    refused(two, CannotTakeAwayError, lambda: set_pin(two, BUILDER, OTHER, vouched_by=SECOND))
    refused(
        two,
        CannotTakeAwayError,
        lambda: set_pin(two, BUILDER, OTHER, vouched_by=BUILDER, pins={SECOND: PINS[SECOND]}),
    )
    refused(
        two, WrongPinError, lambda: set_pin(two, BUILDER, OTHER, vouched_by=SECOND, pins={SECOND: "0000"})
    )
    set_pin(two, BUILDER, OTHER, vouched_by=SECOND, pins={SECOND: PINS[SECOND]})
    signs(two, OTHER)
    held = two.wired.state.pins[BUILDER]
    assert (held.body.vouched_by, held.entry.person) == (SECOND, SECOND)


def test_a_pin_is_not_taken_back_corrected_or_brought_back_by_somebody_else(two):
    first = two.wired.state.pins[BUILDER]
    away = kinds.Withdrawal(entry=first.entry.id, reason="lost")
    refused(two, CannotTakeAwayError, lambda: says(two, away, person=SECOND), "take back the PIN of Builder")
    again = first.body.model_copy(update={"supersedes": first.entry.id, "reason": "x"})
    refused(two, GuardError, lambda: says(two, again))
    refused(two, BodyError, lambda: says(two, again, pins=PINS), "withdraw it, and enter it anew")
    set_pin(two, BUILDER, OTHER, pins=PINS)
    newer = two.wired.state.pins[BUILDER].entry.id
    back = kinds.Withdrawal(entry=newer, reason="so that the old one counts again")
    refused(two, CannotTakeAwayError, lambda: says(two, back, person=SECOND))
    refused(two, WrongPinError, lambda: says(two, back, pins={BUILDER: PINS[BUILDER]}))
    says(two, back, pins={SECOND: PINS[SECOND]}, person=SECOND)
    signs(two, PINS[BUILDER])


def test_nobody_has_a_pin_who_is_not_in_the_book(lone):
    with pytest.raises(BenchError, match="Nobody is called"):
        lone.wired.pin_entry("x", OTHER)
    body = kinds.PinSet(person="x", salt="00" * 16, hardened="0" * 64, cost=2**15)
    refused(lone, UnknownSignerError, lambda: says(lone, body))


def test_a_pin_filed_under_a_build_is_the_same_pin(two):
    entry = two.wired.pin_entry(BUILDER, OTHER)
    moved = type(entry)(**{n: getattr(entry, n) for n in type(entry).__slots__} | {"build": BUILD})
    refused(two, CannotTakeAwayError, lambda: two.wired.write([moved]))


# Names.


def test_a_person_with_a_pin_is_not_renamed_or_taken_out_by_somebody_else(two):
    rename = kinds.Person(code=BUILDER, name="Somebody")
    refused(two, CannotTakeAwayError, lambda: says(two, rename, person=SECOND), "make Somebody of Builder")
    corrected = kinds.Person(
        code="other", name="Other", supersedes=person_entry(two, BUILDER), reason="mistyped"
    )
    refused(two, CannotTakeAwayError, lambda: says(two, corrected), "take Builder out of the book")
    out = kinds.Withdrawal(entry=person_entry(two, BUILDER), reason="left")
    refused(two, CannotTakeAwayError, lambda: says(two, out, person=SECOND))
    says(two, kinds.Person(code=BUILDER, name="BUILDER", role="foreman", drag=4e-6))
    says(two, rename, pins={BUILDER: PINS[BUILDER]})
    assert two.wired.state.people[BUILDER].body.name == "Somebody"


def test_the_second_person_is_not_taken_out_so_that_no_pin_is_asked_for(two):
    out = kinds.Withdrawal(entry=person_entry(two, SECOND), reason="left")
    refused(two, CannotTakeAwayError, lambda: says(two, out))
    says(two, out, pins={SECOND: PINS[SECOND]})
    assert list(two.wired.state.people) == [BUILDER]
    body = kinds.Concession(code="C-1", subject="clearance", granted_by=BUILDER, because="b")
    entry = two.wired.entry(body, build=BUILD, person=BUILDER)
    refused(two, PinWantedError, lambda: two.wired.write([entry]), "Builder signs with a PIN")


def test_who_signed_without_a_pin_is_not_renamed_once_others_are_there(lone):
    says(lone, kinds.Person(code=BUILDER, name="Bilder"))
    says(lone, kinds.Person(code=BUILDER, name="Builder"))
    body = kinds.Concession(code="C-1", subject="clearance", granted_by=BUILDER, because="b")
    lone.wired.write([lone.wired.entry(body, build=BUILD, person=BUILDER)])
    says(lone, kinds.Person(code=SECOND, name="Second"))
    rename = kinds.Person(code=BUILDER, name="Somebody")
    refused(lone, CannotTakeAwayError, lambda: says(lone, rename, person=SECOND))
    says(lone, kinds.Person(code=SECOND, name="Seconds"))


# Not by way of a file.


def test_a_file_takes_nobody_s_name_or_pin_away(two):
    from fitwright.formats.carrying import Arrival

    bodies = (
        kinds.Person(code=BUILDER, name="Somebody"),
        kinds.Withdrawal(entry=two.wired.state.pins[BUILDER].entry.id, reason="x"),
        kinds.Withdrawal(entry=person_entry(two, SECOND), reason="x"),
    )
    for body in bodies:
        arriving = Arrival("b", (two.wired.entry(body, person=SECOND),), 0, {})
        refused(two, CannotTakeAwayError, lambda arriving=arriving: two.wired.take_in(arriving))
