"""One fit opened: its verdict, what to do next, and the working behind it."""

from __future__ import annotations

import difflib
from dataclasses import dataclass
from string import hexdigits
from typing import ClassVar

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import BaseRoute, Route

from fitwright.assess.results import FitVerdict, State, Verdict
from fitwright.assess.words import BEFORE_METAL
from fitwright.assess.working import Step, working_of
from fitwright.drawing.figures import Reader
from fitwright.drawing.sentences import hot_sentences
from fitwright.drawing.workings import figure_text
from fitwright.units.families import Family
from fitwright.web.addresses import (
    adopt_address,
    fit_address,
    fits_address,
    history_address,
    put_right_address,
)
from fitwright.web.changing_form import ChangingForm, TypedChange, changing_form
from fitwright.web.fit_lines import FitLine
from fitwright.web.forms import ReadingForm, Typed, reading_form
from fitwright.web.frame import Frame, frame_of
from fitwright.web.hands import Hands, View, family_of, hands_of, is_known, state_of
from fitwright.web.numbers import whole_number
from fitwright.web.pages.choices import STATE_LABELS, UNIT_LABELS, Choice
from fitwright.web.pages.fit_behind import (
    Curve,
    Fed,
    NoteAbout,
    PhotoAbout,
    Provenance,
    Routes,
    Settle,
    curve_of,
    fed_by_the_same,
    filed_under,
    provenance_of,
    routes_of,
    settle_of,
)
from fitwright.web.pages.fit_evidence import ReadingTable, first_measure, reading_tables
from fitwright.web.pages.problem import no_build, problem_page
from fitwright.web.people import person_at
from fitwright.web.rendering import page


@dataclass(frozen=True, slots=True)
class FigureLine:
    """One figure of a step."""

    name: str
    number: str
    words: str
    origin: str


@dataclass(frozen=True, slots=True)
class StepPart:
    """One step of the working."""

    title: str
    formula: str
    figures: tuple[FigureLine, ...]
    result: FigureLine | None


@dataclass(frozen=True, slots=True)
class Touched:
    """Another fit that the same reading speaks for, with its verdict now."""

    name: str
    address: str
    words: str
    value: str


@dataclass(frozen=True, slots=True)
class Said:
    """What came of a reading: kept, asked about, or refused."""

    state: str
    title: str
    words: str
    touched: tuple[Touched, ...] = ()


@dataclass(frozen=True, slots=True)
class Next:
    """What to do about the fit: where to measure, adopt a limit or put it right, as far as each helps."""

    measure: str
    adopt: str
    put_right: str
    current: str


@dataclass(frozen=True, slots=True)
class FitBody:
    """What changes on the page of a fit when a reading is taken.

    `form` takes a reading here, `change` is the form for one that is there; `fresh` is where the page
    asks whether it is still so.
    """

    line: FitLine
    fresh: str
    other_unit: str
    before_metal: str
    hot: tuple[str, ...]
    caution: str | None
    next: Next
    said: Said | None
    form: ReadingForm | None
    change: ChangingForm | None
    settle: Settle | None
    curve: Curve | None
    routes: Routes | None
    tables: tuple[ReadingTable, ...]
    steps: tuple[StepPart, ...]
    history: str
    notes: tuple[NoteAbout, ...]
    photos: tuple[PhotoAbout, ...]
    fed: tuple[Fed, ...]
    provenance: Provenance


@dataclass(frozen=True, slots=True)
class FitContext:
    """The page of one fit; `whole` is false where only its body replaces the one on screen."""

    template: ClassVar[str] = "fit.html"
    frame: Frame
    whole: bool
    subject: str
    back: str
    states: tuple[Choice, ...]
    units: tuple[Choice, ...]
    body: FitBody


async def show(request: Request) -> Response:
    """Answer with the page of one fit; `reading` opens the form for one of its readings."""
    hands = hands_of(request)
    code, subject = request.path_params["build"], request.path_params["subject"]
    if not await is_known(hands, code):
        return no_build(request, code)
    view = View(code, state_of(request), family_of(request, code))
    known = hands.shop.assessor(code, view.state).judge.subjects
    if subject not in known:
        near = difflib.get_close_matches(subject, known, n=1)
        mend = f"Did you mean {near[0]}?" if near else "Choose one of the fits of the build."
        return problem_page(request, f'{code} has no fit or dimension "{subject}".', mend, status=404)
    if await run_in_threadpool(_is_as_known, hands, view, subject, request.query_params.get("since", "")):
        return Response(headers={"hx-reswap": "none", "cache-control": "no-store"})
    opened = request.query_params.get("reading")
    person = person_at(request, hands.shop.state)
    change = TypedChange(opened, person=person) if opened else None
    return page(await run_in_threadpool(fit_context, hands, view, subject, change=change))


def _is_as_known(hands: Hands, view: View, subject: str, since: str) -> bool:
    """Whether a page that shows what was so at an entry needs nothing new."""
    known = whole_number(since)
    if known is None:
        return False
    with hands.shop.held():
        assessor = hands.shop.assessor(view.code, view.state)
        line = hands.lines.line(view, assessor, assessor.verdict(subject), at=hands.shop.position)
        return line.drawn_at <= known


