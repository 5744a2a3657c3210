"""Lines in and out of the terminal; the same with a pipe in its place."""

from __future__ import annotations

import sys
from collections.abc import Sequence

from fitwright.bench.asking import KEEP
from fitwright.model.slips import Question

_KEEPING = frozenset({"k", "keep", "y", "yes"})


class Terminal:
    """Asks for one line at a time. A piped line is shown behind its prompt, as if it were typed."""

    def __init__(self) -> None:
        self.typing = sys.stdin.isatty()

    def say(self, text: str = "") -> None:
        """Print a line at once."""
        sys.stdout.write(f"{text}\n")
        sys.stdout.flush()

    def ask(self, prompt: str) -> str | None:
        """The next line without its ends; None where there is none any more."""
        if self.typing:
            try:
                return input(prompt).strip()
            except EOFError:
                self.say()
                return None
        sys.stdout.write(prompt)
        line = sys.stdin.readline()
        text = line.strip()
        self.say(text)
        return text if line else None

    def put(self, question: Question) -> str | None:
        """Put a question: the label of a guess, `keep`, or whatever else was typed; None at the end."""
        self.say(f"? {question.text}")
        for number, guess in enumerate(question.guesses, start=1):
            self.say(f"  {number}  {guess.label}")
        self.say("  keep  as typed; or type what it is")
        answer = self.ask("? ")
        return answer if answer is None else meant(answer, [guess.label for guess in question.guesses])

    def choose(self, text: str, choices: Sequence[str]) -> str | None:
        """One of several answers, by number, by its words or their beginning; asked until it is one."""
        self.say(f"? {text}")
        for number, choice in enumerate(choices, start=1):
            self.say(f"  {number}  {choice}")
        while True:
            answer = self.ask("? ")
            if answer is None:
                return None
            found = meant(answer, choices)
            found = next((each for each in choices if answer and each.startswith(answer.lower())), found)
            if found in choices:
                return found
            self.say(f"Answer with a number from 1 to {len(choices)}.")


def meant(answer: str, labels: Sequence[str]) -> str:
    """The label that a number stands for, or `keep`, or the answer itself."""
    if answer.isdigit() and 1 <= int(answer) <= len(labels):
        return labels[int(answer) - 1]
    return KEEP if answer.lower() in _KEEPING and answer not in labels else answer
