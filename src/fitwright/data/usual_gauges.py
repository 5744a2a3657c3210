"""Usual values of instruments by kind, and usual lists of feeler blades: where a form begins."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from types import MappingProxyType
from typing import Any, Literal


@dataclass(frozen=True, slots=True)
class UsualInstrument:
    """What an instrument of a kind usually shows and adds, as texts that one would type."""

    letter: str
    unit: str
    resolution: str
    repeatability: str
    uncertainty: str
    transfer: str = ""
    zero_limit: str = ""
    comparison: bool = False
    note: str = ""


@dataclass(frozen=True, slots=True)
class UsualBladeSet:
    """A list of blades as sets of that name often hold; the actual set knows better."""

    title: str
    unit: str
    blades: tuple[str, ...]


def usual_instrument(kind: str, family: Literal["mm", "inch"] = "mm") -> UsualInstrument | None:
    """The usual values of a kind of instrument; None where there are none.

    >>> usual_instrument("outside micrometer", "inch").resolution
    '0.0001 in'
    """
    row = _instruments().get(kind)
    if row is None:
        return None
    plain = {key: value for key, value in row.items() if key != "inch"}
    return UsualInstrument(**plain | (row.get("inch", {}) if family == "inch" else {}))


@cache
def usual_blade_sets() -> Mapping[str, UsualBladeSet]:
    """The lists of blades by name.

    >>> usual_blade_sets()["metric-13"].blades[:3]
    ('0.05', '0.10', '0.15')
    """
    rows = _table("usual_blade_sets.toml").items()
    return MappingProxyType(
        {name: UsualBladeSet(row["title"], row["unit"], tuple(row["blades"])) for name, row in rows}
    )


@cache
def _instruments() -> Mapping[str, Any]:
    return MappingProxyType(_table("usual_instruments.toml"))


def _table(name: str) -> dict[str, Any]:
    return tomllib.loads(files("fitwright.data").joinpath(name).read_text(encoding="utf-8"))
