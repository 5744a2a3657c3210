"""Fits: every fit of a build with its limit scale and verdict, station by station."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import ClassVar

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response

from fitwright.assess.results import Assessment, FitVerdict, NotOnSheet, NotRecorded, State, Verdict
from fitwright.assess.words import BEFORE_METAL, HOT_NOT_JUDGED
from fitwright.drawing.sentences import summary_sentence
from fitwright.model.sheet import Sheet
from fitwright.units.families import Family
from fitwright.web.addresses import BOTH, fits_address
from fitwright.web.fit_lines import FitLine
from fitwright.web.frame import Frame, frame_of
from fitwright.web.hands import Hands, family_of, hands_of, is_known, state_of
from fitwright.web.pages import both
from fitwright.web.pages.builds import facts_of
from fitwright.web.pages.choices import Choice, state_choices, unit_choices
from fitwright.web.pages.problem import no_build
from fitwright.web.rendering import page

_FILTERS = {
    Verdict.OUTSIDE: "outside",
    Verdict.UNPROVEN: "unproven",
    Verdict.NOT_MEASURED: "not measured",
    Verdict.WITHIN: "within",
}


@dataclass(frozen=True, slots=True)
class StationPart:
    """The fits of one station, with the caution for its work; `open` counts what is not within."""

    anchor: str
    title: str
    caution: str | None
    open: int
    fits: tuple[FitLine, ...]


@dataclass(frozen=True, slots=True)
class LeftOut:
    """Something that is no part of this job, and why."""

    title: str
    reason: str


@dataclass(frozen=True, slots=True)
class FitsContext:
    """The page Fits of a build."""

    template: ClassVar[str] = "fits.html"
    frame: Frame
    facts: str
    owner_words: str | None
    states: tuple[Choice, ...]
    units: tuple[Choice, ...]
    summary: str
    has_readings: bool
    filters: tuple[Choice, ...]
    filtered: str
    stations: tuple[StationPart, ...]
    unlimited: tuple[FitLine, ...]
    not_recorded: tuple[NotRecorded, ...]
    not_on_sheet: tuple[NotOnSheet, ...]
    left_out: tuple[LeftOut, ...]
    before_metal: str
    hot_note: str


async def show(request: Request) -> Response:
    """Answer with the fits of a build, in one state or in both."""
    hands = hands_of(request)
    code = request.path_params["build"]
    if not await is_known(hands, code):
        return no_build(request, code)
    family = family_of(request, code)
    if request.query_params.get("state") == BOTH:
        return page(await run_in_threadpool(both.context, hands, code, family))
    only = next((each for each in _FILTERS if each.value == request.query_params.get("only")), None)
    return page(await run_in_threadpool(_context, hands, code, state_of(request), family, only))


def _context(hands: Hands, code: str, state: State, family: Family, only: Verdict | None) -> FitsContext:
    shop = hands.shop
    with shop.held():
        started, found = shop.builds()[code], shop.assessment(code, state)
        sheet = shop.bench(code).sheet
        engine = sheet.engine
        shown = [each for each in found.verdicts.values() if only in (None, each.verdict)]
        return FitsContext(
            frame=frame_of(hands, "Fits", "Fits", build=code, family=family),
            facts=facts_of(
                started, started.duty or engine.duty, f"sheet {engine.id} revision {engine.revision}"
            ),
            owner_words=started.owner_words,
            states=state_choices(code, state, family),
            units=unit_choices(code, state, family, only.value if only else ""),
            summary=summary_sentence(found),
            has_readings=any(each.readings for each in found.verdicts.values()),
            filters=tuple(_filters(code, state, family, found, only)),
            filtered=_FILTERS[only] if only else "",
            stations=tuple(_stations(hands, code, sheet, shown, state, family)),
            unlimited=tuple(_lines(hands, code, found.unlimited.values() if not only else (), state, family)),
            not_recorded=found.not_recorded,
            not_on_sheet=found.not_on_sheet,
            left_out=tuple(_left_out(hands, code, found)),
            before_metal=BEFORE_METAL if _takes_metal(found) else "",
            hot_note=HOT_NOT_JUDGED,
        )


def _filters(
    code: str, state: State, family: Family, found: Assessment, only: Verdict | None
) -> Iterator[Choice]:
    yield Choice(f"all {len(found.verdicts)}", fits_address(code, state, family), only is None)
    for verdict, words in _FILTERS.items():
        address = fits_address(code, state, family, only=verdict.value)
        yield Choice(f"{words} {found.count(verdict)}", address, only is verdict)


def _takes_metal(found: Assessment) -> bool:
    return any(each.verdict is Verdict.OUTSIDE and each.removes_metal for each in found.verdicts.values())


def _left_out(hands: Hands, code: str, found: Assessment) -> Iterator[LeftOut]:
    subjects = hands.shop.assessor(code, found.state).judge.subjects
    for subject, reason in found.not_in_this_job.items():
        yield LeftOut(subjects[subject].title, reason)


def _stations(
    hands: Hands, code: str, sheet: Sheet, shown: Iterable[FitVerdict], state: State, family: Family
) -> Iterator[StationPart]:
    groups: dict[str | None, list[FitVerdict]] = {}
    for each in shown:
        groups.setdefault(each.station if each.station in sheet.stations else None, []).append(each)
    titles: dict[str | None, tuple[str, str | None]] = {
        station.id: (station.title, station.caution) for station in sheet.stations.values()
    }
    for name, (title, caution) in (titles | {None: ("Elsewhere", None)}).items():
        if here := groups.get(name):
            yield StationPart(
                anchor=f"station-{name or 'elsewhere'}",
                title=title,
                caution=caution,
                open=sum(each.verdict is not Verdict.WITHIN for each in here),
                fits=tuple(_lines(hands, code, here, state, family)),
            )


def _lines(
    hands: Hands, code: str, found: Iterable[FitVerdict], state: State, family: Family
) -> Iterator[FitLine]:
    assessor = hands.shop.assessor(code, state)
    for each in found:
        yield hands.lines.line(code, assessor, each, state, family)
