"""Which versions of the physical models a prediction of the oil system rests on.

A version goes up whenever equal inputs give another number; `CHANGELOG.md` says why and by how much.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

MODELS: Final[Mapping[str, str]] = MappingProxyType(
    {
        "oil": "1",
        "passages": "1",
        "bearings": "1",
        "pump": "1",
        "network": "1",
        "bands": "1",
        "crank train": "1",
        "films over the cycle": "1",
    }
)
"""Version of each model, by its noun."""


def model_versions() -> Mapping[str, str]:
    """The models with their versions, and the solver that made the tables of the bearings.

    >>> model_versions()["bearing tables"].startswith("finite volumes")
    True
    """
    from fitwright.data.bearing_tables import bearing_tables

    return {**MODELS, "bearing tables": bearing_tables().solver}
