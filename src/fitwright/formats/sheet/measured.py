"""From tables to the model: dimensions and their places, limits, stations."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from fitwright.formats.sheet.amounts import AmountReader
from fitwright.formats.sheet.members import MemberTexts
from fitwright.formats.sheet.subjects import DimensionTable, LimitTable, StationTable
from fitwright.model.amount import Written
from fitwright.model.dimension import WHOLE, Dimension, Place, Sense
from fitwright.model.limit import Limit
from fitwright.model.station import EyeCheck, Station
from fitwright.units.senses import DIMENSION_OF


def dimension_of(table: DimensionTable, member: MemberTexts, amounts: AmountReader) -> Dimension:
    """A dimension."""
    kind = DIMENSION_OF[table.sense]
    part = member.optional(table.part, "part")
    return Dimension(
        id=member.id,
        title=member.text(table.title, "title"),
        sense=table.sense,
        station=member.optional(table.station, "station"),
        part=part,
        through=member.names(table.through, "through"),
        feature=member.optional(table.feature, "feature") or feature_in(member.id, part),
        nominal=amounts.optional(table.nominal, kind, (*member.path, "nominal")),
        plausible=_plausible(table, member, amounts),
        places=_places(table, member),
        condition=member.optional(table.condition, "condition"),
        instruments=tuple(table.instrument),
        limits=limits_of(table.limits, table.sense, member, amounts),
        limit_class=table.limit_class,
        judged=table.judged,
        family=member.family,
        note=member.optional(table.note, "note"),
    )


def feature_in(dimension: str, part: str | None) -> str:
    """The name by which a part carries a dimension: its id without the part's own id in front.

    Examples
    --------
    >>> feature_in("main.1.shell_upper.wall", "main.1.shell_upper")
    'wall'
    >>> feature_in("main.1.journal", "crank")
    'main.1.journal'
    """
    return dimension if part is None else dimension.removeprefix(f"{part}.")


def _plausible(
    table: DimensionTable, member: MemberTexts, amounts: AmountReader
) -> tuple[Written, Written] | None:
    if table.plausible is None:
        return None
    kind = DIMENSION_OF[table.sense]
    low, high = (
        amounts.written(value, kind, (*member.path, "plausible", index))
        for index, value in enumerate(table.plausible)
    )
    return low, high


def _places(table: DimensionTable, member: MemberTexts) -> tuple[Place, ...]:
    planes = member.names(table.planes, "planes")
    angles = member.names(table.angles, "angles")
    named = tuple(Place(name) for name in member.names(table.places, "places"))
    if planes and angles:
        taken = tuple(Place(f"{plane}/{angle}", plane, angle) for plane in planes for angle in angles)
    else:
        taken = tuple(Place(name, plane=name) for name in planes)
        taken += tuple(Place(name, angle=name) for name in angles)
    return (taken + named) or (WHOLE,)


def limits_of(
    tables: Sequence[LimitTable], sense: Sense, member: MemberTexts, amounts: AmountReader
) -> tuple[Limit, ...]:
    """The limits of a dimension or fit."""
    kind = DIMENSION_OF[sense]
    limits: list[Limit] = []
    for index, table in enumerate(tables):
        place = ("limits", index)
        limit = Limit(
            lower=amounts.optional(table.lower, kind, (*member.path, *place, "lower")),
            upper=amounts.optional(table.upper, kind, (*member.path, *place, "upper")),
            source=table.source,
            place_in_source=member.optional(table.at, *place, "at"),
            governs=table.governs,
            applies_to=table.applies_to,
            temperature_case=table.temperature_case,
            depends_on=table.depends_on,
            note=member.optional(table.note, *place, "note"),
        )
        limits.append(limit)
    return tuple(limits)


def station_of(table: StationTable, member: MemberTexts, dimensions: Iterable[Dimension]) -> Station:
    """A station; without an order of its own it takes its dimensions as they stand in the file."""
    order = member.names(table.order, "order")
    return Station(
        id=member.id,
        title=member.text(table.title, "title"),
        order=order or tuple(dimension.id for dimension in dimensions if dimension.station == member.id),
        eye_checks=tuple(
            EyeCheck(
                member.text(check.id, "eye_checks", index, "id"),
                member.text(check.question, "eye_checks", index, "question"),
                check.wanted,
            )
            for index, check in enumerate(table.eye_checks)
        ),
        caution=member.optional(table.caution, "caution"),
    )
