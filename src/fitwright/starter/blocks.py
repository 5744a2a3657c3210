"""Blocks of a sheet before they are text: what is measured where, and which fits follow.

Templates name members by `{0}`, `{1}` (see `family`). A block's `comment` lines stand above it; a
fit without a rule of thumb says in `no_rule` why it has none.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from fitwright.quantity import Metre
from fitwright.starter.family import ONE, Family
from fitwright.starter.rules.rule import Bounds


@dataclass(frozen=True, slots=True, kw_only=True)
class StationBlock:
    """A place of work, with its caution and the questions asked there."""

    id: str
    title: str
    caution: str | None = None
    eye_checks: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class PartBlock:
    """A position (or a family of positions) where a part sits."""

    key: str
    title: str
    material: str
    family: Family = ONE
    one_time_use: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class DimensionBlock:
    """A measurable size, or a family of them."""

    key: str
    title: str
    sense: str
    station: str
    part: str | None = None
    through: tuple[str, ...] = ()
    family: Family = ONE
    nominal: Metre | None = None
    nominal_guessed: bool = False
    plausible: tuple[Metre, Metre] | None = None
    planes: tuple[str, ...] = ()
    angles: tuple[str, ...] = ()
    places: tuple[str, ...] = ()
    condition: str | None = None
    instrument: tuple[str, ...] = ()
    rules: tuple[Bounds, ...] = ()
    no_rule: str | None = None
    critical: bool = False
    judged: str | None = None
    comment: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class FitBlock:
    """A fit, or a family of them: one or two routes, its rules of thumb."""

    key: str
    title: str
    kind: str
    sense: str
    station: str
    by_parts: str | None = None
    fitted: str | None = None
    governing: str | None = None
    family: Family = ONE
    rules: tuple[Bounds, ...] = ()
    no_rule: str | None = None
    critical: bool = False
    judged: str | None = None
    removes_metal: bool = False
    growth: tuple[tuple[str, Metre, str], ...] = ()
    compression: Mapping[str, str] = field(default_factory=dict)
    centring: Mapping[str, str] = field(default_factory=dict)
    form_of: str | None = None
    comment: tuple[str, ...] = ()


Value = str | float | bool | tuple[str, ...] | tuple[Mapping[str, str], ...] | Mapping[str, str | int]
"""A value of a table: a text, a number, a truth value, texts, tables of these, or one table."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TableBlock:
    """A table of any section, key by key; `remarks` stand behind the values of their keys.

    `to_fill` are lines at its end that a person uncomments and fills in.
    """

    section: str
    key: str
    values: Mapping[str, Value]
    family: Family = ONE
    remarks: Mapping[str, str] = field(default_factory=dict)
    comment: tuple[str, ...] = ()
    to_fill: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """One subject of the sheet: its stations, the parts, what is measured, the fits, other tables."""

    title: str
    comment: tuple[str, ...] = ()
    stations: tuple[StationBlock, ...] = ()
    parts: tuple[PartBlock, ...] = ()
    dimensions: tuple[DimensionBlock, ...] = ()
    fits: tuple[FitBlock, ...] = ()
    tables: tuple[TableBlock, ...] = ()
