"""Rows of choices that are links: which readings count, which units."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from fitwright.assess.results import State
from fitwright.units.families import Family
from fitwright.web.addresses import BOTH, fits_address

STATE_LABELS = {
    State.CURRENT.value: "current",
    State.AS_RECEIVED.value: "as received",
    BOTH: "side by side",
}
UNIT_LABELS: dict[Family, str] = {"mm": "mm", "inch": "inch"}


@dataclass(frozen=True, slots=True)
class Choice:
    """One choice of a row of choices."""

    label: str
    address: str
    chosen: bool


def state_choices(
    code: str, state: State | str, family: Family, more: Mapping[str, str] | None = None
) -> tuple[Choice, ...]:
    """Current, as received, or both beside each other; `more` is what else the address says."""
    return tuple(
        Choice(label, fits_address(code, each, family, more=more), each == str(state))
        for each, label in STATE_LABELS.items()
    )


def unit_choices(
    code: str, state: State | str, family: Family, more: Mapping[str, str] | None = None
) -> tuple[Choice, ...]:
    """Millimetres or inches; `more` is what else the address says."""
    return tuple(
        Choice(label, fits_address(code, state, each, more=more), each == family)
        for each, label in UNIT_LABELS.items()
    )
