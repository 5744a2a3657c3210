"""A build in a line: counts of its verdicts, what is outside, what comes next."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Final

from markupsafe import Markup

from fitwright.assess.results import Assessment, FitVerdict, State, Verdict
from fitwright.drawing.accepted import accepted_in
from fitwright.drawing.figures import Reader
from fitwright.drawing.marks import mark_drawing
from fitwright.drawing.sentences import settle_sentence, titles_in
from fitwright.model.limit import SourceKind
from fitwright.model.sheet import Sheet
from fitwright.units.families import Family
from fitwright.web.addresses import fit_address, fits_address, measure_address
from fitwright.web.shop import ShopForWeb
from fitwright.web.work_line import WorkLine, work_line

MOST_OUTSIDE: Final = 8
"""So many fits that are outside are named in the line of a build; all are on its page Fits."""


@dataclass(frozen=True, slots=True)
class FitLink:
    """A fit by name, with the way to it, and under which concession it stands if it does."""

    name: str
    address: str
    accepted: str


@dataclass(frozen=True, slots=True)
class Count:
    """How many fits have a verdict, with its mark and the way to them."""

    mark: Markup
    number: int
    word: str
    address: str


@dataclass(frozen=True, slots=True)
class NextStep:
    """What comes next: what is to be done, where, and why. Without an address there is nothing to do."""

    label: str
    words: str
    address: str


@dataclass(frozen=True, slots=True)
class BuildLine:
    """What the verdicts on a build come to."""

    counts: tuple[Count, ...]
    outside: tuple[FitLink, ...]
    more_outside: int
    notes: str
    next: NextStep
    work: WorkLine | None


def build_line(shop: ShopForWeb, code: str) -> BuildLine:
    """The line of a build from its current verdicts."""
    found, sheet = shop.assessment(code, State.CURRENT), shop.bench(code).sheet
    family: Family = "inch" if sheet.engine.unit_family == "inch" else "mm"
    outside = [each for each in found.verdicts.values() if each.verdict is Verdict.OUTSIDE]
    accepted = accepted_in(shop.assessor(code), outside, datetime.now(UTC))
    return BuildLine(
        counts=tuple(_counts(code, found, family)),
        outside=tuple(
            FitLink(
                each.name,
                fit_address(code, each.id, State.CURRENT, family),
                accepted.get(each.id, ""),
            )
            for each in outside[:MOST_OUTSIDE]
        ),
        more_outside=max(0, len(outside) - MOST_OUTSIDE),
        notes=_notes(found),
        next=_next(shop, code, sheet, found, family),
        work=work_line(shop.assembly(code), code, family) if sheet.steps else None,
    )


def _counts(code: str, found: Assessment, family: Family) -> Iterator[Count]:
    for verdict in (Verdict.OUTSIDE, Verdict.UNPROVEN, Verdict.NOT_MEASURED, Verdict.WITHIN):
        address = fits_address(code, State.CURRENT, family, only=verdict.value)
        mark = Markup(mark_drawing(verdict))  # noqa: S704  (our own drawing)
        yield Count(mark, found.count(verdict), verdict.value.replace("-", " "), address)


def _notes(found: Assessment) -> str:
    """What the counts do not say: how many limits are rules of thumb, and what was not recorded."""
    within = [each for each in found.verdicts.values() if each.verdict is Verdict.WITHIN]
    thumb = sum(each.source_kind == SourceKind.RULE_OF_THUMB for each in within)
    absent = len(found.not_recorded)
    notes = [
        f"{thumb} of those within are within a rule of thumb only" if thumb else "",
        f"{absent} {'thing was' if absent == 1 else 'things were'} not recorded" if absent else "",
    ]
    return "; ".join(note for note in notes if note)


def _next(shop: ShopForWeb, code: str, sheet: Sheet, found: Assessment, family: Family) -> NextStep:
    """The next station with open places; when all are read, what is unproven and what would settle it."""
    places = open_places(sheet, found)
    for station in sheet.stations.values():
        number = places[station.id]
        if number:
            words = f"{number} {'place' if number == 1 else 'places'} to read or answer"
            return NextStep(station.title, words, measure_address(code, family, station=station.id))
    unproven = _weightiest(found)
    if unproven is not None:
        settling = shop.assessor(code).settling(unproven.id)
        words = settle_sentence(unproven, settling, Reader(family), titles_in(sheet))
        address = fit_address(code, unproven.id, State.CURRENT, family)
        return NextStep(unproven.name, f"{unproven.words}{f'; {words}' if words else ''}", address)
    return NextStep("", "Everything that the sheet asks for has a reading or an answer.", "")


def open_places(sheet: Sheet, found: Assessment) -> Counter[str]:
    """How many places and eye checks of each station wait for a reading or an answer."""
    places: Counter[str] = Counter()
    for each in found.not_recorded:
        if each.because is None and each.station is not None:
            dimension = sheet.dimensions.get(each.id)
            places[each.station] += len(dimension.places) if dimension is not None else 1
    return places


def _weightiest(found: Assessment) -> FitVerdict | None:
    """The first unproven fit, a critical one before others."""
    unproven = [each for each in found.verdicts.values() if each.verdict is Verdict.UNPROVEN]
    critical = (each for each in unproven if each.limit_class == "critical")
    return next(critical, unproven[0] if unproven else None)
