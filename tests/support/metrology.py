"""Readings for tests of metrology, and a Monte Carlo oracle that knows nothing of how they are judged."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray
from scipy import special

from fitwright.physics.metrology.readings import Blade, BladeAnswer, BladeReading, Drag, ValueReading
from fitwright.physics.metrology.unknowns import Shared, Unknown

BUILDER = Drag("builder")
GOES, FREELY, DRAGS, NOT = (
    BladeAnswer.GOES,
    BladeAnswer.GOES_FREELY,
    BladeAnswer.DRAGS,
    BladeAnswer.DOES_NOT_GO,
)

CALIBRATION = Unknown("micrometer calibration", 1.0e-6)
SETTING = Unknown("micrometer setting", 0.5e-6)
TRANSFER = Unknown("bore gauge transfer", 1.2e-6)
RING = Unknown("ring", 1.0e-6)
MICROMETER = (Shared(CALIBRATION, 1.0), Shared(SETTING, 1.0))
BORE_GAUGE = (*MICROMETER, Shared(TRANSFER, 1.0))
BORE_GAUGE_IN_RING = (Shared(RING, 1.0), Shared(TRANSFER, 1.0))


def journal(key: str, value: float, place: str = "journal") -> ValueReading:
    """A journal read with the micrometer."""
    return ValueReading(key, place, value, 1.0e-6, shared=MICROMETER)


def bore(
    key: str, value: float, place: str = "bore", setting: tuple[Shared, ...] = BORE_GAUGE
) -> ValueReading:
    """A bore read with the bore gauge, set in the micrometer or in a ring."""
    return ValueReading(key, place, value, 1.1e-6, shared=setting)


def blade(millimetres: float, standard_uncertainty: float = 1.5e-6) -> Blade:
    """A blade named by its thickness."""
    return Blade(f"{millimetres:.3f}", millimetres * 1e-3, standard_uncertainty)


def tried(
    key: str, answer: BladeAnswer, *millimetres: float, place: str = "gap", drag: Drag = BUILDER
) -> BladeReading:
    """A blade or stack tried in a gap."""
    return BladeReading(key, place, tuple(blade(one) for one in millimetres), answer, drag)


@dataclass
class Oracle:
    """Draws every unknown, keeps what agrees with the answers, and counts.

    Values are drawn forwards: size = reading - errors. A gap with a flat prior is even between the edges of
    the draw, which is then weighed by the room between them.
    """

    draws: int = 1_000_000
    seed: int = 20240229
    errors: dict[str, NDArray[np.float64]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        """Start the stream of draws."""
        self.generator = np.random.default_rng(self.seed)

    def error(self, key: str, standard_uncertainty: float) -> NDArray[np.float64]:
        """The draws of one unknown, the same whenever it is asked for."""
        if key not in self.errors:
            self.errors[key] = standard_uncertainty * self.generator.standard_normal(self.draws)
        return self.errors[key]

    def room(self, readings: Sequence[BladeReading]) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
        """Where each draw's gap must lie to give these answers."""
        low, high = np.full(self.draws, -np.inf), np.full(self.draws, np.inf)
        for reading in readings:
            thickness = sum(
                one.thickness + self.error(one.key, one.standard_uncertainty) for one in reading.blades
            )
            for interface in range(len(reading.blades) - 1):
                thickness = thickness + 2e-6 + self.error(f"{reading.key} {interface}", 2e-6)
            drag = reading.drag.value + self.error(reading.drag.key, reading.drag.standard_uncertainty)
            if reading.answer is not NOT:
                low = np.maximum(low, thickness + (drag if reading.answer is FREELY else 0.0))
            if reading.answer in (NOT, DRAGS):
                high = np.minimum(high, thickness + (drag if reading.answer is DRAGS else 0.0))
        return low, high

    def gap(self, readings: Sequence[BladeReading]) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
        """Draws of a gap that only blades speak of, and their weights."""
        low, high = self.room(readings)
        share = self.generator.random(self.draws)
        return low + share * (high - low), np.maximum(high - low, 0.0)

    def size(self, reading: ValueReading) -> NDArray[np.float64]:
        """Draws of a size that was read once."""
        size = reading.value - self.error(reading.key, reading.repeatability)
        for one in reading.shared:
            size = size - one.sensitivity * self.error(one.unknown.key, one.unknown.standard_uncertainty)
        return size

    def agrees(self, gap: NDArray[np.float64], readings: Sequence[BladeReading]) -> NDArray[np.float64]:
        """1 for the draws whose gap gives these answers, else 0."""
        low, high = self.room(readings)
        return ((gap >= low) & (gap < high)).astype(np.float64)


def share(holds: NDArray[np.bool_], weight: NDArray[np.float64] | None = None) -> float:
    """Weighed share of the draws for which something holds."""
    return float(np.mean(holds) if weight is None else weight @ holds / weight.sum())


def normal(score: float) -> float:
    """Distribution function of the normal distribution."""
    return float(special.ndtr(score))


def by_place(readings: Sequence[BladeReading]) -> Mapping[str, list[BladeReading]]:
    """Readings sorted by place."""
    places: dict[str, list[BladeReading]] = {}
    for reading in readings:
        places.setdefault(reading.place, []).append(reading)
    return places
