"""Materials, positions of parts, and the temperatures that they reach."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Material:
    """Expansion coefficient with its standard uncertainty [1/K], elastic constants where known."""

    id: str
    title: str
    expansion: float
    expansion_uncertainty: float = 1e-6
    youngs_modulus: float | None = None
    poisson_ratio: float | None = None
    source: str | None = None


@dataclass(frozen=True, slots=True)
class Part:
    """A position in the engine where one physical part sits (`main.4.shell_upper`, `crank`)."""

    id: str
    title: str
    material: str
    one_time_use: bool = False
    note: str | None = None


@dataclass(frozen=True, slots=True)
class TemperatureCase:
    """A named state of temperature: one for each part, the default for all others [K]."""

    id: str
    title: str
    default: float
    parts: Mapping[str, float]
    standard_uncertainty: float = 5.0
