"""Parts: where they sit, and what was done to them."""

from __future__ import annotations

from typing import ClassVar, Literal

from fitwright.records.fields import Code
from fitwright.records.kinds.body import Body


class Part(Body):
    """A physical part, with or without a position yet. `used` brings its wear limits in."""

    kind: ClassVar[str] = "part"
    code: Code
    title: str
    position: str | None = None
    serial: str | None = None
    used: bool = False
    origin: str | None = None


class Fitting(Body):
    """A part put into a position; who sat there before is out."""

    kind: ClassVar[str] = "fitting"
    part: Code
    position: str


class TakingOut(Body):
    """A part taken out of its position."""

    kind: ClassVar[str] = "taking out"
    part: Code
    position: str


class State(Body):
    """A part reworked, repaired or replaced: the readings of these dimensions are retired."""

    kind: ClassVar[str] = "state"
    code: Code
    change: Literal["rework", "repair", "replacement"]
    part: Code
    dimensions: tuple[str, ...]
    words: str
