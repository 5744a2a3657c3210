"""Addresses of pages, so that links and routes agree."""

from __future__ import annotations

from urllib.parse import quote, urlencode

from fitwright.assess.results import State
from fitwright.units.families import Family

BOTH = "both"
"""In an address, the state that shows as received and current side by side."""


def fits_address(code: str, state: State | str, family: Family, *, only: str = "", anchor: str = "") -> str:
    """The page Fits of a build in a state and in units, perhaps of one verdict only."""
    asked = {"state": str(state), "units": family} | ({"only": only} if only else {})
    return f"/builds/{quote(code)}/fits?{urlencode(asked)}{f'#{quote(anchor)}' if anchor else ''}"


def engine_address(code: str, family: Family | None = None) -> str:
    """The page Engine of a build, where one begins."""
    return f"/builds/{quote(code)}" + (f"?{urlencode({'units': family})}" if family else "")


def measure_address(
    code: str, family: Family, *, station: str = "", dimension: str = "", place: str = ""
) -> str:
    """The page Measure: all stations, one of them, or a place of it."""
    asked = {"units": family} | ({"at": f"{dimension}|{place}"} if dimension else {})
    return f"/builds/{quote(code)}/measure{f'/{quote(station)}' if station else ''}?{urlencode(asked)}"


def fit_address(code: str, subject: str, state: State, family: Family) -> str:
    """The page of a fit."""
    asked = {"state": state.value, "units": family}
    return f"/builds/{quote(code)}/fits/{quote(subject)}?{urlencode(asked)}"


def readings_address(code: str, family: Family) -> str:
    """Where readings of a build are sent."""
    return f"/builds/{quote(code)}/readings?{urlencode({'units': family})}"
