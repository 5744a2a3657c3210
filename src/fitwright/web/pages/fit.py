"""One fit opened: its working, and a form that takes a reading for it."""

from __future__ import annotations

import difflib
import uuid
from dataclasses import dataclass
from typing import ClassVar

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response

from fitwright.assess.results import FitVerdict, State
from fitwright.assess.working import Step, working_of
from fitwright.drawing.figures import Reader
from fitwright.drawing.sentences import hot_sentences, verdict_sentence
from fitwright.drawing.workings import figure_text
from fitwright.units.families import Family
from fitwright.web.fits import FitLine, fit_line
from fitwright.web.hands import Hands, family_of, hands_of, state_of
from fitwright.web.pages.build import address
from fitwright.web.pages.problem import problem_page
from fitwright.web.rendering import page
from fitwright.web.shop import ShopForWeb


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
class PlaceOption:
    """One place that a reading can be taken at."""

    value: str
    label: str


@dataclass(frozen=True, slots=True)
class ReadingForm:
    """The form that takes one reading."""

    action: str
    token: str
    entry_id: str
    places: tuple[PlaceOption, ...]
    blades: tuple[str, ...]
    instruments: tuple[tuple[str, str], ...]
    units: str
    open: bool


@dataclass(frozen=True, slots=True)
class FitContext:
    """The page of one fit."""

    template: ClassVar[str] = "fit.html"
    title: str
    build: str
    build_title: str
    back: str
    line: FitLine
    sentence: str
    hot: tuple[str, ...]
    steps: tuple[StepPart, ...]
    form: ReadingForm


async def show(request: Request) -> Response:
    """Answer with the page of one fit."""
    hands = hands_of(request)
    code, subject = request.path_params["build"], request.path_params["subject"]
    if code not in hands.shop.builds():
        return problem_page(f'No build "{code}" in this shop.', "Choose one of the builds.", status=404)
    family, state = family_of(request, code), state_of(request)
    known = hands.shop.assessor(code, state).judge.subjects
    if subject not in known:
        near = difflib.get_close_matches(subject, known, n=1)
        mend = f"Did you mean {near[0]}?" if near else "Choose one of its fits."
        return problem_page(f'{code} has no fit or dimension "{subject}".', mend, status=404)
    return page(await run_in_threadpool(_context, hands, code, subject, state, family))


def _context(hands: Hands, code: str, subject: str, state: State, family: Family) -> FitContext:
    shop = hands.shop
    assessor, reader = shop.assessor(code, state), Reader(family)
    verdict = assessor.verdict(subject)
    working = working_of(assessor.judge, verdict)
    return FitContext(
        title=verdict.name,
        build=code,
        build_title=shop.builds()[code].title,
        back=f"{address(code, state, family)}#fit-{subject}",
        line=fit_line(assessor, verdict, reader, address(code, state, family, subject)),
        sentence=verdict_sentence(verdict, reader),
        hot=tuple(hot_sentences(verdict, reader)),
        steps=tuple(_step(step, family) for step in working.steps),
        form=_form(hands, code, verdict, state, family),
    )


def _step(step: Step, family: Family) -> StepPart:
    lines = [
        FigureLine(each.name, figure_text(each, family), each.words, each.origin[:8])
        for each in (*step.figures, *([step.result] if step.result else []))
    ]
    result = lines.pop() if step.result is not None else None
    return StepPart(step.title, step.formula, tuple(lines), result)


def _form(hands: Hands, code: str, verdict: FitVerdict, state: State, family: Family) -> ReadingForm:
    shop = hands.shop
    return ReadingForm(
        action=f"/builds/{code}/readings?units={family}",
        token=hands.token.value,
        entry_id=uuid.uuid4().hex,
        places=_places(shop, code, verdict, state),
        blades=tuple(shop.state.blades),
        instruments=tuple(
            (held.body.code, f"{held.body.code} {held.body.title}")
            for held in shop.state.instruments.values()
        ),
        units=family,
        open=state is State.CURRENT,
    )


def _places(shop: ShopForWeb, code: str, verdict: FitVerdict, state: State) -> tuple[PlaceOption, ...]:
    judge = shop.assessor(code, state).judge
    sheet = shop.bench(code).sheet
    return tuple(
        PlaceOption(f"{name}|{place.id}", f"{sheet.dimensions[name].title}, {place.id}")
        for name in judge.subjects[verdict.id].dimensions()
        for place in sheet.dimensions[name].places
    )
