"""The errors of this package: an answer that cannot be used, and why."""

from __future__ import annotations


class StarterError(Exception):
    """Base of all errors about a starter sheet."""


class AnswerError(StarterError):
    """An answer that cannot be used: to which question, what is wrong, what would be accepted."""

    def __init__(self, question: str, given: object, problem: str, accepted: str) -> None:
        """Build the sentence."""
        self.question = question
        self.given = given
        self.problem = problem
        self.accepted = accepted
        self.mend = f'"{given}" {problem}; answer {accepted}'
        super().__init__(f"{question}: {self.mend}")
