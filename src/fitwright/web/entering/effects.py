"""What a form would un-prove, or has just un-proved: fit by fit, with the way to measure it again."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from fitwright.assess.assessment import Assessor
from fitwright.assess.consequences import Consequence, Consequences, consequences_of
from fitwright.assess.judging import Judge
from fitwright.assess.results import FitVerdict, State, Verdict
from fitwright.bench.fastener_lists import fastener_words
from fitwright.records.entry import NewEntry
from fitwright.units.families import Family
from fitwright.web.addresses import assembly_address, fit_address, measure_address

MOST_SHOWN = 40
"""So many fits are named; of more it is said how many."""


@dataclass(frozen=True, slots=True)
class EffectLine:
    """One fit: what it says before and after, why, and where it is measured again."""

    name: str
    address: str
    before: str
    after: str
    why: str
    measure: str


@dataclass(frozen=True, slots=True)
class EffectPoint:
    """Something else that follows, in words; with an address where it is looked up."""

    name: str
    address: str
    words: str


@dataclass(frozen=True, slots=True)
class Effects:
    """What was typed in both units, all that follows in a sentence, then fit by fit or point by point.

    `done` once it is written.
    """

    echo: str
    lead: str
    lines: tuple[EffectLine, ...]
    more: str
    done: bool
    points: tuple[EffectPoint, ...] = ()


NO_EFFECTS = Effects("", "", (), "", done=False)


def effects_of(
    assessor: Assessor, code: str, family: Family, entries: Sequence[NewEntry], *, done: bool, echo: str = ""
) -> Effects:
    """What entries do to the fits; asked before they are taken up."""
    found = consequences_of(assessor, entries)
    lines = tuple(_line(assessor.judge, code, family, each) for each in found.fits[:MOST_SHOWN])
    rest = len(found.fits) - len(lines)
    more = f"and {rest} more" if rest > 0 else ""
    points = tuple(_untightened(assessor.judge, code, family, found))
    return Effects(echo, " ".join(_lead(found, done=done)), lines, more, done, points)


def _untightened(judge: Judge, code: str, family: Family, found: Consequences) -> Iterator[EffectPoint]:
    for each in found.untightened:
        group = judge.sheet.tightening_groups[each.group]
        came_out = "part that comes out" if len(each.fasteners) == 1 else "parts that come out"
        words = f"{fastener_words(group, each.fasteners)}, tightened with the {came_out}"
        yield EffectPoint(group.title, assembly_address(code, family, group=group.id), words)


def _lead(found: Consequences, *, done: bool) -> Iterator[str]:
    fits = sum(1 for each in found.fits if each.unproves)
    others = len(found.fits) - fits
    if found.lost:
        readings = "1 reading is" if found.lost == 1 else f"{found.lost} readings are"
        will = "now" if done else "then"
        yield f"{readings} kept and {will} no longer used; {_count(fits, 'rests', 'rest')} on them."
    if found.gained:
        again = "1 reading counts" if found.gained == 1 else f"{found.gained} readings count"
        yield f"{again} again." if done else f"{again} again then."
    if others and not found.gained:
        yield f"{_count(others, 'is', 'are')} judged otherwise."
    fasteners = sum(len(each.fasteners) for each in found.untightened)
    if fasteners:
        whose = "1 fastener" if fasteners == 1 else f"{fasteners} fasteners"
        yield f"The tightening of {whose} {'now' if done else 'then'} no longer counts."
    if not found.fits and not found.lost and not found.gained and not fasteners:
        yield "It un-proves nothing."


def _count(number: int, one: str, many: str) -> str:
    return f"1 fit {one}" if number == 1 else f"{number or 'no'} fits {many}"


def _line(judge: Judge, code: str, family: Family, each: Consequence) -> EffectLine:
    name = each.after.id
    return EffectLine(
        name=each.after.name,
        address=fit_address(code, name, State.CURRENT, family),
        before=verdict_words(each.before),
        after=verdict_words(each.after),
        why="; ".join(each.why[:2]),
        measure=_measure(judge, code, family, each.dimensions),
    )


def verdict_words(found: FitVerdict) -> str:
    """The verdict, and of an unproven one why; what changed stands beside it."""
    if found.verdict is Verdict.UNPROVEN and found.reason is not None:
        return f"unproven, {found.reason.value}"
    return found.words


def _measure(judge: Judge, code: str, family: Family, dimensions: tuple[str, ...]) -> str:
    """Where the first size that lost readings is measured."""
    for name in dimensions:
        dimension = judge.sheet.dimensions[name]
        if dimension.station is not None:
            place = dimension.places[0].id
            return measure_address(code, family, station=dimension.station, dimension=name, place=place)
    return ""
