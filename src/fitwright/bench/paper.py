"""Stations on paper: the boxes of a printed sheet, and what was written into them typed in later.

A sheet has one box for each place in measuring order; where last digits are enough, the leading ones
of the size expected are printed. What is typed in from paper goes the way of any other reading
(`taking`), says that it comes from paper, and keeps the time of the paper beside that of its entry.
"""

from __future__ import annotations

import uuid
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from datetime import datetime, timedelta
from itertools import groupby
from typing import Final

from fitwright.bench.context import Bench
from fitwright.bench.errors import BenchError, NoPaperTimeError, PaperTimeAheadError
from fitwright.bench.order import Stop
from fitwright.bench.short_entries import BLANKS, AtPlace, BladeTyped, at_place, read_entry
from fitwright.bench.taking import Taken, Taking, take_blade, take_value
from fitwright.model.dimension import Dimension, Place
from fitwright.model.slips import Question
from fitwright.records.kinds import Setting, Sitting
from fitwright.units import Quantity, parse_last_digits
from fitwright.units.families import Family, shop_unit
from fitwright.units.senses import DIMENSION_OF

TRIED: Final = frozenset({"feeler blades", "plug gauge"})
"""Gauges that are tried, and go or do not go."""
BESIDE: Final = frozenset({"straight-edge"})
"""Tools that read nothing by themselves."""
DID: Final = ("goes", "drags", "does not go")
"""What a blade can have done, in the order of the boxes."""


@dataclass(frozen=True, slots=True)
class Box:
    """What is written at one place: leading digits printed, blanks to fill, or blades tried."""

    stop: Stop
    place: Place
    unit: str
    lead: str
    blanks: int
    by_value: bool
    by_blades: bool


@dataclass(frozen=True, slots=True)
class Line:
    """A dimension with its boxes, in measuring order."""

    dimension: Dimension
    boxes: tuple[Box, ...]


@dataclass(frozen=True, slots=True)
class Group:
    """Dimensions of one family that follow each other and have the same places: one table."""

    lines: tuple[Line, ...]

    @property
    def first(self) -> Dimension:
        """The dimension that stands for the group's picture."""
        return self.lines[0].dimension

    def holds(self, stop: Stop) -> bool:
        """Whether a place has its box here."""
        return any(line.dimension.id == stop.dimension for line in self.lines)


def paper_groups(bench: Bench, station: str, sitting: Sitting | None = None) -> tuple[Group, ...]:
    """The tables of a station, in measuring order.

    Parameters
    ----------
    bench : Bench
        The build; sizes read before lend their leading digits.
    station : str
        A station of its sheet.
    sitting : Sitting, optional
        Says which gauges are used, where several would do.
    """
    order = [bench.sheet.dimensions[name] for name in bench.sheet.stations[station].order]
    alike = groupby(order, key=lambda each: (each.family or each.id, each.places, each.instruments))
    return tuple(
        Group(tuple(Line(each, tuple(_boxes(bench, each, sitting))) for each in members))
        for _, members in alike
    )


def gauge_kinds(groups: tuple[Group, ...]) -> Iterator[str]:
    """The kinds of gauge that a station asks for, each once, in the order in which they are needed."""
    every = (kind for group in groups for kind in group.first.instruments)
    yield from dict.fromkeys(kind for kind in every if kind not in BESIDE)


def settings_for(bench: Bench, dimension: Dimension) -> tuple[Setting, ...]:
    """The settings of gauges that a dimension can be read with, the last first."""
    kinds = dimension.instruments
    every = [held.body for held in bench.shop.settings.values()]
    gauges = bench.shop.instruments
    fitting = [
        each
        for each in every
        if each.instrument in gauges and (not kinds or gauges[each.instrument].body.type in kinds)
    ]
    return tuple(reversed(fitting))


def _boxes(bench: Bench, dimension: Dimension, sitting: Sitting | None) -> Iterator[Box]:
    kinds = set(dimension.instruments) - BESIDE
    by_blades = bool(kinds & TRIED)
    by_value = not kinds or bool(kinds - TRIED)
    for place in dimension.places:
        at = _at(bench, dimension, place, sitting)
        lead, blanks = _lead(at) if by_value else ("", 0)
        unit = at.unit if at is not None else _usual_unit(bench, dimension)
        yield Box(Stop(dimension.id, place.id), place, unit, lead, blanks, by_value, by_blades)


def _at(bench: Bench, dimension: Dimension, place: Place, sitting: Sitting | None) -> AtPlace | None:
    """What is known at a place; nothing where it is not plain which gauge is used."""
    try:
        instrument = bench.instrument(dimension, sitting, None)
    except BenchError:
        return None
    return at_place(bench, dimension, place, instrument=instrument, sitting=sitting)


def _lead(at: AtPlace | None) -> tuple[str, int]:
    """The leading digits to print, and how many blanks follow them."""
    if at is None or at.pattern is None:
        return "", 0
    return at.pattern[:-BLANKS], BLANKS


