"""What a pass asks for, and whether a record answers it: the light part, without any physics."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from fitwright.assess.assembly.fastener_results import Side
from fitwright.model.amount import Written
from fitwright.model.fastener import Pass
from fitwright.quantity import Number, Radian
from fitwright.records import kinds

SET_TOLERANCE: Final[Number] = 0.02
"""A wrench set so near to the sheet's figure is set to it: a division of its scale, a converted unit."""
PEAK_TOLERANCE: Final[Number] = 0.04
"""What a wrench may show beside the true torque (ISO 6789-1), where the peak was read."""
ANGLE_TOLERANCE: Final[Radian] = math.radians(5.0)
"""How near to the angle asked for a fastener is turned by hand."""


@dataclass(frozen=True, slots=True)
class Answer:
    """How one record answers one pass.

    `missing` says in words what was not recorded; `side` on which side the deciding amount lies outside,
    None where it does not. `amount` is its kind ("torque", "angle", "length"), `value` as recorded [SI],
    `low` and `high` what was asked. `doubtful` is said where a cross-check does not fit.
    """

    missing: tuple[str, ...] = ()
    side: Side | None = None
    amount: str = ""
    value: float | None = None
    low: float | None = None
    high: float | None = None
    doubtful: str | None = None


def stretch_of(body: kinds.Tightening) -> float | None:
    """The stretch recorded [m]: as read, or the difference of both lengths."""
    if body.stretch is not None:
        return body.stretch.si
    if body.tightened_length is not None and body.free_length is not None:
        return body.tightened_length.si - body.free_length.si
    return None


def answer_of(asks: Pass, body: kinds.Tightening) -> Answer:
    """How a record answers a pass; with a stretch, the torque is a cross-check only."""
    if asks.stretch_low is not None or asks.stretch_high is not None:
        return _stretched(asks, body)
    missing = tuple(
        name
        for name, wanted, given in (
            ("torque", asks.torque, body.torque),
            ("angle", asks.angle, body.angle),
        )
        if wanted is not None and given is None
    )
    if asks.angle is not None and body.angle is not None:
        turned = _angle(asks.angle, body.angle)
        if turned.side is not None or asks.torque is None or body.torque is None:
            return _with(turned, missing)
    if asks.torque is not None and body.torque is not None:
        return _with(_torque(asks, body), missing)
    return Answer(missing)


def torque_window(asks: Pass) -> tuple[float, float] | None:
    """The torques that a pass asks for [N m]: a window, or one figure twice."""
    if asks.torque is None:
        return None
    return asks.torque.si, (asks.upto or asks.torque).si


def _with(answer: Answer, missing: tuple[str, ...]) -> Answer:
    return Answer(missing, answer.side, answer.amount, answer.value, answer.low, answer.high)


def _stretched(asks: Pass, body: kinds.Tightening) -> Answer:
    stretch = stretch_of(body)
    if stretch is None:
        return Answer(("stretch",))
    low = asks.stretch_low.si if asks.stretch_low is not None else None
    high = asks.stretch_high.si if asks.stretch_high is not None else None
    slack = _conversion_slack(asks.stretch_low or asks.stretch_high)
    side = _side(stretch, low, high, slack)
    return Answer((), side, "length", stretch, low, high, _cross_check(asks, body))


def _cross_check(asks: Pass, body: kinds.Tightening) -> str | None:
    if asks.torque is None or body.torque is None:
        return None
    side = _torque(asks, body).side
    return None if side is None else f"the torque lies {side.value} the cross-check of the sheet"


def _torque(asks: Pass, body: kinds.Tightening) -> Answer:
    window = torque_window(asks)
    assert window is not None  # noqa: S101 - asked where a torque is asked for
    assert body.torque is not None  # noqa: S101
    share = PEAK_TOLERANCE if body.read == "peak" else SET_TOLERANCE
    value, (low, high) = body.torque.si, window
    side = _side(value, low * (1.0 - share), high * (1.0 + share), 0.0)
    return Answer((), side, "torque", value, low, high)


def _angle(asked: Written, given: kinds.Typed) -> Answer:
    side = _side(given.si, asked.si, asked.si, ANGLE_TOLERANCE)
    return Answer((), side, "angle", given.si, asked.si, asked.si)


def _side(value: float, low: float | None, high: float | None, slack: float) -> Side | None:
    tiny = 1e-9 * abs(value)
    if low is not None and value < low - slack - tiny:
        return Side.BELOW
    if high is not None and value > high + slack + tiny:
        return Side.ABOVE
    return None


def _conversion_slack(written: Written | None) -> float:
    """So little that nobody reads it: lengths typed in thou meet limits written in millimetres."""
    return 0.0 if written is None else 1e-3 * abs(written.si)
