"""A horizontal axis: round ticks over a span, and where a value stands on it."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, floor, log10

_ROUND_STEPS = (1.0, 2.0, 2.5, 5.0, 10.0)


@dataclass(frozen=True, slots=True)
class Scale:
    """An axis from `low` to `high` in the reader's unit, drawn from `left` to `right`."""

    low: float
    high: float
    step: float
    left: float
    right: float

    def x(self, value: float) -> float:
        """Where a value stands, clipped to the axis."""
        share = (value - self.low) / (self.high - self.low)
        return self.left + min(1.0, max(0.0, share)) * (self.right - self.left)

    def ticks(self) -> list[float]:
        """The round values on the axis."""
        count = round((self.high - self.low) / self.step)
        return [self.low + index * self.step for index in range(count + 1)]

    @property
    def decimals(self) -> int:
        """Decimals that tell the ticks apart."""
        step = self.step
        for decimals in range(8):
            if abs(round(step, decimals) - step) < step * 1e-6:
                return decimals
        return 8


def scale_over(low: float, high: float, left: float, right: float, *, most_ticks: int = 6) -> Scale:
    """A scale that holds `low` to `high` with at most `most_ticks` round ticks.

    >>> scale_over(0.043, 0.067, 0.0, 100.0).ticks()[0]
    0.04
    """
    span = high - low
    if span <= 0.0:
        span = abs(high) or 1.0
        low, high = low - span / 2.0, high + span / 2.0
    rough = span / (most_ticks - 1)
    base = 10.0 ** floor(log10(rough))
    for factor in _ROUND_STEPS:
        step = factor * base
        first, last = floor(low / step + 1e-9), ceil(high / step - 1e-9)
        if last - first < most_ticks:
            return Scale(first * step, last * step, step, left, right)
    step = 20.0 * base
    return Scale(floor(low / step) * step, ceil(high / step) * step, step, left, right)
