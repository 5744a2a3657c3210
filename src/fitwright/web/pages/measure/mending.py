"""What puts readings right: taken back, moved, chosen between; or says that there is none."""

from __future__ import annotations

from collections.abc import Sequence

from fitwright.bench.errors import NothingToWithdrawError
from fitwright.bench.look_back import look_back, look_back_answer
from fitwright.bench.moving import last_moved
from fitwright.bench.order import Stop
from fitwright.bench.progress import last_by
from fitwright.bench.withdrawing import not_measured, withdrawal
from fitwright.records.entry import NewEntry
from fitwright.records.kinds import NotMeasured, QuestionAnswered, ReadingsMoved, Withdrawal
from fitwright.web.numbers import whole_number
from fitwright.web.pages.measure.asked import answer_named, because_asked, reading_asked
from fitwright.web.pages.measure.here import Here
from fitwright.web.pages.measure.parts import SaidPart
from fitwright.web.pages.measure.turn import Made, Turn, moved_to, own, own_together, write
from fitwright.web.writing import Sent, UnclearFormError


def take_back(here: Here, form: Sent) -> Turn:
    """Take the last entry of this browser back."""
    made = Made()

    def make() -> Sequence[NewEntry]:
        last = last_by(here.bench, here.device)
        if last is None:
            raise NothingToWithdrawError
        made.words, made.stop = last.words, last.stop
        entry = withdrawal(here.bench, last.entry, person=here.person, reason="undo")
        return [own(here, form, entry)]

    return write(
        here,
        form,
        Withdrawal.kind,
        make,
        lambda: f"Taken back: {made.words}.",
        lambda: moved_to(here, made.stop if made.stop in here.order else None),
    )


def move(here: Here, form: Sent) -> Turn:
    """The last readings belong one place on or back."""
    count, way = form.get("text") or "1", form.get("move")
    readings, before = "reading" if count == "1" else "readings", here.done()

    def make() -> Sequence[NewEntry]:
        number = whole_number(count)
        if number is None or way not in ("on", "back"):
            raise UnclearFormError(f"{count[:40]} is no number of readings", "type how many, then move them")
        entry = last_moved(
            here.bench,
            here.order,
            here.going().taken,
            count=number,
            way="on" if way == "on" else "back",
            person=here.person,
        )
        return [own(here, form, entry)]

    return write(
        here,
        form,
        ReadingsMoved.kind,
        make,
        lambda: f"Moved {count} {readings} one place {way}; / takes it back.",
        lambda: moved_to(here, _left_empty(here, before)),
    )


def _left_empty(here: Here, before: set[tuple[str, str]]) -> Stop | None:
    """The first place that had a reading and has none any more: that one is to be read now."""
    left = before - here.done()
    return next((each for each in here.order if (each.dimension, each.place) in left), None)


def say_not_measured(here: Here, stop: Stop, form: Sent, given: str) -> Turn:
    """Why the dimension of this place is not measured."""
    dimension = here.bench.dimension(stop.dimension)
    asked = because_asked(stop.dimension, dimension.title)
    why = answer_named(asked, given) or given
    if not why or why == "/":
        return Turn(here, SaidPart("", "", "Nothing was entered.", ""))

    def make() -> Sequence[NewEntry]:
        return [own(here, form, not_measured(here.bench, stop.dimension, why, person=here.person))]

    def then() -> Here:
        index = here.order.index(stop)
        onwards = (*here.order[index:], *here.order[:index])
        return moved_to(here, next((each for each in onwards if each.dimension != stop.dimension), None))

    words = f"{dimension.title} is not measured, because {why}."
    return write(here, form, NotMeasured.kind, make, lambda: words, then)


def answer_about_reading(here: Here, form: Sent, given: str) -> Turn:
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
        return own_together(here, form, entries)

    return write(here, form, QuestionAnswered.kind, make, lambda: made.words, lambda: here)
