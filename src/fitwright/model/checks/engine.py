"""The engine of a sheet: its layout against itself."""

from __future__ import annotations

from collections.abc import Iterator

from fitwright.model.engine import Engine, Layout
from fitwright.model.problem import Path, Problem

_CYLINDERS = {"single": 1, "twin": 2}


def check_engine(engine: Engine) -> Iterator[Problem]:
    """Problems of the layout."""
    layout, path = engine.layout, ("engine", "layout")
    wanted = _CYLINDERS.get(layout.arrangement)
    if wanted is not None and layout.cylinders != wanted:
        what = f"{layout.cylinders} cylinders for the arrangement {layout.arrangement}"
        yield Problem((*path, "cylinders"), what, f"write {wanted}, or another arrangement")
    if layout.arrangement == "vee" and layout.bank_angle is None:
        yield Problem(path, "a vee without its bank angle", 'write bank_angle = "90 deg"')
    if layout.arrangement != "vee" and layout.bank_angle is not None:
        mend = "leave it out"
        yield Problem((*path, "bank_angle"), f"a bank angle for the arrangement {layout.arrangement}", mend)
    if layout.pump_stages and layout.pump != "dry sump":
        yield Problem((*path, "pump_stages"), "scavenge stages without a dry sump", 'write pump = "dry sump"')
    yield from _check_firing_order(layout, (*path, "firing_order"))


def _check_firing_order(layout: Layout, path: Path) -> Iterator[Problem]:
    if layout.firing_order is None:
        return
    wanted = sorted(range(1, layout.cylinders + 1))
    numbers = layout.firing_order.split("-")
    if not all(number.isdecimal() for number in numbers):
        yield Problem(path, f'"{layout.firing_order}" is no firing order', 'write it as "1-3-4-2"')
    elif sorted(map(int, numbers)) != wanted:
        what = f'"{layout.firing_order}" does not name each of the {layout.cylinders} cylinders once'
        yield Problem(path, what, f"write the numbers 1 to {layout.cylinders}, each once")
