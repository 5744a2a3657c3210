"""The units of pages that belong to no build: those asked for here, by this browser last, or of the shop."""

from __future__ import annotations

from typing import Final

from starlette.requests import Request
from starlette.responses import Response

from fitwright.units.families import Family
from fitwright.web.hands import Hands, hands_of

COOKIE: Final = "units"
"""The cookie in which a browser remembers its units."""


def own_family(request: Request) -> Family:
    """Millimetres or inches."""
    wanted = request.query_params.get("units") or request.cookies.get(COOKIE)
    if wanted is None:
        return family_of_shop(hands_of(request))
    return "inch" if wanted == "inch" else "mm"


def family_of_shop(hands: Hands) -> Family:
    """The units that a shop says it reads in, else those in which all its builds are; else millimetres."""
    said = hands.shop.state.shop_setting("units")
    if said is None and {family_of_build(hands, code) for code in hands.shop.builds()} == {"inch"}:
        return "inch"
    return "inch" if said == "inch" else "mm"


def family_of_build(hands: Hands, code: str) -> Family:
    """The units of a build's sheet."""
    return "inch" if hands.shop.bench(code).sheet.engine.unit_family == "inch" else "mm"


def remember_family(answer: Response, request: Request) -> None:
    """Let the browser remember the units, where they were asked for."""
    if request.query_params.get("units") in ("mm", "inch"):
        answer.set_cookie(
            COOKIE, request.query_params["units"], max_age=400 * 24 * 3600, httponly=True, samesite="strict"
        )
