"""The form for one reading that is there: correct it, take it back, bring it back, choose about it."""

from __future__ import annotations

import uuid
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final

from fitwright.assess.judging import Judge
from fitwright.assess.results import State
from fitwright.bench.context import Bench
from fitwright.bench.decisions import Decided, choice_of
from fitwright.bench.taking import BLADE_ANSWERS
from fitwright.model.slips import Question
from fitwright.records.entry import NewEntry
from fitwright.records.kinds import BladeObservation, Choice
from fitwright.records.projection import ReadingRecord
from fitwright.units.families import Family
from fitwright.web.addresses import changing_address, fit_address
from fitwright.web.forms import EARLIER, Answered, Asked, asked_of
from fitwright.web.hands import Hands
from fitwright.web.pages.fit_evidence import typed_words
from fitwright.web.people import PersonOption, people_to_choose

DECIDED: Final[Mapping[str, Decided]] = {
    "use again": "use again",
    "use instead": "use instead",
    "keep both": "keep both",
}
"""What can be decided about readings, by what the form's buttons say."""


@dataclass(frozen=True, slots=True)
class OtherReading:
    """Another reading at the same place, that counts now."""

    seq: int
    typed: str


@dataclass(frozen=True, slots=True)
class ChangingForm:
    """One reading with what can be done about it, what was typed, and what is wrong with that.

    `counts` where it is in use; `again` where a person's choice would bring it into use; `others` are
    readings in use at its place, among which somebody can choose.
    """

    action: str
    close: str
    token: str
    entry_id: str
    reading: str
    seq: int
    where: str
    typed: str
    why: str
    value: str
    by_blade: bool
    blades: str
    answers: tuple[str, ...]
    reason: str
    counts: bool
    withdrawn: bool
    again: bool
    others: tuple[OtherReading, ...]
    people: tuple[PersonOption, ...]
    question: Asked | None
    earlier: tuple[Answered, ...]
    wrong: str


@dataclass(frozen=True, slots=True)
class TypedChange:
    """What a form about a reading brought, to be shown again with the question or refusal that it met."""

    reading: str
    fields: Mapping[str, str] = field(default_factory=dict)
    question: Question | None = None
    wrong: str = ""
    person: str | None = None

    def get(self, name: str) -> str:
        """A field as typed; nothing where it was left empty."""
        return self.fields.get(name, "")


def changing_form(
    hands: Hands, code: str, subject: str, family: Family, typed: TypedChange
) -> ChangingForm | None:
    """The form for a reading of a build; None where the build has no such reading."""
    bench, judge = hands.shop.bench(code), hands.shop.assessor(code).judge
    record = bench.build.readings.get(typed.reading)
    if record is None or record.dimension is None or record.dimension not in bench.sheet.dimensions:
        return None
    member = judge.member(record.dimension)
    used = [each for each in member.evidence.used if each.place == record.place]
    counts = any(each.entry.id == record.entry.id for each in used)
    why = next((each.why for each in member.evidence.unused if each.entry == record.entry.id), "")
    chosen = [each.body.choice for each in bench.build.choices_for(record.entry.id)]
    others = used if counts or chosen[-1:] == ["use instead"] else []
    observation = record.body.observation
    blade = observation if isinstance(observation, BladeObservation) else None
    return ChangingForm(
        action=changing_address(code, subject, family),
        close=fit_address(code, subject, State.CURRENT, family),
        token=hands.token.value,
        entry_id=typed.get("entry_id") or uuid.uuid4().hex,
        reading=record.entry.id,
        seq=record.entry.seq,
        where=f"{member.dimension.title}, {record.place.replace('/', ' ')}",
        typed=typed_words(record),
        why=why,
        value=typed.get("value"),
        by_blade=blade is not None,
        blades=typed.get("blades") or ("+".join(blade.blades) if blade is not None else ""),
        answers=tuple(each for each in BLADE_ANSWERS if each != "goes freely"),
        reason=typed.get("reason"),
        counts=counts,
        withdrawn=record.withdrawn_by is not None,
        again=not counts and record.effective and _would_count(judge, bench, record),
        others=tuple(
            OtherReading(each.entry.seq, typed_words(each))
            for each in others
            if each.entry.id != record.entry.id
        ),
        people=people_to_choose(bench.shop, typed.get("person") or typed.person),
        question=asked_of(typed.question),
        earlier=tuple(
            Answered(name, words) for name, words in typed.fields.items() if name.startswith(EARLIER)
        ),
        wrong=typed.wrong,
    )


def alike(judge: Judge, record: ReadingRecord) -> tuple[str, ...]:
    """The readings of the same dimension that do not count for the same reason, this one among them."""
    if record.dimension is None:
        return (record.entry.id,)
    unused = judge.member(record.dimension).evidence.unused
    why = next((each.why for each in unused if each.entry == record.entry.id), None)
    return tuple(each.entry for each in unused if each.why == why) or (record.entry.id,)


def others_at(judge: Judge, record: ReadingRecord) -> tuple[str, ...]:
    """The other readings in use at the place of a reading."""
    if record.dimension is None:
        return ()
    used = judge.member(record.dimension).evidence.used
    here = (each.entry.id for each in used if each.place == record.place)
    return tuple(each for each in here if each != record.entry.id)


def _would_count(judge: Judge, bench: Bench, record: ReadingRecord) -> bool:
    """Whether a choice to use it again would bring a reading into use."""
    body = choice_of("use again", [record.entry.id], reason="supposed")
    supposed = NewEntry(uuid.uuid4().hex, bench.build.build, Choice.kind, body.model_dump(mode="json"))
    then = Judge(judge.sheet, bench.shop, bench.build.supposing([supposed]), judge.state)
    used = then.member(record.dimension or "").evidence.used
    return any(each.entry.id == record.entry.id for each in used)
