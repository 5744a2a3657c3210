"""What a prediction rests on: sizes not measured or not known with the way to measure them, the oil."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from fitwright.assess.oil.results import OilUsed, Prediction
from fitwright.assess.oil.sizes import KnownSize
from fitwright.drawing.oil_words import oil_words, size_words
from fitwright.model.sheet import Sheet
from fitwright.units.families import Family
from fitwright.web.addresses import measure_address


@dataclass(frozen=True, slots=True)
class SizeLine:
    """A size that is not measured: what enters instead, and where it is measured."""

    title: str
    words: str
    critical: bool
    address: str


@dataclass(frozen=True, slots=True)
class OilLine:
    """The oil that is computed with: its name, its viscosities, what they rest on."""

    title: str
    words: str
    cautions: tuple[str, ...]


def unmeasured_lines(sheet: Sheet, code: str, found: Prediction, family: Family) -> tuple[SizeLine, ...]:
    """Sizes that enter as their limit band or as the sheet states them, critical ones first."""
    sizes = sorted(found.unmeasured, key=lambda each: not each.critical)
    return tuple(_lines(sheet, code, sizes, family))


def unknown_lines(sheet: Sheet, code: str, found: Prediction, family: Family) -> tuple[SizeLine, ...]:
    """Sizes of which nothing is known, so that nothing is predicted."""
    return tuple(_lines(sheet, code, found.not_known, family))


def _lines(sheet: Sheet, code: str, sizes: Sequence[KnownSize], family: Family) -> Iterator[SizeLine]:
    for each in sizes:
        station = each.station if each.station in sheet.stations else ""
        where = measure_address(code, family, station=station or "")
        yield SizeLine(each.title, size_words(each, family), each.critical, where)


def oil_line(oil: OilUsed) -> OilLine:
    """The oil in words."""
    return OilLine(oil.title, oil_words(oil), oil.cautions)
