"""The page Oil: how it is asked, what it shows, and its part that answers while one moves sliders."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar, Final

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response

from fitwright.assess.oil.results import Prediction
from fitwright.assess.oil.words import CAUTIONS, NOT_MODELLED, VALIDATED, title_of
from fitwright.bench.context import Bench
from fitwright.units.families import Family
from fitwright.web.addresses import oil_address, sheet_address
from fitwright.web.frame import Frame, frame_of
from fitwright.web.hands import Hands, family_of, hands_of, is_known
from fitwright.web.pages.builds import facts_of
from fitwright.web.pages.choices import Choice
from fitwright.web.pages.oil.asked import OilQuestion
from fitwright.web.pages.oil.controls import (
    PointForm,
    WhatIfForm,
    point_form,
    unit_choices,
    what_if_form,
)
from fitwright.web.pages.oil.entering import (
    EMPTY,
    FormState,
    OilForm,
    ReadingForm,
    oil_form,
    reading_form,
)
from fitwright.web.pages.oil.known import OilLine, SizeLine, oil_line, unknown_lines, unmeasured_lines
from fitwright.web.pages.oil.parts import NowPart, RestPart, now_part, point_choices, rest_part
from fitwright.web.pages.oil.rotors import RotorPart, Shape, rotor_part, shapes_of
from fitwright.web.pages.oil.start_readings import ReadingLine, Started, reading_lines
from fitwright.web.pages.oil.worked import BANDS_WITHIN, Worked, worked
from fitwright.web.pages.problem import no_build
from fitwright.web.people import person_at
from fitwright.web.rendering import page

CAUTIONS_OF_PRIMING: Final = (
    (
        "Priming: a rated vessel with its own relief valve, at no more than the engine maker's pressure, "
        "every hose checked. Keep skin away from jets: oil under the skin is a medical emergency."
    ),
    "First start: a tested stop for fuel and ignition within reach, and one named person who may call stop.",
)


@dataclass(frozen=True, slots=True)
class Said:
    """What came of a form."""

    state: str
    title: str
    words: str


@dataclass(frozen=True, slots=True)
class OilContext:
    """The page Oil of a build. `state` says what there is: no circuit, a problem, getting ready, ready."""

    template: ClassVar[str] = "oil/oil.html"
    frame: Frame
    title: str
    facts: str
    units: tuple[Choice, ...]
    state: str
    problem: str
    self_address: str
    sheet: str
    card: str
    outcome: Said | None
    oil: OilLine | None
    unmeasured: tuple[SizeLine, ...]
    unknown: tuple[SizeLine, ...]
    cautions: tuple[str, ...]
    points: tuple[Choice, ...]
    point: PointForm | None
    what_if: WhatIfForm | None
    now: NowPart | None
    rest: RestPart | None
    rotors: RotorPart | None
    readings: tuple[ReadingLine, ...]
    reading: ReadingForm
    filled: OilForm
    not_modelled: tuple[str, ...]
    validated: str


@dataclass(frozen=True, slots=True)
class AnswerContext:
    """What follows from moved sliders, by itself."""

    template: ClassVar[str] = "oil/answer.html"
    now: NowPart | None
    rest: RestPart | None
    what_if: WhatIfForm | None
    units: tuple[Choice, ...]
    points: tuple[Choice, ...]
    again: str


async def show(request: Request) -> Response:
    """Answer with the page Oil."""
    hands, code = hands_of(request), request.path_params["build"]
    if not await is_known(hands, code):
        return no_build(request, code)
    family = family_of(request, code)
    return await run_in_threadpool(oil_page, request, hands, code, family)


def oil_page(
    request: Request,
    hands: Hands,
    code: str,
    family: Family,
    *,
    outcome: Said | None = None,
    reading: FormState = EMPTY,
    filled: FormState = EMPTY,
    status: int = 200,
) -> Response:
    """The whole page, perhaps with what came of a form."""
    corrects = request.query_params.get("correct", "")
    if corrects and reading is EMPTY and request.method == "GET":
        reading = FormState({"supersedes": corrects})
    with hands.shop.held():
        bench, desk = hands.shop.bench(code), hands.shop.oil(code)
        started = hands.shop.builds()[code]
        forms = (
            reading_form(hands, bench, code, family, reading, person_at(request, bench.shop)),
            oil_form(hands, bench, code, family, filled, person_at(request, bench.shop)),
        )
        subjects = frozenset(hands.shop.assessor(code).judge.subjects)
        shapes = shapes_of(hands, code)
        facts = facts_of(started, f"sheet {bench.sheet.engine.id} revision {bench.sheet.engine.revision}")
    question = OilQuestion.of(code, family, desk, request.query_params)
    read = Started.of(bench, desk.case.filling.oil.id if desk.case.filling.oil is not None else "")
    found = worked(hands, question, read.points) if desk.circuit is not None else None
    page_of = _Page(hands, bench, question, read, found, subjects, shapes)
    return page(page_of.context(facts, outcome, forms[0], forms[1], request), status=status)


@dataclass(frozen=True, slots=True)
class _Page:
    """Puts the page together."""

    hands: Hands
    bench: Bench
    question: OilQuestion
    started: Started
    found: Worked | None
    subjects: frozenset[str]
    shapes: tuple[Shape, ...]

    def context(
        self, facts: str, outcome: Said | None, reading: ReadingForm, filled: OilForm, request: Request
    ) -> OilContext:
        question, found = self.question, self.found
        code, family, sheet = question.code, question.family, self.bench.sheet
        measured = found.measured if found is not None else None
        state = self._state()
        ready = state == "ready"
        return OilContext(
            frame=_frame(self.hands, code, family),
            title=measured.title if measured is not None else title_of(sheet.engine.name, ()),
            facts=facts,
            units=unit_choices(question),
            state=state,
            problem=measured.problem if measured is not None else "",
            self_address=self._self_address(request),
            sheet=sheet_address(code),
            card=oil_address(code, family, "/card") if ready else "",
            outcome=outcome,
            oil=oil_line(measured.oil) if measured is not None and measured.oil is not None else None,
            unmeasured=unmeasured_lines(sheet, code, measured, family) if measured is not None else (),
            unknown=unknown_lines(sheet, code, measured, family) if measured is not None else (),
            cautions=(*CAUTIONS, *CAUTIONS_OF_PRIMING),
            points=point_choices(question, found.shown) if ready and found and found.shown else (),
            point=point_form(question) if ready else None,
            what_if=what_if_form(question) if ready else None,
            now=self._now() if ready else None,
            rest=self._rest() if ready else None,
            rotors=rotor_part(code, family, self.shapes, request.query_params),
            readings=self._readings(measured),
            reading=reading,
            filled=filled,
            not_modelled=NOT_MODELLED,
            validated=VALIDATED,
        )

    def _self_address(self, request: Request) -> str:
        """Where the page is asked for again as it stands, also after a form was sent."""
        if request.method != "GET" or not request.url.query:
            return self.question.address()
        return f"{request.url.path}?{request.url.query}"

    def _state(self) -> str:
        if self.found is None:
            return "empty"
        if not self.found.is_ready:
            return "getting ready"
        if self.found.measured is not None and self.found.measured.problem:
            return "problem"
        return "problem" if self.found.shown is None or self.found.shown.problem else "ready"

    def _now(self) -> NowPart:
        assert self.found is not None  # noqa: S101 - the state says so
        waits = bands_address(self.question) if not self.found.banded else ""
        return now_part(self.question, self.found, self.started.marks(), waits)

    def _rest(self) -> RestPart:
        assert self.found is not None  # noqa: S101 - the state says so
        assert self.found.shown is not None  # noqa: S101
        return _rest(self.hands, self.question, self.found.shown, self.subjects)

    def _readings(self, measured: Prediction | None) -> tuple[ReadingLine, ...]:
        banded = self.found is not None and self.found.measured_banded
        return reading_lines(self.question, self.started, measured, banded=banded)


def _frame(hands: Hands, code: str, family: Family) -> Frame:
    return frame_of(
        hands,
        "Oil",
        "Oil",
        build=code,
        family=family,
        help_page="oil",
        styles=("oil_pictures.css", "oil.css"),
        scripts=("oil.js",),
    )


def _rest(hands: Hands, question: OilQuestion, shown: Prediction, subjects: frozenset[str]) -> RestPart:
    """What follows when nothing moves; drawn once."""
    key = ("rest", question.row, question.family)
    return hands.oil.drawn(shown, key, lambda: rest_part(question, shown, subjects))


def bands_address(question: OilQuestion) -> str:
    """Where the bands of what is asked come."""
    return question.address("/answer") + "&bands=1"


async def answer(request: Request) -> Response:
    """Answer with what follows from moved sliders; with `bands`, after the bands are worked out."""
    hands, code = hands_of(request), request.path_params["build"]
    if not await is_known(hands, code):
        return no_build(request, code)
    family = family_of(request, code)
    return await run_in_threadpool(_answer, request, hands, code, family)


def _answer(request: Request, hands: Hands, code: str, family: Family) -> Response:
    with hands.shop.held():
        bench, desk = hands.shop.bench(code), hands.shop.oil(code)
        subjects = frozenset(hands.shop.assessor(code).judge.subjects)
    question = OilQuestion.of(code, family, desk, request.query_params)
    read = Started.of(bench, desk.case.filling.oil.id if desk.case.filling.oil is not None else "")
    bands = "bands" in request.query_params
    found = worked(
        hands, question, read.points, begin=bands, bands_wait=BANDS_WITHIN if bands else 0.0, wait=5.0
    )
    ready = found.shown is not None and found.measured is not None and bool(found.shown.points)
    waits = "" if found.banded else bands_address(question)
    shown = found.shown if ready else None
    return page(
        AnswerContext(
            now=now_part(question, found, read.marks(), waits) if ready else None,
            rest=_rest(hands, question, shown, subjects) if shown and (bands or found.banded) else None,
            what_if=what_if_form(question),
            units=unit_choices(question),
            points=point_choices(question, shown) if shown else (),
            again=question.address("/answer") if not ready else "",
        )
    )
