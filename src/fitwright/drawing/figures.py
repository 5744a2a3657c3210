"""Verdicts as the figures one reads: value with uncertainty, limits, what is in hand, in one's own unit."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import ROUND_CEILING, ROUND_FLOOR, Decimal

from fitwright.assess.results import BoundVerdict, FitVerdict, HotState, Verdict
from fitwright.model.limit import SourceKind
from fitwright.units.display import Shown, format_number, format_value, format_with_uncertainty
from fitwright.units.families import Family, shop_unit, usual_resolution
from fitwright.units.quantity import decimals_for
from fitwright.units.rounding import in_unit, quantized
from fitwright.units.senses import DIMENSION_OF
from fitwright.units.spellings import definition_of

MARKS = {
    Verdict.WITHIN: "✓",
    Verdict.UNPROVEN: "?",
    Verdict.OUTSIDE: "✗",
    Verdict.NOT_MEASURED: "–",
}
"""The mark beside the word of each verdict; never without the word."""

MOST_EXTRA_DIGITS = 3
"""A limit that stays unsaid after so many digits more was written in another unit."""

_LOOSE_AND_TIGHT = frozenset({"running clearance", "gap", "side clearance", "end float", "backlash"})


@dataclass(frozen=True, slots=True)
class Reader:
    """Writes figures for one reader: `mm` or `inch`."""

    family: Family = "mm"

    def unit(self, found: FitVerdict) -> str:
        """The unit in which a fit is read, chosen by the size of its limits or value."""
        sizes = [abs(bound.limit) for bound in found.bounds]
        if found.value is not None:
            sizes.append(abs(found.value))
        return shop_unit(self.dimension(found), self.family, max(sizes, default=0.0))

    def dimension(self, found: FitVerdict) -> str:
        """The dimension of a fit's value, as units name it."""
        return DIMENSION_OF[found.sense]

    def amount(self, found: FitVerdict, value: float, resolution: float | None = None) -> str:
        """Any value of a fit, in the unit in which the fit is read."""
        unit, dimension = self.unit(found), self.dimension(found)
        decimals = None if resolution is None else decimals_for(resolution, unit, dimension)
        return format_value(value, unit, decimals, dimension=dimension)

    def finely(self, found: FitVerdict, value: float, *, more: int = 0) -> str:
        """Any value of a fit as finely as lengths are read, or some digits more; others as is usual."""
        resolution = self._resolution(found)
        return self.amount(found, value, None if resolution is None else resolution / 10.0**more)

    def value(self, found: FitVerdict) -> str:
        """The value with its uncertainty to two digits, or what blades say: an open interval.

        Where the lower limit meets other places than the upper one, both are said, smallest first.
        """
        if found.value is not None and found.standard_uncertainty:
            ends = self._ends(found) or [(found.value, found.standard_uncertainty)]
            spread = max(uncertainty for _, uncertainty in ends)
            shown = [self._with_uncertainty(found, end, spread) for end, _ in ends]
            values = " to ".join(dict.fromkeys(each.value for each in shown))
            return f"{values} {shown[0].unit} (u {shown[0].uncertainty})".replace(" 1 (", " (")
        low, high = found.interval
        resolution = self._resolution(found)
        if low is not None and high is not None:
            return f"{self.amount(found, low, resolution)} to {self.amount(found, high, resolution)}"
        if low is not None:
            return f"above {self.amount(found, low, resolution)}"
        if high is not None:
            return f"below {self.amount(found, high, resolution)}"
        return ""

    def _ends(self, found: FitVerdict) -> list[tuple[float, float]]:
        """What the lower and the upper limit are held against, each at its own worst places."""
        by_side = {bound.side: bound for bound in _stated(found)}
        ends = [
            (bound.value, bound.standard_uncertainty)
            for bound in (by_side.get("lower"), by_side.get("upper"))
            if bound is not None and bound.value is not None and bound.standard_uncertainty
        ]
        return ends if len(ends) == 2 else []

    def _with_uncertainty(self, found: FitVerdict, value: float, uncertainty: float) -> Shown:
        return format_with_uncertainty(
            value,
            uncertainty,
            self.unit(found),
            limits=[bound.limit for bound in found.bounds if bound.governs],
            dimension=self.dimension(found),
        )

    def limits(self, found: FitVerdict) -> str:
        """The governing limits, `0.045 to 0.065 mm`; else the first that are stated, in brackets."""
        text = self.limits_alone(found)
        governs = any(bound.governs for bound in _stated(found))
        return text if governs or not text else f"({text})"

    def limits_alone(self, found: FitVerdict) -> str:
        """The limits without brackets, whether they govern or not."""
        bounds = _stated(found)
        lower = next((bound for bound in bounds if bound.side == "lower"), None)
        upper = next((bound for bound in bounds if bound.side == "upper"), None)
        text = self._span(found, lower, upper)
        return f"{text}, hot" if text and bounds[0].temperature_case is not None else text

    def _span(self, found: FitVerdict, lower: BoundVerdict | None, upper: BoundVerdict | None) -> str:
        decimals = self._limit_decimals(found, [each.limit for each in (lower, upper) if each is not None])
        unit, dimension = self.unit(found), self.dimension(found)
        if lower is not None and upper is not None:
            first = format_value(lower.limit, unit, decimals, dimension=dimension)
            first = first.removesuffix(" " + format_value(0.0, unit, 0, dimension=dimension)[2:])
            return f"{first} to {format_value(upper.limit, unit, decimals, dimension=dimension)}"
        if lower is not None:
            return f"from {format_value(lower.limit, unit, decimals, dimension=dimension)}"
        if upper is not None:
            return f"up to {format_value(upper.limit, unit, decimals, dimension=dimension)}"
        return ""

    def _limit_decimals(self, found: FitVerdict, limits: list[float]) -> int | None:
        """As many decimals as say the limits whole; one more than is usual, where none would."""
        unit, dimension = self.unit(found), self.dimension(found)
        resolution = self._resolution(found) or usual_resolution(dimension)
        if resolution is None:
            return None
        usual = decimals_for(resolution, unit, dimension)
        numbers = [in_unit(limit, unit, dimension) for limit in limits]
        for decimals in range(usual, usual + MOST_EXTRA_DIGITS + 1):
            if all(quantized(number, decimals) == number for number in numbers):
                return decimals
        return usual + 1

    def span_inside(self, found: FitVerdict, low: float, high: float) -> str:
        """A span of sizes in the unit of their own, rounded inwards so that both ends shown are in it."""
        first, unit = self._inside(found, low, max(abs(low), abs(high)), ROUND_CEILING)
        last, _ = self._inside(found, high, max(abs(low), abs(high)), ROUND_FLOOR)
        return f"{first} to {last} {unit}"

    def from_inside(self, found: FitVerdict, low: float) -> str:
        """The least of sizes that are open above, rounded inwards."""
        return " ".join(self._inside(found, low, abs(low), ROUND_CEILING))

    def up_to_inside(self, found: FitVerdict, high: float) -> str:
        """The largest of sizes that are open below, rounded inwards."""
        return " ".join(self._inside(found, high, abs(high), ROUND_FLOOR))

    def _inside(self, found: FitVerdict, size: float, largest: float, rounding: str) -> tuple[str, str]:
        """A size to the usual resolution, rounded one way, and its unit."""
        dimension = self.dimension(found)
        unit = shop_unit(dimension, self.family, largest)
        resolution = self._resolution(found) or usual_resolution(dimension) or 1.0
        decimals = decimals_for(resolution, unit, dimension)
        rounded = in_unit(size, unit, dimension).quantize(Decimal(1).scaleb(-decimals), rounding)
        return format_number(rounded, decimals), definition_of(unit, dimension).shown

    def _resolution(self, found: FitVerdict) -> float | None:
        """Lengths are read to a micrometre (a tenth of a thou in inches), others as is usual."""
        if self.dimension(found) != "length":
            return None
        return 1e-6 if self.family == "mm" else 2.54e-6 / 2.0

    def source(self, found: FitVerdict) -> str:
        """Who says so: kind, place in the source, and whether it governs or was adopted."""
        bound = next((each for each in found.bounds if each.governs), None)
        bound = bound or next(iter(found.bounds), None)
        if bound is None:
            return "no limit"
        words = [bound.source_kind]
        if bound.place_in_source:
            words.append(bound.place_in_source)
        if bound.adopted_by:
            words.append(f"adopted by {bound.adopted_by}")
        elif not bound.governs:
            thumb = bound.source_kind == SourceKind.RULE_OF_THUMB
            words.append("not adopted" if thumb else "does not govern")
        return ", ".join(words)

    def in_hand(self, found: FitVerdict) -> str:
        """How far inside its nearest limit, or how far outside, in words."""
        if found.in_hand is None or found.verdict is Verdict.NOT_MEASURED:
            return ""
        size = self.amount(found, abs(found.in_hand), self._fine(found))
        if size == self.amount(found, 0.0, self._fine(found)):
            return "nothing in hand"
        if found.in_hand >= 0.0:
            return f"{size} in hand"
        return f"{size} {self._side(found)}"

    def _fine(self, found: FitVerdict) -> float | None:
        resolution = self._resolution(found)
        return None if resolution is None else resolution / 2.0

    def _side(self, found: FitVerdict) -> str:
        value = found.value or 0.0
        low = any(bound.side == "lower" and bound.governs and value < bound.limit for bound in found.bounds)
        if found.fit_kind in _LOOSE_AND_TIGHT:
            return "too tight" if low else "too loose"
        return "below the limit" if low else "above the limit"

    def hot(self, found: FitVerdict, state: HotState) -> str:
        """A hot state in words; it is estimated and not judged unless the source gives a hot limit."""
        shown = format_with_uncertainty(
            state.value, state.standard_uncertainty, self.unit(found), dimension=self.dimension(found)
        )
        return f"{state.title}: {shown.value} {shown.unit} (u {shown.uncertainty})"


def _stated(found: FitVerdict) -> list[BoundVerdict]:
    """The bounds to show: those that govern before others, cold ones before those of a hot state."""
    cold = [bound for bound in found.bounds if bound.temperature_case is None]
    for bounds in (cold, list(found.bounds)):
        governing = [bound for bound in bounds if bound.governs]
        if governing or bounds:
            return governing or bounds
    return []
