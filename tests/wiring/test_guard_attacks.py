"""Ways by which somebody got past a hold point or signed as another one, each closed."""

from __future__ import annotations

import json

import pytest

from fitwright.assess.assembly.results import StepState
from fitwright.bench.guarding import concerns
from fitwright.bench.guarding_errors import (
    CannotTakeAwayError,
    HoldLeftOutError,
    LooksLikeError,
    NewcomerVouchesError,
    NotStartedError,
    SignedElsewhereError,
)
from fitwright.formats.carrying import arrival, build_in, carried
from fitwright.records import kinds
from fitwright.records.chain import digest_of
from fitwright.records.entry import Entry
from fitwright.records.errors import BodyError
from tests.support.guarded_shop import BUILD, BUILDER, PINS, SECOND, GuardedShop

NEW, NEW_PIN = "newcomer", "5555"


def refused(shop, error, write, words=None):
    before = shop.wired.record.head()
    with pytest.raises(error, match=words) as caught:
        write()
    assert "\n" not in str(caught.value)
    assert shop.wired.record.head() == before


def state(shop, step="bottom_end"):
    return shop.wired.assembly(BUILD).steps[step].state


def says(shop, body, *, build=None, person=BUILDER, pins=None):
    return shop.wired.write([shop.wired.entry(body, build=build, person=person)], pins=pins)


# A file.


def with_more(shop, *bodies, person=SECOND):
    """The build as it is exported, with entries put in by somebody with an editor."""
    told = json.loads(carried(shop.wired.record, BUILD).text)
    for body in bodies:
        new = shop.wired.entry(body, build=BUILD, person=person)
        held = {
            "seq": 10**6 + len(told["entries"]), "id": new.id, "build": BUILD, "kind": new.kind,
            "kind_version": 1, "person": person, "device": None, "client_time": None,
            "committed_at": "2031-05-04T09:00:00.000000Z", "body": dict(new.body),
        }  # fmt: skip
        told["entries"].append(held | {"digest": digest_of(Entry(**held, previous_hash="", hash=""))})
    return json.dumps(told)


def takes_in(shop, text):
    return shop.wired.take_in(arrival(build_in(text, file="it.json"), shop.wired.record))


def test_a_file_does_not_release_in_the_name_of_somebody_with_a_pin_here(two):
    two.comes_to_hold()
    release = kinds.StepReleased(step="bottom_end", released_by=SECOND)
    for person in (SECOND, BUILDER, None):
        text = with_more(two, release, person=person)
        refused(two, SignedElsewhereError, lambda text=text: takes_in(two, text), "in the name of Second")
    assert state(two) is StepState.HELD


def test_a_file_does_not_bring_back_a_release_that_was_taken_back(two):
    two.comes_to_hold()
    released = two.releases("bottom_end", pins=PINS).acknowledgements[0].id
    undo = two.says(kinds.Withdrawal(entry=released, reason="not yet")).acknowledgements[0].id
    back = with_more(two, kinds.Withdrawal(entry=undo, reason="after all"), person=BUILDER)
    refused(two, SignedElsewhereError, lambda: takes_in(two, back))
    assert state(two) is StepState.HELD


def test_a_file_may_take_a_release_back(two):
    two.comes_to_hold()
    released = two.releases("bottom_end", pins=PINS).acknowledgements[0].id
    takes_in(two, with_more(two, kinds.Withdrawal(entry=released, reason="not yet")))
    assert state(two) is StepState.HELD


def test_a_file_does_not_leave_a_hold_point_out_of_a_build_that_is_here(two):
    two.comes_to_hold()
    out = kinds.NotInThisJob(subject="bottom_end", reason="in a hurry")
    refused(two, HoldLeftOutError, lambda: takes_in(two, with_more(two, out, person=None)))
    refused(two, SignedElsewhereError, lambda: takes_in(two, with_more(two, out)))


def test_a_build_signed_in_another_shop_is_taken_in_where_none_of_its_people_has_a_pin(two, tmp_path):
    two.comes_to_hold()
    two.releases("bottom_end", pins=PINS)
    text = carried(two.wired.record, BUILD).text
    from fitwright.wiring import open_shop

    there = open_shop(tmp_path / "there", clock=two.clock)
    there.take_in(arrival(build_in(text, file="it.json"), there.record))
    assert there.assembly(BUILD).steps["bottom_end"].state is StepState.RELEASED
    there.close()


# Before a build is there.


