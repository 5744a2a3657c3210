"""Questions of the slip guard put to whoever types, or answered by an option of the command."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TypeVar

from fitwright.bench.asking import KEEP, guess_named
from fitwright.cli.errors import UsageError
from fitwright.cli.terminal import Terminal
from fitwright.model.slips import Question

Taken = TypeVar("Taken")


def answered(
    take: Callable[[Mapping[str, str]], Taken | Question], answer: str | None, terminal: Terminal
) -> Taken:
    """What `take` makes once its questions are answered, each with `answer` where one was given.

    Raises
    ------
    UsageError
        If something is asked, no answer was given, and nobody sits at the terminal.
    """
    answers: dict[str, str] = {}
    while True:
        found = take(answers)
        if not isinstance(found, Question):
            return found
        if answer is None and not terminal.typing:
            raise UsageError(f"{found.text} Say it with --answer: {_labels(found)}.")
        given = answer if answer is not None else terminal.put(found)
        if given != KEEP and (given is None or guess_named(found, given) is None):
            raise UsageError(f"Nothing was entered. {found.text} Answer with one of: {_labels(found)}.")
        answers[found.key] = given


def _labels(question: Question) -> str:
    return ", ".join([*(f'"{guess.label}"' for guess in question.guesses), KEEP])
