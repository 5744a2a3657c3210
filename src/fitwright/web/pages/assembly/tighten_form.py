"""The form by which fasteners are tightened: all that want a pass in one touch, or one after the other."""

from __future__ import annotations

import uuid
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Final

from fitwright.assess.assembly.results import GroupStanding, PassStanding
from fitwright.bench.context import Bench
from fitwright.bench.new_sets import takes_new_sets
from fitwright.bench.tightening_amounts import Gauges, amounts_asked, pass_of
from fitwright.bench.wrenches import usable_range
from fitwright.data.fasteners import lubricants
from fitwright.model.fastener import Pass, TighteningGroup, readable_names
from fitwright.model.slips import Question
from fitwright.records.kinds import Instrument, Tightening
from fitwright.units import definition_of, format_value
from fitwright.web.addresses import assembly_address
from fitwright.web.forms import EARLIER, Answered, Asked, Option, answers_in, asked_of
from fitwright.web.pages.assembly.group_facts import lubricant_words
from fitwright.web.pages.assembly.opened import Opened
from fitwright.web.people import PersonOption, people_to_choose

WHAT: Final = {
    "torque": "Torque",
    "angle": "Angle",
    "stretch": "Stretch",
    "tightened_length": "Lengths",
}
"""What can be typed for one fastener; lengths are two."""


@dataclass(frozen=True, slots=True)
class TightenState:
    """What a form brought, with what came of it; empty where the page is opened."""

    fields: Mapping[str, str] = field(default_factory=dict)
    question: Question | None = None

    def get(self, name: str) -> str:
        """A field as typed."""
        return self.fields.get(name, "")


@dataclass(frozen=True, slots=True)
class PassChoice:
    """A pass of the group, how far it has come, and whether it is the one in hand."""

    number: int
    words: str
    count: str
    complete: bool
    due: bool
    address: str
    chosen: bool


@dataclass(frozen=True, slots=True)
class AllButton:
    """The one touch for all fasteners that want the pass: what it says, and what it sends."""

    label: str
    words: str
    fasteners: str
    torque: str
    angle: str


@dataclass(frozen=True, slots=True)
class WhatOption:
    """Something that can be typed for one fastener, and the unit that counts where none is typed."""

    value: str
    label: str
    unit: str
    chosen: bool


@dataclass(frozen=True, slots=True)
class OneFastener:
    """The fastener in hand: what it has got, what the pass asks of it, and the ways along the order."""

    order: int
    id: str
    name: str
    count: str
    got: str
    wants: str
    whats: tuple[WhatOption, ...]
    value: str
    free_length: str
    also: str
    length_unit: str
    torque_unit: str
    part: str
    before: str
    after: str


@dataclass(frozen=True, slots=True)
class TightenForm:
    """The whole form; `names_bolts` where a set of new bolts is named as it is tightened."""

    action: str
    effect: str
    token: str
    entry_id: str
    number: int
    passes: tuple[PassChoice, ...]
    all: AllButton | None
    one_by_one: str
    one: OneFastener | None
    wrenches: tuple[Option, ...]
    no_wrench: str
    lubricants: tuple[Option, ...]
    people: tuple[PersonOption, ...]
    with_words: str
    question: Asked | None
    earlier: tuple[Answered, ...]
    note: str
    names_bolts: bool
    bolts: str
    supersedes: str
    corrected: int


