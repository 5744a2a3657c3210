"""Addresses of pages, so that links and routes agree."""

from __future__ import annotations

from collections.abc import Mapping
from urllib.parse import quote, urlencode

from fitwright.assess.results import State
from fitwright.units.families import Family

BOTH = "both"
"""In an address, the state that shows as received and current side by side."""


def fits_address(
    code: str,
    state: State | str,
    family: Family,
    *,
    only: str = "",
    more: Mapping[str, str] | None = None,
    anchor: str = "",
) -> str:
    """The page Fits of a build in a state and in units, perhaps of one verdict or by other filters only."""
    asked = {"state": str(state), "units": family} | ({"only": only} if only else {}) | dict(more or {})
    return f"/builds/{quote(code)}/fits?{urlencode(asked)}{f'#{quote(anchor)}' if anchor else ''}"


def oil_address(
    code: str, family: Family, rest: str = "", asked: Mapping[str, str] | None = None, *, anchor: str = ""
) -> str:
    """The page Oil of a build, or one of its parts (`rest`), with what is asked of it."""
    query = urlencode({"units": family} | {name: each for name, each in (asked or {}).items() if each})
    return f"/builds/{quote(code)}/oil{rest}?{query}{f'#{quote(anchor)}' if anchor else ''}"


def engine_address(code: str, family: Family | None = None) -> str:
    """The page Engine of a build, where one begins."""
    return f"/builds/{quote(code)}" + (f"?{urlencode({'units': family})}" if family else "")


def measure_address(
    code: str, family: Family, *, station: str = "", dimension: str = "", place: str = "", **more: str
) -> str:
    """The page Measure: all stations, one of them, or a place of it; `more` says sitting and order."""
    asked = {"units": family} | ({"at": f"{dimension}|{place}"} if dimension else {})
    asked |= {name.rstrip("_"): value for name, value in more.items() if value}
    return f"/builds/{quote(code)}/measure{f'/{quote(station)}' if station else ''}?{urlencode(asked)}"


def fit_address(code: str, subject: str, state: State, family: Family) -> str:
    """The page of a fit."""
    asked = {"state": state.value, "units": family}
    return f"/builds/{quote(code)}/fits/{quote(subject)}?{urlencode(asked)}"


def adopt_address(code: str, subject: str, family: Family) -> str:
    """Where a limit is adopted for a fit."""
    return f"/builds/{quote(code)}/parts?{urlencode({'adopt': subject, 'units': family})}"


def parts_address(code: str, family: Family, *, do: str = "", **asked: str) -> str:
    """The page Parts of a build: with a form open, filled as far as is known, or with another list."""
    return f"/builds/{quote(code)}/parts?{_asked(family, do=do, **asked)}"


def enter_address(code: str, family: Family, do: str, *, effects: bool = False) -> str:
    """Where a form of the page Parts is sent, or asked what it would un-prove."""
    if do == "photo":
        return f"/builds/{quote(code)}/photos?{_asked(family)}"
    return f"/builds/{quote(code)}/parts/{quote(do)}{'/effects' if effects else ''}?{_asked(family)}"


def thing_address(code: str, family: Family, *, position: str = "", part: str = "") -> str:
    """The page of one position, with what sits there, or of one part."""
    return f"/builds/{quote(code)}/parts/one?{_asked(family, position=position, part=part)}"


def put_right_address(code: str, family: Family, *, do: str = "", anchor: str = "", **asked: str) -> str:
    """The page Put right of a build, perhaps with a form open and filled as far as is known."""
    at = f"#{quote(anchor)}" if anchor else ""
    return f"/builds/{quote(code)}/put-right?{_asked(family, do=do, **asked)}{at}"


def enter_put_right_address(code: str, family: Family, do: str, *, effects: bool = False) -> str:
    """Where a form of the page Put right is sent, or asked what would follow."""
    return f"/builds/{quote(code)}/put-right/{quote(do)}{'/effects' if effects else ''}?{_asked(family)}"


