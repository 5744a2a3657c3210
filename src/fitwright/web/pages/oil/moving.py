"""What is moved to see what if: each slider as a field in the reader's unit, and back into a what-if."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from functools import lru_cache
from math import floor, log10
from typing import Final

from fitwright.assess.oil.sliders import Moves, Slider
from fitwright.assess.oil.what_if import WhatIf
from fitwright.model.oil import Oil
from fitwright.units import QuantityError, parse_quantity
from fitwright.units.display import format_number
from fitwright.units.families import Family
from fitwright.units.rounding import difference_in_unit, in_unit
from fitwright.units.spellings import definition_of

OIL: Final = "oil"
"""The name under which another oil stands in an address."""

_UNITS: Final[Mapping[str, tuple[str, str]]] = {
    "length": ("mm", "thou"),
    "pressure": ("bar", "psi"),
    "temperature_difference": ("K", "degF"),
}


@dataclass(frozen=True, slots=True)
class OilOption:
    """An oil to choose."""

    value: str
    label: str
    chosen: bool


@dataclass(frozen=True, slots=True)
class SliderField:
    """A slider with its number field, in the reader's unit; `wrong` says what is wrong with it."""

    name: str
    id: str
    label: str
    unit: str
    value: str
    at: str
    low: str
    high: str
    step: str
    now: str
    is_change: bool
    moved: bool
    wrong: str


@dataclass(frozen=True, slots=True)
class Scale:
    """How a slider's SI value is written for one reader."""

    slider: Slider
    family: Family

    @property
    def unit(self) -> str:
        """The unit of its number, as the units are spelled; empty for a plain number."""
        return _UNITS[self.slider.dimension][self.family == "inch"] if self.slider.dimension else ""

    @property
    def shown_unit(self) -> str:
        """The unit as it is shown beside the field."""
        if self.slider.moves is Moves.FUEL:
            return "%"
        return definition_of(self.unit, self.slider.dimension).shown if self.unit else ""

    @property
    def step(self) -> Decimal:
        """By how much one step of the slider moves, a round number of the reader's unit."""
        return _step(self)

    @property
    def decimals(self) -> int:
        """Decimals that a step has."""
        return max(0, -int(self.step.normalize().as_tuple().exponent))

    def text(self, value: float) -> str:
        """A value [SI] as it stands in the number field, with a plain minus sign."""
        return _text(self, value)

    def value(self, text: str) -> float:
        """What was typed [SI].

        Raises
        ------
        QuantityError
            If it is no such amount.
        """
        if not self.slider.dimension:
            share = 0.01 if self.slider.moves is Moves.FUEL else 1.0
            return _plain(text) * share
        return parse_quantity(text, default_unit=self.unit, dimension=self.slider.dimension).si

    @property
    def is_change(self) -> bool:
        """Whether the slider says by how much something changes."""
        return self.slider.now == 0.0

    def number(self, value: float) -> Decimal:
        """A value [SI] in the reader's unit."""
        if self.slider.moves is Moves.FUEL:
            return Decimal(repr(value)) * 100
        if not self.unit:
            return Decimal(repr(value))
        if self.slider.dimension == "temperature_difference":
            return difference_in_unit(value, self.unit, self.slider.dimension)
        return in_unit(value, self.unit, self.slider.dimension)


@lru_cache(maxsize=512)
def _step(scale: Scale) -> Decimal:
    size = abs(float(scale.number(scale.slider.step)))
    power = floor(log10(size) + 1e-9)
    lead = next(each for each in (1, 2, 5, 10) if each >= size / 10.0**power - 1e-6)
    return Decimal(lead).scaleb(power)


@lru_cache(maxsize=2048)
def _text(scale: Scale, value: float) -> str:
    """Kept: one page writes the same ends and places of its sliders again and again."""
    exact = scale.number(value)
    decimals = scale.decimals if exact % scale.step == 0 or scale.is_change else scale.decimals + 1
    return format_number(exact, decimals).replace("\N{MINUS SIGN}", "-")


def _plain(text: str) -> float:
    try:
        return float(text.replace(",", ".").replace("\N{MINUS SIGN}", "-").strip(" %"))
    except ValueError as error:
        raise QuantityError(text[:40], "no_number", "is no number", "digits, like 1.05") from error


