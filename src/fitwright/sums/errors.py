"""The errors of this package: one sentence each, naming the input and the mend."""

from __future__ import annotations

from collections.abc import Sequence
from difflib import get_close_matches


class SumError(Exception):
    """Base of all errors of quick sums."""


class UnknownSumError(SumError):
    """A name that no sum has."""

    def __init__(self, name: str, known: Sequence[str]) -> None:
        """Build the sentence with the nearest names."""
        self.name = name
        self.known = tuple(known)
        super().__init__(f'there is no sum "{name}"; {nearest(name, known)}')


class InputError(SumError):
    """One input that cannot be read: where it stands, what is wrong, what to write."""

    def __init__(self, place: str, problem: str) -> None:
        """Build the sentence; `place` is empty for the inputs as a whole."""
        self.place = place
        self.problem = problem
        super().__init__(f"{place}: {problem}" if place else problem)


class MissingInputError(InputError):
    """An input that is not there yet; a page waits for it, where a command stops."""

    def __init__(self, place: str, give: str) -> None:
        """Build the sentence from what to give."""
        super().__init__(place, f"missing; {give}")


class InputsError(SumError):
    """All inputs of one sum that cannot be read."""

    def __init__(self, errors: Sequence[InputError]) -> None:
        """Build one sentence from all of them."""
        self.errors = tuple(errors)
        super().__init__("; ".join(map(str, errors)))


class NoAnswerError(SumError):
    """Inputs that can be read, but for which the sum has no answer."""

    def __init__(self, name: str, reason: str) -> None:
        """Build the sentence."""
        self.name = name
        self.reason = reason
        super().__init__(f"{name}: {reason}")


def nearest(name: str, known: Sequence[str]) -> str:
    """The names that somebody may have meant, else all of them."""
    near = get_close_matches(name, known, n=2, cutoff=0.6)
    if near:
        return "did you mean " + " or ".join(f'"{each}"' for each in near) + "?"
    return "there is " + ", ".join(f'"{each}"' for each in known)
