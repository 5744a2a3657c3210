"""The working of a relief valve."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import TYPE_CHECKING

from fitwright.sums.declaration import Computed, PutIn, Step
from fitwright.sums.forms import Given

if TYPE_CHECKING:
    from fitwright.physics.pump.relief import ReliefValve


def relief_steps(given: Given, valve: ReliefValve, values: Mapping[str, Computed]) -> tuple[Step, ...]:
    """The steps from spring and seat to pressure, shim, override and room of the spring."""
    return (
        _cracking(given, valve, values),
        *_shim(valve, values),
        *_override(given, valve, values),
        _leak(given, valve, values),
        *_room(given, valve, values),
    )


def _result(words: str, values: Mapping[str, Computed], key: str, dimension: str) -> PutIn:
    return PutIn(words, values[key], dimension)  # type: ignore[arg-type]  # plain numbers


def _rate(valve: ReliefValve) -> PutIn:
    return PutIn("k, spring rate", valve.spring_rate, "spring_rate", "given")


def _area(valve: ReliefValve) -> PutIn:
    return PutIn("A, area of the seat", math.pi / 4.0 * valve.seat_diameter**2, "area")


def _cracking(given: Given, valve: ReliefValve, values: Mapping[str, Computed]) -> Step:
    return Step(
        "Cracking pressure",
        "k × (preload + shims + lead of the ports) / A",
        (
            _rate(valve),
            PutIn("preload", given["preload_length"], "length", "given"),
            PutIn("shims", given["shim_thickness"], "length", given.origin("shim_thickness")),
            PutIn("lead", valve.port_lead, "length", given.origin("port_lead")),
            PutIn("seat diameter", valve.seat_diameter, "length", "given"),
            _area(valve),
        ),
        _result("cracking pressure", values, "cracking_pressure", "pressure"),
        "merritt1967",
    )


def _shim(valve: ReliefValve, values: Mapping[str, Computed]) -> tuple[Step, ...]:
    if values["shim_to_wanted_pressure"] is None:
        return ()
    return (
        Step(
            "Shim to the pressure wanted",
            "(wanted − cracking pressure) × A / k",
            (
                _result("cracking pressure", values, "cracking_pressure", "pressure"),
                _area(valve),
                _rate(valve),
            ),
            _result("shim", values, "shim_to_wanted_pressure", "length"),
            "merritt1967",
        ),
    )


def _override(given: Given, valve: ReliefValve, values: Mapping[str, Computed]) -> tuple[Step, ...]:
    if values["pressure_at_flow"] is None:
        return ()
    return (
        Step(
            "Pressure at the flow",
            "the pressure p at which k × (x + y) + j × p × a(y) = p × A opens ports a(y) that pass the flow,"
            " C × a × √(2p/ρ) less what is laminar, beside the leaks",
            (
                PutIn("flow", given["flow"], "volume_flow", "given"),
                PutIn(
                    "C, discharge coefficient",
                    valve.discharge_coefficient,
                    "ratio",
                    given.origin("discharge_coefficient"),
                ),
                PutIn("j, force of the jet", valve.flow_force_coefficient, "ratio", "[merritt1967]"),
                PutIn("ρ, density", given["density"], "density", given.origin("density")),
                _result("y, lift", values, "lift_at_flow", "length"),
            ),
            _result("pressure at the flow", values, "pressure_at_flow", "pressure"),
            "merritt1967",
        ),
        Step(
            "Override",
            "pressure at the flow − cracking pressure",
            (
                _result("pressure at the flow", values, "pressure_at_flow", "pressure"),
                _result("cracking pressure", values, "cracking_pressure", "pressure"),
            ),
            _result("override", values, "override", "pressure"),
        ),
    )


def _leak(given: Given, valve: ReliefValve, values: Mapping[str, Computed]) -> Step:
    return Step(
        "Leak while closed",
        "annulus of the plunger π × d × c³ × p / (12 × μ × L), and the slot of a seat held open",
        (
            PutIn(
                "c, radial clearance",
                valve.plunger_radial_clearance,
                "length",
                given.origin("plunger_clearance"),
            ),
            PutIn("L, land", valve.land_length, "length", given.origin("land_length")),
            PutIn("lift held by debris", valve.seat_leak_lift, "length", given.origin("seat_leak_lift")),
            PutIn(
                "μ, viscosity",
                given["dynamic_viscosity"],
                "dynamic_viscosity",
                given.origin("dynamic_viscosity"),
            ),
        ),
        _result("leak at 0.8 of cracking", values, "closed_leakage", "volume_flow"),
        "merritt1967",
    )


def _room(given: Given, valve: ReliefValve, values: Mapping[str, Computed]) -> tuple[Step, ...]:
    if values["coil_bind_margin"] is None:
        return ()
    return (
        Step(
            "Room of the spring at full lift",
            "free length − coil bind − preload with shims − full lift − 1 mm",
            (
                PutIn("free length", given["free_length"], "length", "given"),
                PutIn("coil bind", given["coil_bind_length"], "length", "given"),
                PutIn("preload with shims", valve.preload_length, "length"),
                PutIn("full lift", valve.full_lift, "length", "given"),
            ),
            _result("margin", values, "coil_bind_margin", "length"),
        ),
    )
