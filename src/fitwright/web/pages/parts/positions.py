"""Which part sits where: the positions of the engine in the sheet's order, station by station."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from fitwright.bench.context import Bench
from fitwright.bench.parts import spare_parts
from fitwright.units.families import Family
from fitwright.web.addresses import parts_address, thing_address
from fitwright.web.entering.controls import Asking
from fitwright.web.pages.parts.of_parts import station_of_positions


@dataclass(frozen=True, slots=True)
class PositionLine:
    """A position, or a part without one: what sits there and what is known of it."""

    title: str
    address: str
    part: str
    serial: str
    facts: str
    empty: bool


@dataclass(frozen=True, slots=True)
class PositionGroup:
    """The positions of one station."""

    anchor: str
    title: str
    lines: tuple[PositionLine, ...]
    enter: str


def position_groups(asking: Asking) -> tuple[PositionGroup, ...]:
    """All positions by the station where their sizes are measured."""
    return tuple(_groups(asking))


def _groups(asking: Asking) -> Iterator[PositionGroup]:
    bench, code, family = asking.bench, asking.code, asking.family
    where = station_of_positions(asking)
    titles = {each.id: each.title for each in bench.sheet.stations.values()} | {"": "At no station"}
    for station, title in titles.items():
        names = [name for name in bench.sheet.parts if (where.get(name) or "") == station]
        if names:
            yield PositionGroup(
                anchor=f"at-{station or 'none'}",
                title=title,
                lines=tuple(position_line(bench, code, family, name) for name in names),
                enter=parts_address(code, family, do="parts", station=station) if station else "",
            )


def position_line(bench: Bench, code: str, family: Family, position: str) -> PositionLine:
    """A position with what sits there."""
    inside = bench.build.occupant(position)
    part = bench.sheet.parts[position]
    return PositionLine(
        title=part.title,
        address=thing_address(code, family, position=position),
        part="" if inside == position else inside or "",
        serial=_serial(bench, inside),
        facts=", ".join(_facts(bench, inside, one_time=part.one_time_use)),
        empty=inside is None,
    )


def shelf_lines(bench: Bench, code: str, family: Family) -> tuple[PositionLine, ...]:
    """The parts that are entered and sit nowhere."""
    return tuple(
        PositionLine(
            title=bench.build.parts[part].body.title,
            address=thing_address(code, family, part=part),
            part=part,
            serial=_serial(bench, part),
            facts=", ".join(_facts(bench, part, one_time=False)),
            empty=False,
        )
        for part in spare_parts(bench)
    )


def _serial(bench: Bench, part: str | None) -> str:
    held = bench.build.parts.get(part or "")
    return (held.body.serial or "") if held is not None else ""


def _facts(bench: Bench, part: str | None, *, one_time: bool) -> Iterator[str]:
    held = bench.build.parts.get(part or "")
    if held is not None and held.body.origin:
        yield held.body.origin
    if held is not None and held.body.used:
        yield "used"
    if one_time:
        yield "one-time use"
    yield from (f"{each.change} {each.code}" for each in bench.build.changes(part or ""))
