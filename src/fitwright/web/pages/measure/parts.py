"""The whole of the page Measure but its number field: what a reading changes."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import UTC, datetime

from fitwright.assess.results import FitVerdict, State, Verdict
from fitwright.drawing.accepted import accepted_in
from fitwright.web.addresses import fit_address
from fitwright.web.fit_lines import FitLine
from fitwright.web.pages.measure.asked import AskedPart
from fitwright.web.pages.measure.here import Here
from fitwright.web.pages.measure.place import AtPart, at_part
from fitwright.web.pages.measure.run import RunPart, run_part
from fitwright.web.pages.measure.sitting import SittingPart, sitting_part
from fitwright.web.view import View

MOST_SCALES = 3


@dataclass(frozen=True, slots=True)
class SaidPart:
    """What came of the last line: `kept`, `unused`, `refused`, `question` or nothing yet."""

    state: str
    title: str
    words: str
    text: str


@dataclass(frozen=True, slots=True)
class OtherFit:
    """A fit that a reading speaks for too, in words."""

    name: str
    address: str
    words: str


@dataclass(frozen=True, slots=True)
class ScalesPart:
    """The limit scales that the last reading, or the place, is about."""

    about: str
    lines: tuple[FitLine, ...]
    others: tuple[OtherFit, ...]


@dataclass(frozen=True, slots=True)
class MeasureParts:
    """Everything that changes with a reading."""

    at: AtPart | None
    said: SaidPart
    asked: AskedPart | None
    scales: ScalesPart
    run: RunPart
    sitting: SittingPart


NOTHING_SAID = SaidPart("", "", "", "")


def measure_parts(
    here: Here,
    *,
    unit: str = "",
    said: SaidPart = NOTHING_SAID,
    asked: AskedPart | None = None,
    about: str = "",
    wrong: str = "",
) -> MeasureParts:
    """The page at a place; `about` is the dimension that was read last, if one was."""
    stop = here.stop
    dimension = about or (stop.dimension if stop is not None else "")
    return MeasureParts(
        at=at_part(here, stop, unit) if stop is not None else None,
        said=said,
        asked=asked,
        scales=_scales(here, dimension),
        run=run_part(here),
        sitting=sitting_part(here, wrong=wrong),
    )


def _scales(here: Here, dimension: str) -> ScalesPart:
    shop = here.hands.shop
    assessor = shop.assessor(here.code)
    subjects = [each.id for each in assessor.judge.subjects.values() if dimension in each.dimensions()]
    found = sorted(shop.verdicts(here.code, subjects), key=_weight)
    shown, others = found[:MOST_SCALES], found[MOST_SCALES:]
    title = here.bench.sheet.dimensions[dimension].title if dimension in here.bench.sheet.dimensions else ""
    view = View(here.code, State.CURRENT, here.family)
    lines = (here.hands.lines.line(view, assessor, each) for each in shown)
    return ScalesPart(title, tuple(lines), tuple(_others(here, others)))


def _weight(found: FitVerdict) -> tuple[bool, bool, bool]:
    """What has limits first, then what says something, then what is outside."""
    return (
        not found.bounds,
        found.verdict is Verdict.NOT_MEASURED,
        found.verdict not in (Verdict.OUTSIDE, Verdict.UNPROVEN),
    )


def _others(here: Here, found: list[FitVerdict]) -> Iterable[OtherFit]:
    accepted = accepted_in(here.hands.shop.assessor(here.code), found, datetime.now(UTC))
    for each in found:
        words = "; ".join(said for said in (each.words, accepted.get(each.id, "")) if said)
        yield OtherFit(each.name, fit_address(here.code, each.id, State.CURRENT, here.family), words)
