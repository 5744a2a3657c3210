"""What is shown at a place before it is read."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from fitwright.bench.order import Stop
from fitwright.bench.progress import reading_words
from fitwright.drawing.part_place import part_place_drawing
from fitwright.model.dimension import Sense
from fitwright.records.projection import ReadingRecord
from fitwright.units.families import Family
from fitwright.units.senses import DIMENSION_OF
from fitwright.web.addresses import measure_address
from fitwright.web.pages.measure.blades import BladeKeys, blade_keys
from fitwright.web.pages.measure.here import Here
from fitwright.web.pages.measure.words import gauge_words, limits_words, place_words

EARLIER_SHOWN = 4
UNITS: dict[str, tuple[str, ...]] = {"length": ("mm", "in", "thou")}
"""Units that one may choose to type in, besides the gauge's own."""


@dataclass(frozen=True, slots=True)
class GaugeChoice:
    """A gauge that could read this place, for its kind in the sitting."""

    kind: str
    code: str
    title: str


@dataclass(frozen=True, slots=True)
class UnitChoice:
    """A unit to type in; the gauge's own takes short entries too."""

    unit: str
    chosen: bool


@dataclass(frozen=True, slots=True)
class AtPart:
    """The place: what is measured where, how it is typed, what was read before."""

    at: str
    count: str
    title: str
    where: str
    condition: str
    pattern: str
    unit: str
    units: tuple[UnitChoice, ...]
    limits: str
    gauge: str
    which: tuple[GaugeChoice, ...]
    earlier: str
    drawing: Markup
    blades: BladeKeys | None
    before: str
    after: str


def at_part(here: Here, stop: Stop, unit: str) -> AtPart:
    """Everything shown at a place."""
    bench, at = here.bench, here.at(stop)
    dimension = at.dimension
    index = here.order.index(stop)
    condition = bench.sheet.conditions.get(dimension.condition or "")
    blades = blade_keys(here, dimension, stop.place)
    read = {held.place for held in _readings(here, stop.dimension)}
    drawing = part_place_drawing(bench.sheet, dimension, at.place, read)
    choices = _units(at.unit, dimension.sense, unit)
    pattern = at.pattern if choices and choices[0].chosen else None
    return AtPart(
        at=f"{stop.dimension}|{stop.place}",
        count=f"{index + 1} of {len(here.order)}",
        title=dimension.title,
        where=place_words(bench.sheet, dimension, stop.place),
        condition=condition.title if condition is not None else "",
        pattern=pattern or "",
        unit=next((each.unit for each in choices if each.chosen), at.unit),
        units=choices,
        limits=limits_words(bench, at),
        gauge="by blades" if blades is not None and blades.first else gauge_words(at),
        which=()
        if at.instrument is not None or (blades is not None and blades.first)
        else _which(here, stop),
        earlier=_earlier(here, stop),
        drawing=Markup(drawing),  # noqa: S704  (our own drawing)
        blades=blades,
        before=_address(here, index - 1),
        after=_address(here, index + 1),
    )


def _units(own: str, sense: Sense, asked: str) -> tuple[UnitChoice, ...]:
    others = [each for each in UNITS.get(DIMENSION_OF[sense], ()) if each != own]
    chosen = asked if asked in others else own
    return tuple(UnitChoice(each, each == chosen) for each in (own, *others))


def _which(here: Here, stop: Stop) -> tuple[GaugeChoice, ...]:
    """The gauges of the kinds asked for, where none is chosen yet."""
    kinds = here.bench.dimension(stop.dimension).instruments
    held = [each.body for each in here.bench.shop.instruments.values()]
    return tuple(
        GaugeChoice(each.type, each.code, f"{each.title} ({each.code})")
        for each in held
        if not kinds or each.type in kinds
    )


def _readings(here: Here, dimension: str) -> list[ReadingRecord]:
    """The readings of a dimension that stand, in this sitting."""
    feature = here.bench.dimension(dimension).feature
    return [
        record
        for record in here.bench.build.readings_of(feature)
        if record.effective and record.dimension == dimension and record.body.sitting == here.sitting
    ]


def _earlier(here: Here, stop: Stop) -> str:
    feature = here.bench.dimension(stop.dimension).feature
    found = [
        reading_words(record)
        for record in here.bench.build.readings_of(feature)
        if record.effective and (record.dimension, record.place) == (stop.dimension, stop.place)
    ]
    return ", ".join(found[-EARLIER_SHOWN:])


def _address(here: Here, index: int) -> str:
    if not 0 <= index < len(here.order):
        return ""
    return address_of(here, here.order[index], here.family)


def address_of(here: Here, stop: Stop, family: Family) -> str:
    """The page at a place, in the same order and sitting."""
    return measure_address(
        here.code,
        family,
        station=here.station.id,
        dimension=stop.dimension,
        place=stop.place,
        sitting=here.sitting or "",
        from_="end" if here.from_the_end else "",
        way="" if here.way == "places" else here.way,
    )
