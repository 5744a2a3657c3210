"""Limits and their sources: who says what a fit may be."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from fitwright.model.amount import Written


class SourceKind(StrEnum):
    """Who stands behind a limit; a rule of thumb is never shown like a maker's limit."""

    ENGINE_MAKER = "engine maker"
    PARTS_MAKER = "parts maker"
    SHOP = "shop"
    RULE_OF_THUMB = "rule of thumb"
    CUSTOMER = "customer"


class LimitClass(StrEnum):
    """How much hangs on a fit: a critical one needs an adopted limit to be proven."""

    CRITICAL = "critical"
    NORMAL = "normal"


class AppliesTo(StrEnum):
    """Which parts a limit is for: new ones, or parts declared used (the wear limit)."""

    NEW = "new"
    USED = "used"


@dataclass(frozen=True, slots=True)
class Source:
    """Where limits come from: a manual with its edition, a parts maker's leaflet, shop experience."""

    id: str
    title: str
    kind: SourceKind
    edition: str | None = None
    note: str | None = None


@dataclass(frozen=True, slots=True)
class Limit:
    """Lower and upper bound (at least one), their source, and whether they govern.

    `temperature_case` is set where the source gives a limit for a hot state; `depends_on` says
    for a rule of thumb what it was derived from ("bore, boosted").
    """

    lower: Written | None
    upper: Written | None
    source: str
    place_in_source: str | None = None
    governs: bool = False
    applies_to: AppliesTo = AppliesTo.NEW
    temperature_case: str | None = None
    depends_on: str | None = None
    note: str | None = None
