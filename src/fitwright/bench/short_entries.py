"""What a person types at a place: a full size, its last digits, a deviation, or what a blade did.

`AtPlace` says what is shown at the place; `read_entry` turns the text into one that says all that
is needed to read it again (`55.9[92] mm`), or into a blade and its answer.

| typed | taken as |
| --- | --- |
| `55.992`, `2.2044 in` | the full size, in the gauge's unit or the one named |
| `92` | the last digits of the size nearest to the one expected |
| `+12`, `-3` | so many divisions of the gauge from the size that it was set to, or from the one expected |
| `+0.012`, `-2.5 thou` | of a gauge that was set: that much from the size that it was set to |
| `F2:0.06 goes`, `0.07 n` | a blade: goes (g), goes freely (f), drags (d), does not go (n) |
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from math import isclose
from typing import Final

from fitwright.bench.context import Bench
from fitwright.bench.sizes import size_expected, size_read
from fitwright.model.dimension import Dimension, Place
from fitwright.records.kinds import Instrument, Setting, Sitting
from fitwright.units import (
    Quantity,
    QuantityError,
    approximately,
    decimals_for,
    format_value,
    last_digits_pattern,
    parse_deviation,
    parse_nearest_last_digits,
    parse_quantity,
)
from fitwright.units.families import Family, shop_unit
from fitwright.units.senses import DIMENSION_OF

BLANKS: Final = 2
"""How many last digits are left blank at a place."""

SETTING_REACH: Final = 0.02
"""A comparison gauge was set for a size if both lie within this share of it."""

ANSWERS: Final = {
    "g": "goes",
    "goes": "goes",
    "f": "goes freely",
    "goes freely": "goes freely",
    "d": "drags",
    "drags": "drags",
    "n": "does not go",
    "does not go": "does not go",
}
_BLADE: Final = re.compile(
    rf"(?P<blades>\S.*?)\s+(?P<answer>{'|'.join(sorted(ANSWERS, key=len, reverse=True))})"
)
_DIGITS: Final = re.compile(r"\d+")
_DIVISIONS: Final = re.compile(r"[+\-\u2212]\s*\d+")
_SIGNED: Final = re.compile(r"[+\-\u2212]\s*(?P<number>\d*[.,]?\d+)")


@dataclass(frozen=True, slots=True)
class AtPlace:
    """What is known at a place before anything is typed: gauge, its setting, the size expected.

    `base` is where the gauge's own scale has its zero: the size that it was set to, else the
    size expected; None where neither is known. `expected` is the size expected here, `pattern` the
    same with its last digits blank.
    """

    dimension: Dimension
    place: Place
    instrument: Instrument | None
    setting: Setting | None
    unit: str
    decimals: int
    base: float | None
    expected: float | None
    pattern: str | None

    @property
    def quantity_dimension(self) -> str:
        """The dimension of units that is read here."""
        return DIMENSION_OF[self.dimension.sense]

    @property
    def resolution(self) -> float | None:
        """One division of the gauge [SI]; None without one."""
        return self.instrument.resolution if self.instrument is not None else None


@dataclass(frozen=True, slots=True)
class BladeTyped:
    """A blade or a stack, as typed, and what it did."""

    blades: str
    answer: str


@dataclass(frozen=True, slots=True)
class ValueTyped:
    """A value; `in_full` says whether every digit was typed, so that nothing needs to be shown first."""

    quantity: Quantity
    in_full: bool


def at_place(
    bench: Bench,
    dimension: Dimension,
    place: Place,
    *,
    instrument: Instrument | None,
    sitting: Sitting | None = None,
    setting: str | None = None,
) -> AtPlace:
    """What to show at a place for a gauge; without one (blades), nothing is left blank."""
    expected = size_expected(bench, dimension)
    held = setting_of(bench, instrument, sitting, setting, nominal=expected)
    base = held.size.si if held is not None and held.size is not None else expected
    if instrument is None:
        unit = shop_unit(DIMENSION_OF[dimension.sense], _family(bench), expected or 0.0)
        return AtPlace(dimension, place, None, None, unit, 3, base, expected, None)
    expected = _within_reach(expected, size_read(bench, dimension), instrument)
    decimals = decimals_for(instrument.resolution, instrument.unit)
    pattern = None
    if expected and _has_digits_to_spare(expected, instrument, decimals):
        pattern = last_digits_pattern(expected, instrument.unit, decimals, BLANKS)
    return AtPlace(dimension, place, instrument, held, instrument.unit, decimals, base, expected, pattern)


def _family(bench: Bench) -> Family:
    return "inch" if bench.sheet.engine.unit_family == "inch" else "mm"


def _within_reach(expected: float | None, read: float | None, instrument: Instrument) -> float | None:
    """The size expected, unless last digits typed for it could not lead to what was read here before."""
    if expected is None or read is None:
        return expected
    return expected if abs(read - expected) < 10**BLANKS * instrument.resolution / 2.0 else read


def setting_of(
    bench: Bench,
    instrument: Instrument | None,
    sitting: Sitting | None,
    code: str | None = None,
    *,
    nominal: float | None = None,
) -> Setting | None:
    """The setting in which a gauge reads: the one named, that of the sitting, else its last.

    One made at quite another size than the nominal is not taken unless it is named.
    """
    if instrument is None:
        return None
    code = code or (sitting.settings.get(instrument.code) if sitting is not None else None)
    if code is not None:
        held = bench.shop.settings.get(code)
        return held.body if held is not None else None
    own = [each.body for each in bench.shop.settings.values() if each.body.instrument == instrument.code]
    return next((each for each in reversed(own) if _suits(each, nominal)), None)


def _suits(setting: Setting, nominal: float | None) -> bool:
    if setting.size is None or nominal is None:
        return True
    return abs(setting.size.si - nominal) <= SETTING_REACH * abs(nominal)


def read_entry(text: str, at: AtPlace, *, unit: str = "") -> BladeTyped | ValueTyped:
    """What was typed at a place; `unit` is one chosen instead of the gauge's own.

    Raises
    ------
    QuantityError
        If it is neither an amount nor a blade with its answer, or could mean two amounts.
    """
    text = text.strip()
    blade = blade_typed(text)
    if blade is not None:
        return blade
    if unit and unit != at.unit:
        return _in_unit(text, at, unit)
    if at.pattern is not None and _DIGITS.fullmatch(text) and len(text) >= BLANKS:
        assert at.expected is not None  # noqa: S101  (a pattern is made of the size expected)
        return ValueTyped(parse_nearest_last_digits(text, at.expected, at.unit, at.decimals), in_full=False)
    if _is_deviation(text, at):
        assert at.base is not None  # noqa: S101  (a deviation has a base)
        return _deviation(text, at, at.base)
    return ValueTyped(
        parse_quantity(text, default_unit=at.unit, dimension=at.quantity_dimension), in_full=True
    )


def _in_unit(text: str, at: AtPlace, unit: str) -> ValueTyped:
    """An amount in a unit that is not the gauge's: a size, or with a sign how far it is from the setting."""
    signed = _SIGNED.fullmatch(text)
    if signed is not None and at.base is not None and _was_set(at):
        return ValueTyped(parse_deviation(f"{text} {unit}", _base_text(at, at.base), ""), in_full=False)
    return ValueTyped(parse_quantity(text, default_unit=unit, dimension=at.quantity_dimension), in_full=True)


