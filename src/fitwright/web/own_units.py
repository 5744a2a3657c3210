"""The units of pages that belong to no build: those asked for, else those this browser asked for last."""

from __future__ import annotations

from typing import Final

from starlette.requests import Request
from starlette.responses import Response

from fitwright.units.families import Family

COOKIE: Final = "units"
"""The cookie in which a browser remembers its units."""


def own_family(request: Request) -> Family:
    """Millimetres or inches."""
    wanted = request.query_params.get("units") or request.cookies.get(COOKIE)
    return "inch" if wanted == "inch" else "mm"


def remember_family(answer: Response, request: Request) -> None:
    """Let the browser remember the units, where they were asked for."""
    if request.query_params.get("units") in ("mm", "inch"):
        answer.set_cookie(
            COOKIE, request.query_params["units"], max_age=400 * 24 * 3600, httponly=True, samesite="strict"
        )
