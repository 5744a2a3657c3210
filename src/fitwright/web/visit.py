"""A page of one build asked for: by which request, of which build, in which units."""

from __future__ import annotations

from typing import NamedTuple

from starlette.requests import Request

from fitwright.units.families import Family
from fitwright.web.hands import Hands, family_of, hands_of, is_known


class NotThereError(Exception):
    """What an address names is not there: a sentence about that, and one about what to do."""

    def __init__(self, problem: str, mend: str) -> None:
        """Keep both sentences."""
        self.problem, self.mend = problem, mend
        super().__init__(problem)


class NoBuildError(NotThereError):
    """The shop has no such build."""

    def __init__(self, code: str) -> None:
        """Build the sentences."""
        super().__init__(f'No build "{code}" in this shop.', "Choose one of the builds.")


class Visit(NamedTuple):
    """Who asks what of which build: what every page of a build is made from."""

    request: Request
    hands: Hands
    code: str
    family: Family

    def named(self, what: str) -> str:
        """What the address itself names, as the step of `/builds/NAME/assembly/steps/STEP`."""
        return str(self.request.path_params[what])


async def visit_of(request: Request) -> Visit:
    """The visit that a request makes to a build, which is open from then on.

    Raises
    ------
    NotThereError
        If the shop has no such build; the application answers with its sentences.
    """
    hands, code = hands_of(request), request.path_params["build"]
    if not await is_known(hands, code):
        raise NoBuildError(code)
    return Visit(request, hands, code, family_of(request, code))
