"""What every kind of entry shares, and an amount as it was typed."""

from __future__ import annotations

from typing import ClassVar

from pydantic import BaseModel, ConfigDict

from fitwright.records.fields import Amount, Decimals


class Body(BaseModel):
    """What all bodies share: immutable, strict, and the entry that they correct, if any.

    `secret` are fields that are shown to nobody and looked through by nobody. What is not `corrected` by a
    later entry is taken back and entered anew: a correction would count from where it stood.
    """

    model_config = ConfigDict(frozen=True, extra="forbid", strict=True)
    kind: ClassVar[str]
    version: ClassVar[int] = 1
    secret: ClassVar[frozenset[str]] = frozenset()
    corrected: ClassVar[bool] = True
    supersedes: str | None = None
    reason: str | None = None


class Typed(BaseModel):
    """An amount as it was typed, parsed once at the edge; computation reads only `si`."""

    model_config = ConfigDict(frozen=True, extra="forbid", strict=True)
    typed: str
    unit: str
    decimals: Decimals
    si: Amount
    parser: int = 1
