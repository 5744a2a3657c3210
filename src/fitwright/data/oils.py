"""Oils, fuels, the limits of oil grades and the reference series of the viscosity index."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from types import MappingProxyType
from typing import TYPE_CHECKING, Any

from fitwright.physics.oil.dilution import Fuel
from fitwright.physics.oil.grades import J300, HotLimits, UsualBase, WinterLimits
from fitwright.physics.oil.oil import Oil

if TYPE_CHECKING:
    from fitwright.physics.oil.viscosity_index import IndexTable

_ZERO_CELSIUS = 273.15


@dataclass(frozen=True, slots=True)
class GenericOil:
    """A class of oils by the usual values of its data sheets, good to 5 %; for demonstrations."""

    name: str
    title: str
    grade: str
    oil: Oil


@dataclass(frozen=True, slots=True)
class GenericFuel:
    """A kind of fuel by usual values, good to 30 %."""

    name: str
    title: str
    fuel: Fuel


@cache
def generic_oils() -> Mapping[str, GenericOil]:
    """Classes of oils by name.

    >>> generic_oils()["mineral_20w_50"].oil.density_15
    887.0
    """
    rows = _toml("oils.toml")["oils"].items()
    return MappingProxyType(
        {
            name: GenericOil(
                name,
                row["title"],
                row["grade"],
                Oil(
                    _scaled(row["kinematic_viscosity_40"], 6),
                    _scaled(row["kinematic_viscosity_100"], 6),
                    row["density_15"],
                    _scaled(row["high_shear_viscosity_150"], 3),
                ),
            )
            for name, row in rows
        }
    )


@cache
def generic_fuels() -> Mapping[str, GenericFuel]:
    """Kinds of fuel by name.

    >>> generic_fuels()["petrol"].fuel.density_15
    745.0
    """
    rows = _toml("oils.toml")["fuels"].items()
    return MappingProxyType(
        {
            name: GenericFuel(
                name,
                row["title"],
                Fuel(
                    _scaled(row["kinematic_viscosity_40"], 6),
                    _scaled(row["kinematic_viscosity_100"], 6),
                    row["density_15"],
                ),
            )
            for name, row in rows
        }
    )


@cache
def j300() -> J300:
    """The classification of oil grades.

    >>> j300().edition
    'SAE J300, January 2015'
    """
    table = _toml("sae_j300.toml")
    usual = {"" if name == "none" else name: UsualBase(**row) for name, row in table["usual"].items()}
    return J300(
        edition=table["edition"],
        hot=tuple(_hot(row) for row in table["hot"]),
        winter=tuple(_winter(row) for row in table["winter"]),
        usual=MappingProxyType(usual),
    )


@cache
def viscosity_index_table() -> IndexTable:
    """The reference series of the viscosity index.

    >>> len(viscosity_index_table().low)
    311
    """
    import numpy as np

    from fitwright.physics.oil.viscosity_index import IndexTable

    lines = _text("viscosity_index.csv").splitlines()
    rows = [line for line in lines if not line.startswith("#")][1:]
    at_100, low, high = np.array([[float(f"{cell}e-6") for cell in row.split(",")] for row in rows]).T
    return IndexTable(at_100, low, high)


def _hot(row: Mapping[str, Any]) -> HotLimits:
    return HotLimits(
        row["grade"],
        _scaled(row["kv100_min"], 6),
        _scaled(row["kv100_below"], 6),
        _scaled(row["hths_min"], 3),
        tuple(row.get("with", ())),
    )


def _winter(row: Mapping[str, Any]) -> WinterLimits:
    return WinterLimits(
        row["grade"],
        _scaled(row["ccs_max"], 3),
        row["ccs_at"] + _ZERO_CELSIUS,
        _scaled(row["mrv_max"], 3),
        row["mrv_at"] + _ZERO_CELSIUS,
        _scaled(row["kv100_min"], 6),
    )


def _scaled(number: float, digits: int) -> float:
    """A number moved by digits behind its point, as if it had been written so."""
    return float(f"{number}e-{digits}")


def _toml(name: str) -> dict[str, Any]:
    return tomllib.loads(_text(name))


def _text(name: str) -> str:
    return files("fitwright.data").joinpath(name).read_text(encoding="utf-8")
