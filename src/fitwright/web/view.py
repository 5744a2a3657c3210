"""What is looked at."""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.assess.results import State
from fitwright.units.families import Family


@dataclass(frozen=True, slots=True)
class View:
    """A build in one state, in one family of units."""

    code: str
    state: State
    family: Family
