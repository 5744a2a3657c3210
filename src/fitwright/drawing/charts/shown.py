"""What stands on the chart of pressure over speed besides its curves."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class ReliefPlateau:
    """A relief valve: where it begins to open and, if known, where it is all open [Pa at the gauge]."""

    cracking_pressure: float
    full_bypass_pressure: float | None = None
    words: str = "relief valve opens"


@dataclass(frozen=True, slots=True)
class Selected:
    """The operating point looked at: speed of the crank [rad/s] and oil temperature [K]."""

    angular_speed: float
    oil_temperature: float


@dataclass(frozen=True, slots=True)
class StartReading:
    """A pressure read at the first start, as typed, and what the gauge showed at rest [Pa]."""

    angular_speed: float
    oil_temperature: float | None
    as_read: float
    gauge_zero: float = 0.0
    words: str = ""

    @property
    def gauge_pressure(self) -> float:
        """The pressure with the zero of the gauge taken off [Pa]."""
        return self.as_read - self.gauge_zero
