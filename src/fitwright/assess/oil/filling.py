"""Which oil a build is filled with: the one that was chosen last, else the one that the sheet plans."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from fitwright.model.amount import Written
from fitwright.model.oil import Oil
from fitwright.model.sheet import Sheet
from fitwright.records.kinds import OilChosen, OilDataSheet, Typed
from fitwright.records.projection import BuildState, Recorded

OWN_DATA_SHEET: Final = "own data sheet"
OWN_GRADE: Final = "grade only"
"""Ids of oils that no sheet has; an id of a sheet holds no space."""


@dataclass(frozen=True, slots=True)
class Filling:
    """The oil that a build is filled with.

    `chosen` is the entry that says so; without one the oil is that of the sheet. Without an `oil`,
    `problem` says why none is known and what to do.
    """

    oil: Oil | None
    chosen: Recorded[OilChosen] | None = None
    problem: str = ""


def filling_of(sheet: Sheet, build: BuildState, *, before: int | None = None) -> Filling:
    """The oil that a build is filled with now, or was before the entry that stands at an order."""
    chosen = _chosen(build, before)
    if chosen is not None:
        found = oil_of(sheet, chosen.body)
        gone = f"the sheet has no oil {chosen.body.oil} any more: choose one"
        return Filling(found, chosen, "" if found is not None else gone)
    if sheet.oil is not None:
        return Filling(sheet.oil)
    which = "the sheet has several oils and none is planned" if sheet.oils else "no oil is known"
    return Filling(None, None, f"{which}: choose one")


def oil_of(sheet: Sheet, body: OilChosen) -> Oil | None:
    """The oil that an entry chooses, as a sheet describes oils; None where the sheet does not have it."""
    if body.data_sheet is not None:
        return _by_data_sheet(body.data_sheet)
    if body.grade is not None:
        return Oil(id=OWN_GRADE, title=f"SAE {body.grade}", grade=body.grade)
    return sheet.oils.get(body.oil or "")


def _chosen(build: BuildState, before: int | None) -> Recorded[OilChosen] | None:
    for held in reversed(build.oils_chosen):
        if before is None or build.ledger.order(held.entry.id) < before:
            return held
    return None


def _by_data_sheet(sheet: OilDataSheet) -> Oil:
    return Oil(
        id=OWN_DATA_SHEET,
        title=sheet.title,
        kinematic_viscosity_40=_written(sheet.kinematic_viscosity_40),
        kinematic_viscosity_100=_written(sheet.kinematic_viscosity_100),
        high_shear_viscosity_150=_optional(sheet.high_shear_viscosity_150),
        density_15=_optional(sheet.density_15),
        source=sheet.source,
    )


def _written(typed: Typed) -> Written:
    return Written(typed.typed, typed.si, typed.unit, typed.decimals)


def _optional(typed: Typed | None) -> Written | None:
    return _written(typed) if typed is not None else None
