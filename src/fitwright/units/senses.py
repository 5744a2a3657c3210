"""Which dimension of units each sense of a size is read in."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from fitwright.model.dimension import Sense

DIMENSION_OF: Final[Mapping[str, str]] = MappingProxyType(
    {
        Sense.DIAMETRAL: "length",
        Sense.RADIAL: "length",
        Sense.AXIAL: "length",
        Sense.LINEAR: "length",
        Sense.ANGULAR: "angle",
        Sense.RATIO: "ratio",
        Sense.VOLUME: "volume",
        Sense.FORCE: "force",
        Sense.TORQUE: "torque",
        Sense.PRESSURE: "pressure",
        Sense.STIFFNESS: "spring_rate",
        Sense.MASS: "mass",
        Sense.FLOW: "volume_flow",
    }
)
