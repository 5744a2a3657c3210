"""A reading posted: durable first, then answered in place with the verdicts that it touched."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import ClassVar

from starlette.concurrency import run_in_threadpool
from starlette.datastructures import FormData
from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from fitwright.assess.results import FitVerdict, State
from fitwright.bench.errors import BenchError
from fitwright.bench.taking import Taken, Taking, take_blade, take_value
from fitwright.drawing.figures import Reader
from fitwright.formats.assessment import fit_as_json
from fitwright.model.slips import Question
from fitwright.records.errors import RecordError
from fitwright.units import QuantityError
from fitwright.units.display import echo
from fitwright.units.families import Family
from fitwright.web.fits import FitLine, fit_line
from fitwright.web.hands import Hands, family_of, hands_of
from fitwright.web.pages.build import address
from fitwright.web.pages.problem import problem_page
from fitwright.web.rendering import page


@dataclass(frozen=True, slots=True)
class AnswerContext:
    """What came of a posted reading: kept, asked about, or refused."""

    template: ClassVar[str] = "answer.html"
    whole: bool
    title: str
    state: str
    words: str
    question: str
    guesses: tuple[str, ...]
    typed: Mapping[str, str]
    action: str
    lines: tuple[FitLine, ...]
    back: str


async def take(request: Request) -> Response:
    """Take a reading from a form."""
    hands = hands_of(request)
    code = request.path_params["build"]
    if code not in hands.shop.builds():
        return problem_page(f'No build "{code}" in this shop.', "Choose one of the builds.", status=404)
    async with request.form(max_files=0, max_fields=40) as form:
        if not hands.token.matches(str(form.get("token", ""))):
            return problem_page(
                "This form is from an earlier run of the bench; nothing was taken.",
                "Open the page again, then enter the reading once more.",
                status=403,
            )
        family = family_of(request, code)
        answer = await run_in_threadpool(_take, hands, code, form, family)
    if "application/json" in request.headers.get("accept", ""):
        return _as_json(hands, code, answer)
    whole = "hx-request" not in request.headers
    return page(replace(answer.context, whole=whole), status=answer.status)


@dataclass(frozen=True, slots=True)
class _Answer:
    context: AnswerContext
    status: int
    seq: int | None = None
    hash: str | None = None
    verdicts: tuple[FitVerdict, ...] = ()


def _take(hands: Hands, code: str, form: FormData, family: Family) -> _Answer:
    typed = {name: str(value) for name, value in form.items() if name != "token"}
    try:
        taken = _taken(hands, code, typed)
        if isinstance(taken, Question):
            return _asked(hands, code, typed, taken, family)
        written = hands.shop.write(taken.entries)
    except (BenchError, QuantityError, RecordError, ValueError) as error:
        return _refused(code, typed, str(error), family)
    acknowledged = written.acknowledgements[0]
    touched = sorted(written.touched)
    verdicts = tuple(hands.shop.verdicts(code, touched))
    reader, assessor = Reader(family), hands.shop.assessor(code)
    lines = tuple(
        fit_line(assessor, each, reader, address(code, State.CURRENT, family, each.id), touched=True)
        for each in verdicts
    )
    said = echo(taken.quantity) if taken.quantity is not None else "the blade's answer"
    context = AnswerContext(
        whole=True,
        title="Reading kept",
        state="kept",
        words=f"Kept as entry {acknowledged.seq}: {said}.",
        question="",
        guesses=(),
        typed={},
        action="",
        lines=lines,
        back=address(code, State.CURRENT, family),
    )
    return _Answer(context, 200, acknowledged.seq, acknowledged.hash, verdicts)


def _taken(hands: Hands, code: str, typed: Mapping[str, str]) -> Taken | Question:
    dimension, _, place = typed.get("place", "").partition("|")
    answers = {typed["question"]: typed.get("answer_to_question", "keep")} if typed.get("question") else {}
    taking = Taking(
        person=typed.get("person") or None,
        device=hands.device,
        instrument=typed.get("instrument") or None,
        note=typed.get("note") or None,
        entry_id=typed.get("entry_id") or None,
        answers=answers,
    )
    bench = hands.shop.bench(code)
    if typed.get("blade"):
        answer = typed.get("answer", "goes")
        return take_blade(bench, dimension, place or None, typed["blade"], answer, taking)
    return take_value(bench, dimension, place or None, typed.get("value", ""), taking)


def _asked(
    hands: Hands, code: str, typed: Mapping[str, str], question: Question, family: Family
) -> _Answer:
    context = AnswerContext(
        whole=True,
        title="A question first",
        state="question",
        words=question.text,
        question=question.key,
        guesses=tuple(guess.label for guess in question.guesses),
        typed={**typed, "token": hands.token.value},
        action=f"/builds/{code}/readings?units={family}",
        lines=(),
        back=address(code, State.CURRENT, family),
    )
    return _Answer(context, 200)


def _refused(code: str, typed: Mapping[str, str], words: str, family: Family) -> _Answer:
    context = AnswerContext(
        whole=True,
        title="Not taken",
        state="refused",
        words=words,
        question="",
        guesses=(),
        typed=typed,
        action="",
        lines=(),
        back=address(code, State.CURRENT, family),
    )
    return _Answer(context, 422)


def _as_json(hands: Hands, code: str, answer: _Answer) -> JSONResponse:
    context = answer.context
    body = {
        "state": context.state,
        "words": context.words,
        "question": context.question or None,
        "guesses": list(context.guesses),
        "acknowledgement": {"seq": answer.seq, "hash": answer.hash} if answer.seq else None,
        "fits": [fit_as_json(each, None) for each in answer.verdicts],
    }
    return JSONResponse(body, status_code=answer.status)
