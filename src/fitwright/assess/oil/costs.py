"""What each size, group of sizes and fault costs of the pressure at the gauge, in the order of its effect.

Asked in two ways: by the exact derivative per hundredth of a millimetre, and by solving anew with one thing
put right (or wrong), because a cube law outruns its derivative.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from fitwright.assess.oil.points import OilPoint
from fitwright.assess.oil.results import Cost
from fitwright.assess.oil.sizes import Basis, KnownSize
from fitwright.assess.oil.solving import BuildCircuit, speeds_and_temperatures
from fitwright.assess.oil.what_if import WhatIf
from fitwright.model import circuit as sheet
from fitwright.physics.network.solution import Solution
from fitwright.quantity import FloatArray

STEP: Final = 1e-5
"""A hundredth of a millimetre [m]."""

HELD_OPEN: Final = 1e-4
"""How far a leaking seat is taken to be held open [m]."""

LEFT_OUT: Final = 3.0
"""A restrictor that is left out is taken as a hole so many times as wide, where no passage says how wide."""

MIDDLE: Final = "the middle of its limits"


@dataclass(frozen=True, slots=True)
class _Otherwise:
    """One thing that might be otherwise: what it does to the parameters, and how it is told.

    `sign` is 1 where the build as it is is held against it, -1 where it is held against the build.
    `moved` are the lengths whose slopes together say what a little more of it does.
    """

    id: str
    title: str
    station: str | None
    against: str
    change: Callable[[FloatArray], None]
    sign: float
    words: str = ""
    moved: tuple[str, ...] = ()


def costs_at(
    build: BuildCircuit, point: OilPoint, what_if: WhatIf, best: Solution, before: Sequence[KnownSize] = ()
) -> tuple[Cost, ...]:
    """Every clearance and group, the costliest first; `before` are sizes as received, where they differ."""
    slopes = dict(zip(build.measured, build.slopes(best, build.measured)[0], strict=True))
    asked = [*_sizes(build), *_groups(build), *_as_received(build, before)]
    found = list(_answered(build, point, what_if, asked, slopes))
    seen = {each.id for each in found}
    found.extend(
        _cost(size, slopes.get(size.id), None, "") for size in _clearances(build) if size.id not in seen
    )
    return tuple(sorted(found, key=_weight))


def faults_at(build: BuildCircuit, point: OilPoint, what_if: WhatIf) -> tuple[Cost, ...]:
    """What would be lost by a named fault, the worst first."""
    asked = [*_restrictors(build), *_seats(build), *_jets(build)]
    moved = tuple(dict.fromkeys(name for each in asked for name in each.moved))
    slopes = build.slopes(build.solved([point], what_if), moved)[0] if moved else ()
    named = dict(zip(moved, slopes, strict=True))
    return tuple(sorted(_answered(build, point, what_if, asked, named), key=_weight))


def _weight(cost: Cost) -> float:
    """Costliest first: what lowers the pressure most."""
    if cost.difference is not None:
        return cost.difference
    return -abs(cost.per_step or 0.0) * 1e-3


def _clearances(build: BuildCircuit) -> list[KnownSize]:
    named = {name for names in build.posed.groups.values() for name in names}
    return [size for name, size in build.posed.sizes.items() if name in named and name in build.measured]


def _answered(
    build: BuildCircuit,
    point: OilPoint,
    what_if: WhatIf,
    asked: Sequence[_Otherwise],
    slopes: dict[str, float],
) -> Iterator[Cost]:
    """Solve all of them at once, beside the build as it is."""
    _, temperatures = speeds_and_temperatures([point], what_if)
    base = build.values(temperatures, what_if)
    values = np.repeat(base[np.newaxis], len(asked) + 1, axis=0)
    for row, each in enumerate(asked):
        each.change(values[row, 0])
    pressures = build.solved([point], what_if, values).pressure_at(build.posed.sheet.gauge)[:, 0]
    for row, each in enumerate(asked):
        difference = each.sign * float(pressures[-1] - pressures[row])
        slope = sum(slopes.get(name, 0.0) for name in each.moved or (each.id,))
        asked_so = bool(each.moved) or each.id in slopes
        per_step = _per_step(slope) if asked_so and slope != 0.0 else None
        yield Cost(
            id=each.id,
            title=each.title,
            station=each.station,
            per_step=per_step,
            step=STEP if per_step is not None else None,
            difference=difference if np.isfinite(difference) else None,
            against=each.against,
            words=each.words,
        )


def _per_step(slope: float | None) -> float | None:
    return None if slope is None or not np.isfinite(slope) else float(slope * STEP)


def _cost(size: KnownSize, slope: float | None, difference: float | None, against: str) -> Cost:
    return Cost(size.id, size.title, size.station, _per_step(slope), STEP, difference, against)


def _sizes(build: BuildCircuit) -> Iterator[_Otherwise]:
    for size in _clearances(build):
        if size.limits is not None and size.basis is not Basis.LIMIT_BAND:
            put = _put(build, {size.id: 0.5 * (size.limits[0] + size.limits[1])})
            yield _Otherwise(size.id, size.title, size.station, MIDDLE, put, 1.0)


def _groups(build: BuildCircuit) -> Iterator[_Otherwise]:
    for group, names in build.posed.groups.items():
        sizes = [build.posed.sizes[name] for name in names if name in build.measured]
        middles = {each.id: 0.5 * sum(each.limits) for each in sizes if each.limits is not None}
        if len(middles) > 1:
            put = _put(build, middles)
            yield _Otherwise(f"group {group}", f"All {group}", None, "the middle of their limits", put, 1.0)


def _as_received(build: BuildCircuit, before: Sequence[KnownSize]) -> Iterator[_Otherwise]:
    for size in before:
        if size.id in build.measured and np.isfinite(size.value):
            put = _put(build, {size.id: size.value})
            title = f"{size.title}, as received"
            yield _Otherwise(f"received {size.id}", title, size.station, "as it is now", put, -1.0)


def _put(build: BuildCircuit, sizes: dict[str, float]) -> Callable[[FloatArray], None]:
    """Put sizes (cold) to other values, at the growth that they have."""
    columns = build.posed.columns(tuple(sizes))
    shifts = np.array([each - build.posed.sizes[name].value for name, each in sizes.items()])

    def change(values: FloatArray) -> None:
        values[columns] += shifts

    return change


def _set(build: BuildCircuit, sizes: dict[str, float]) -> Callable[[FloatArray], None]:
    columns, wanted = build.posed.columns(tuple(sizes)), np.array(list(sizes.values()))

    def change(values: FloatArray) -> None:
        values[columns] = wanted

    return change


def _restrictors(build: BuildCircuit) -> Iterator[_Otherwise]:
    """The restrictors of each group left out: the oil then has the passage beside them."""
    left_out: dict[str, dict[str, float]] = {}
    titles: dict[str, list[str]] = {}
    for path in build.posed.sheet.paths.values():
        key = f"paths.{path.id}.{_hole(path)}"
        if _hole(path) and key in build.circuit.parameters:
            wide = _passage(build.posed.sheet, path) or LEFT_OUT * build.circuit.parameters[key]
            left_out.setdefault(path.group, {})[key] = wide
            titles.setdefault(path.group, []).append(_restrictor_title(path))
    for group, holes in left_out.items():
        words = f"Left out: {_few(titles[group])}"
        yield _fault(build, f"left out {group}", words, holes)


def _restrictor_title(path: sheet.OilPath) -> str:
    """A feed is not left out with its restrictor."""
    if isinstance(path.element, sheet.TurbochargerFeed):
        return f"{path.title}, its restrictor"
    return path.title


def _few(titles: Sequence[str]) -> str:
    """The first two, and how many more."""
    more = f" and {len(titles) - 2} more" if len(titles) > 2 else ""
    return f"{'; '.join(titles[:2])}{more}"


def _hole(path: sheet.OilPath) -> str:
    if isinstance(path.element, sheet.Restrictor):
        return "diameter"
    return "restrictor_diameter" if isinstance(path.element, sheet.TurbochargerFeed) else ""


def _passage(circuit: sheet.Circuit, restrictor: sheet.OilPath) -> float | None:
    """The narrowest passage next to a restrictor [m]; the feed's own line for a turbocharger."""
    if isinstance(restrictor.element, sheet.TurbochargerFeed):
        return getattr(restrictor.element.line_diameter, "si", None)
    bores = [
        each.element.diameter.si
        for each in circuit.paths.values()
        if isinstance(each.element, sheet.Passage)
        and (each.to_node == restrictor.from_node or each.from_node == restrictor.to_node)
        and not isinstance(each.element.diameter, sheet.Reference)
    ]
    return min(bores, default=None)


def _seats(build: BuildCircuit) -> Iterator[_Otherwise]:
    for relief in build.posed.sheet.reliefs.values():
        lift = {f"reliefs.{relief.id}.seat_leak_lift": HELD_OPEN}
        yield _fault(
            build, f"leaking {relief.id}", f"{relief.title}: seat held open by 0.10 mm (4 thou)", lift
        )


def _jets(build: BuildCircuit) -> Iterator[_Otherwise]:
    """Jets that never shut."""
    opening = {
        f"paths.{path.id}.{name}": value
        for path in build.posed.sheet.paths.values()
        if isinstance(path.element, sheet.Jet)
        for name, value in (("opening_pressure", 0.0), ("full_pressure", 1.0))
        if f"paths.{path.id}.{name}" in build.circuit.parameters
    }
    if opening:
        yield _fault(build, "open jets", "Jets that do not shut", opening)


def _fault(build: BuildCircuit, name: str, title: str, sizes: dict[str, float]) -> _Otherwise:
    lengths = tuple(each for each in sizes if each.endswith(("diameter", "lift")))
    change = _set(build, sizes)
    return _Otherwise(name, title, None, "the build as it is", change, -1.0, moved=lengths)
