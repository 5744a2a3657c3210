"""What `measure` shows: a place before it is read, and the verdicts that a reading touched."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from fitwright.assess.results import FitVerdict, Reason, Verdict
from fitwright.assess.settling import Settling
from fitwright.bench.context import Bench
from fitwright.bench.expected import expected_of, limits_words
from fitwright.bench.progress import reading_words
from fitwright.bench.short_entries import AtPlace
from fitwright.drawing.accepted import accepted_words
from fitwright.drawing.figures import MARKS, Reader
from fitwright.drawing.sentences import settle_sentence, verdict_sentence
from fitwright.records.entry import NewEntry
from fitwright.units.families import Family
from fitwright.wiring import Shop

HELP = (
    "  60.511, 2.3823 in    the full size, in the gauge's unit or the one named",
    "  11                   the last digits, where the place shows them blank",
    "  +11, -3              divisions of the gauge from the size that it was set to",
    "  F2:0.06 goes         a blade (or SET:A+SET:B, a stack): goes g, goes freely f, drags d, does not go n",
    "  undo                 take the last entry back; again: go back to the last place and read it again",
    "  instead VALUE because REASON   correct the reading taken last",
    "  skip, because WORDS  pass this place over; say why this dimension is not measured",
    "  move on N, move back N   the last N readings belong one place on or back",
    "  with CODE, set CODE  read with another gauge; in another setting",
    "  end                  stop here; everything acknowledged is kept",
)
EARLIER_SHOWN = 3
TOUCHED_SHOWN = 6


def describe(bench: Bench, at: AtPlace) -> Iterator[str]:
    """A place: what is measured, the size with its blank digits, limits, what was read before."""
    dimension, place = at.dimension, at.place
    where = "" if place.id == "whole" else f", {place.id}"
    condition = bench.sheet.conditions.get(dimension.condition or "")
    yield ""
    yield f"{dimension.title}{where}" + (f" ({condition.title})" if condition is not None else "")
    facts = [at.pattern and f"{at.pattern} {at.unit}", _limits(bench, at), _gauge(at), _earlier(bench, at)]
    shown = "; ".join(fact for fact in facts if fact)
    if shown:
        yield f"  {shown}"


def _limits(bench: Bench, at: AtPlace) -> str:
    expected = expected_of(bench.sheet, at.dimension)
    words = limits_words(expected, at.unit, at.quantity_dimension, _resolution(at))
    return f"limits {words}" if words else ""


def _resolution(at: AtPlace) -> float | None:
    if at.instrument is not None:
        return at.instrument.resolution
    return 1e-6 if at.quantity_dimension == "length" else None


def _gauge(at: AtPlace) -> str:
    if at.instrument is None:
        return ""
    if at.setting is not None:
        return f"{at.instrument.code} in setting {at.setting.code}"
    return f"{at.instrument.code}, not set" if at.instrument.comparison else at.instrument.code


def _earlier(bench: Bench, at: AtPlace) -> str:
    found = [
        record
        for record in bench.build.readings_of(at.dimension.feature)
        if record.place == at.place.id and record.effective and record.dimension == at.dimension.id
    ]
    return f"before: {', '.join(map(reading_words, found[-EARLIER_SHOWN:]))}" if found else ""


def concerned(shop: Shop, build: str, entries: Iterable[NewEntry]) -> frozenset[str]:
    """The fits that rest on the dimensions that entries are about: those whose verdicts one wants to see."""
    held = shop.bench(build).build.readings
    dimensions: set[str | None] = set()
    for entry in entries:
        body = entry.body
        named = [move["entry"] for move in body.get("moves", ())] + [body.get("entry")]
        dimensions |= {body.get("dimension"), *(move["dimension"] for move in body.get("moves", ()))}
        for each in named:
            if each in held:
                dimensions |= {held[each].dimension, held[each].body.dimension}
    subjects = shop.assessor(build).judge.subjects.values()
    return frozenset(each.id for each in subjects if not dimensions.isdisjoint(each.dimensions()))


def verdict_lines(shop: Shop, build: str, touched: Iterable[str], family: Family) -> Iterator[str]:
    """The verdicts that an entry touched, without those that still have no reading."""
    reader, assessor = Reader(family), shop.assessor(build)
    speaking = [each for each in shop.verdicts(build, sorted(touched)) if _speaks(each)]
    found = [each for each in speaking if each.reason is not Reason.INCOMPLETE]
    for each in found[:TOUCHED_SHOWN]:
        adopting = each.reason is Reason.NO_LIMIT_ADOPTED  # no reading settles it: not said at every one
        settle = "" if adopting else settle_sentence(each, assessor.settling(each.id), reader)
        tail = f" To settle it: {settle}." if settle else ""
        accepted = accepted_words(assessor, each, shop.clock())
        tail = f"{tail} It stands {accepted}." if accepted else tail
        yield f"  {MARKS[each.verdict]} {each.name}: {verdict_sentence(each, reader)}{tail}"
    if len(found) > TOUCHED_SHOWN:
        yield f"  and {len(found) - TOUCHED_SHOWN} more; `fitwright check {build}` shows them all"
    waiting = [each for each in speaking if each.reason is Reason.INCOMPLETE]
    if waiting:
        names = [_still_wanted(each, assessor.settling(each.id), reader) for each in waiting[:TOUCHED_SHOWN]]
        more = f"; and {len(waiting) - TOUCHED_SHOWN} more" if len(waiting) > TOUCHED_SHOWN else ""
        yield f"  {MARKS[Verdict.UNPROVEN]} incomplete so far: {'; '.join(names)}{more}"


def _still_wanted(found: FitVerdict, settling: Settling | None, reader: Reader) -> str:
    """A fit of which only a part was read yet, with what it waits for."""
    wanted = settle_sentence(found, settling, reader)
    return f"{found.name} ({wanted})" if wanted else found.name


def _speaks(found: FitVerdict) -> bool:
    return found.verdict is not Verdict.NOT_MEASURED and bool(found.bounds)
