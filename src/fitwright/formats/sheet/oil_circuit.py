"""From tables to the model: oils, and the oil circuit with its pump, relief valves and paths."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import fields
from typing import Any, Final

from fitwright.formats.sheet.amounts import AmountReader, RawAmount
from fitwright.formats.sheet.fields import ID_PATTERN
from fitwright.formats.sheet.findings import Findings
from fitwright.formats.sheet.members import MemberTexts
from fitwright.formats.sheet.oil_tables import CircuitTable, OilTable, OperatingPointTable, StopTable
from fitwright.formats.sheet.path_tables import PathTable
from fitwright.formats.sheet.pump_tables import PumpTable, ReliefTable
from fitwright.formats.sheet.sections import CIRCUIT
from fitwright.model.amount import Written
from fitwright.model.circuit import (
    ELEMENTS,
    ROTORS,
    USUAL_GROUPS,
    USUAL_SPEED_RATIOS,
    Circuit,
    CrankTrain,
    OilPath,
    OperatingPoint,
    PathKind,
    PumpKind,
    PumpStage,
    Reference,
    Relief,
    Size,
    SizeRule,
    Stop,
    size_rules,
)
from fitwright.model.oil import Oil
from fitwright.model.problem import Path

_REFERENCE: Final = re.compile(r"[a-z_{]")
"""How the id of a fit or dimension begins; an amount begins with a digit, a sign or a point."""
_NODE: Final = re.compile(ID_PATTERN)
_NODE_FORM: Final = "write lower case letters, digits and underscores, joined by dots: gallery.rear"
OIL_AMOUNTS: Final[Mapping[str, str]] = {
    "kinematic_viscosity_40": "kinematic_viscosity",
    "kinematic_viscosity_100": "kinematic_viscosity",
    "high_shear_viscosity_150": "dynamic_viscosity",
    "density_15": "density",
    "pressure_viscosity_coefficient": "pressure_coefficient",
    "measured_viscosity": "kinematic_viscosity",
    "measured_at": "temperature",
}
"""The amounts of an oil, with what each measures."""


class SizeReader:
    """Reads what the circuit's parts hold: amounts, references, nodes; faults are collected."""

    def __init__(self, amounts: AmountReader, findings: Findings) -> None:
        """Report to `findings`."""
        self.amounts = amounts
        self._findings = findings

    def amount(self, value: RawAmount, rule: SizeRule, path: Path) -> Written:
        """An amount within its rule."""
        written = self.amounts.written(value, rule.dimension, path, positive=not (rule.zero or rule.signed))
        if rule.zero and not rule.signed and written.si < 0.0:
            self._findings.add(path, f'"{value}" is below zero', "write what it really is")
        return written

    def size(self, value: RawAmount, rule: SizeRule, path: Path, member: MemberTexts | None = None) -> Size:
        """An amount, or the fit or dimension that is measured for it."""
        if isinstance(value, str) and not rule.stated and _REFERENCE.match(value):
            return Reference(value if member is None else member.text(value, *path[len(member.path) :]))
        return self.amount(value, rule, path)

    def node(self, text: str | None, key: str, member: MemberTexts) -> str | None:
        """A node's name, filled."""
        name = member.optional(text, key)
        if name is not None and not _NODE.match(name):
            self._findings.add((*member.path, key), f'"{name}" is no name of a node', _NODE_FORM)
        return name

    def part(self, kind: type[Any], table: Any, member: MemberTexts) -> dict[str, Any]:  # noqa: ANN401 - any table
        """The fields of a part that its table gives, amounts and references read."""
        rules = size_rules(kind)
        found: dict[str, Any] = {}
        for each in fields(kind):
            value = getattr(table, each.name, None)
            if value is None:
                continue
            rule = rules.get(each.name)
            path: Path = (*member.path, each.name)
            if rule is None:
                found[each.name] = value
            elif isinstance(value, list):
                found[each.name] = tuple(
                    self.size(one, rule, (*path, index), member) for index, one in enumerate(value)
                )
            else:
                found[each.name] = self.size(value, rule, path, member)
        return found


def oil_of(table: OilTable, member: MemberTexts, amounts: AmountReader) -> Oil:
    """An oil."""
    given: dict[str, Any] = {
        name: amounts.optional(
            getattr(table, name), dimension, (*member.path, name), positive=dimension != "temperature"
        )
        for name, dimension in OIL_AMOUNTS.items()
    }
    words = {name: getattr(table, name) for name in ("title", "grade", "source", "planned", "note")}
    return Oil(id=member.id, **words, **given)


