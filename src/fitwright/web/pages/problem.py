"""The page that says what is wrong and what to do: unknown pages, wrong ways to ask, faults of ours."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import HTMLResponse, Response

from fitwright.web.frame import Frame, frame_of
from fitwright.web.hands import hands_of
from fitwright.web.rendering import page
from fitwright.web.security import HEADERS, LARGEST_FORM, largest_at
from fitwright.web.visit import NoBuildError, NotThereError

NOWHERE = "#answer"
"""Where a page in use shows a problem, so that what was typed there stays."""


@dataclass(frozen=True, slots=True)
class ProblemContext:
    """One sentence about what is wrong, one about what to do."""

    template: ClassVar[str] = "problem.html"
    frame: Frame
    whole: bool
    problem: str
    mend: str


def problem_page(request: Request, problem: str, mend: str, *, status: int) -> HTMLResponse:
    """The problem page; inside a page in use, only its words."""
    whole = "hx-request" not in request.headers
    answer = page(
        ProblemContext(frame_of(hands_of(request), _TITLES[status], "", live=False), whole, problem, mend),
        status=status,
    )
    if not whole:
        answer.headers["hx-retarget"] = NOWHERE
        answer.headers["hx-reswap"] = "innerHTML"
    return answer


_TITLES = {
    400: "Not understood",
    404: "Not here",
    405: "Not this way",
    413: "Too much at once",
    500: "A fault in the bench",
    503: "The record cannot be read",
}


def no_build(request: Request, code: str) -> HTMLResponse:
    """The page for a build that the shop does not have."""
    return not_there(request, NoBuildError(code))


def not_there(request: Request, error: Exception) -> HTMLResponse:
    """Answer where an address names what is not there."""
    assert isinstance(error, NotThereError)  # noqa: S101
    return problem_page(request, error.problem, error.mend, status=404)


async def not_here(request: Request, _: Exception) -> Response:
    """Answer where there is no page."""
    problem = f"There is no page at {request.url.path[:200]}."
    return problem_page(request, problem, "Go back to the builds, or use a link of a page.", status=404)


async def not_this_way(request: Request, error: Exception) -> Response:
    """Answer a page that cannot be asked for in this way."""
    problem = f"{request.url.path[:200]} cannot be asked for with {request.method}."
    mend = "Nothing was taken. Open the page of a build or of a fit, and use its form."
    answer = problem_page(request, problem, mend, status=405)
    if isinstance(error, HTTPException) and error.headers:
        answer.headers.update(error.headers)
    return answer


async def too_much(request: Request, _: Exception) -> Response:
    """Answer a form that is larger than any reading, or a file that is larger than may be sent."""
    largest = largest_at(request.url.path)
    if largest > LARGEST_FORM:
        problem = (
            f"What was sent is larger than the {largest // 10**6} MB that are taken here; nothing was taken."
        )
        return problem_page(request, problem, "Save a photo smaller, send a table in parts.", status=413)
    problem = "What was sent is larger than any reading can be; nothing was taken."
    mend = "Enter one reading at a time; put long notes and photos elsewhere."
    return problem_page(request, problem, mend, status=413)


async def not_understood(request: Request, _: Exception) -> Response:
    """Answer what is no form."""
    problem = "What was sent is no form of this bench; nothing was taken."
    return problem_page(request, problem, "Open the page of a fit, and use its form.", status=400)


async def unreadable(request: Request, error: Exception) -> Response:
    """Answer where the record itself cannot be read: what is wrong with it, in its own words."""
    mend = (
        "What was acknowledged is kept. If a reading was just sent, it is not known here whether it was "
        "kept: send the same form again afterwards, which never counts twice."
    )
    return problem_page(request, f"{error}.", mend, status=503)


async def fault(request: Request, _: Exception) -> Response:
    """Answer after a fault of the program: what is safe, and what to do."""
    problem = "The bench made a mistake of its own and could not finish this."
    mend = (
        'Every reading that was answered with "Kept as entry" is safe in the record. Whether the last one '
        "was kept is not known: send the same form again, which never counts twice, or look at the fit. "
        "If it happens again, stop the bench, run `fitwright verify`, and start it anew."
    )
    answer = problem_page(request, problem, mend, status=500)
    answer.headers.update(HEADERS)  # this answer is made outside the guard
    return answer
