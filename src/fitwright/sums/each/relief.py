"""A relief valve: when it opens, what a shim does, how far the pressure rises at a flow."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

from fitwright.sums.declaration import Computed, Found, Output, Sum
from fitwright.sums.forms import SIZE, Amount, Choice, Count, Given, Input
from fitwright.sums.relief_steps import relief_steps

if TYPE_CHECKING:
    from fitwright.physics.pump.override import Override
    from fitwright.physics.pump.relief import ReliefValve


def _compute(given: Given) -> Found:
    from fitwright.physics.pump.relief import cracking_pressure, full_bypass_pressure

    valve = _valve(given)
    cracking = cracking_pressure(valve)
    passed = _passed(given, valve)
    margin = _margin(given, valve)
    shim = _shim(given, valve, cracking)
    values: dict[str, Computed] = {
        "cracking_pressure": cracking,
        "pressure_by_shim": valve.spring_rate * _HALF_MILLIMETRE / _area(valve),
        "shim_to_wanted_pressure": shim,
        "full_bypass_pressure": _finite(full_bypass_pressure(valve)),
        "pressure_at_flow": None if passed is None else passed.pressure,
        "override": None if passed is None else passed.override,
        "lift_at_flow": None if passed is None else passed.lift,
        "closed_leakage": _closed_leak(given, valve, 0.8 * cracking),
        "coil_bind_margin": margin,
    }
    return Found(values, relief_steps(given, valve, values), _cautions(passed, margin, shim))


_HALF_MILLIMETRE = 0.5e-3


def _valve(given: Given) -> ReliefValve:
    from fitwright.physics.pump.relief import SPOOL_FLOW_FORCE, Ports, ReliefValve

    ports = Ports(given["ports"])
    plunger = given["plunger_diameter"]
    return ReliefValve(
        spring_rate=given["spring_rate"],
        preload_length=given["preload_length"] + given["shim_thickness"],
        seat_diameter=given["seat_diameter"],
        full_lift=given["full_lift"],
        ports=ports,
        port_count=given["port_count"],
        port_diameter=given["port_diameter"] or 0.0,
        port_lead=given["port_lead"],
        plunger_diameter=given["seat_diameter"] if plunger is None else plunger,
        plunger_radial_clearance=0.5 * given["plunger_clearance"],
        land_length=given["land_length"],
        seat_leak_lift=given["seat_leak_lift"],
        discharge_coefficient=given["discharge_coefficient"],
        flow_force_coefficient=0.0 if ports is Ports.SEAT else SPOOL_FLOW_FORCE,
    )


def _area(valve: ReliefValve) -> float:
    return math.pi / 4.0 * valve.seat_diameter**2


def _finite(value: float) -> float | None:
    return value if math.isfinite(value) else None


def _passed(given: Given, valve: ReliefValve) -> Override | None:
    from fitwright.physics.pump.override import relief_override

    if given["flow"] is None:
        return None
    return relief_override(
        valve, given["flow"], density=given["density"], dynamic_viscosity=given["dynamic_viscosity"]
    )


def _closed_leak(given: Given, valve: ReliefValve, pressure: float) -> float:
    from fitwright.physics.pump.relief import relief_flow

    found = relief_flow(
        valve, pressure, density=given["density"], dynamic_viscosity=given["dynamic_viscosity"]
    )
    return float(found.flow)


def _margin(given: Given, valve: ReliefValve) -> float | None:
    from fitwright.physics.pump.override import coil_bind_margin

    if given["free_length"] is None or given["coil_bind_length"] is None:
        return None
    return coil_bind_margin(
        given["free_length"],
        coil_bind_length=given["coil_bind_length"],
        preload_length=valve.preload_length,
        full_lift=valve.full_lift,
    )


def _shim(given: Given, valve: ReliefValve, cracking: float) -> float | None:
    from fitwright.physics.fits.shims import relief_shim

    wanted = given["wanted_pressure"]
    if wanted is None:
        return None
    return relief_shim(wanted - cracking, spring_rate=valve.spring_rate, seat_area=_area(valve))


def _cautions(passed: Override | None, margin: float | None, shim: float | None) -> tuple[str, ...]:
    from fitwright.physics.pump.cautions import LIMITS_OF_THE_MAKER, SHIMS_MASK_NO_LEAK, SPRING_ROOM
    from fitwright.physics.pump.override import BINDS

    said: list[Any] = [*(() if passed is None else passed.cautions), LIMITS_OF_THE_MAKER]
    if margin is not None and margin < 0.0:
        said.append(BINDS)
    if shim is not None and shim > 0.0:
        said.append(SHIMS_MASK_NO_LEAK)
        if margin is None or shim > margin:
            said.append(SPRING_ROOM)
    return tuple(said)


_LENGTH = Amount("length", above=0.0, typed_in=SIZE)
_SMALL = Amount("length", least=0.0)

SUM = Sum(
    name="relief",
    words=("relief valve", "oil pressure", "shim", "spring", "bypass", "plunger", "cracking pressure"),
    title="Oil pressure relief valve",
    text="Cracking pressure, what shims change, and how far the pressure rises above it at a flow.",
    inputs=(
        Input("spring_rate", Amount("spring_rate", above=0.0), "rate of the spring", required=True),
        Input(
            "preload_length",
            Amount("length", least=0.0, typed_in=SIZE),
            "how far the closed valve shortens the spring, without added shims",
            required=True,
        ),
        Input("seat_diameter", _LENGTH, "diameter that the pressure acts on while closed", required=True),
        Input("full_lift", _LENGTH, "lift at which the plunger stops", required=True),
        Input("shim_thickness", _SMALL, "shims added under the spring", default="0 mm"),
        Input("wanted_pressure", Amount("pressure", above=0.0), "cracking pressure wanted", usual=True),
        Input("flow", Amount("volume_flow", above=0.0), "flow that it has to pass", usual=True),
        Input(
            "ports",
            Choice(("seat", "round ports", "full annulus")),
            "what opens: oil leaves round the seat, by round ports, or by a groove all round",
            default="seat",
        ),
        Input("port_count", Count(1, 24), "number of round ports", default=1),
        Input("port_diameter", _LENGTH, "diameter of a round port"),
        Input("port_lead", _SMALL, "lift before the ports begin to open", default="0 mm"),
        Input("plunger_diameter", _LENGTH, "of the plunger; as the seat if not given"),
        Input("plunger_clearance", _SMALL, "of the plunger in its bore, on diameter", default="0 mm"),
        Input("land_length", _LENGTH, "length of the plunger in its bore", default="10 mm"),
        Input("seat_leak_lift", _SMALL, "how far debris holds the seat open", default="0 mm"),
        Input("discharge_coefficient", Amount("ratio", above=0.0, most=1.0), "of the ports", default=0.65),
        Input(
            "dynamic_viscosity",
            Amount("dynamic_viscosity", above=0.0),
            "of the oil at the valve; the sum `viscosity` gives it",
            default="15 mPa s",
        ),
        Input("density", Amount("density", above=0.0), "of the oil", default="850 kg/m3"),
        Input("free_length", _LENGTH, "of the spring without load"),
        Input("coil_bind_length", _LENGTH, "of the spring with its coils on each other"),
    ),
    outputs=(
        Output("cracking_pressure", "where it begins to open", "pressure", leads=True),
        Output("pressure_by_shim", "that a shim of 0.5 mm adds", "pressure", leads=True),
        Output("shim_to_wanted_pressure", "to add; negative means take out", "length", leads=True),
        Output("full_bypass_pressure", "where the plunger reaches its stop; none if never", "pressure"),
        Output("pressure_at_flow", "at which it passes the flow", "pressure", leads=True),
        Output("override", "how far that lies above cracking", "pressure", leads=True),
        Output("lift_at_flow", "lift of the plunger there", "length"),
        Output("closed_leakage", "past plunger and seat at 0.8 of cracking", "volume_flow"),
        Output("coil_bind_margin", "left between the coils at full lift beyond 1 mm", "length"),
    ),
    compute=_compute,
    source="merritt1967",
    cautions=("A compressed spring jumps: hold the cap under control and wear eye protection.",),
    example={
        "spring_rate": "8 N/mm",
        "preload_length": "7.0 mm",
        "seat_diameter": "12 mm",
        "full_lift": "5 mm",
        "wanted_pressure": "5.5 bar",
        "flow": "40 L/min",
        "free_length": "46 mm",
        "coil_bind_length": "30 mm",
    },
)
