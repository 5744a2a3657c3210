"""Engines of every layout, as sheets that `fitwright new` makes, and the examples."""

from __future__ import annotations

from functools import cache
from math import radians
from typing import Any, Final

from fitwright.examples import EXAMPLES, sheet_text
from fitwright.formats.sheet import read_sheet
from fitwright.model.sheet import Sheet
from fitwright.starter.answers import Answers
from fitwright.starter.sheet import write_sheet

LAYOUTS: Final[dict[str, dict[str, Any]]] = {
    "inline four, twin cams": {
        "valve_train": "double overhead camshafts",
        "valves_per_cylinder": 4,
        "pump": "chain-driven",
    },
    "inline three, rotor on the crank": {"cylinders": 3, "pump": "crank-driven internal rotor"},
    "inline six": {"cylinders": 6, "valve_adjustment": "shims"},
    "vee eight, dry sump": {
        "arrangement": "vee",
        "valve_train": "pushrod",
        "pump": "dry sump",
        "pump_stages": 4,
    },
    "vee twelve": {"arrangement": "vee", "cylinders": 12, "bank_angle": radians(60), "pump": "chain-driven"},
    "vee twin, air, rolling": {
        "arrangement": "vee",
        "cylinders": 2,
        "bank_angle": radians(50),
        "cooling": "air",
        "bearings": "rolling",
        "valve_train": "pushrod",
    },
    "flat four, air": {
        "arrangement": "flat",
        "cooling": "air",
        "valve_train": "pushrod",
        "pump": "camshaft-driven",
    },
    "flat six, dry sump": {"arrangement": "flat", "cylinders": 6, "pump": "dry sump", "pump_stages": 2},
    "single two-stroke": {"arrangement": "single", "valve_train": "two-stroke", "bearings": "rolling"},
    "single, one main": {"arrangement": "single", "mains": 1},
    "twin": {"arrangement": "twin", "cooling": "air"},
    "side-valve four": {"valve_train": "side valve", "bearings": "white metal", "duty": "historic"},
    "inline twelve, inch": {"cylinders": 12, "units": "inch"},
    "pump only": {"only": "pump"},
    "head only": {"only": "head", "valves_per_cylinder": 5},
}
"""Answers beside the name, by a name for the test."""


@cache
def engine(name: str) -> Sheet:
    """The sheet of a layout or an example."""
    if name in EXAMPLES:
        return read_sheet(sheet_text(name))
    return read_sheet(write_sheet(Answers(name=name, **LAYOUTS[name])))


ENGINES: Final = (*LAYOUTS, *EXAMPLES)
"""Names of all of them."""
