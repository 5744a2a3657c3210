"""Amounts: a text with a number and a unit, read once at the edge and kept with its value in SI.

Three texts are read: a plain amount (`67.08 mm`, `2 1/2 in`), a size of which only the digits in
brackets were typed (`55.9[92] mm`), and a size with a gauge's deviation (`55.980 mm [+12 x 0.001
mm]`). The last two are what `short_entries` makes of them, so that a stored text always says
everything that is needed to read it again.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING, Final

from fitwright.units.errors import QuantityError
from fitwright.units.families import Family, shop_unit
from fitwright.units.grammar import WrittenNumber, plain_text, split_number
from fitwright.units.spellings import definition_of, read_unit
from fitwright.units.table import DIMENSIONS

if TYPE_CHECKING:
    from fitwright.units.table import UnitDefinition

PARSER_VERSION: Final = 1
"""Goes up when a text would be read differently than before; kept with each reading."""

_LAST_DIGITS: Final = re.compile(r"^([+-]?[\d.,]*)\[([\d.,]+)\](.*)$")
_DEVIATION: Final = re.compile(r"^([^\[\]]+)\[([+-][^\[\]x]+)(?: x ([^\[\]]+))?\]$")
_FRACTION_UNITS: Final = frozenset(
    {"in", "thou", "ft", "turn", "imp pt", "imp gal", "US pt", "US qt", "US gal"}
)
_EXAMPLES: Final = {
    ("length", "in"): "2.641 in",
    ("length", "thou"): "2.5 thou",
    ("temperature", "degF"): "68 degF",
    ("pressure", "psi"): "65 psi",
    ("torque", "lbf ft"): "45 lbf ft",
    ("force", "lbf"): "140 lbf",
}
"""How an amount is written in the units of inch shops."""

LARGEST: Final = 10**12
"""No amount is larger in SI units."""


@dataclass(frozen=True, slots=True)
class Quantity:
    """An amount as typed, and what it means.

    `typed` is the raw text, `magnitude` its number in `unit` (our canonical spelling), `decimals`
    the decimals typed, `si` the value in `si_unit`, the one SI unit of `dimension`.
    """

    typed: str
    magnitude: float
    unit: str
    decimals: int
    si: float
    si_unit: str
    dimension: str

    @property
    def resolution(self) -> float:
        """One step of the last digit typed, in SI units (of a temperature: in kelvin)."""
        return float(definition_of(self.unit, self.dimension).factor / 10**self.decimals)


def parse_quantity(text: str, *, default_unit: str | None = None, dimension: str | None = None) -> Quantity:
    """Read an amount.

    Parameters
    ----------
    text : str
        What was typed.
    default_unit : str, optional
        The unit of a number without one (canonical spelling).
    dimension : str, optional
        The dimension wanted, a key of `DIMENSIONS`; decides between spellings used in two.

    Returns
    -------
    Quantity
        The amount; `si` is the float nearest to the exact value.

    Raises
    ------
    QuantityError
        If the text is no amount, or of another dimension; one sentence that says what to write.

    Examples
    --------
    >>> parse_quantity("2 1/2 in").si
    0.0635
    >>> parse_quantity("1,234 mm").magnitude
    1.234
    >>> parse_quantity("90 ft-lb").unit
    'lbf ft'
    """
    try:
        return _parsed(text, default_unit, dimension)
    except QuantityError as error:
        raise error.with_example(example_in(default_unit, dimension)) from None


def example_in(unit: str | None, dimension: str | None) -> str:
    """An amount as one writes it where this unit, or this dimension, is wanted.

    >>> example_in("in", "length"), example_in(None, "pressure"), example_in("bar", None)
    ('2.641 in', '4.5 bar', '4.5 bar')
    """
    wanted = dimension or (definition_of(unit).dimension if unit else "length")
    return _EXAMPLES.get((wanted, unit or ""), DIMENSIONS[wanted].example)


def _parsed(text: str, default_unit: str | None, dimension: str | None) -> Quantity:
    plain = plain_text(text)
    if found := _LAST_DIGITS.match(plain):
        plain = "".join(found.groups())
    elif found := _DEVIATION.match(plain):
        return _with_deviation(found, text, default_unit, dimension)
    number, definition = _read(plain, text, default_unit, dimension)
    return quantity_of(number.exact, number.decimals, definition, text)


def quantity_of(magnitude: Fraction, decimals: int, definition: UnitDefinition, typed: str) -> Quantity:
    """The quantity with this exact magnitude in a unit."""
    exact = magnitude * definition.factor + definition.offset
    if definition.dimension == "temperature" and exact < 0:
        raise QuantityError(typed, "below_zero", "is below absolute zero", 'it as "90 degC"')
    if abs(exact) > LARGEST:
        raise QuantityError(typed, "too_large", "is more than anything measures", 'it as "67.08 mm"')
    return Quantity(
        typed=typed,
        magnitude=float(magnitude),
        unit=definition.name,
        decimals=decimals,
        si=float(exact),
        si_unit=DIMENSIONS[definition.dimension].si_unit,
        dimension=definition.dimension,
    )


def decimals_for(resolution: float, unit: str, dimension: str | None = None) -> int:
    """Decimals in a unit whose last digit comes nearest to a resolution [SI].

    >>> decimals_for(1e-6, "thou")  # 0.001 mm is shown to 0.1 thou
    1
    """
    step = resolution / float(definition_of(unit, dimension).factor)
    return max(0, round(-math.log10(step)))


def _read(
    plain: str, typed: str, default_unit: str | None, dimension: str | None
) -> tuple[WrittenNumber, UnitDefinition]:
    number, unit_text = split_number(plain, typed)
    if unit_text:
        definition = read_unit(unit_text, number, typed, dimension)
    elif default_unit is not None:
        definition = definition_of(default_unit, dimension)
    elif dimension == "ratio":
        definition = definition_of("1", dimension)
    else:
        raise _no_unit_error(number, plain, typed, dimension)
    if number.is_fraction:
        _check_fraction(number, definition, unit_text, plain, typed)
    return number, definition


def _no_unit_error(number: WrittenNumber, plain: str, typed: str, dimension: str | None) -> QuantityError:
    if number.is_fraction:
        return QuantityError(typed, "fraction", "is a fraction without a unit", f'"{plain} in" for inches')
    families: tuple[Family, Family] = ("mm", "inch")
    units = dict.fromkeys(shop_unit(dimension or "length", family) for family in families)
    write = " or ".join(f'"{plain} {unit}"' for unit in units)
    return QuantityError(typed, "no_unit", "is a number without a unit", write)


def _check_fraction(
    number: WrittenNumber, definition: UnitDefinition, unit_text: str, plain: str, typed: str
) -> None:
    """Fractions are for inches; one without a unit counts where inches are the unit of the place."""
    if not unit_text and definition.name != "in":
        raise QuantityError(typed, "fraction", "is a fraction without a unit", f'"{plain} in" for inches')
    if definition.name not in _FRACTION_UNITS:
        write = f'"{float(number.exact):.6g} {definition.name}"'
        raise QuantityError(typed, "fraction", f"is a fraction of a metric unit ({definition.name})", write)


def _with_deviation(
    found: re.Match[str], typed: str, default_unit: str | None, dimension: str | None
) -> Quantity:
    """A size plus so many divisions of a gauge, or plus an amount with its own unit."""
    base, definition = _read(found[1].strip(), typed, default_unit, dimension)
    if found[3] is None:
        step, step_unit = _read(found[2], typed, definition.name, definition.dimension)
        deviation = step.exact * step_unit.factor
        resolution = float(step_unit.factor) / 10**step.decimals
    else:
        count, rest = split_number(found[2].strip(), typed)
        division, division_unit = _read(found[3], typed, None, definition.dimension)
        if rest:
            raise QuantityError(typed, "deviation", "counts divisions in a unit", '"[+3 x 0.001 mm]"')
        deviation = count.exact * division.exact * division_unit.factor
        resolution = float(division.exact * division_unit.factor) / 10**count.decimals
    magnitude = base.exact + deviation / definition.factor
    finest = decimals_for(resolution, definition.name, definition.dimension)
    return quantity_of(magnitude, max(base.decimals, finest), definition, typed)