def order_address(code: str, order: str, family: Family, *, printed: bool = False, **asked: str) -> str:
    """The page of a rework order, or the order as it is printed."""
    rest = "/print" if printed else ""
    return f"/builds/{quote(code)}/put-right/orders/{quote(order, safe='')}{rest}?{_asked(family, **asked)}"


def dossier_address(code: str, family: Family, rest: str = "", **asked: str) -> str:
    """The page Dossier of a build, or one of its parts (`rest`)."""
    return f"/builds/{quote(code)}/dossier{rest}?{_asked(family, **asked)}"


def enter_dossier_address(code: str, family: Family, do: str, *, effects: bool = False) -> str:
    """Where a form of the page Dossier is sent, or asked what would follow."""
    return dossier_address(code, family, f"/{quote(do)}{'/effects' if effects else ''}")


def photo_address(code: str, digest: str, *, small: bool = False) -> str:
    """A photo of a build, whole or small."""
    return f"/builds/{quote(code)}/photos/{quote(digest)}{'?small=1' if small else ''}"


def assembly_address(
    code: str, family: Family, *, step: str = "", group: str = "", rest: str = "", do: str = "", **asked: str
) -> str:
    """The page Assembly of a build, or of one step or tightening group, perhaps with a form open."""
    where = f"/steps/{quote(step)}" if step else f"/groups/{quote(group)}" if group else ""
    return f"/builds/{quote(code)}/assembly{where}{rest}?{_asked(family, do=do, **asked)}"


def enter_assembly_address(
    code: str, family: Family, do: str, *, step: str = "", group: str = "", effects: bool = False
) -> str:
    """Where a form about a step, a tightening group or the assembly as a whole is sent."""
    rest = f"/do/{quote(do)}{'/effects' if effects else ''}"
    return assembly_address(code, family, step=step, group=group, rest=rest)


def _asked(family: Family, **asked: str) -> str:
    """What an address says: the units, and whatever is not empty."""
    return urlencode({"units": family} | {name: value for name, value in asked.items() if value})


def changing_address(code: str, subject: str, family: Family, *, reading: str = "") -> str:
    """Where a reading is corrected, withdrawn or chosen: for a fit, opened at one of its readings."""
    asked = {"units": family} | ({"reading": reading} if reading else {})
    return f"/builds/{quote(code)}/fits/{quote(subject)}/readings?{urlencode(asked)}"


def sheet_address(code: str) -> str:
    """The page Sheet of a build."""
    return f"/builds/{quote(code)}/sheet"


def record_address(
    code: str | None, asked: Mapping[str, str | int] | None = None, *, entry: int | None = None
) -> str:
    """The page Record of a build, or of the whole shop; perhaps of one entry, or with filters."""
    where = f"/builds/{quote(code)}/record" if code is not None else "/shop/record"
    filters = {name: value for name, value in (asked or {}).items() if value not in ("", 0)}
    return f"{where}{f'/{entry}' if entry is not None else ''}" + (
        f"?{urlencode(filters)}" if filters else ""
    )


def history_address(code: str, subject: str, family: Family) -> str:
    """How a fit came to be what it is."""
    return f"/builds/{quote(code)}/fits/{quote(subject)}/history?{urlencode({'units': family})}"


def readings_address(code: str, family: Family) -> str:
    """Where readings of a build are sent."""
    return f"/builds/{quote(code)}/readings?{urlencode({'units': family})}"


def forms_address(code: str, family: Family, *, station: str = "") -> str:
    """The page Paper of a build, or a station's printed sheet."""
    return (
        f"/builds/{quote(code)}/forms{f'/{quote(station)}' if station else ''}?{urlencode({'units': family})}"
    )


def labels_address(code: str, family: Family, **asked: str) -> str:
    """The labels of a build's parts."""
    return f"/builds/{quote(code)}/labels?{urlencode({'units': family} | asked)}"


def paper_address(code: str, station: str, family: Family, *, photo: bool = False) -> str:
    """Where a station is typed in from paper, or where a photo of the paper is sent."""
    rest = "/photos" if photo else ""
    return f"/builds/{quote(code)}/paper/{quote(station)}{rest}?{urlencode({'units': family})}"
