"""What is accepted although it meets no limit, and what is to be put right."""

from __future__ import annotations

from typing import ClassVar, Literal

from pydantic import Field

from fitwright.records.fields import Code, Words
from fitwright.records.kinds.body import Body, Typed


class Concession(Body):
    """Permission, afterwards, to accept what does not meet a limit (ISO 9000: concession).

    `subject` is a fit, a dimension, or `group/fastener` of a tightening; `parts` are those it is for
    (position -> part code): with another part it holds no longer. It covers what lies between `lowest`
    and `highest`, which say what is accepted; `consequence` is what was shown to the person then, in
    words and figures. `until` says for how long ("the first strip-down", a date).
    """

    kind: ClassVar[str] = "concession"
    code: Code
    subject: str
    parts: dict[str, str] = Field(default_factory=dict)
    lowest: Typed | None = None
    highest: Typed | None = None
    granted_by: Code
    because: Words
    consequence: tuple[Words, ...] = ()
    until: Words | None = None


class DeviationPermit(Body):
    """Permission, beforehand, to depart from a limit or a stated value (ISO 9000: deviation permit)."""

    kind: ClassVar[str] = "deviation permit"
    code: Code
    subject: str
    parts: dict[str, str] = Field(default_factory=dict)
    lowest: Typed | None = None
    highest: Typed | None = None
    granted_by: Code
    because: Words
    consequence: tuple[Words, ...] = ()
    until: Words | None = None


class ReworkOrder(Body):
    """What is to be done to a part, and what else its dimensions feed: each to be looked at afterwards.

    `feeds` are the fits and dimensions that used these dimensions when it was ordered.
    """

    kind: ClassVar[str] = "rework order"
    code: Code
    part: Code
    dimensions: tuple[str, ...]
    change: Literal["rework", "repair", "replacement"] = "rework"
    words: Words
    target: Typed | None = None
    feeds: tuple[str, ...] = ()
    ordered_by: Code | None = None


class ReworkChecked(Body):
    """One thing that a reworked dimension feeds was looked at again."""

    kind: ClassVar[str] = "rework checked"
    order: Code
    item: str
    answer: Literal["holds", "put right", "not touched"]
    words: Words | None = None
