"""Who is at this browser: picked by name once, offered first afterwards."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final
from urllib.parse import quote, unquote

from starlette.requests import Request
from starlette.responses import Response

from fitwright.records.projection import ShopState
from fitwright.web.writing import Sent, UnclearFormError

COOKIE: Final = "at-the-bench"
"""The cookie in which a browser remembers who is at it."""


@dataclass(frozen=True, slots=True)
class PersonOption:
    """Somebody to choose."""

    code: str
    name: str
    chosen: bool


def person_at(request: Request, shop: ShopState) -> str | None:
    """Who was picked last at this browser; else the only person that there is."""
    picked = unquote(request.cookies.get(COOKIE, ""))
    if picked in shop.people:
        return picked
    return next(iter(shop.people)) if len(shop.people) == 1 else None


def people_to_choose(shop: ShopState, chosen: str | None) -> tuple[PersonOption, ...]:
    """Everybody, with the one chosen marked; for `people.html`."""
    return tuple(PersonOption(code, held.body.name, code == chosen) for code, held in shop.people.items())


def person_in(form: Sent, shop: ShopState) -> str | None:
    """Who a form says it is; None where it says nobody.

    Raises
    ------
    UnclearFormError
        If nobody here has that code.
    """
    code = form.get("person") or None
    if code is not None and code not in shop.people:
        raise UnclearFormError(f'Nobody here is "{code[:40]}"', "choose one of those offered")
    return code


def remember_person(answer: Response, code: str | None) -> None:
    """Let the browser remember who wrote; a code may hold letters that no cookie may."""
    if code is not None:
        answer.set_cookie(COOKIE, quote(code), max_age=400 * 24 * 3600, httponly=True, samesite="strict")
