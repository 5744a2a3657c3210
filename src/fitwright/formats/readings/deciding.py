"""What is decided about a table before it is taken in: which rows, and what stands in the way."""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.formats.readings.importing import Answer, Checked


@dataclass(frozen=True, slots=True)
class Decided:
    """What a person decided: an answer to every question; whether the rows without a problem are enough."""

    answer: Answer | None = None
    only_good: bool = False


def stands_in_the_way(found: Checked, decided: Decided) -> bool:
    """Whether nothing can be taken in: there is a problem, or a question without an answer."""
    return bool((found.problems and not decided.only_good) or (found.questions and decided.answer is None))


def left_out(found: Checked, decided: Decided) -> set[int]:
    """The rows that are not taken in."""
    return found.bad_rows | (found.asked_rows if decided.answer == "leave-out" else set())


def coming(found: Checked, decided: Decided) -> int:
    """How many rows are taken in."""
    return found.new - (len(found.asked_rows) if decided.answer == "leave-out" else 0)


def taken_in_words(taken: int, found: Checked, decided: Decided, file: str) -> str:
    """What was taken in, what was here already, what was left out."""
    text = f"{count(taken, 'reading')} taken in from {file}"
    if found.already:
        text += f", {found.already} were here already"
    omitted = left_out(found, decided)
    if omitted:
        text += f", {count(len(omitted), 'row')} left out"
    return f"{text}."


def outside_sittings_words(found: Checked) -> str:
    """What holds for rows that fit no sitting; nothing where there are none."""
    if not found.outside_sittings:
        return ""
    rows = count(found.outside_sittings, "row")
    fit = (
        "fits no sitting: its size counts"
        if found.outside_sittings == 1
        else "fit no sitting: their sizes count"
    )
    return f"{rows} {fit} as at 20 °C."


def count(number: int, noun: str) -> str:
    """A number with its noun."""
    return f"{number} {noun}" if number == 1 else f"{number} {noun}s"
