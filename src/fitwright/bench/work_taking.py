"""What every piece of work entered shares: who enters it, its entries, and names looked up in the sheet."""

from __future__ import annotations

import uuid
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import UTC, datetime
from typing import TypeVar

from fitwright.bench.asking import KEEP, Answered, answer_entry
from fitwright.bench.context import Bench, near
from fitwright.bench.errors import NoWordsError, UnknownNameError
from fitwright.bench.sittings import person_named
from fitwright.bench.wrenches import OF_A_GAUGE
from fitwright.model.fastener import TighteningGroup
from fitwright.model.slips import Question
from fitwright.model.step import Consumable, Step
from fitwright.records.entry import NewEntry
from fitwright.records.kinds import Body
from fitwright.units import Family

Thing = TypeVar("Thing")


def _utc_now() -> datetime:
    return datetime.now(UTC)


@dataclass(frozen=True, slots=True, kw_only=True)
class EntryTaking:
    """Who enters something and why, under which id, and what it corrects.

    `answers` hold the answer to each question by its key: the label of a guess, or any other words to
    keep what was typed.
    """

    person: str | None = None
    device: str | None = None
    entry_id: str | None = None
    answers: Mapping[str, str] = field(default_factory=dict)
    supersedes: str | None = None
    reason: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkTaking(EntryTaking):
    """Who enters work, in which units, and what time it is."""

    family: Family = "mm"
    now: datetime = field(default_factory=_utc_now)


@dataclass(frozen=True, slots=True)
class WorkTaken:
    """The entries that a piece of work makes: itself first, then answers to what was asked about it."""

    entries: tuple[NewEntry, ...]
    body: Body
    words: str
    cautions: tuple[str, ...] = ()


def group_named(bench: Bench, name: str) -> TighteningGroup:
    """A tightening group of the sheet by its id."""
    return _named(bench.sheet.tightening_groups, "tightening group", name)


def step_named(bench: Bench, name: str) -> Step:
    """A step of the order of work by its id."""
    return _named(bench.sheet.steps, "step", name)


def consumable_named(bench: Bench, name: str) -> Consumable:
    """A consumable of the sheet by its id."""
    return _named(bench.sheet.consumables, "consumable", name)


def _named(known: Mapping[str, Thing], what: str, name: str) -> Thing:
    found = known.get(name)
    if found is None:
        raise UnknownNameError(what, name, near(name, known) or list(known))
    return found


def who_did(bench: Bench, named: str, taking: WorkTaking) -> str | None:
    """The person named, by code or name; else who enters it; else the only person of the shop."""
    if named:
        return person_named(bench.shop, named)
    if taking.person is not None:
        return taking.person
    return next(iter(bench.shop.people)) if len(bench.shop.people) == 1 else None


def words_wanted(text: str, what: str, wanted: str) -> str:
    """Words without which something is not worth entering."""
    if not text.strip():
        raise NoWordsError(what, wanted)
    return text.strip()


def check_correction(bench: Bench, kind: type[Body], taking: EntryTaking, called: str = "") -> None:
    """Refuse a correction of what is not there or of another kind, and one without its reason.

    `called` is what such an entry is called, where that is not its kind.
    """
    if taking.supersedes is None:
        return
    held = bench.build.ledger.recorded.get(taking.supersedes)
    if held is None or not isinstance(held.body, kind):
        raise UnknownNameError(called or kind.kind, taking.supersedes[:8], [])
    words_wanted(taking.reason or "", "A correction", "its reason")


def why(taking: WorkTaking) -> dict[str, str | None]:
    """What a body says of what it corrects."""
    return {"supersedes": taking.supersedes, "reason": (taking.reason or "").strip() or None}


def first_open(
    bench: Bench,
    questions: Iterable[Question],
    about: str,
    typed: str,
    taking: WorkTaking,
    answered: list[Answered],
) -> Question | None:
    """The first question without an answer; those answered are noted.

    What was once kept about the same thing (`about`) of this build is not asked again.
    """
    for question in questions:
        answer = taking.answers.get(question.key)
        if answer is not None:
            answered.append(Answered(question, typed, answer))
        elif not kept_about(bench, about, question.key):
            return question
    return None


def kept_about(bench: Bench, about: str, key: str) -> bool:
    """Whether this was asked about the same thing of this build before, and kept; of a gauge once for all."""
    anything = key.startswith(OF_A_GAUGE)
    return any(
        held.body.question == key and (anything or held.body.dimension == about) and held.body.answer == KEEP
        for held in bench.build.questions
    )


def work_taken(
    bench: Bench,
    body: Body,
    words: str,
    taking: WorkTaking,
    *,
    about: str | None = None,
    answered: Iterable[Answered] = (),
    cautions: Iterable[str] = (),
    signed_by: str | None = None,
) -> WorkTaken:
    """The entries of a body and of the answers about it; one that is signed is entered by who signs."""
    build, person = bench.build.build, signed_by or taking.person
    entry = NewEntry(
        id=taking.entry_id or uuid.uuid4().hex,
        build=build,
        kind=body.kind,
        body=body.model_dump(mode="json"),
        person=person,
        device=taking.device,
        client_time=taking.now.isoformat(timespec="milliseconds"),
    )
    answers = (
        answer_entry(
            each, build=build, entry_id=entry.id, dimension=about, person=person, device=taking.device
        )
        for each in answered
    )
    return WorkTaken((entry, *answers), body, words, tuple(each for each in cautions if each))
