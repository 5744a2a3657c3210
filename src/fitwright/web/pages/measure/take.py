"""A line typed or a key pressed at a place: written first, then answered with all that follows."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response

from fitwright.bench.errors import NothingToWithdrawError
from fitwright.bench.keypad import Because, BladeDid, Entered, On, TakeBack, ToStation, read_line
from fitwright.bench.look_back import look_back, look_back_answer
from fitwright.bench.moving import last_moved
from fitwright.bench.order import Stop
from fitwright.bench.progress import last_by
from fitwright.bench.short_entries import BladeTyped, blade_typed, read_entry
from fitwright.bench.taking import Taken, Taking, take_blade, take_value
from fitwright.bench.withdrawing import not_measured, withdrawal
from fitwright.model.slips import Question
from fitwright.records.entry import NewEntry
from fitwright.units import echo
from fitwright.web.forms import EARLIER
from fitwright.web.hands import hands_of, is_known
from fitwright.web.pages.measure.asked import (
    AskedPart,
    answer_named,
    because_asked,
    reading_asked,
    slip_asked,
)
from fitwright.web.pages.measure.blades import may_be_tried, proposed_blades
from fitwright.web.pages.measure.here import Here, at_station, here_of, left_at, remember_device
from fitwright.web.pages.measure.parts import NOTHING_SAID, SaidPart
from fitwright.web.pages.measure.show import measure_page
from fitwright.web.pages.measure.words import place_words
from fitwright.web.pages.problem import no_build, problem_page
from fitwright.web.writing import NOT_KEPT, Came, Kept, Refused, Sent, UnclearFormError, sent, written


@dataclass(frozen=True, slots=True)
class Turn:
    """What came of one line: where one is then, what is said, what is asked."""

    here: Here
    said: SaidPart
    asked: AskedPart | None = None
    about: str = ""
    status: int = 200


@dataclass(slots=True)
class Made:
    """What a line made, noted while it is written."""

    taken: Taken | None = None
    words: str = ""
    stop: Stop | None = None
    text: str = ""
    answers: dict[str, str] = field(default_factory=dict)


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
        return _not_measured(here, stop, form, given)
    if asked == "reading" and chooses:
        return _answer_about_reading(here, form, given)
    if asked == "slip" and (chooses or given == form.get("asked_text")):
        return _answer_about_text(here, stop, form, given)
    if asked == "slip" and given == "/":
        return Turn(here, SaidPart("", "", f"{form.get('asked_text')} was not entered.", ""))
    if asked == "slip" and given.startswith("/"):
        return _value(here, stop, form, given[1:].strip(), {})
    return _line(here, stop, form)


def _line(here: Here, stop: Stop, form: Sent) -> Turn:
    """A reading, or one of the commands."""
    if form.get("move"):
        return _move(here, form)
    if form.get("because"):
        return _command(here, stop, form, Because())
    if form.get("did"):
        return _blade(here, stop, form, BladeDid(form.get("blade"), form.get("did")))
    dimension = here.bench.dimension(stop.dimension)
    line = read_line(form.get("text"), by_blades=may_be_tried(dimension))
    if isinstance(line, BladeDid):
        return _blade(here, stop, form, line)
    if isinstance(line, Entered):
        return _value(here, stop, form, line.text, {})
    return _command(here, stop, form, line)


def _command(here: Here, stop: Stop, form: Sent, line: On | ToStation | TakeBack | Because | None) -> Turn:
    """What is no reading: an empty line, on, back, not measured."""
    match line:
        case None:
            return _pass(here, stop)
        case On(number):
            return _on(here, number)
        case ToStation(number):
            return _to_station(here, number)
        case TakeBack(instead):
            return _instead(here, form, instead) if instead else _back(here, form)
        case Because():
            asked = because_asked(stop.dimension, here.bench.dimension(stop.dimension).title)
            return Turn(here, SaidPart("question", "Why?", "", ""), asked)


def _pass(here: Here, stop: Stop) -> Turn:
    """An empty line goes on where something was read here; else it does nothing."""
    tried = any(
        each.effective and (each.dimension, each.place) == (stop.dimension, stop.place)
        for each in here.bench.build.readings.values()
        if each.body.sitting == here.sitting
    )
    if not tried:
        return Turn(here, SaidPart("", "", "Type what the gauge says. * goes on without a reading.", ""))
    return _on(here, None)


def _on(here: Here, number: int | None) -> Turn:
    if number is None:
        following = here.next()
        onwards = following if following not in (None, here.stop) else _after(here)
        return Turn(_moved_to(here, onwards), NOTHING_SAID)
    if not 1 <= number <= len(here.order):
        words = f"There is no place {number}: this station has places 1 to {len(here.order)}."
        return Turn(here, SaidPart("refused", "Not understood", words, ""), status=422)
    return Turn(replace(here, stop=here.order[number - 1]), NOTHING_SAID)


def _to_station(here: Here, number: int | None) -> Turn:
    bench = here.bench
    stations = list(bench.sheet.stations.values())
    if number is None:
        index = stations.index(here.station) + 1
        onwards = (*stations[index:], *stations[:index])
        following = next((each for each in onwards if left_at(bench, each)), None)
        if following is None:
            words = "Every place of every station was read. *.3 goes to station 3 all the same."
            return Turn(here, SaidPart("", "", words, ""))
    elif not 1 <= number <= len(stations):
        words = f"There is no station {number}: this engine has stations 1 to {len(stations)}."
        return Turn(here, SaidPart("refused", "Not understood", words, ""), status=422)
    else:
        following = stations[number - 1]
    return Turn(at_station(here, following), SaidPart("", "", f"At {following.title}.", ""))


def _after(here: Here) -> Stop | None:
    """The place that follows, read or not."""
    if here.stop is None:
        return None
    index = here.order.index(here.stop) + 1
    return here.order[index % len(here.order)]


def _moved_to(here: Here, stop: Stop | None) -> Here:
    return replace(here, stop=stop) if stop is not None else here


# What is written.


def _value(
    here: Here,
    stop: Stop,
    form: Sent,
    text: str,
    answers: dict[str, str],
    *,
    supersedes: str | None = None,
    back_to: Stop | None = None,
) -> Turn:
    """A size, or a blade in words."""
    made = Made(text=text, answers=answers, stop=stop)

    def make() -> Sequence[NewEntry] | Question:
        bench, at = here.bench, here.at(stop)
        typed, taking, unit = text, _taking(here, stop, form, answers, supersedes), form.get("unit")
        if unit and unit != at.unit and blade_typed(text) is None:
            taking = replace(taking, unit=unit)
        else:
            entry = read_entry(text, at)
            if isinstance(entry, BladeTyped):
                made.taken = take_blade(bench, stop.dimension, stop.place, entry.blades, entry.answer, taking)
                return made.taken.entries
            typed, taking = entry.quantity.typed, replace(taking, unit=entry.quantity.unit)
        found = take_value(bench, stop.dimension, stop.place, typed, taking)
        if isinstance(found, Question):
            return found
        made.taken = found
        return found.entries

    came = written(here.hands, form, make)
    if isinstance(came, Question):
        asked = slip_asked(came, text, answers)
        return Turn(here, SaidPart("question", "A question first; nothing is kept yet", "", ""), asked)
    if isinstance(came, Refused):
        return _refused(here, came, text)
    return _kept(here, stop, made, came, back_to)


def _blade(here: Here, stop: Stop, form: Sent, did: BladeDid) -> Turn:
    made = Made(stop=stop)

    def make() -> Sequence[NewEntry]:
        second = form.get("second_blade")
        blades = did.blades or proposed_blades(here, stop.dimension)
        if not blades:
            raise UnclearFormError("Which blade it was is not said", "choose a blade, then what it did")
        names = "+".join(each for each in (blades, second) if each)
        taking = _taking(here, stop, form, {}, None)
        made.taken = take_blade(here.bench, stop.dimension, stop.place, names, did.answer, taking)
        return made.taken.entries

    came = written(here.hands, form, make)
    if isinstance(came, Kept):
        return _kept(here, stop, made, came, None)
    assert isinstance(came, Refused)  # noqa: S101  (a blade raises no question)
    return _refused(here, came, form.get("text"))


def _taking(here: Here, stop: Stop, form: Sent, answers: dict[str, str], supersedes: str | None) -> Taking:
    at = here.at(stop)
    chosen = form.get("blade_set")
    return Taking(
        person=here.person,
        device=here.device,
        sitting=here.sitting,
        outside_sittings=here.sitting is None,
        instrument=at.instrument.code if at.instrument is not None else None,
        setting=at.setting.code if at.setting is not None else None,
        note=form.get("note") or None,
        entry_id=form.get("entry_id") or None,
        blade_sets=(chosen,) if chosen in here.bench.shop.blade_sets else (),
        during_rework=form.get("during_rework") == "yes",
        answers=answers,
        supersedes=supersedes,
        reason="typed wrong" if supersedes is not None else None,
    )


def _kept(here: Here, stop: Stop, made: Made, came: Kept, back_to: Stop | None) -> Turn:
    """A reading is durable: where to go on, and what it raises."""
    assert made.taken is not None  # noqa: S101  (it was written)
    reading = made.taken.reading
    with here.hands.shop.held():
        raised = look_back(here.bench, here.going(), reading.id)
        following = here.next() if (stop.dimension, stop.place) in here.done() else stop
        why = _why_unused(here, reading.id)
        where = place_words(here.bench.sheet, here.bench.dimension(stop.dimension), stop.place)
    title = here.bench.dimension(stop.dimension).title
    words = f"{_taken_words(made.taken)}: {title}{f', {where}' if where else ''}. {came.words}"
    said = SaidPart("kept", "Kept", words, "")
    if why:
        said = SaidPart("unused", "Kept, and does not count yet", f"{words} {why}.", "")
    if following is None:
        said = replace(said, words=f"{said.words} Every place of this station is read.")
    now = _moved_to(here, back_to or following)
    return Turn(now, said, reading_asked(raised) if raised is not None else None, about=stop.dimension)


def _why_unused(here: Here, reading: str) -> str:
    shop = here.hands.shop
    record = here.bench.build.readings.get(reading)
    if record is None or record.dimension is None:
        return ""
    subjects = shop.assessor(here.code).judge.subjects.values()
    resting = [each.id for each in subjects if record.dimension in each.dimensions()]
    found = shop.verdicts(here.code, resting)
    return next((each.why for one in found for each in one.unused if each.entry == reading), "")


def _taken_words(taken: Taken) -> str:
    if taken.quantity is not None:
        return echo(taken.quantity)
    observation = taken.reading.body["observation"]
    return f"{' with '.join(observation['blades'])} {observation['answer']}"


def _refused(here: Here, came: Refused, text: str) -> Turn:
    title = "Not kept" if came.status == NOT_KEPT else "Not taken"
    return Turn(here, SaidPart("refused", title, came.words, text), status=came.status)


def _write(
    here: Here,
    form: Sent,
    make: Callable[[], Sequence[NewEntry]],
    words: Callable[[], str],
    then: Callable[[], Here],
) -> Turn:
    """Write what is no reading, and say so."""
    came: Came = written(here.hands, form, make)
    if isinstance(came, Kept):
        return Turn(then(), SaidPart("kept", "Kept", f"{words()} {came.words}", ""))
    assert isinstance(came, Refused)  # noqa: S101  (none of these raises a question)
    return _refused(here, came, form.get("text"))


def _back(here: Here, form: Sent) -> Turn:
    """Take the last entry of this browser back."""
    made = Made()

    def make() -> Sequence[NewEntry]:
        last = last_by(here.bench, here.device)
        if last is None:
            raise NothingToWithdrawError
        made.words, made.stop = last.words, last.stop
        entry = withdrawal(here.bench, last.entry, person=here.person, reason="undo")
        return [_own(here, form, entry)]

    return _write(
        here,
        form,
        make,
        lambda: f"Taken back: {made.words}.",
        lambda: _moved_to(here, made.stop if made.stop in here.order else None),
    )


def _move(here: Here, form: Sent) -> Turn:
    """The last readings belong one place on or back."""
    count, way = form.get("text") or "1", form.get("move")

    def make() -> Sequence[NewEntry]:
        if not count.isdigit() or way not in ("on", "back"):
            raise UnclearFormError(f"{count} is no number of readings", "type how many, then move them")
        entry = last_moved(
            here.bench,
            here.order,
            here.going().taken,
            count=int(count),
            way="on" if way == "on" else "back",
            person=here.person,
        )
        return [_own(here, form, entry)]

    return _write(here, form, make, lambda: f"Moved {count} one place {way}; / takes it back.", lambda: here)


def _own(here: Here, form: Sent, entry: NewEntry) -> NewEntry:
    """An entry under the id of its form, from this browser."""
    return replace(entry, id=form.get("entry_id") or entry.id, device=here.device)


def _instead(here: Here, form: Sent, text: str) -> Turn:
    """Correct the reading taken last at this browser."""
    with here.hands.shop.held():
        taken = here.going().taken
        record = here.bench.build.readings[taken[-1]] if taken else None
    if record is None or record.dimension is None:
        words = "Nothing was read here in this sitting that could be corrected."
        return Turn(here, SaidPart("refused", "Not taken", words, text), status=422)
    where = Stop(record.dimension, record.place)
    return _value(here, where, form, text, {}, supersedes=record.entry.id, back_to=here.stop)


def _not_measured(here: Here, stop: Stop, form: Sent, given: str) -> Turn:
    dimension = here.bench.dimension(stop.dimension)
    asked = because_asked(stop.dimension, dimension.title)
    why = answer_named(asked, given) or given
    if not why or why == "/":
        return Turn(here, SaidPart("", "", "Nothing was entered.", ""))

    def make() -> Sequence[NewEntry]:
        return [_own(here, form, not_measured(here.bench, stop.dimension, why, person=here.person))]

    def then() -> Here:
        index = here.order.index(stop)
        onwards = (*here.order[index:], *here.order[:index])
        return _moved_to(here, next((each for each in onwards if each.dimension != stop.dimension), None))

    return _write(here, form, make, lambda: f"{dimension.title} is not measured, because {why}.", then)


# Answers.


def _answer_about_text(here: Here, stop: Stop, form: Sent, given: str) -> Turn:
    """What a doubtful text is taken as."""
    text, key = form.get("asked_text"), form.get("asked_key")
    earlier = {
        name.removeprefix(EARLIER): words for name, words in form.fields.items() if name.startswith(EARLIER)
    }
    unanswered = _value(here, stop, form, text, earlier)
    if unanswered.asked is None or unanswered.asked.key != key:
        return unanswered  # it has been answered elsewhere, or is none any more
    answer = answer_named(unanswered.asked, "keep" if given == text else given)
    if answer is None:
        words = f"{given} is none of the answers; type the number of one, or another reading."
        return replace(unanswered, said=SaidPart("refused", "Not understood", words, ""), status=422)
    return _value(here, stop, form, text, {**earlier, key: answer})


def _answer_about_reading(here: Here, form: Sent, given: str) -> Turn:
    """What is done about a reading that is kept already."""
    made = Made()

    def make() -> Sequence[NewEntry]:
        raised = look_back(here.bench, here.going(), form.get("asked_about"))
        if raised is None or raised.question.key != form.get("asked_key"):
            raise UnclearFormError("That question is not open any more", "go on reading")
        answer = answer_named(reading_asked(raised), given)
        if answer is None:
            raise UnclearFormError(f"{given} is none of the answers", "type the number of one")
        made.words = f"{raised.question.text} {answer.capitalize()}."
        entries = look_back_answer(
            here.bench, here.going(), raised, answer, person=here.person, device=here.device
        )
        return [replace(each, device=here.device) for each in entries]

    return _write(here, form, make, lambda: made.words, lambda: here)
