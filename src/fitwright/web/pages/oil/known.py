"""What a prediction rests on: sizes not measured or not known with the way to measure them, the oil."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from fitwright.assess.oil.results import OilUsed, Prediction
from fitwright.assess.oil.sizes import Basis, KnownSize
from fitwright.model.sheet import Sheet
from fitwright.units.display import format_number, format_value
from fitwright.units.families import Family, shop_unit
from fitwright.units.rounding import in_unit
from fitwright.units.spellings import definition_of
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
        yield SizeLine(each.title, _words(each, family), each.critical, where)


def _words(size: KnownSize, family: Family) -> str:
    if size.basis is Basis.NOT_KNOWN:
        return size.reason or "nothing is known of it"
    if size.basis is Basis.STATED:
        return f"{size.reason or 'stated, not measured'}: {_amount(size.value, family)}"
    if size.band is None:
        return size.reason
    low, high = size.band
    return f"{size.reason}: anywhere from {_number(low, family, high)} to {_amount(high, family)}"


def _unit(value: float, family: Family) -> str:
    return shop_unit("length", family, value)


def _amount(value: float, family: Family) -> str:
    unit = _unit(value, family)
    return format_value(value, unit, 3 if unit == "mm" else 2 if unit == "thou" else 4)


def _number(value: float, family: Family, beside: float) -> str:
    unit = _unit(beside, family)
    return format_number(in_unit(value, unit, "length"), 3 if unit == "mm" else 2 if unit == "thou" else 4)


def oil_line(oil: OilUsed) -> OilLine:
    """The oil in words."""
    unit = definition_of("mm2/s", "kinematic_viscosity").shown
    thin, thick = (
        format_number(in_unit(each, "mm2/s", "kinematic_viscosity"), 1)
        for each in (oil.kinematic_viscosity_40, oil.kinematic_viscosity_100)
    )
    words = f"{thin} {unit} at 40 °C, {thick} {unit} at 100 °C; {oil.basis}"
    return OilLine(oil.title, words, oil.cautions)
