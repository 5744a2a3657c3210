"""Fits: every fit of a build with its limit scale and verdict, as far as the filters in the address ask."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from typing import ClassVar

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response

from fitwright.assess.results import Assessment, FitVerdict, NotOnSheet, NotRecorded, Verdict
from fitwright.assess.words import BEFORE_METAL, HOT_NOT_JUDGED
from fitwright.drawing.accepted import accepted_sentence
from fitwright.drawing.sentences import summary_sentence
from fitwright.model.sheet import Sheet
from fitwright.web.addresses import BOTH
from fitwright.web.filters import Filters, least_in_hand
from fitwright.web.fit_lines import FitLine
from fitwright.web.frame import Frame, frame_of
from fitwright.web.hands import Hands, View, family_of, hands_of, is_known, state_of
from fitwright.web.numbers import whole_number
from fitwright.web.pages import both
from fitwright.web.pages.builds import facts_of
from fitwright.web.pages.choices import Choice, state_choices, unit_choices
from fitwright.web.pages.panel import Listed, Panel, hits, panel_of
from fitwright.web.pages.problem import no_build
from fitwright.web.rendering import page

ELSEWHERE = "elsewhere"


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
    """The page Fits of a build; `position` is the last entry that it rests on."""

    template: ClassVar[str] = "fits.html"
    frame: Frame
    position: int
    facts: str
    states: tuple[Choice, ...]
    units: tuple[Choice, ...]
    summary: str
    has_readings: bool
    panel: Panel
    hits: str
    stations: tuple[StationPart, ...]
    unlimited: tuple[FitLine, ...]
    not_recorded: tuple[NotRecorded, ...]
    not_on_sheet: tuple[NotOnSheet, ...]
    left_out: tuple[LeftOut, ...]
    before_metal: str
    hot_note: str


async def show(request: Request) -> Response:
    """Answer with the page Fits; with `after`, lines that have not changed since are only named."""
    hands, code = hands_of(request), request.path_params["build"]
    if not await is_known(hands, code):
        return no_build(request, code)
    family = family_of(request, code)
    filters = Filters.of(request.query_params, hands.shop.bench(code).sheet)
    if request.query_params.get("state") == BOTH:
        return page(await run_in_threadpool(both.context, hands, code, family, filters))
    known = whole_number(request.query_params.get("after", ""))
    view = View(code, state_of(request), family)
    return page(await run_in_threadpool(_context, hands, view, filters, known))


def _context(hands: Hands, view: View, filters: Filters, known: int | None) -> FitsContext:
    shop, code = hands.shop, view.code
    with shop.held():
        started, found = shop.builds()[code], shop.assessment(code, view.state)
        sheet = shop.bench(code).sheet
        assessor, now = shop.assessor(code, view.state), datetime.now(UTC)
        searched = hands.searches.found(filters.query, sheet, assessor.judge.subjects)
        listed = Listed(
            code, view.state, view.family, [(each,) for each in found.verdicts.values()], searched
        )
        shown = [each for (each,) in listed.kept(filters)]
        unlimited = [each for each in found.unlimited.values() if filters.keeps(each, searched)]
        lines = _Lines(hands, view, filters, known)
        asked, whole = filters.address(), not filters.narrow
        return FitsContext(
            frame=frame_of(
                hands,
                "Fits",
                "Fits",
                build=code,
                family=view.family,
                help_page="fits",
                styles=("fits.css",),
                scripts=("fits.js",),
            ),
            position=shop.position,
            facts=facts_of(
                started,
                started.duty or sheet.engine.duty,
                f"sheet {sheet.engine.id} revision {sheet.engine.revision}",
            ),
            states=state_choices(code, view.state, view.family, asked),
            units=unit_choices(code, view.state, view.family, asked),
            summary=f"{summary_sentence(found)} {accepted_sentence(assessor, found, now)}".strip(),
            has_readings=any(each.readings for each in found.verdicts.values()),
            panel=panel_of(listed, filters, sheet),
            hits=hits(shown, len(found.verdicts), filters),
            stations=tuple(_stations(lines, sheet, shown, filters)),
            unlimited=tuple(map(lines.line, unlimited)),
            not_recorded=found.not_recorded if whole else (),
            not_on_sheet=found.not_on_sheet if whole else (),
            left_out=tuple(_left_out(hands, view, found)) if whole else (),
            before_metal=BEFORE_METAL if _takes_metal(shown) else "",
            hot_note=HOT_NOT_JUDGED if any(each.hot for each in shown) else "",
        )


@dataclass(frozen=True, slots=True)
class _Lines:
    """Draws the lines of one page."""

    hands: Hands
    view: View
    filters: Filters
    known: int | None

    def line(self, found: FitVerdict) -> FitLine:
        """The line of a fit; only its place, where whoever asks has it already."""
        shop = self.hands.shop
        assessor = shop.assessor(self.view.code, self.view.state)
        drawn = self.hands.lines.line(self.view, assessor, found, hot=self.filters.hot, at=shop.position)
        return replace(drawn, same=True) if self.known is not None and drawn.drawn_at <= self.known else drawn


def _takes_metal(shown: Iterable[FitVerdict]) -> bool:
    return any(each.verdict is Verdict.OUTSIDE and each.removes_metal for each in shown)


def _left_out(hands: Hands, view: View, found: Assessment) -> Iterator[LeftOut]:
    subjects = hands.shop.assessor(view.code, view.state).judge.subjects
    for subject, reason in found.not_in_this_job.items():
        yield LeftOut(subjects[subject].title, reason)


def _stations(
    lines: _Lines, sheet: Sheet, shown: list[FitVerdict], filters: Filters
) -> Iterator[StationPart]:
    if filters.order == "in-hand":
        yield from _by_what_is_in_hand(lines, shown)
        return
    groups: dict[str | None, list[FitVerdict]] = {}
    for each in shown:
        groups.setdefault(each.station if each.station in sheet.stations else None, []).append(each)
    titles: dict[str | None, tuple[str, str | None]] = {
        station.id: (station.title, station.caution) for station in sheet.stations.values()
    }
    for name, (title, caution) in (titles | {None: ("Elsewhere", None)}).items():
        if here := groups.get(name):
            yield StationPart(
                anchor=f"station-{name or ELSEWHERE}",
                title=title,
                caution=caution,
                open=_open(here),
                fits=tuple(map(lines.line, here)),
            )


def _by_what_is_in_hand(lines: _Lines, shown: list[FitVerdict]) -> Iterator[StationPart]:
    if shown:
        fits = tuple(map(lines.line, least_in_hand(shown)))
        yield StationPart(
            "least-in-hand", "Least in hand first, as a share of its limits", None, _open(shown), fits
        )


def _open(here: Iterable[FitVerdict]) -> int:
    return sum(each.verdict is not Verdict.WITHIN for each in here)
