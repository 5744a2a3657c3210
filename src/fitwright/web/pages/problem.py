"""The page that says what is wrong and what to do."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from starlette.responses import HTMLResponse

from fitwright.web.rendering import page


@dataclass(frozen=True, slots=True)
class ProblemContext:
    """One sentence about what is wrong, one about what to do."""

    template: ClassVar[str] = "problem.html"
    title: str
    problem: str
    mend: str


def problem_page(problem: str, mend: str, *, status: int) -> HTMLResponse:
    """The problem page."""
    return page(ProblemContext("Something is not there", problem, mend), status=status)
