"""The readings of a build as rows of a table: those that count in a state, in order of entry."""

from __future__ import annotations

from collections.abc import Iterator

from fitwright.assess.evidence import gather
from fitwright.assess.gauges import Gauges
from fitwright.assess.results import State
from fitwright.bench.context import Bench
from fitwright.formats.readings.columns import COLUMNS
from fitwright.physics.metrology.temperature import REFERENCE_TEMPERATURE
from fitwright.records.kinds import BladeObservation, Sitting, Typed
from fitwright.records.projection import ReadingRecord
from fitwright.units import definition_of, parse_quantity

ZERO_CELSIUS = REFERENCE_TEMPERATURE - 20.0


def rows_of(bench: Bench, state: State) -> Iterator[tuple[str, ...]]:
    """The rows of all readings that count in this state."""
    gauges = Gauges(bench.shop, bench.sheet, bench.build)
    used: dict[str, tuple[int, str, ReadingRecord]] = {}
    for dimension in bench.sheet.dimensions.values():
        for record in gather(gauges, dimension, state).used:
            used.setdefault(record.entry.id, (record.order, dimension.id, record))
    for _, dimension_id, record in sorted(used.values(), key=lambda each: (each[0], each[2].entry.seq)):
        cells = _cells(gauges, dimension_id, record)
        yield tuple(cells.get(column) or "" for column in COLUMNS)


def _cells(gauges: Gauges, dimension_id: str, record: ReadingRecord) -> dict[str, str | None]:
    body, sitting = record.body, gauges.sitting_of(record)
    return {
        "part": part_cell(record),
        "dimension": dimension_id,
        "place": record.place,
        "condition": gauges.sheet.dimensions[dimension_id].condition,
        **_read(gauges, record),
        "part_temperature": _celsius(body.part_temperature),
        "measured_by": body.measured_by or (sitting.measured_by if sitting is not None else None),
        "typed_by": body.typed_by or record.entry.person or _typist(sitting),
        "taken_at": body.taken_at or record.entry.client_time or record.entry.committed_at,
        "origin": body.origin,
        "note": body.note,
    }


def part_cell(record: ReadingRecord) -> str:
    """The parts that a reading was taken through: one by its code, several with their positions."""
    members = record.members
    if len(members) == 1:
        return next(iter(members.values()))
    return " + ".join(f"{position}={code}" for position, code in members.items())


def _read(gauges: Gauges, record: ReadingRecord) -> dict[str, str | None]:
    observation = record.body.observation
    if isinstance(observation, BladeObservation):
        return {"value": f"{'+'.join(observation.blades)} {observation.answer}"}
    value, unit = number_and_unit(observation.value)
    gauge = gauges.gauge(record)
    assert gauge is not None  # noqa: S101  (a value has a gauge)
    setting = gauge.setting.code if gauge.setting is not None else None
    return {"value": value, "unit": unit, "instrument": gauge.instrument.code, "setting": setting}


def number_and_unit(typed: Typed) -> tuple[str, str]:
    """An amount as a plain number with its unit; as it was typed where that would change its value."""
    dimension = definition_of(typed.unit).dimension
    quantity = parse_quantity(typed.typed, default_unit=typed.unit, dimension=dimension)
    number = f"{quantity.magnitude:.{quantity.decimals}f}"
    if parse_quantity(f"{number} {quantity.unit}", dimension=dimension).si == typed.si:
        return number, quantity.unit
    return typed.typed, ""


def _celsius(kelvin: float | None) -> str | None:
    return None if kelvin is None else f"{kelvin - ZERO_CELSIUS:.10g}"


def _typist(sitting: Sitting | None) -> str | None:
    return sitting.typed_by if sitting is not None else None
