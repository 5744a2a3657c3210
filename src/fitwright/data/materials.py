"""Usual values of the materials that engines are made of."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from types import MappingProxyType


@dataclass(frozen=True, slots=True)
class UsualMaterial:
    """One material: expansion [1/K] with its standard uncertainty, elastic constants [Pa, 1], source."""

    name: str
    title: str
    grade: str
    expansion_coefficient: float
    standard_uncertainty: float
    elastic_modulus: float
    poisson_ratio: float
    source: str
    note: str = ""


@cache
def usual_materials() -> Mapping[str, UsualMaterial]:
    """The materials by name.

    >>> usual_materials()["steel"].expansion_coefficient
    1.15e-05
    """
    text = files("fitwright.data").joinpath("materials.toml").read_text(encoding="utf-8")
    rows = tomllib.loads(text).items()
    return MappingProxyType({name: UsualMaterial(name=name, **row) for name, row in rows})
