"""What may be moved to see what if: clearances by group, jets, restrictors, relief shim, pump speed."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum
from typing import Final

from fitwright.assess.oil.posed import PosedCircuit
from fitwright.model import circuit as sheet

TIGHTER, WIDER = -30e-6, 60e-6
"""How far a group of clearances may be moved [m]."""

THICKEST_SHIM: Final = 2e-3
MOST_TILTED: Final = 20e-6
WIDEST_HOLE: Final = 2.5
"""A hole may be moved from its third to this many times its size."""


THINGS: Final = {"jets": "Jets", "restrictors": "Restrictors"}


class Moves(StrEnum):
    """What a slider moves, which says how its value enters a what-if."""

    CLEARANCES = "clearances"
    SIZE = "size"
    SHIM = "shim"
    SEAT = "seat"
    PUMP_SPEED = "pump speed"
    TEMPERATURE = "temperature"
    FUEL = "fuel"
    MISALIGNMENT = "misalignment"


@dataclass(frozen=True, slots=True)
class Slider:
    """One thing that may be moved, between `low` and `high` [SI], with where it stands as measured.

    `id` is the group or the parameter, `parameters` all that it moves together; `dimension` is the kind
    of amount (of `fitwright.units`), or empty for a plain number; `folded` ones are less common.
    """

    id: str
    title: str
    moves: Moves
    dimension: str
    low: float
    high: float
    step: float
    now: float
    parameters: tuple[str, ...] = ()
    folded: bool = False


def sliders_of(posed: PosedCircuit) -> tuple[Slider, ...]:
    """The sliders of a circuit, those that matter most first."""
    return tuple(_sliders(posed))


def _sliders(posed: PosedCircuit) -> Iterator[Slider]:
    yield Slider(
        "temperature",
        "All oil temperatures",
        Moves.TEMPERATURE,
        "temperature_difference",
        -30.0,
        30.0,
        1.0,
        0.0,
    )
    for group, names in posed.groups.items():
        yield Slider(
            group, _clearance_title(group), Moves.CLEARANCES, "length", TIGHTER, WIDER, 1e-6, 0.0, names
        )
    if posed.circuit is None:
        return
    yield from _holes(posed)
    yield Slider("shim", "Shim under the relief spring", Moves.SHIM, "length", 0.0, THICKEST_SHIM, 5e-5, 0.0)
    yield Slider("seat", "Relief seat held open by", Moves.SEAT, "length", 0.0, 3e-4, 1e-5, 0.0, folded=True)
    yield Slider("pump_speed", "Pump speed, times", Moves.PUMP_SPEED, "", 0.5, 1.5, 0.01, 1.0)
    yield Slider(
        "misalignment",
        "Journals tilted from end to end by",
        Moves.MISALIGNMENT,
        "length",
        0.0,
        MOST_TILTED,
        1e-6,
        0.0,
        folded=True,
    )
    yield Slider("fuel", "Fuel in the oil, by mass", Moves.FUEL, "", 0.0, 0.1, 0.005, 0.0, folded=True)


def _clearance_title(group: str) -> str:
    """The group of one clearance names it; that of many is said with the word."""
    return f"{group[:1].upper()}{group[1:]}" if "clearance" in group else f"Clearance of {group}"


def _holes(posed: PosedCircuit) -> Iterator[Slider]:
    """Jets and restrictors, equal ones of a group together."""
    assert posed.circuit is not None  # noqa: S101 - asked of a circuit that is ready
    found: dict[tuple[str, str, float], list[str]] = {}
    titles: dict[str, str] = {}
    for path in posed.sheet.paths.values():
        for name in _movable(path):
            key = f"paths.{path.id}.{name}"
            if key in posed.circuit.parameters:
                found.setdefault((path.group, name, posed.circuit.parameters[key]), []).append(key)
                titles[key] = path.title
    for (group, name, now), names in found.items():
        thing = titles[names[0]] if len(names) == 1 else THINGS.get(group, f"Restrictors of the {group}")
        pressure = name.endswith("pressure")
        low, high = (0.0, 6e5) if pressure else (now / 3.0, WIDEST_HOLE * now)
        yield Slider(
            names[0],
            f"{thing}: {name.removeprefix('restrictor_').replace('_', ' ')}",
            Moves.SIZE,
            "pressure" if pressure else "length",
            low,
            high,
            1e4 if pressure else 5e-5,
            now,
            tuple(names),
        )


def _movable(path: sheet.OilPath) -> tuple[str, ...]:
    if isinstance(path.element, sheet.Jet):
        return ("diameter", "opening_pressure")
    if isinstance(path.element, sheet.Restrictor):
        return ("diameter",)
    return ("restrictor_diameter",) if isinstance(path.element, sheet.TurbochargerFeed) else ()