def tighten_form(
    opened: Opened, group: GroupStanding, state: TightenState, *, at: str, number: int, person: str | None
) -> TightenForm:
    """The form of a group, filled with what is known or was typed."""
    bench, code, family = opened.bench, opened.code, opened.family
    wrench = _wrench(bench, group, state.get("wrench"), asked="wrench" in state.fields)
    chosen = group.passes[number - 1] if 0 < number <= len(group.passes) else None
    people = people_to_choose(bench.shop, state.get("person") or person)
    lubricant = state.get("lubricant")
    corrected = bench.build.ledger.recorded.get(state.get("supersedes"))
    return TightenForm(
        action=assembly_address(code, family, group=group.id, rest="/tighten"),
        effect=assembly_address(code, family, group=group.id, rest="/effect"),
        token=opened.hands.token.value,
        entry_id=state.get("entry_id") or uuid.uuid4().hex,
        number=number,
        passes=tuple(_passes(opened, group, number)),
        all=_all_button(opened, chosen) if chosen is not None else None,
        one_by_one=_one_by_one(chosen),
        one=_one(opened, group, state, at, number, wrench),
        wrenches=tuple(_wrenches(bench, wrench)),
        no_wrench="" if wrench is not None else "no wrench named",
        lubricants=tuple(_lubricants(opened, group.group, lubricant)),
        people=people,
        with_words=", ".join(_with(opened, group.group, wrench, people, lubricant)),
        question=asked_of(state.question),
        earlier=_earlier(state),
        note=state.get("note"),
        names_bolts=not takes_new_sets(bench.sheet, group.group),
        bolts=state.get("bolts"),
        supersedes=state.get("supersedes") if corrected is not None else "",
        corrected=corrected.entry.seq if corrected is not None else 0,
    )


def _passes(opened: Opened, group: GroupStanding, chosen: int) -> Iterator[PassChoice]:
    for each in group.passes:
        yield PassChoice(
            number=each.number,
            words=opened.reader.pass_words(each.asks),
            count=f"{len(each.done)} of {len(group.fasteners)}",
            complete=each.complete,
            due=each.due,
            address=opened.group_address(group.id, **{"pass": str(each.number)}),
            chosen=each.number == chosen,
        )


def _all_button(opened: Opened, chosen: PassStanding) -> AllButton | None:
    """All that want the pass; none where what it asks is read of each fastener by itself."""
    asks = chosen.asks
    by_stretch = asks.stretch_low is not None or asks.stretch_high is not None
    if not chosen.missing or by_stretch or (asks.torque is None and asks.angle is None):
        return None
    count = len(chosen.missing)
    whole = not chosen.done
    label = f"All of pass {chosen.number}" if whole else f"The other {count} of pass {chosen.number}"
    if not whole and count == 1:
        label = f"The last one of pass {chosen.number}"
    return AllButton(
        label=label,
        words=opened.reader.pass_words(asks),
        fasteners=" ".join(chosen.missing),
        torque=opened.reader.torque(asks.torque) if asks.torque is not None else "",
        angle=opened.reader.angle(asks.angle) if asks.angle is not None else "",
    )


def _one_by_one(chosen: PassStanding | None) -> str:
    """Why there is no one touch for all, in words."""
    if chosen is None:
        return "The sheet states no value for this group yet. What was done is recorded one by one."
    if chosen.asks.stretch_low is not None or chosen.asks.stretch_high is not None:
        return "Stretch is read of each fastener by itself."
    return ""


def _one(
    opened: Opened, group: GroupStanding, state: TightenState, at: str, number: int, wrench: Instrument | None
) -> OneFastener | None:
    names = [each.id for each in group.fasteners]
    found = group.fastener(at) if at else None
    if found is None:
        return None
    index = names.index(at)
    asks = pass_of(group.group, number)
    units = _units(opened, group.group, number, wrench)
    chosen = state.get("what") if state.get("what") in WHAT else _first_asked(asks)
    last = found.passes[-1] if found.passes else None
    free = state.get("free_length")
    if not free and last is not None and last.free_length is not None:
        free = opened.reader.stretch_of(last.free_length)
    return OneFastener(
        order=index + 1,
        id=at,
        name=readable_names(group.group)[at],
        count=f"{index + 1} of {len(names)}",
        got=found.words,
        wants=opened.reader.pass_words(asks),
        whats=tuple(WhatOption(name, label, units[name], name == chosen) for name, label in WHAT.items()),
        value=state.get("value"),
        free_length=free,
        also=state.get("also"),
        length_unit=units["tightened_length"],
        torque_unit=units["torque"],
        part=state.get("part") or found.part or "",
        before=_beside(opened, group, names, index - 1, number),
        after=_beside(opened, group, names, index + 1, number),
    )


