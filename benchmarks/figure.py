"""One measured figure beside the one to reach, and the table of them."""

from __future__ import annotations

import os
import time
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Figure:
    """A figure in its unit; `most` or `least` says what is to be reached, `how` how it was measured."""

    name: str
    value: float
    unit: str
    how: str
    most: float | None = None
    least: float | None = None

    @property
    def reached(self) -> bool:
        """Whether the figure is where it is to be."""
        below = self.most is None or self.value <= self.most
        return below and (self.least is None or self.value >= self.least)

    @property
    def ratio(self) -> float | None:
        """How much better than to be reached: above one is better."""
        if self.most is not None:
            return self.most / self.value if self.value else float("inf")
        return self.value / self.least if self.least else None

    def line(self) -> str:
        """The figure in one line of the table."""
        if self.ratio is None:
            return f"{self.name:<58}{_short(self.value):>9} {self.unit:<6}{'':>22}  {self.how}"
        target = f"at most {_short(self.most)}" if self.most is not None else f"at least {_short(self.least)}"
        mark = "reached" if self.reached else "MISSED"
        return (
            f"{self.name:<58}{_short(self.value):>9} {self.unit:<6}{target:>14} "
            f"{self.ratio:>7.2f}x  {mark:<8}{self.how}"
        )


def _short(value: float | None) -> str:
    return "" if value is None else f"{value:,.0f}" if abs(value) >= 1000 else f"{value:.3g}"


def table(figures: Iterable[Figure]) -> str:
    """All figures, and the machine as far as it matters."""
    return "\n".join([f"{os.cpu_count()} cores", *(each.line() for each in figures)])


def quantile(values: Sequence[float], share: float) -> float:
    """The value that a share of the values does not exceed."""
    ordered = sorted(values)
    return ordered[min(len(ordered) - 1, int(share * len(ordered)))]


def timed(work: Callable[[], object], times: int, *, warm_up: int = 1) -> list[float]:
    """Seconds that some work took, each time, after it was done a few times for nothing."""
    for _ in range(warm_up):
        work()
    found = []
    for _ in range(times):
        begun = time.perf_counter()
        work()
        found.append(time.perf_counter() - begun)
    return found