def _deviation(text: str, at: AtPlace, base: float) -> ValueTyped:
    """How far a gauge shows the size from its zero: whole numbers are divisions, `+0.012` is an amount."""
    signed = _SIGNED.fullmatch(text)
    if signed is not None and not _DIVISIONS.fullmatch(text):
        text = f"{text} {at.unit}" if _is_amount(signed["number"], at) else _divisions_meant(text, at)
    return ValueTyped(parse_deviation(text, _base_text(at, base), _division_text(at)), in_full=False)


def _is_amount(number: str, at: AtPlace) -> bool:
    """Whether a number says digits as fine as the gauge's own, and less than one of its unit."""
    whole, _, decimals = number.replace(",", ".").partition(".")
    return not whole.strip("0") and len(decimals) >= at.decimals


def _divisions_meant(text: str, at: AtPlace) -> str:
    """A broken number of divisions, unless it could as well be thou, or an amount in the gauge's unit.

    Raises
    ------
    QuantityError
        If it could; it says how to write either.
    """
    count = float(text[1:].replace(",", "."))
    other = "thou" if at.unit in ("in", "thou") else at.unit
    if other == "mm" and count >= 1.0:
        return text
    divisions = approximately(count * (at.resolution or 0.0), at.unit, at.quantity_dimension)
    problem = f"could mean divisions of {_division_text(at)} or {other}"
    write = f'"{text[0]}{divisions}" or "{text} {other}"'
    raise QuantityError(text, "ambiguous_deviation", problem, write)


def blade_typed(text: str) -> BladeTyped | None:
    """A blade or a stack with its answer, if that is what the text says."""
    found = _BLADE.fullmatch(text.strip())
    return BladeTyped(found["blades"], ANSWERS[found["answer"]]) if found is not None else None


def _base_text(at: AtPlace, base: float) -> str:
    """The size at which the gauge shows zero, with as few decimals as say it whole."""
    for decimals in range(at.decimals, at.decimals + 4):
        text = format_value(base, at.unit, decimals, dimension=at.quantity_dimension)
        if isclose(parse_quantity(text, dimension=at.quantity_dimension).si, base, rel_tol=1e-12):
            break
    return text


def _division_text(at: AtPlace) -> str:
    return approximately(at.resolution or 0.0, at.unit, at.quantity_dimension)


def _has_digits_to_spare(nominal: float, instrument: Instrument, decimals: int) -> bool:
    """Whether a size is so much larger than the division that its last digits stand for it."""
    return decimals >= BLANKS and abs(nominal) >= 200 * instrument.resolution


def _is_deviation(text: str, at: AtPlace) -> bool:
    if at.base is None or at.instrument is None or not text or text[0] not in "+-\u2212":
        return False
    return bool(_DIVISIONS.fullmatch(text)) or _was_set(at)


def _was_set(at: AtPlace) -> bool:
    """Whether the gauge compares with the size that it was set to."""
    return at.instrument is not None and at.instrument.comparison and at.setting is not None
