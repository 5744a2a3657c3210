"""What stands out at an operating point, in words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING, Final

from fitwright.assess.oil.results import FilmState, PointState
from fitwright.assess.oil.titles import titles_in_short
from fitwright.model import circuit as sheet
from fitwright.physics.bearings.supply import STARVED_SHARE
from fitwright.physics.network.limits import FILLED

if TYPE_CHECKING:
    from fitwright.assess.oil.solving import BuildCircuit
    from fitwright.assess.oil.what_if import WhatIf

NO_RESERVE: Final = 0.02
"""Share of the pump's flow over the relief valve below which nothing is left in reserve."""

HARDLY_ANY: Final = 0.005
"""A share of the pump's flow that is not worth a sentence."""

WARM: Final = 353.15
"""Below it oil is too thick for a bearing to be filled at once, as everybody knows [K]."""

PSI: Final = 6894.757293168
"""Pound-force per square inch [Pa]."""

MUCH_LOST: Final = 0.5e5
"""More than this between pump and gauge is worth a sentence [Pa]."""

LOWEST_INLET: Final = -0.3e5
"""Rule of thumb: no lower at the pump's inlet [Pa, gauge]."""


def findings_of(build: BuildCircuit, point: PointState, what_if: WhatIf) -> tuple[str, ...]:
    """Sentences about one point that converged, as a what-if has it."""
    return (
        *_jets(build.posed.sheet, point, what_if),
        *_pumps(point, fast=point.angular_speed > 2.0 * build.posed.sheet.idle_speed.si),
        *_losses(build.posed.sheet, point),
        *_bearings(point),
    )


def _jets(circuit: sheet.Circuit, point: PointState, what_if: WhatIf) -> Iterator[str]:
    """Jets that open below the pressure of hot idle rob it."""
    if abs(point.angular_speed - circuit.idle_speed.si) > 1e-6 * circuit.idle_speed.si:
        return
    by_id = {path.id.removeprefix("paths."): path for path in point.paths}
    jets = [each for each in circuit.paths.values() if isinstance(each.element, sheet.Jet)]
    begins = {each.id: _opening(each, what_if) for each in jets}
    opened = [each for each in jets if not by_id[each.id].shut and begins[each.id] is not None]
    taken = sum(by_id[each.id].flow.best or 0.0 for each in opened)
    delivered = sum(each.delivered or 0.0 for each in point.pumps)
    if opened and delivered > 0.0 and taken > HARDLY_ANY * delivered:
        lowest = min(begins[each.id] or 0.0 for each in opened)
        yield (
            f"Jets that open at {_pressure(lowest, 1)} are open at idle and take {taken / delivered:.0%} of "
            "what the pump delivers: they rob the idle pressure. A jet should open above it."
        )


def _pressure(value: float, decimals: int) -> str:
    """A pressure [Pa] as it is read in either kind of shop."""
    return f"{value / 1e5:.{decimals}f} bar ({value / PSI:.{decimals - 1}f} psi)"


def _opening(path: sheet.OilPath, what_if: WhatIf) -> float | None:
    """The opening pressure of a jet [Pa], as moved or as stated."""
    assert isinstance(path.element, sheet.Jet)  # noqa: S101 - asked of jets only
    stated: float | None = getattr(path.element.opening_pressure, "si", None)
    return what_if.sizes.get(f"paths.{path.id}.opening_pressure", stated)


def _pumps(point: PointState, *, fast: bool) -> Iterator[str]:
    for pump in point.pumps:
        if pump.fill is not None and pump.fill < FILLED:
            yield f"{pump.title}: only {pump.fill:.0%} of its chambers fill; the inlet holds the flow back."
        if pump.inlet_pressure is not None and pump.inlet_pressure < LOWEST_INLET:
            yield (
                f"{pump.title}: {_pressure(-pump.inlet_pressure, 2)} below the air's pressure at its inlet; "
                f"as a rule of thumb no more than {_pressure(-LOWEST_INLET, 1)}."
            )
        if pump.reserve is not None and pump.reserve < NO_RESERVE and fast:
            yield f"{pump.title}: no reserve; the relief valve is shut, and the engine takes all of its flow."


def _losses(circuit: sheet.Circuit, point: PointState) -> Iterator[str]:
    """How much is lost before the gauge, and where most of it: thick oil through a filter behind the pump."""
    pressures = {each.id: each.gauge_pressure.best for each in point.nodes}
    outlet = max((pressures.get(each.to_node or "") or 0.0 for each in circuit.pumps.values()), default=0.0)
    lost = outlet - (point.gauge_pressure.best or 0.0)
    if lost < MUCH_LOST:
        return
    drops = {
        path.title: drop
        for path in circuit.paths.values()
        if (drop := _drop(pressures, path)) is not None and path.count == 1
    }
    if drops:
        title, most = max(drops.items(), key=lambda each: each[1])
        yield (
            f"Between pump and gauge {_pressure(lost, 1)} are lost, {_pressure(most, 1)} of it in: {title}. "
            "The pump and its relief valve stand at the higher pressure."
        )


def _drop(pressures: Mapping[str, float | None], path: sheet.OilPath) -> float | None:
    """What a path behind the pump loses [Pa]; None at a leak to the sump."""
    before, behind = pressures.get(path.from_node), pressures.get(path.to_node)
    if before is None or behind is None or sheet.SUMP in (path.from_node, path.to_node):
        return None
    on_the_way = isinstance(path.element, sheet.Filter | sheet.Cooler | sheet.Passage)
    return before - behind if on_the_way else None


def _bearings(point: PointState) -> Iterator[str]:
    dry = [each.title for each in point.bearings if each.feed_margin is not None and each.feed_margin < 0.0]
    if dry:
        names = titles_in_short(dry)
        yield f"No pressure is left on the way to {names}: the spinning crank throws the oil back."
    starved = [each.title for each in point.bearings if each.starved]
    if starved and point.oil_temperature > WARM:
        names = titles_in_short(starved)
        yield f"Fed with less than {STARVED_SHARE:.0%} of what the journal would draw: {names}."
    touching = [each.title for each in point.bearings if each.state is FilmState.TOUCHING]
    if touching:
        yield f"Touching, no film predicted under the load stated: {titles_in_short(touching)}."
