"""A rule of thumb, and the limit that it gives for one engine."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from fitwright.quantity import Metre
from fitwright.starter import amounts


class Measure(StrEnum):
    """What a rule limits, and so how its bounds are written."""

    LENGTH = "length"
    MASS = "mass"
    VOLUME = "volume"


@dataclass(frozen=True, slots=True)
class Bounds:
    """A rule of thumb worked out for one engine [m, kg or m3]; `used` marks a wear limit."""

    lower: float | None
    upper: float | None
    depends_on: str
    measure: Measure = Measure.LENGTH
    used: bool = False

    def written(self, units: str) -> tuple[str | None, ...]:
        """Lower and upper bound as the sheet writes them."""
        values = (self.lower, self.upper)
        if self.measure is Measure.LENGTH:
            return amounts.bounds(values, units)
        write = amounts.grams if self.measure is Measure.MASS else amounts.millilitres
        return tuple(None if value is None else write(value) for value in values)


@dataclass(frozen=True, slots=True)
class RuleOfThumb:
    """What the trade usually takes: bounds, or shares of a size, and what the rule depends on.

    `lower` and `upper` are in metres (masses in kilograms); where `share_of` names a size they are
    shares of it.
    """

    title: str
    lower: float | None
    upper: float | None
    depends_on: str
    share_of: str | None = None
    measure: Measure = Measure.LENGTH
    used: bool = False

    def bounds(self, size: Metre | None = None, *, also: str | None = None) -> Bounds:
        """The bounds for one engine; a rule that is a share needs the size that it is a share of.

        `also` names what else of this engine the rule was taken for ("iron block").
        """
        if (size is None) != (self.share_of is None):
            message = f"the rule for {self.title} is{'' if self.share_of else ' not'} a share of a size"
            raise ValueError(message)
        factor = 1.0 if size is None else size
        lower = None if self.lower is None else self.lower * factor
        upper = None if self.upper is None else self.upper * factor
        depends_on = self.depends_on if also is None else f"{self.depends_on}, {also}"
        return Bounds(lower, upper, depends_on, self.measure, self.used)


def millimetres(
    title: str, lower: float | None, upper: float | None, depends_on: str, *, used: bool = False
) -> RuleOfThumb:
    """A rule whose bounds stand in millimetres."""
    return RuleOfThumb(title, _thousandth(lower), _thousandth(upper), depends_on, used=used)


def share(
    title: str, share_of: str, lower: float | None, upper: float | None, depends_on: str
) -> RuleOfThumb:
    """A rule whose bounds are shares of a size."""
    return RuleOfThumb(title, lower, upper, depends_on, share_of=share_of)


def grams(title: str, lower: float, upper: float, depends_on: str) -> RuleOfThumb:
    """A rule whose bounds stand in grams."""
    return RuleOfThumb(title, lower / 1000, upper / 1000, depends_on, measure=Measure.MASS)


def _thousandth(value: float | None) -> float | None:
    return None if value is None else value / 1000
