"""The paths of oil: from which node to which, what lies between, how often."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType
from typing import Final

from fitwright.model.circuit.elements import (
    AnnularLeak,
    Bearing,
    BigEndFeed,
    Cooler,
    Element,
    Filter,
    Intersection,
    Jet,
    Passage,
    Restrictor,
    Slot,
    Strainer,
    Tensioner,
    TurbochargerFeed,
)


class PathKind(StrEnum):
    """What lies in a path."""

    PIPE = "pipe"
    DRILLING = "drilling"
    INTERSECTION = "drilled intersection"
    RESTRICTOR = "restrictor"
    STRAINER = "strainer"
    FILTER = "filter"
    COOLER = "cooler"
    JET = "jet"
    BEARING = "bearing"
    CAM_BEARING = "cam bearing"
    BIG_END_FEED = "big-end feed"
    FOLLOWER = "follower"
    ANNULAR_LEAK = "annular leak"
    SLOT = "slot"
    TENSIONER = "tensioner"
    TURBOCHARGER = "turbocharger feed"


ELEMENTS: Final[Mapping[PathKind, type[Element]]] = MappingProxyType(
    {
        PathKind.PIPE: Passage,
        PathKind.DRILLING: Passage,
        PathKind.INTERSECTION: Intersection,
        PathKind.RESTRICTOR: Restrictor,
        PathKind.STRAINER: Strainer,
        PathKind.FILTER: Filter,
        PathKind.COOLER: Cooler,
        PathKind.JET: Jet,
        PathKind.BEARING: Bearing,
        PathKind.CAM_BEARING: Bearing,
        PathKind.BIG_END_FEED: BigEndFeed,
        PathKind.FOLLOWER: AnnularLeak,
        PathKind.ANNULAR_LEAK: AnnularLeak,
        PathKind.SLOT: Slot,
        PathKind.TENSIONER: Tensioner,
        PathKind.TURBOCHARGER: TurbochargerFeed,
    }
)
"""The class of what lies in a path of each kind."""

USUAL_SPEED_RATIOS: Final[Mapping[PathKind, float]] = MappingProxyType(
    {PathKind.BEARING: 1.0, PathKind.CAM_BEARING: 0.5}
)
"""Speed of a bearing's shaft over that of the crank, where its sheet says nothing."""

USUAL_GROUPS: Final[Mapping[PathKind, str]] = MappingProxyType(
    {
        PathKind.PIPE: "passages",
        PathKind.DRILLING: "passages",
        PathKind.INTERSECTION: "passages",
        PathKind.RESTRICTOR: "restrictors",
        PathKind.STRAINER: "passages",
        PathKind.FILTER: "filter",
        PathKind.COOLER: "cooler",
        PathKind.JET: "jets",
        PathKind.BEARING: "bearings",
        PathKind.CAM_BEARING: "camshafts",
        PathKind.BIG_END_FEED: "passages",
        PathKind.FOLLOWER: "followers",
        PathKind.ANNULAR_LEAK: "leaks",
        PathKind.SLOT: "leaks",
        PathKind.TENSIONER: "tensioner",
        PathKind.TURBOCHARGER: "turbocharger",
    }
)
"""The group of a path whose sheet names none."""


@dataclass(frozen=True, slots=True)
class OilPath:
    """One path, or `count` equal ones side by side, from one node to another.

    `group` gathers paths in the flow budget and in what-if ("mains", "big ends", "jets").
    """

    id: str
    title: str
    kind: PathKind
    from_node: str
    to_node: str
    element: Element
    group: str
    count: int = 1
    family: str | None = None
    note: str | None = None
