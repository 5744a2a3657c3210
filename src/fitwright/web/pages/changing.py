"""A reading corrected, taken back, brought back or chosen, answered on the page of a fit that rests on it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import BaseRoute, Route

from fitwright.assess.results import State
from fitwright.bench.correcting import corrected_blade, corrected_value, reading_of
from fitwright.bench.decisions import choice_of, withdrawal_of
from fitwright.bench.errors import NoWordsError
from fitwright.bench.taking import BLADE_ANSWERS, Taken, Taking
from fitwright.model.slips import Question
from fitwright.records.entry import NewEntry
from fitwright.records.kinds import Body
from fitwright.web.changing_form import DECIDED, TypedChange, alike, others_at
from fitwright.web.forms import EARLIER, answers_in
from fitwright.web.hands import Hands, View, family_of, hands_of, is_known
from fitwright.web.pages.fit import Said, fit_context
from fitwright.web.pages.problem import no_build, problem_page
from fitwright.web.people import person_in, remember_person
from fitwright.web.rendering import page
from fitwright.web.writing import KEPT, Refused, Sent, UnclearFormError, sent, written


async def change(request: Request) -> Response:
    """Take what was decided about a reading."""
    hands, code = hands_of(request), request.path_params["build"]
    if not await is_known(hands, code):
        return no_build(request, code)
    subject = request.path_params["subject"]
    if subject not in hands.shop.assessor(code).judge.subjects:
        problem = f'{code} has no fit or dimension "{subject}"; nothing was taken.'
        return problem_page(request, problem, "Choose one of the fits of the build.", status=404)
    form = await sent(request)
    view = View(code, State.CURRENT, family_of(request, code))
    whole = "hx-request" not in request.headers
    return await run_in_threadpool(_changed, hands, view, subject, form, whole=whole)


def _changed(hands: Hands, view: View, subject: str, form: Sent, *, whole: bool) -> Response:
    came = written(hands, form, lambda: _entries(hands, view.code, form))
    again = TypedChange(form.get("reading"), form.fields, person=form.get("person") or None)
    if isinstance(came, Question):
        shown = replace(again, fields={**form.fields, **_answers_carried(form, came)}, question=came)
        return page(fit_context(hands, view, subject, change=shown, whole=whole), status=KEPT)
    if isinstance(came, Refused):
        fields = {**form.fields, "entry_id": ""} if came.reused else form.fields
        shown = replace(again, fields=fields, wrong=came.words)
        return page(fit_context(hands, view, subject, change=shown, whole=whole), status=came.status)
    said = Said("kept", _TITLES.get(form.get("do"), "Kept"), came.words)
    answer = page(fit_context(hands, view, subject, said=said, whole=whole))
    remember_person(answer, form.get("person") or None)
    return answer


_TITLES: Mapping[str, str] = {
    "correct": "Reading corrected",
    "withdraw": "Reading withdrawn",
    "bring back": "Reading brought back",
    "use again": "Used again",
    "use instead": "Used instead",
    "keep both": "Both kept",
}


def _entries(hands: Hands, code: str, form: Sent) -> Sequence[NewEntry] | Question:
    bench = hands.shop.bench(code)
    record = reading_of(bench, form.get("reading"))
    person = person_in(form, bench.shop)
    decided = form.get("do")
    if decided == "correct":
        found = _corrected(hands, code, form, person)
        return found if isinstance(found, Question) else found.entries
    body = _body(hands, code, form, record.entry.id)
    return [hands.shop.entry(body, build=code, person=person, entry_id=form.get("entry_id") or None)]


def _body(hands: Hands, code: str, form: Sent, entry: str) -> Body:
    bench, judge = hands.shop.bench(code), hands.shop.assessor(code).judge
    record, reason, decided = reading_of(bench, entry), form.get("reason"), form.get("do")
    if decided == "withdraw":
        if not reason:
            raise NoWordsError("A withdrawal", "its reason")
        return withdrawal_of(entry, reason)
    if decided == "bring back":
        if record.withdrawn_by is None:
            raise UnclearFormError("This reading is not withdrawn", "look at it again: somebody was faster")
        return withdrawal_of(record.withdrawn_by.id, reason)
    if decided not in DECIDED:
        raise UnclearFormError("What is to be done with the reading is not said", "use one of the buttons")
    others = others_at(judge, record) if decided != "use again" else ()
    entries = (entry, *others) if decided == "keep both" else (entry,)
    return choice_of(
        DECIDED[decided],
        alike(judge, record) if decided == "use again" else entries,
        instead_of=others if decided == "use instead" else (),
        reason=reason,
        dimension=record.dimension,
    )


def _corrected(hands: Hands, code: str, form: Sent, person: str | None) -> Taken | Question:
    taking = Taking(
        person=person,
        device=hands.device,
        entry_id=form.get("entry_id") or None,
        reason=form.get("reason") or None,
        answers=answers_in(form.fields),
    )
    bench, reading = hands.shop.bench(code), form.get("reading")
    answer, value = form.get("answer"), form.get("value")
    if answer in BLADE_ANSWERS:
        return corrected_blade(bench, reading, form.get("blades"), answer, taking)
    if not value:
        raise UnclearFormError("No value was typed", "type what it should have been")
    return corrected_value(bench, reading, value, taking)


def _answers_carried(form: Sent, question: Question) -> dict[str, str]:
    """The answers given so far, but not to the question that is asked now."""
    return {EARLIER + key: words for key, words in answers_in(form.fields).items() if key != question.key}


ROUTES: list[BaseRoute] = [
    Route("/builds/{build}/fits/{subject}/readings", change, methods=["POST"], name="changing"),
]
