"""The head of a sheet: engine, sources, materials, conditions, temperature cases."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from types import MappingProxyType
from typing import Final

from fitwright.starter import amounts
from fitwright.starter.blocks import DimensionBlock, PartBlock, Section
from fitwright.starter.plan import Plan
from fitwright.starter.toml_text import REPLACE_SIZE, quoted

_MATERIALS: Final[Mapping[str, tuple[str, str, str, str, str]]] = MappingProxyType(
    {
        "cast_iron": ("Cast iron", "11e-6 /K", "1e-6 /K", "110 GPa", "0.26"),
        "steel": ("Steel", "11.5e-6 /K", "0.5e-6 /K", "206 GPa", "0.29"),
        "valve_steel": ("Valve steel", "12.5e-6 /K", "2e-6 /K", "206 GPa", "0.29"),
        "sintered_iron": ("Sintered iron", "12e-6 /K", "1e-6 /K", "130 GPa", "0.27"),
        "cast_aluminium": ("Cast aluminium", "21.5e-6 /K", "1e-6 /K", "71 GPa", "0.33"),
        "piston_cast": ("Cast piston alloy", "20.5e-6 /K", "1e-6 /K", "74 GPa", "0.33"),
        "piston_forged": ("Forged piston alloy", "21e-6 /K", "1.5e-6 /K", "75 GPa", "0.33"),
        "bronze": ("Bronze", "18e-6 /K", "1e-6 /K", "115 GPa", "0.34"),
        "gasket": ("Head gasket", "12e-6 /K", "3e-6 /K", "", ""),
    }
)
"""Title, mean expansion from 20 to 100 degrees Celsius, its standard uncertainty, stiffness."""

_CONDITIONS: Final[Mapping[str, tuple[str, str]]] = MappingProxyType(
    {
        "bare": ("bare, free of oil and burrs", "bare"),
        "free": ("free, not fitted", "free"),
        "mains_tightened_bare": ("mains tightened, without bearings", "tightened"),
        "mains_tightened": ("mains tightened, bearings in", "tightened"),
        "rods_tightened_bare": ("rod cap tightened, without bearings", "tightened"),
        "rods_tightened": ("rod cap tightened, bearings in", "tightened"),
        "one_side_tightened": ("one bolt of the joint tightened, the other finger tight", "tightened"),
        "torque_plate": ("torque plate on where it is specified", "torque plate"),
        "cam_caps_tightened": ("cam caps or carrier tightened", "tightened"),
        "gasket_in": ("trial build, gasket in and tightened", "gasket in"),
        "assembled": ("assembled", "assembled"),
        "pump_tightened": ("pump and cover screws tightened", "tightened"),
    }
)

_CASES: Final = ("hot_idle", "full_load")
_TEMPERATURES: Final[Mapping[str, tuple[int, int, int, int]]] = MappingProxyType(
    {
        "block": (90, 100, 110, 140),
        "cylinder.{0}": (95, 120, 130, 180),
        "crank": (95, 115, 100, 125),
        "rod.{0}": (100, 125, 105, 140),
        "piston.{0}": (130, 200, 150, 230),
        "ring.{0}.{1}": (120, 210, 140, 240),
        "piston_pin.{0}": (120, 170, 130, 190),
        "head": (100, 130, 140, 190),
        "pump.body": (90, 110, 95, 120),
        "pump.{0}": (90, 110, 95, 120),
        "pump.{0}_rotor": (90, 110, 95, 120),
    }
)
"""Degrees Celsius by part: hot idle and full load, water-cooled; hot idle and full load, air-cooled."""

_AROUND_A_VALVE: Final[Mapping[str, tuple[int, int, int, int]]] = MappingProxyType(
    {
        "valve inlet": (110, 220, 130, 260),
        "valve exhaust": (250, 450, 280, 500),
        "seat inlet": (105, 150, 145, 200),
        "seat exhaust": (150, 220, 180, 260),
        "guide inlet": (100, 140, 140, 195),
        "guide exhaust": (130, 180, 160, 220),
    }
)


def head_lines(plan: Plan, sections: Iterable[Section]) -> Iterable[str]:
    """Everything above the sections; only materials and conditions that they use."""
    sections = tuple(sections)
    parts = tuple(part for section in sections for part in section.parts)
    dimensions = tuple(dimension for section in sections for dimension in section.dimensions)
    yield from _preface(plan)
    yield from _engine(plan)
    yield from _layout(plan)
    yield from _directions(plan)
    yield from _sources()
    yield from _materials(parts)
    yield from _conditions(dimensions)
    yield from _temperature_cases(plan, parts)


def _preface(plan: Plan) -> Iterable[str]:
    yield f"# Engine sheet of {plan.name}, begun by `fitwright new`."
    yield "#"
    yield "# Every limit here is a rule of thumb and governs nothing: the maker's manual governs."
    yield "# Type its limits as you need them, each with source, page and governs = true."
    yield "# Delete the blocks that your engine does not have; correct the counts between braces."
    yield "format = 1"


def _engine(plan: Plan) -> Iterable[str]:
    yield ""
    yield "[engine]"
    yield f"id = {quoted(plan.engine_id)}"
    yield f"name = {quoted(plan.name)}"
    yield 'revision = "A"'
    yield f"units = {quoted(plan.units)}"
    for key in ("duty", "aspiration", "cooling", "piston"):
        yield f"{key} = {quoted(str(getattr(plan, key)))}"


def _layout(plan: Plan) -> Iterable[str]:
    yield ""
    yield "[engine.layout]"
    yield f"arrangement = {quoted(plan.arrangement)}"
    yield f"cylinders = {plan.cylinders}"
    yield f"mains = {plan.mains}"
    if plan.bank_angle is not None:
        yield f"bank_angle = {quoted(amounts.degrees(plan.bank_angle))}"
    for key in ("bore", "stroke", "rod_length", "compression_height"):
        remark = f"  # {REPLACE_SIZE}" if key in plan.guessed else ""
        yield f"{key} = {quoted(amounts.size(getattr(plan, key), plan.units))}{remark}"
    yield '# firing_order = "..."'
    yield f"bearings = {quoted(plan.bearings)}"
    yield f"valves_per_cylinder = {plan.valves_per_cylinder}"
    yield f"valve_train = {quoted(plan.valve_train)}"
    yield f"valve_adjustment = {quoted(plan.valve_adjustment)}"
    yield f"pump = {quoted(plan.pump)}"
    if plan.pump_stages:
        yield f"pump_stages = {plan.pump_stages}  # scavenge stages, beside the pressure stage"
    yield 'rotation = "clockwise from the nose"'


def _directions(plan: Plan) -> Iterable[str]:
    yield ""
    yield "# What one says in your shop; seen from the nose, clockwise from the top."
    yield "[engine.directions]"
    right, left = ("right bank", "left bank") if plan.banks else ("right side", "left side")
    yield f"top = {quoted('deck' if plan.arrangement != 'flat' else 'top')}"
    yield f"right = {quoted(right)}"
    yield f"bottom = {quoted('crankcase floor' if plan.pump == 'none' else 'sump')}"
    yield f"left = {quoted(left)}"


def _sources() -> Iterable[str]:
    yield ""
    yield "[sources.manual]"
    yield 'title = "Workshop manual"  # type its title'
    yield 'edition = "not given"  # and its edition'
    yield 'kind = "engine maker"'
    yield ""
    yield "[sources.rule_of_thumb]"
    yield 'title = "Rules of thumb of the trade; the maker\'s manual governs"'
    yield 'kind = "rule of thumb"'


def _materials(parts: Iterable[PartBlock]) -> Iterable[str]:
    used = {part.material for part in parts}
    yield ""
    yield "# Usual handbook values, 20 to 100 degrees Celsius; better ones come from your parts' makers."
    for name, (title, expansion, uncertainty, modulus, ratio) in _MATERIALS.items():
        if name in used:
            yield f"[materials.{name}]"
            yield f"title = {quoted(title)}"
            yield f"expansion = {quoted(expansion)}"
            yield f"expansion_uncertainty = {quoted(uncertainty)}"
            if modulus:
                yield f"youngs_modulus = {quoted(modulus)}"
                yield f"poisson_ratio = {ratio}"


def _conditions(dimensions: Iterable[DimensionBlock]) -> Iterable[str]:
    used = {dimension.condition for dimension in dimensions}
    yield ""
    yield '# Where a condition is tightened, add what wets the fasteners: lubricant = "engine oil"'
    for name, (title, kind) in _CONDITIONS.items():
        if name in used:
            yield f"[conditions.{name}]"
            yield f"title = {quoted(title)}"
            yield f"kind = {quoted(kind)}"


def _temperature_cases(plan: Plan, parts: Iterable[PartBlock]) -> Iterable[str]:
    parts = tuple(parts)
    yield ""
    yield "# Assumed temperatures: replace them by what your engine shows. Hot fits are estimates from these."
    for number, name in enumerate(_CASES):
        column = number + (2 if plan.air_cooled else 0)
        yield f"[temperature_cases.{name}]"
        yield f"title = {quoted(name.replace('_', ' '))}"
        yield f"default = {_celsius(_TEMPERATURES['block'][column])}"
        yield f'standard_uncertainty = "{10 if number else 7} K"'
        yield f"[temperature_cases.{name}.parts]"
        for part in parts:
            if temperatures := _temperatures_of(part.key):
                key = part.family.key(part.key)
                bare = key if key.replace("_", "").isalnum() else quoted(key)
                yield f"{bare} = {_celsius(temperatures[column])}"


def _celsius(degrees: int) -> str:
    return quoted(f"{degrees} degC")


def _temperatures_of(key: str) -> tuple[int, int, int, int] | None:
    """Temperatures of a position, by its key; None for parts that follow the default."""
    side = "exhaust" if ".exhaust" in key else "inlet"
    around = _AROUND_A_VALVE.get(f"{key.partition('.')[0]} {side}")
    return around or _TEMPERATURES.get(key)
