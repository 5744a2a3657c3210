"""A whole build as tables, one for each subject: for a workbook that somebody reads or computes with.

Amounts stand as plain numbers beside their unit; nothing in them is a formula. Columns are named in
English words of the trade, `snake_case` as in the table of readings.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from fitwright.formats.subjects import sizes, work
from fitwright.formats.subjects.told import Row, Told

__all__ = ["Subject", "Told", "subjects_of"]


@dataclass(frozen=True, slots=True)
class Subject:
    """One table: its name, its columns, its rows."""

    name: str
    columns: tuple[str, ...]
    rows: tuple[Row, ...]


def subjects_of(told: Told) -> tuple[Subject, ...]:
    """Every subject that has rows, in the order in which one reads a build."""
    every = (_subject(name, columns, tuple(make(told))) for name, columns, make in _SUBJECTS)
    return tuple(each for each in every if each.rows)


def _subject(name: str, columns: str, rows: Sequence[Row]) -> Subject:
    return Subject(name, tuple(columns.split()), tuple(rows))


_SUBJECTS: tuple[tuple[str, str, Callable[[Told], Iterator[Row]]], ...] = (
    ("open points", "kind subject title words because", sizes.open_points),
    (
        "fits",
        (
            "fit name station class verdict reason unit value standard_uncertainty proven_low proven_high "
            "lower_limit upper_limit in_hand source_kind place_in_source"
        ),
        sizes.fits,
    ),
    ("parts", "position title part part_title serial origin used", sizes.parts),
    (
        "stated sizes",
        "entry dimension place size unit tolerance tolerance_unit stated_by counts",
        sizes.stated,
    ),
    ("reworks", "entry code change part words dimensions person", work.reworks),
    ("rework orders", "order part change words stands closed open_items", work.rework_orders),
    (
        "concessions",
        "code kind subject title granted_by granted_at because consequence until in_force why_not",
        work.concessions,
    ),
    (
        "tightening groups",
        (
            "group title thread property_class lubricant fasteners complete unit intended_preload stands "
            "not_computed"
        ),
        work.groups,
    ),
    (
        "tightenings",
        (
            "group fastener part pass entry at performed_by torque_unit torque angle_deg stretch_unit "
            "stretch preload_unit preload preload_low preload_high lubricant wrench outside stands"
        ),
        work.tightenings,
    ),
    (
        "steps",
        "step stage title point state stands done_by done_at released_by released_at changed_since",
        work.steps,
    ),
    ("consumables", "consumable title step batch expires applied_at used_by stands", work.consumables),
    ("eye checks", "entry check question answer words person", sizes.eye_checks),
    (
        "first start",
        (
            "entry speed speed_unit oil_temperature temperature_unit gauge_reading unit zero zero_unit "
            "instrument step"
        ),
        sizes.pressures,
    ),
    (
        "instruments",
        "code title type unit resolution_si repeatability_si standard_uncertainty_si calibrated certificate",
        sizes.instruments,
    ),
    ("settings", "setting instrument master against size size_unit zero zero_unit", sizes.settings),
    ("people", "code name role", sizes.people),
    ("decisions", "entry kind words person committed_at", sizes.decisions),
    ("signatures", "entry signed_by meaning subject speaks_for hash", work.signatures),
)