def pump_of(table: PumpTable, member: MemberTexts, sizes: SizeReader) -> PumpStage:
    """A stage of the pump."""
    kind = PumpKind(table.kind)
    own = sizes.part(PumpStage, table, member)
    own |= {
        "id": member.id,
        "title": member.text(table.title, "title"),
        "kind": kind,
        "rotors": ROTORS[kind](**sizes.part(ROTORS[kind], table, member)),
        "from_node": sizes.node(table.from_node, "from", member),
        "to_node": sizes.node(table.to_node, "to", member),
        "family": member.family,
        "note": member.optional(table.note, "note"),
    }
    return PumpStage(**own)


def relief_of(table: ReliefTable, member: MemberTexts, sizes: SizeReader) -> Relief:
    """A relief valve."""
    own = sizes.part(Relief, table, member)
    own |= {
        "id": member.id,
        "title": member.text(table.title, "title"),
        "from_node": sizes.node(table.from_node, "from", member),
        "to_node": sizes.node(table.to_node, "to", member),
        "note": member.optional(table.note, "note"),
    }
    return Relief(**own)


def path_of(table: PathTable, member: MemberTexts, sizes: SizeReader) -> OilPath:
    """A path of the oil."""
    kind = PathKind(table.kind)
    given = sizes.part(ELEMENTS[kind], table, member)
    if kind in USUAL_SPEED_RATIOS:
        given.setdefault("speed_ratio", USUAL_SPEED_RATIOS[kind])
    return OilPath(
        id=member.id,
        title=member.text(table.title, "title"),
        kind=kind,
        from_node=sizes.node(table.from_node, "from", member) or "",
        to_node=sizes.node(table.to_node, "to", member) or "",
        element=ELEMENTS[kind](**given),
        group=member.optional(table.group, "group") or USUAL_GROUPS[kind],
        count=table.count,
        family=member.family,
        note=member.optional(table.note, "note"),
    )


def circuit_of(
    table: CircuitTable,
    amounts: AmountReader,
    pumps: Mapping[str, PumpStage],
    reliefs: Mapping[str, Relief],
    paths: Mapping[str, OilPath],
    crank_train: CrankTrain | None,
) -> Circuit:
    """The oil circuit around its parts."""
    speed = "angular_speed"
    return Circuit(
        gauge=table.gauge,
        idle_speed=amounts.written(table.idle_speed, speed, (CIRCUIT, "idle_speed"), positive=True),
        top_speed=amounts.written(table.top_speed, speed, (CIRCUIT, "top_speed"), positive=True),
        oil_temperatures=tuple(
            amounts.written(value, "temperature", (CIRCUIT, "oil_temperatures", index))
            for index, value in enumerate(table.oil_temperatures)
        ),
        pumps=pumps,
        reliefs=reliefs,
        paths=paths,
        crank_train=crank_train,
        fill=amounts.optional(table.fill, "volume", (CIRCUIT, "fill"), positive=True),
        surface_roughness=amounts.optional(
            table.surface_roughness, "length", (CIRCUIT, "surface_roughness"), positive=True
        ),
        operating_points=tuple(
            _operating_point(each, (CIRCUIT, "operating_points", index), amounts)
            for index, each in enumerate(table.operating_points)
        ),
        stops=tuple(
            _stop(each, (CIRCUIT, "stops", index), amounts) for index, each in enumerate(table.stops)
        ),
        assumed=table.assumed,
        note=table.note,
    )


def _operating_point(table: OperatingPointTable, path: Path, amounts: AmountReader) -> OperatingPoint:
    return OperatingPoint(
        title=table.title,
        speed=amounts.written(table.speed, "angular_speed", (*path, "speed"), positive=True),
        oil_temperature=amounts.written(table.oil_temperature, "temperature", (*path, "oil_temperature")),
    )


def _stop(table: StopTable, path: Path, amounts: AmountReader) -> Stop:
    def optional(name: str, dimension: str, *, positive: bool = True) -> Written | None:
        return amounts.optional(getattr(table, name), dimension, (*path, name), positive=positive)

    return Stop(
        action=table.action,
        lowest_pressure=optional("lowest_pressure", "pressure"),
        speed=optional("speed", "angular_speed"),
        oil_temperature=optional("oil_temperature", "temperature", positive=False),
        first_pressure_within=optional("first_pressure_within", "time"),
        source=table.source,
        place_in_source=table.at,
        person=table.person,
        note=table.note,
    )
