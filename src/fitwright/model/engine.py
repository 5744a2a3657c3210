"""The engine itself: its duty and layout, enough to draw it and to say directions in its own terms."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from fitwright.model.amount import Written


@dataclass(frozen=True, slots=True)
class Layout:
    """How the engine is laid out. Words are the sheet format's own lists; lengths as written."""

    arrangement: str
    cylinders: int
    mains: int
    bank_angle: Written | None = None
    bore: Written | None = None
    stroke: Written | None = None
    rod_length: Written | None = None
    compression_height: Written | None = None
    firing_order: str | None = None
    bearings: str = "plain"
    valves_per_cylinder: int = 2
    valve_adjustment: str | None = None
    valve_train: str | None = None
    pump: str | None = None
    pump_stages: int = 0
    rotation: str = "clockwise from the nose"


@dataclass(frozen=True, slots=True)
class Directions:
    """Names of the four directions around the crank, as one says them in the shop."""

    top: str = "deck"
    bottom: str = "sump"
    right: str = "right side"
    left: str = "left side"


@dataclass(frozen=True, slots=True)
class Engine:
    """Name, revision and duty of an engine type, with its layout."""

    id: str
    name: str
    revision: str
    unit_family: str
    layout: Layout
    duty: str | None = None
    aspiration: str | None = None
    cooling: str | None = None
    piston: str | None = None
    directions: Directions = field(default_factory=Directions)
    facts: Mapping[str, str] = field(default_factory=dict)
    note: str | None = None