def fit_context(
    hands: Hands,
    view: View,
    subject: str,
    typed: Typed | None = None,
    said: Said | None = None,
    change: TypedChange | None = None,
    *,
    whole: bool = True,
) -> FitContext:
    """The page of one fit, with what was typed and what came of it."""
    with hands.shop.held():
        name = hands.shop.assessor(view.code, view.state).verdict(subject).name
        return FitContext(
            frame=frame_of(
                hands,
                name,
                "Fits",
                build=view.code,
                family=view.family,
                help_page="fit",
                styles=("fit.css",),
                scripts=("bench.js",),
            ),
            whole=whole,
            subject=subject,
            back=fits_address(view.code, view.state, view.family, anchor=f"fit-{subject}"),
            states=tuple(
                Choice(
                    STATE_LABELS[each], fit_address(view.code, subject, each, view.family), each is view.state
                )
                for each in (State.CURRENT, State.AS_RECEIVED)
            ),
            units=tuple(
                Choice(label, fit_address(view.code, subject, view.state, each), each == view.family)
                for each, label in UNIT_LABELS.items()
            ),
            body=_body(hands, view, subject, typed or Typed(), said, change),
        )


def _body(
    hands: Hands, view: View, subject: str, typed: Typed, said: Said | None, change: TypedChange | None
) -> FitBody:
    code, family, position = view.code, view.family, hands.shop.position
    assessor, reader = hands.shop.assessor(code, view.state), Reader(family)
    verdict = assessor.verdict(subject)
    working = working_of(assessor.judge, verdict, readings=False)
    current = view.state is State.CURRENT
    metal = verdict.verdict is Verdict.OUTSIDE and verdict.removes_metal
    tables = reading_tables(hands, view, verdict)
    notes, photos = filed_under(hands, view, verdict)
    return FitBody(
        line=hands.lines.alone(view, assessor, verdict, at=position),
        fresh=f"{fit_address(code, subject, view.state, family)}&since={position}",
        other_unit=_in_the_other_unit(verdict, family),
        before_metal=BEFORE_METAL if metal else "",
        hot=tuple(hot_sentences(verdict, reader)),
        caution=_caution(hands, code, verdict),
        next=_next(view, verdict, tables),
        said=said,
        form=reading_form(hands, code, subject, family, typed) if current else None,
        change=changing_form(hands, code, subject, family, change)
        if change is not None and current
        else None,
        settle=settle_of(verdict, assessor.settling(subject), reader),
        curve=curve_of(assessor, verdict, reader),
        routes=routes_of(assessor.judge.sheet, verdict, reader),
        tables=tables,
        steps=tuple(_step(step, family) for step in working.steps),
        history=history_address(code, subject, family),
        notes=notes,
        photos=photos,
        fed=tuple(fed_by_the_same(hands, view, verdict)),
        provenance=provenance_of(hands, view, verdict),
    )


def _next(view: View, verdict: FitVerdict, tables: tuple[ReadingTable, ...]) -> Next:
    current = view.state is State.CURRENT
    governed = any(each.governs and each.source_kind != "computed" for each in verdict.bounds)
    return Next(
        measure=first_measure(tables) if current else "",
        adopt="" if governed or not current else adopt_address(view.code, verdict.id, view.family),
        put_right=put_right_address(view.code, view.family, anchor=f"fit-{verdict.id}")
        if current and verdict.verdict is Verdict.OUTSIDE
        else "",
        current="" if current else fit_address(view.code, verdict.id, State.CURRENT, view.family),
    )


def touched_part(code: str, found: FitVerdict, family: Family, accepted: str = "") -> Touched:
    """Another fit in the answer to a reading."""
    return Touched(
        found.name,
        fit_address(code, found.id, State.CURRENT, family),
        "; ".join(each for each in (found.words, accepted) if each),
        Reader(family).value(found),
    )


def _in_the_other_unit(found: FitVerdict, family: Family) -> str:
    """The value in the other family of units, where it reads differently there."""
    here, there = Reader(family), Reader("inch" if family == "mm" else "mm")
    return "" if here.unit(found) == there.unit(found) else there.value(found)


def _caution(hands: Hands, code: str, found: FitVerdict) -> str | None:
    station = hands.shop.bench(code).sheet.stations.get(found.station or "")
    return station.caution if station is not None else None


def _origin(origin: str) -> str:
    """Where a figure comes from; of an entry's id the beginning is enough."""
    return origin[:8] if len(origin) == 32 and set(origin) <= set(hexdigits) else origin


def _step(step: Step, family: Family) -> StepPart:
    lines = [
        FigureLine(each.name, figure_text(each, family), each.words, _origin(each.origin))
        for each in (*step.figures, *([step.result] if step.result else []))
    ]
    result = lines.pop() if step.result is not None else None
    return StepPart(step.title, step.formula, tuple(lines), result)


ROUTES: list[BaseRoute] = [Route("/builds/{build}/fits/{subject}", show, name="fit")]
