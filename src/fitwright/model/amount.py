"""An amount as somebody wrote it, with its value in SI."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Written:
    """An amount: what was written (`2.5 thou`), its unit and decimals, and its value in SI."""

    written: str
    si: float
    unit: str
    decimals: int = 0