@dataclass(frozen=True, slots=True)
class Moved:
    """What was moved: values [SI] by slider, the oil, and what could not be read, by slider."""

    values: Mapping[str, float]
    oil: str
    wrong: Mapping[str, str]

    @property
    def is_nothing(self) -> bool:
        """Whether it is the build as measured."""
        return not self.values and not self.oil


def moved_from(
    sliders: Sequence[Slider], texts: Mapping[str, str], oils: Mapping[str, Oil], family: Family
) -> Moved:
    """What an address or a form moves; what stands as measured is not moved."""
    values: dict[str, float] = {}
    wrong: dict[str, str] = {}
    for slider in sliders:
        scale, text = Scale(slider, family), texts.get(slider.id, "").strip()
        if not text or text == scale.text(slider.now):
            continue
        try:
            values[slider.id] = _within(scale, scale.value(text))
        except QuantityError as error:
            wrong[slider.id] = f"{error}."
    oil = texts.get(OIL, "")
    return Moved(values, oil if oil in oils else "", wrong)


def _within(scale: Scale, value: float) -> float:
    """A value that the slider can take; the ends hold for what is typed too."""
    slider = scale.slider
    if slider.low - 1e-12 <= value <= slider.high + 1e-12:
        return value
    low, high = scale.text(slider.low), scale.text(slider.high)
    wrong = f"is beyond what can be asked: {low} to {high} {scale.shown_unit}".rstrip()
    raise QuantityError(scale.text(value), "range", wrong, "a value between them")


def what_if_of(sliders: Sequence[Slider], moved: Moved) -> WhatIf:
    """The what-if that moved sliders ask for."""
    by_kind: dict[Moves, float] = {}
    clearances: dict[str, float] = {}
    sizes: dict[str, float] = {}
    for slider in sliders:
        if slider.id not in moved.values:
            continue
        value = moved.values[slider.id]
        if slider.moves is Moves.CLEARANCES:
            clearances[slider.id] = value
        elif slider.moves is Moves.SIZE:
            sizes |= dict.fromkeys(slider.parameters, value)
        else:
            by_kind[slider.moves] = value
    return WhatIf(
        oil=moved.oil,
        fuel_share=by_kind.get(Moves.FUEL, 0.0),
        temperature_change=by_kind.get(Moves.TEMPERATURE, 0.0),
        clearance_changes=clearances,
        sizes=sizes,
        shim=by_kind.get(Moves.SHIM, 0.0),
        seat_leak_lift=by_kind.get(Moves.SEAT, 0.0),
        pump_speed_factor=by_kind.get(Moves.PUMP_SPEED, 1.0),
        misalignment=by_kind.get(Moves.MISALIGNMENT, 0.0),
    )


def texts_of(sliders: Sequence[Slider], moved: Moved, family: Family) -> dict[str, str]:
    """What was moved, as it is written into an address."""
    found = {
        each.id: Scale(each, family).text(moved.values[each.id])
        for each in sliders
        if each.id in moved.values
    }
    return found | ({OIL: moved.oil} if moved.oil else {})


def words_of(
    sliders: Sequence[Slider], moved: Moved, oils: Mapping[str, Oil], family: Family
) -> Iterator[str]:
    """What was moved, in words."""
    if moved.oil:
        yield oils[moved.oil].title
    for slider in sliders:
        if slider.id in moved.values:
            scale = Scale(slider, family)
            value = moved.values[slider.id]
            sign = "+" if slider.now == 0.0 and value > 0.0 else ""
            number = scale.text(value).replace("-", "\N{MINUS SIGN}")
            yield f"{slider.title} {sign}{number} {scale.shown_unit}".rstrip()


def slider_field(
    slider: Slider, moved: Moved, texts: Mapping[str, str], family: Family, prefix: str
) -> SliderField:
    """A slider as a field of the form."""
    scale = Scale(slider, family)
    at = scale.text(moved.values.get(slider.id, slider.now))
    wrong = moved.wrong.get(slider.id, "")
    return SliderField(
        name=f"{prefix}{slider.id}",
        id=f"move-{slider.id.replace('.', '-').replace(' ', '-').replace(',', '')}",
        label=slider.title,
        unit=scale.shown_unit,
        value=texts.get(slider.id, "") if wrong else at,
        at=at,
        low=scale.text(slider.low),
        high=scale.text(slider.high),
        step=f"{scale.step:f}",
        now=scale.text(slider.now),
        is_change=scale.is_change,
        moved=slider.id in moved.values,
        wrong=wrong,
    )
