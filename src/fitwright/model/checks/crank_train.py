"""The crank train of an oil circuit: it names every bearing that it loads, and gives all that loads them."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from math import radians
from typing import Final

from fitwright.model.amount import Written
from fitwright.model.circuit import Bearing, CrankTrain, PathKind
from fitwright.model.problem import Path, Problem, meant
from fitwright.model.sheet import Sheet
from fitwright.model.throws import crank_of_sheet

_PLACE: Final[Path] = ("circuit", "crank_train")
_LATEST_PEAK: Final = radians(90.0)
"""No pressure peaks later than this after the firing top."""


def check_crank_train(
    sheet: Sheet, train: CrankTrain, unusable_paths: frozenset[str] | None
) -> Iterator[Problem]:
    """Problems of the crank train as a whole; its sizes are checked with those of the circuit."""
    layout = sheet.engine.layout
    for name, ids, wanted, of_what in (
        ("mains", train.mains, layout.mains, "main bearings"),
        ("big_ends", train.big_ends, layout.cylinders, "cylinders"),
    ):
        yield from _check_bearings(sheet, ids, (*_PLACE, name), unusable_paths or frozenset())
        if len(set(ids)) != wanted:
            what = f"{len(set(ids))} bearings here, and {wanted} {of_what} in the engine's layout"
            yield Problem((*_PLACE, name), what, "write each one once")
    yield from _check_sizes(sheet, train)
    yield from _check_firing(sheet, train)
    yield from _check_gas(train)


def _check_bearings(
    sheet: Sheet, ids: tuple[str, ...], path: Path, unusable: frozenset[str]
) -> Iterator[Problem]:
    paths = sheet.circuit.paths if sheet.circuit is not None else {}
    bearings = [each.id for each in paths.values() if each.kind is PathKind.BEARING]
    for name in ids:
        found = paths.get(name)
        if found is None and name not in unusable:
            mend = meant(name, bearings) or "write the id of a path of kind bearing"
            yield Problem(path, f'there is no oil path "{name}"', mend)
        elif found is not None and not isinstance(found.element, Bearing):
            yield Problem(path, f"{name} is a {found.kind.value} and no bearing", "write a bearing")
        elif found is not None and found.count > 1:
            what = f"{name} stands for {found.count} bearings, which are not loaded alike"
            yield Problem(path, what, "write a path for each of them")


def _check_sizes(sheet: Sheet, train: CrankTrain) -> Iterator[Problem]:
    for name in ("bore", "stroke", "rod_length"):
        if getattr(train, name) is None and getattr(sheet.engine.layout, name) is None:
            yield Problem(_PLACE, f"no {name}, and none in the engine's layout", f"write {name} = ...")
    stroke = train.stroke or sheet.engine.layout.stroke
    rod = train.rod_length or sheet.engine.layout.rod_length
    if isinstance(stroke, Written) and isinstance(rod, Written) and rod.si <= stroke.si:
        what = f"a rod of {rod.written} for a stroke of {stroke.written}"
        yield Problem((*_PLACE, "rod_length"), what, "check both: a rod is longer than the stroke")


def _check_firing(sheet: Sheet, train: CrankTrain) -> Iterator[Problem]:
    layout = sheet.engine.layout
    crank = crank_of_sheet(sheet)
    if train.firing_angles and len(train.firing_angles) != layout.cylinders:
        what = f"{len(train.firing_angles)} firing angles for {layout.cylinders} cylinders"
        yield Problem((*_PLACE, "firing_angles"), what, "write one for each")
    elif not train.firing_angles and crank.note is not None:
        mend = "write firing_order in [engine.layout], or firing_angles here"
        yield Problem(_PLACE, "nothing says where the throws stand", mend)
    spaces = layout.mains - 1
    if spaces < 1 or crank.pins % spaces:
        what = f"{crank.pins} throws do not stand evenly between {layout.mains} main bearings"
        yield Problem((*_PLACE, "mains"), what, "leave the crank train out: its loads cannot be shared")


def _check_gas(train: CrankTrain) -> Iterator[Problem]:
    for index, (before, after) in enumerate(pairwise(train.gas_pressures)):
        if after.speed.si <= before.speed.si:
            path: Path = (*_PLACE, "gas_pressures", index + 1, "speed")
            yield Problem(path, f"{after.speed.written} after {before.speed.written}", "write speeds rising")
    for index, each in enumerate(train.gas_pressures):
        if each.peak_angle.si > _LATEST_PEAK:
            path = (*_PLACE, "gas_pressures", index, "peak_angle")
            what = f"no pressure peaks {each.peak_angle.written} after the top"
            yield Problem(path, what, 'write it as "14 deg"')