def _first_asked(asks: Pass) -> str:
    """What is typed of a fastener in this pass, unless somebody chooses otherwise."""
    if asks.stretch_low is not None or asks.stretch_high is not None:
        return "stretch"
    return "angle" if asks.angle is not None else "torque"


def _units(opened: Opened, group: TighteningGroup, number: int, wrench: Instrument | None) -> dict[str, str]:
    """The unit in which each amount counts, as it is written."""
    asked = amounts_asked(group, number, opened.family, Gauges(wrench))
    return {each.name: definition_of(each.unit, each.dimension).shown for each in asked}


def _beside(opened: Opened, group: GroupStanding, names: list[str], index: int, number: int) -> str:
    if not 0 <= index < len(names):
        return ""
    return opened.group_address(group.id, at=names[index], **{"pass": str(number)})


def wrenches_of(bench: Bench) -> tuple[Instrument, ...]:
    """The instruments of the shop that read a torque."""
    every = (held.body for held in bench.shop.instruments.values())
    return tuple(each for each in every if definition_of(each.unit).dimension == "torque")


def _wrench(bench: Bench, group: GroupStanding, named: str, *, asked: bool) -> Instrument | None:
    """The wrench named; else the last one of this group, of this build, the only one of the shop."""
    known = {each.code: each for each in wrenches_of(bench)}
    if asked:
        return known.get(named)
    work = bench.build.work.tightened
    for own in (work.get(group.id, ()), *(entries for name, entries in work.items() if name != group.id)):
        for held in reversed(own):
            if isinstance(held.body, Tightening) and held.body.wrench in known:
                return known[held.body.wrench or ""]
    return next(iter(known.values())) if len(known) == 1 else None


def _wrenches(bench: Bench, chosen: Instrument | None) -> Iterator[Option]:
    for each in wrenches_of(bench):
        label = f"{each.code}: {', '.join(_wrench_words(bench, each))}"
        yield Option(each.code, label, chosen is not None and each.code == chosen.code, each.unit)


def _wrench_words(bench: Bench, wrench: Instrument) -> Iterator[str]:
    """What a wrench is, how far its scale goes, and when it was calibrated."""
    yield wrench.title
    reach = usable_range(wrench)
    if reach.range_low is not None and reach.range_high is not None:
        low = format_value(reach.range_low, wrench.unit, 0, dimension="torque").partition(" ")[0]
        yield f"{low} to {format_value(reach.range_high, wrench.unit, 0, dimension='torque')}"
    held = bench.shop.calibration_of(wrench.code)
    if held is None:
        yield "calibration not recorded"
    else:
        yield "never calibrated" if held.body.never else f"calibrated {held.body.date or 'undated'}"


def _lubricants(opened: Opened, group: TighteningGroup, chosen: str) -> Iterator[Option]:
    """Lubricants of the sheet first, then those of the tables."""
    of_sheet = {
        each.id: each.title for each in opened.bench.sheet.consumables.values() if each.friction is not None
    }
    of_data = {each.name: each.title for each in lubricants().values()}
    for name, title in (of_sheet | of_data).items():
        if name != group.lubricant:
            yield Option(name, title, name == chosen)


def _with(
    opened: Opened,
    group: TighteningGroup,
    wrench: Instrument | None,
    people: tuple[PersonOption, ...],
    lubricant: str,
) -> Iterator[str]:
    """With what and by whom, in one line."""
    yield f"with {wrench.code}" if wrench is not None else "no wrench named"
    known = {each.value: each.label for each in _lubricants(opened, group, lubricant)}
    yield known.get(lubricant, "") or lubricant_words(group, opened)
    yield next((f"by {each.name}" for each in people if each.chosen), "nobody is picked")


def _earlier(state: TightenState) -> tuple[Answered, ...]:
    return tuple(Answered(EARLIER + key, words) for key, words in answers_in(state.fields).items())
