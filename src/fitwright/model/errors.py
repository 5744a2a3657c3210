"""The errors of this package: texts in a sheet that mean nothing, with place and mend."""

from __future__ import annotations


class ModelError(Exception):
    """Base of all errors about what a sheet says."""


class TextError(ModelError):
    """A text that cannot be read: where in it, what is wrong, what to write instead.

    `position` counts characters from 1; `write` completes "write ...".
    """

    def __init__(self, text: str, position: int, problem: str, write: str) -> None:
        """Build the sentence."""
        self.text = text
        self.position = position
        self.problem = problem
        self.write = write
        super().__init__(f'"{text}", character {position}: {problem}; write {write}')


class BraceError(TextError):
    """Braces that name no members, or a `{}` that no brace fills."""


class ChainError(TextError):
    """A signed chain that cannot be read."""