def test_nothing_is_signed_for_a_build_that_was_not_started(two):
    bodies = (
        kinds.DeviationPermit(code="D-1", subject="clearance", granted_by=SECOND, because="b"),
        kinds.Signature(subject="dossier", meaning="released", signed_by=SECOND, seq=0, hash=""),
        kinds.StepReleased(step="bottom_end", released_by=SECOND),
        kinds.StepDone(step="crank_in"),
        kinds.NotInThisJob(subject="bottom_end", reason="x"),
    )
    for body in bodies:
        refused(
            two,
            NotStartedError,
            lambda body=body: says(two, body, build="later", person=SECOND),
            "build later, which was not started",
        )


# Newcomers.


def comes(shop, code=NEW, name="Newcomer", pin=NEW_PIN):
    says(shop, kinds.Person(code=code, name=name))
    shop.wired.write([shop.wired.pin_entry(code, pin)])


def vouched(shop, person, by, pin):
    shop.wired.write([shop.wired.pin_entry(person, "9999", vouched_by=by)], pins={by: pin})


def test_nobody_enters_somebody_who_then_vouches_for_another_pin_of_those_who_sign(two):
    comes(two)
    refused(two, NewcomerVouchesError, lambda: vouched(two, SECOND, NEW, NEW_PIN), "Newcomer came into the")
    away = kinds.Withdrawal(entry=two.wired.state.pins[SECOND].entry.id, reason="x")
    refused(two, CannotTakeAwayError, lambda: says(two, away, person=NEW, pins={NEW: NEW_PIN}))
    rename = kinds.Person(code=SECOND, name="Somebody")
    refused(two, CannotTakeAwayError, lambda: says(two, rename, person=NEW, pins={NEW: NEW_PIN}))
    vouched(two, SECOND, BUILDER, PINS[BUILDER])


def test_a_newcomer_vouches_after_a_while_and_at_once_for_a_pin_set_later(two):
    comes(two)
    two.clock.goes_on(days=6, hours=23)
    refused(two, NewcomerVouchesError, lambda: vouched(two, SECOND, NEW, NEW_PIN))
    two.clock.goes_on(hours=1)
    vouched(two, SECOND, NEW, NEW_PIN)
    two.wired.write([two.wired.pin_entry(BUILDER, "1111")], pins={BUILDER: PINS[BUILDER]})
    vouched(two, BUILDER, NEW, NEW_PIN)


ALIKE = [
    (NEW, "Second builder"),
    (NEW, "second  Builder."),
    (NEW, "S\u0435cond builder"),
    (NEW, "Second\u200b builder"),
    (NEW, "\uff33econd builder"),
    (NEW, "Second bui1der"),
    ("s\u0435cond", "Newcomer"),
    ("SECOND", "Newcomer"),
]


@pytest.mark.parametrize("code, name", ALIKE)
def test_nobody_is_entered_or_renamed_who_reads_as_somebody_who_signs(two, code, name):
    refused(two, LooksLikeError, lambda: says(two, kinds.Person(code=code, name=name)), "taken for Second")
    if code == NEW:
        comes(two)
        renamed = kinds.Person(code=NEW, name=name)
        refused(two, LooksLikeError, lambda: says(two, renamed, person=NEW, pins={NEW: NEW_PIN}))
    says(two, kinds.Person(code=code, name=name), pins={SECOND: PINS[SECOND], NEW: NEW_PIN})


def test_names_that_differ_and_people_who_never_sign_are_no_matter(tmp_path, two):
    says(two, kinds.Person(code="third", name="Third builder"))
    says(two, kinds.Person(code="fourth", name="Third builder"))
    lone = GuardedShop(tmp_path / "other")
    says(lone, kinds.Person(code="b2", name="Builder"))
    lone.wired.close()


# Two threads.


def test_taking_back_what_is_not_written_yet_is_held_against_the_record(two):
    """Another thread may write it between the look and the commit."""
    entry = two.wired.entry(kinds.Withdrawal(entry="0" * 32, reason="x"), build=BUILD)
    assert concerns([entry], lambda _: None)
    assert not concerns([two.wired.entry(kinds.Note(text="x"))], lambda _: None)


# Another sheet.


def test_a_correction_puts_no_other_sheet_under_what_was_done(two):
    """It would take the hold point away without a word of what is different."""
    two.comes_to_hold()
    text = two.wired.record.sheet_text(two.wired.bench(BUILD).build.sheet)
    other = two.wired.record.keep_sheet(text.replace('"hold point"', '"witness point"'))
    started = next(each for each in two.wired.record.entries() if each.kind == "build started")
    fields = dict(started.body) | {"sheet": other, "supersedes": started.id, "reason": "mistyped"}
    body = kinds.BuildStarted.model_validate(fields, strict=False)
    refused(two, BodyError, lambda: says(two, body, build=BUILD), "take the other sheet over as a revision")
    same = body.model_copy(update={"sheet": started.body["sheet"], "title": "Small engine"})
    says(two, same, build=BUILD)
    assert state(two) is StepState.HELD
