"""What brings oil to the gallery: strainer, pickup, pump, relief valve, filter. All sizes assumed."""

from __future__ import annotations

import math

from fitwright.starter.assumed import Assumed
from fitwright.starter.blocks import TableBlock, Value
from fitwright.starter.family import Family, numbered
from fitwright.starter.plan import Plan

PUMPS = "circuit.pumps"
PATHS = "circuit.paths"


def supply(plan: Plan) -> tuple[TableBlock, ...]:
    """Pump stages and relief valve first, then the way from the sump to the gallery."""
    return (*_stages(plan), _relief(plan), *_suction(plan), *_delivery(plan))


def _stages(plan: Plan) -> tuple[TableBlock, ...]:
    if plan.pump == "dry sump":
        return (_pressure_stage(plan, "stage.1"), _scavenge_stages(plan))
    return (_pressure_stage(plan, "pump"),)


def _pressure_stage(plan: Plan, key: str) -> TableBlock:
    ratio = 1.0 if plan.pump == "crank-driven internal rotor" else 0.5
    rotors = plan.pump in {"crank-driven internal rotor", "chain-driven"}
    values: dict[str, Value] = {
        "title": "Oil pump" if key == "pump" else "Pressure stage",
        "kind": "internal rotor" if rotors else "external spur",
        "from": "pump.inlet",
        "to": "pump.outlet",
        "speed_ratio": ratio,
    }
    displacement = Assumed(plan).displacement / ratio
    sizes = Assumed(plan).rotor_sizes(displacement) if rotors else Assumed(plan).spur_sizes(displacement)
    lobes = {"inner_lobes": 4, "outer_lobes": 5} if rotors else {}
    return TableBlock(
        section=PUMPS,
        key=key,
        values={**values, **lobes, **sizes, **_clearances(plan)},
        remarks={"speed_ratio": "speed of the pump over that of the crank"},
        comment=("Displaces 0.45 % of the swept volume for each turn of the crank: assumed.",),
    )


def _clearances(plan: Plan) -> dict[str, Value]:
    """The fits of the pump that this sheet has."""
    match plan.pump:
        case "dry sump":
            return {"end_clearance": "stage.1.end_clearance", "tip_clearance": "stage.1.radial_clearance"}
        case "crank-driven internal rotor" | "chain-driven":
            own_shaft = plan.pump == "chain-driven"
            return {
                "end_clearance": "pump.inner_rotor.end_clearance",
                "tip_clearance": "pump.tip_clearance",
                "body_clearance": "pump.outer_rotor.clearance",
                **({"shaft_clearance": "pump.inner_rotor.shaft_clearance"} if own_shaft else {}),
            }
        case _:
            return {
                "end_clearance": "pump.driver.end_clearance",
                "tip_clearance": "pump.driver.radial_clearance",
                "shaft_clearance": "pump.driver.shaft_clearance",
            }


def _scavenge_stages(plan: Plan) -> TableBlock:
    each = 2.0 * Assumed(plan).displacement / 0.5 / plan.pump_stages
    return TableBlock(
        section=PUMPS,
        key="stage.{0}",
        family=Family((numbered(plan.pump_stages, 2),)),
        values={
            "title": "Scavenge stage {0}",
            "kind": "stated displacement",
            "purpose": "scavenge",
            "speed_ratio": 0.5,
            "displacement": f"{each * 1e6:.1f} cc/rev",
        },
        remarks={"displacement": "assumed: all together twice the pressure stage"},
    )


def _relief(plan: Plan) -> TableBlock:
    assumed = Assumed(plan)
    seat = 0.012 * plan.bore / 0.084
    preload = 0.6 * seat
    rate = assumed.opening_pressure * math.pi / 4.0 * seat**2 / preload
    return TableBlock(
        section="circuit.reliefs",
        key="relief",
        values={
            "title": "Relief valve",
            "from": "pump.outlet",
            "to": "pump.inlet" if plan.pump == "crank-driven internal rotor" else "sump",
            "spring_rate": _spring_rate(rate, plan.units),
            "preload_length": assumed.length(preload),
            "seat_diameter": assumed.length(seat),
            "plunger_diameter": assumed.length(seat),
            "plunger_clearance": "relief.clearance",
            "land_length": assumed.length(1.2 * seat),
            "full_lift": assumed.length(0.35 * seat),
        },
        remarks={
            "spring_rate": "once measured: relief.spring.stiffness",
            "preload_length": "once measured: relief.preload_length",
            "seat_diameter": "once measured: relief.plunger.diameter",
            "full_lift": "once measured: relief.spring.full_lift",
        },
        comment=(f"Opens at {_pressure(assumed.opening_pressure, plan.units)} with these: assumed.",),
    )


def _spring_rate(rate: float, units: str) -> str:
    return f"{rate / 1000.0:.2f} N/mm" if units == "mm" else f"{rate / 175.1268:.1f} lbf/in"


def _pressure(pressure: float, units: str) -> str:
    return f"{pressure / 1e5:.1f} bar" if units == "mm" else f"{pressure / 6894.757:.0f} psi"


def _suction(plan: Plan) -> tuple[TableBlock, ...]:
    mm = Assumed(plan).mm
    tank = plan.pump == "dry sump"
    area = 1500.0 * (plan.bore / 0.084) ** 2
    return (
        TableBlock(
            section=PATHS,
            key="strainer",
            values={
                "title": "Strainer of the tank" if tank else "Strainer of the pickup",
                "kind": "strainer",
                "from": "sump",
                "to": "pickup",
                "open_area": f"{area:.0f} mm2" if plan.units == "mm" else f"{area / 645.16:.1f} in2",
            },
            comment=("In a dry-sump engine the node sump stands for the tank.",) if tank else (),
        ),
        TableBlock(
            section=PATHS,
            key="pickup",
            values={
                "title": "Hose from the tank" if tank else "Pickup pipe",
                "kind": "pipe",
                "from": "pickup",
                "to": "pump.inlet",
                "diameter": mm(19.0 if tank else 16.0),
                "length": mm(800.0 if tank else 200.0),
                "loss_coefficient": 1.0,
            },
        ),
    )


def _delivery(plan: Plan) -> tuple[TableBlock, ...]:
    mm = Assumed(plan).mm
    filtered = plan.duty != "historic"
    drilling = TableBlock(
        section=PATHS,
        key="delivery",
        values={
            "title": "Pump to filter" if filtered else "Pump to gallery",
            "kind": "drilling",
            "from": "pump.outlet",
            "to": "filter" if filtered else "gallery",
            "diameter": mm(12.0),
            "length": mm(150.0),
            "loss_coefficient": 1.2,
        },
    )
    if not filtered:
        return (drilling,)
    return (
        drilling,
        TableBlock(
            section=PATHS,
            key="filter",
            values={
                "title": "Oil filter",
                "kind": "filter",
                "from": "filter",
                "to": "gallery",
                "rated_flow": "20 L/min",
                "rated_pressure_drop": "0.2 bar",
                "rated_viscosity": "24 mm2/s",
                "bypass_opening_pressure": "1.2 bar",
                "bypass_full_pressure": "2.0 bar",
                "bypass_diameter": mm(10.0),
            },
        ),
    )
