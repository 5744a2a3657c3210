"""What the order of work rests on besides its steps: groups, consumables, parts used once, parts moved."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import timedelta

from markupsafe import Markup

from fitwright.assess.assembly.results import (
    ConsumableStanding,
    ConsumableUse,
    GroupStanding,
    OneTimePart,
    PartMove,
)
from fitwright.assess.results import Verdict
from fitwright.drawing.bolt_pattern.standing import verdict_of
from fitwright.drawing.marks import mark_drawing
from fitwright.drawing.step_marks import condition_mark
from fitwright.web.addresses import record_address, thing_address
from fitwright.web.pages.assembly.opened import Opened
from fitwright.web.pages.assembly.timers import Timer, left_words, timer


@dataclass(frozen=True, slots=True)
class GroupLine:
    """A tightening group: its mark, what it stands at, who is next."""

    mark: Markup
    title: str
    address: str
    words: str
    reached: str


@dataclass(frozen=True, slots=True)
class UseLine:
    """One use of a consumable: in which step, how long it still cures, how long it can be worked."""

    where: str
    words: str
    by: str
    entry: int
    record: str
    cures: Timer | None
    works: Timer | None
    wrong: str


@dataclass(frozen=True, slots=True)
class BatchPart:
    """A batch of a consumable in one line, and its uses; `running` are those whose clock still runs."""

    title: str
    words: str
    running: tuple[UseLine, ...]
    uses: tuple[UseLine, ...]


@dataclass(frozen=True, slots=True)
class ConsumablePart:
    """A consumable of the sheet with what was used of it, batch by batch."""

    title: str
    kind: str
    times: str
    not_on: str
    words: str
    batches: tuple[BatchPart, ...]


@dataclass(frozen=True, slots=True)
class OneTimeLine:
    """A part that may be used once: new, or why not."""

    mark: Markup
    title: str
    words: str
    address: str


@dataclass(frozen=True, slots=True)
class MoveLine:
    """A part that sat in more than one position, with where it was, in order."""

    part: str
    title: str
    words: str
    history: tuple[str, ...]
    address: str


def group_lines(opened: Opened) -> tuple[GroupLine, ...]:
    """All tightening groups, in the order of the sheet."""
    return tuple(group_line(opened, each) for each in opened.standing.groups.values())


def group_line(opened: Opened, group: GroupStanding) -> GroupLine:
    """A tightening group as a line; its mark is that of its worst fastener."""
    return GroupLine(
        mark=Markup(mark_drawing(group_verdict(group))),  # noqa: S704  (our own drawing)
        title=group.title,
        address=opened.group_address(group.id),
        words=group.words.removeprefix("complete").strip(" ,;:"),
        reached=f"{sum(each.complete for each in group.fasteners)} of {len(group.fasteners)} complete",
    )


def group_verdict(group: GroupStanding) -> Verdict:
    """The mark of a group: within where it is complete and nothing is to be said against a fastener."""
    found = {verdict_of(each) for each in group.fasteners}
    for worst in (Verdict.OUTSIDE, Verdict.UNPROVEN):
        if worst in found:
            return worst
    return Verdict.WITHIN if group.complete else Verdict.NOT_MEASURED


def consumable_parts(opened: Opened) -> tuple[ConsumablePart, ...]:
    """All consumables, in the order of the sheet."""
    return tuple(consumable_part(opened, each) for each in opened.standing.consumables.values())


def consumable_part(opened: Opened, found: ConsumableStanding) -> ConsumablePart:
    """A consumable with how long it can be worked and cures, and what was used of it."""
    on_sheet = opened.bench.sheet.consumables.get(found.id)
    return ConsumablePart(
        title=found.title,
        kind=found.kind,
        times=", ".join(_times(found)),
        not_on=(on_sheet.not_on or "") if on_sheet is not None else "",
        words=found.words,
        batches=tuple(_batches(opened, found)),
    )


def _batches(opened: Opened, found: ConsumableStanding) -> Iterator[BatchPart]:
    batches: dict[str, list[ConsumableUse]] = {}
    for each in found.uses:
        batches.setdefault(_batch_words(each), []).append(each)
    for title, uses in batches.items():
        lines = tuple(_use(opened, found, each) for each in uses)
        wrong = sum(not each.in_order for each in uses)
        times = "used once" if len(uses) == 1 else f"used {len(uses)} times"
        yield BatchPart(
            title=title or "no batch recorded",
            words=f"{times}, {f'{wrong} not in order' if wrong else 'in order'}",
            running=tuple(each for each in lines if each.cures or each.works),
            uses=lines,
        )


def _batch_words(use: ConsumableUse) -> str:
    good = f"good until {use.expires}" if use.expires else ""
    return ", ".join(filter(None, (f"batch {use.batch}" if use.batch else "", good)))


def _times(found: ConsumableStanding) -> Iterator[str]:
    if found.pot_life is not None:
        yield f"to be put on within {left_words(found.pot_life)}"
    if found.cure_time is not None:
        yield f"cured after {left_words(found.cure_time)}"


def _use(opened: Opened, found: ConsumableStanding, use: ConsumableUse) -> UseLine:
    works = None
    if use.mixed_at is not None and use.applied_at is None and found.pot_life is not None:
        end = use.mixed_at + timedelta(seconds=found.pot_life)
        works = timer(opened.now, end, opened.moment(end))
    cures = timer(opened.now, use.cured_from, opened.moment(use.cured_from))
    step = opened.standing.steps.get(use.step or "")
    return UseLine(
        where=step.title if step is not None else "",
        words="" if cures is not None else use.words,
        by=opened.deed(use.deed),
        entry=use.deed.seq,
        record=record_address(opened.code, entry=use.deed.seq),
        cures=cures,
        works=works,
        wrong="" if use.in_order else ", ".join(_wrong(use)),
    )


def _wrong(use: ConsumableUse) -> Iterator[str]:
    if use.batch_missing:
        yield "no batch was recorded"
    if use.expired:
        yield f"expired {use.expires}"
    if use.over_pot_life:
        yield f"put on {left_words(use.over_pot_life)} too late"


def one_time_lines(opened: Opened, *, new: bool) -> tuple[OneTimeLine, ...]:
    """Parts that may be used once: those that are new, or those that are not."""
    return tuple(_one_time(opened, each) for each in opened.standing.one_time_parts if each.new is new)


def _one_time(opened: Opened, found: OneTimePart) -> OneTimeLine:
    group = found.subject.partition("/")[0]
    address = (
        opened.group_address(group)
        if "/" in found.subject and group in opened.standing.groups
        else thing_address(opened.code, opened.family, position=found.subject)
    )
    mark = Markup(condition_mark(holds=found.new))  # noqa: S704  (our own drawing)
    return OneTimeLine(mark, found.title, found.words, address)


def move_lines(opened: Opened) -> tuple[MoveLine, ...]:
    """Parts that moved, each with its history."""
    return tuple(_move(opened, each) for each in opened.standing.moves)


def _move(opened: Opened, found: PartMove) -> MoveLine:
    history = tuple(
        f"{each.title if each.position else 'taken out'} (entry {each.seq})" for each in found.history
    )
    address = thing_address(opened.code, opened.family, part=found.part)
    return MoveLine(found.part, found.title, found.words, history, address)
