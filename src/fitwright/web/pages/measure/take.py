"""A line typed or a key pressed at a place: what it means, and the page with all that follows."""

from __future__ import annotations

from dataclasses import replace

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response

from fitwright.bench.keypad import Because, BladeDid, Entered, On, TakeBack, ToStation, read_line
from fitwright.bench.order import Stop
from fitwright.web.forms import EARLIER
from fitwright.web.hands import hands_of, is_known
from fitwright.web.pages.measure.asked import answer_named, because_asked
from fitwright.web.pages.measure.blades import may_be_tried
from fitwright.web.pages.measure.going import go_on, pass_on, to_station
from fitwright.web.pages.measure.here import Here, here_of, remember_device
from fitwright.web.pages.measure.mending import answer_about_reading, move, say_not_measured, take_back
from fitwright.web.pages.measure.parts import SaidPart
from fitwright.web.pages.measure.reading import correct, take_did, take_instead, take_text
from fitwright.web.pages.measure.show import measure_page
from fitwright.web.pages.measure.turn import Turn
from fitwright.web.pages.problem import no_build, problem_page
from fitwright.web.writing import Sent, sent


async def take(request: Request) -> Response:
    """Answer a line or a key at a place."""
    hands, code = hands_of(request), request.path_params["build"]
    if not await is_known(hands, code):
        return no_build(request, code)
    form = await sent(request, most_fields=40)
    here = await run_in_threadpool(here_of, request, hands, code, form.fields)
    if here is None or here.stop is None:
        return problem_page(request, "No such station in this build.", "Choose a station.", status=404)
    turn = await run_in_threadpool(_turn, here, here.stop, form)
    answer = await run_in_threadpool(
        measure_page,
        request,
        turn.here,
        said=turn.said,
        asked=turn.asked,
        about=turn.about,
        unit=_unit_chosen(here, here.stop, form),
        status=turn.status,
    )
    remember_device(answer, turn.here)
    return answer


def _unit_chosen(here: Here, stop: Stop, form: Sent) -> str:
    """The unit that a person chose instead of the gauge's own; it goes along, a gauge's own does not."""
    unit = form.get("unit")
    return unit if unit != here.at(stop).unit else ""


def _turn(here: Here, stop: Stop, form: Sent) -> Turn:
    """What one line does: an answer to what was asked, or something new."""
    asked, given = form.get("asked"), form.get("answer") or form.get("text")
    chooses = bool(form.get("answer")) or (len(given) == 1 and given.isdigit())
    if asked == "because":
        return say_not_measured(here, stop, form, given)
    if asked == "reading" and chooses:
        return answer_about_reading(here, form, given)
    if asked == "slip" and given == "/":
        return Turn(here, SaidPart("", "", f"{form.get('asked_text')} was not entered.", ""))
    if asked == "slip" and (chooses or given == form.get("asked_text")):
        return _answer_about_text(here, stop, form, given)
    if asked == "slip" and given.startswith("/") and not form.get("asked_about"):
        return take_text(here, stop, form, given[1:].strip(), {})
    return _line(here, stop, form)


def _line(here: Here, stop: Stop, form: Sent) -> Turn:
    """A reading, or one of the commands."""
    if form.get("move"):
        return move(here, form)
    if form.get("because"):
        return _command(here, stop, form, Because())
    if form.get("did"):
        return take_did(here, stop, form, BladeDid(form.get("blade"), form.get("did")))
    dimension = here.bench.dimension(stop.dimension)
    line = read_line(form.get("text"), by_blades=may_be_tried(dimension))
    if isinstance(line, BladeDid):
        return take_did(here, stop, form, line)
    if isinstance(line, Entered):
        return take_text(here, stop, form, line.text, {})
    return _command(here, stop, form, line)


def _command(here: Here, stop: Stop, form: Sent, line: On | ToStation | TakeBack | Because | None) -> Turn:
    """What is no reading: an empty line, on, back, not measured."""
    match line:
        case None:
            return pass_on(here, stop)
        case On(number):
            return go_on(here, number)
        case ToStation(number):
            return to_station(here, number)
        case TakeBack(instead):
            return take_instead(here, form, instead) if instead else take_back(here, form)
        case Because():
            asked = because_asked(stop.dimension, here.bench.dimension(stop.dimension).title)
            return Turn(here, SaidPart("question", "Why?", "", ""), asked)


def _answer_about_text(here: Here, stop: Stop, form: Sent, given: str) -> Turn:
    """What a doubtful text is taken as, at its own place or instead of the reading that it corrects."""
    text, key, corrects = form.get("asked_text"), form.get("asked_key"), form.get("asked_about")
    earlier = {
        name.removeprefix(EARLIER): words for name, words in form.fields.items() if name.startswith(EARLIER)
    }

    def taken(answers: dict[str, str]) -> Turn:
        if corrects:
            return correct(here, form, text, answers, corrects)
        return take_text(here, stop, form, text, answers)

    unanswered = taken(earlier)
    if unanswered.asked is None or unanswered.asked.key != key:
        return unanswered  # it has been answered elsewhere, or is none any more
    answer = answer_named(unanswered.asked, "keep" if given == text else given)
    if answer is None:
        words = f"{given} is none of the answers; type the number of one, or another reading."
        return replace(unanswered, said=SaidPart("refused", "Not understood", words, ""), status=422)
    return taken({**earlier, key: answer})