def _usual_unit(bench: Bench, dimension: Dimension) -> str:
    family: Family = "inch" if bench.sheet.engine.unit_family == "inch" else "mm"
    nominal = dimension.nominal.si if dimension.nominal is not None else 0.0
    return shop_unit(DIMENSION_OF[dimension.sense], family, nominal)


@dataclass(frozen=True, slots=True)
class Noted:
    """What stands on the paper at one place: a size or its last digits, blades and what they did.

    `lead` is what was printed before the last digits, with its unit ("55.9 mm"): on paper they stand
    together. `blades` maps what they did to which it was; `answers` answers questions about the size.
    """

    stop: Stop
    size: str = ""
    lead: str = ""
    blades: Mapping[str, str] = field(default_factory=dict)
    answers: Mapping[str, str] = field(default_factory=dict)

    @property
    def is_empty(self) -> bool:
        """Whether nothing stands there."""
        return not self.size and not any(self.blades.values())


def take_noted(bench: Bench, noted: Noted, taking: Taking) -> tuple[Taken, ...] | Question:
    """The readings of one place on paper, or the question to ask first.

    All of them belong to the sitting that `taking` names. Their ids follow from the id of the form
    and the place, so that sending a form twice changes nothing.

    Raises
    ------
    BenchError
        If the gauge or a blade is unknown, or does not suit.
    QuantityError
        If what is typed is no amount.
    """
    stop, found = noted.stop, []
    if noted.size:
        size = _take_size(bench, noted, _named(taking, stop, "size"))
        if isinstance(size, Question):
            return size
        found.append(size)
    for did in DID:
        if noted.blades.get(did):
            own = _named(taking, stop, did)
            found.append(take_blade(bench, stop.dimension, stop.place, noted.blades[did], did, own))
    return tuple(found)


def _take_size(bench: Bench, noted: Noted, taking: Taking) -> Taken | Question:
    stop = noted.stop
    dimension = bench.dimension(stop.dimension)
    sitting = bench.sitting(taking.sitting)
    taking = replace(taking, answers=noted.answers)
    quantity = _last_digits(noted)
    if quantity is None:
        at = _on_paper(bench, dimension, bench.place(dimension, stop.place), sitting, taking)
        entry = read_entry(noted.size, at)
        if isinstance(entry, BladeTyped):
            return take_blade(bench, stop.dimension, stop.place, entry.blades, entry.answer, taking)
        quantity = entry.quantity
    own = replace(taking, unit=quantity.unit)
    return take_value(bench, stop.dimension, stop.place, quantity.typed, own)


def _last_digits(noted: Noted) -> Quantity | None:
    """The size whose last digits were written behind the printed ones; None where more was written."""
    lead, _, unit = noted.lead.partition(" ")
    if not unit or not noted.size.isascii() or not noted.size.isdigit() or len(noted.size) != BLANKS:
        return None
    return parse_last_digits(noted.size, f"{lead}{'_' * BLANKS}", unit)


def _on_paper(
    bench: Bench, dimension: Dimension, place: Place, sitting: Sitting | None, taking: Taking
) -> AtPlace:
    """What was known at a place when it was written down: only a setting that the paper names counts.

    Last digits are read behind the digits printed, never as the size nearest to the one expected now.
    """
    instrument = bench.instrument(dimension, sitting, taking.instrument)
    named = sitting.settings.get(instrument.code) if sitting is not None else None
    setting = taking.setting or named
    at = at_place(bench, dimension, place, instrument=instrument, sitting=sitting, setting=setting)
    if setting is None:
        at = replace(at, setting=None, base=None if instrument.comparison else at.expected)
    return replace(at, pattern=None)


def _named(taking: Taking, stop: Stop, what: str) -> Taking:
    if taking.entry_id is None:
        return taking
    name = f"{stop.dimension}|{stop.place}|{what}"
    return replace(taking, entry_id=uuid.uuid5(uuid.UUID(hex=taking.entry_id), name).hex)


def time_on_paper(date: str, time: str, *, now: datetime) -> str:
    """The date and time written on a paper, as a reading keeps them.

    Without a time of day the date stands alone.

    Raises
    ------
    NoPaperTimeError
        If no date is given, or what is given is none.
    PaperTimeAheadError
        If it lies ahead by more than a day, whatever the time zone.

    Examples
    --------
    >>> from datetime import UTC
    >>> time_on_paper("2031-05-04", "09:30", now=datetime(2031, 5, 6, tzinfo=UTC))
    '2031-05-04T09:30'
    """
    if not date:
        raise NoPaperTimeError(date)
    text = f"{date}T{time}" if time else date
    try:
        moment = datetime.fromisoformat(text)
    except ValueError:
        raise NoPaperTimeError(text) from None
    if moment.replace(tzinfo=None) > now.replace(tzinfo=None) + timedelta(days=1):
        raise PaperTimeAheadError(text)
    return text
