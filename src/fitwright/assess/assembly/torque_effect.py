"""What a torque, an angle or a stretch would do to a fastener, before anything is recorded."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from fitwright.assess.assembly import figures, preloads
from fitwright.assess.assembly.asked import (
    ANGLE_TOLERANCE,
    PEAK_TOLERANCE,
    SET_TOLERANCE,
    torque_window,
)
from fitwright.assess.assembly.fastener_results import Preload, Side
from fitwright.assess.assembly.groups import intended_preload
from fitwright.assess.assembly.joint import Joint
from fitwright.data.cautions import cautions
from fitwright.model.fastener import Pass, TighteningGroup
from fitwright.model.sheet import Sheet
from fitwright.quantity import Metre, NewtonMetre, Radian

USUAL_MOST: Final = 0.9
"""Rule of thumb: tightening by torque is kept below this share of yield."""
AS_MUCH: Final = 0.005
"""Preloads closer than this share are shown alike."""


@dataclass(frozen=True, slots=True)
class TorqueEffect:
    """What a proposed tightening would do.

    `preload` is None where it cannot be computed, and `not_computed` says why. `against_sheet` is its
    preload over the sheet's own, less one. `side` says on which side of the sheet's figure it lies (None: it
    meets it, or the sheet states none). `words` are the sentences to show, gravest first.
    """

    preload: Preload | None
    intended: Preload | None
    against_sheet: float | None
    side: Side | None
    equal_torque: float | None
    other_lubricant: bool
    not_computed: str | None
    words: tuple[str, ...]
    caution: str

    @property
    def wants_permission(self) -> bool:
        """Whether it departs from the sheet, so that somebody must take it upon himself by name."""
        return self.side is not None


def torque_effect(
    sheet: Sheet,
    group: TighteningGroup,
    *,
    torque: NewtonMetre | None = None,
    angle: Radian | None = None,
    stretch: Metre | None = None,
    lubricant: str | None = None,
    number: int | None = None,
    peak: bool = False,
) -> TorqueEffect:
    """What a proposed tightening of a group's fastener would do, held against one of its passes.

    Parameters
    ----------
    sheet : Sheet
        The engine sheet.
    group : TighteningGroup
        One of its groups.
    torque : float, optional
        Torque [N m]; with an angle, the snug torque before it, else that of the sheet.
    angle : float, optional
        Angle past the snug torque [rad].
    stretch : float, optional
        Stretch [m]; it says more than the torque beside it.
    lubricant : str, optional
        Another lubricant than the group's: a consumable of the sheet, or a name.
    number : int, optional
        The pass, from 1; by default the last before heat.
    peak : bool
        Whether the torque is the peak that was read, not what the wrench is set to.
    """
    joint = Joint(sheet, group)
    used = lubricant or group.lubricant
    asks = _pass(group, number)
    snug = torque if torque is not None or angle is None else _snug(group)
    preload = _preload(joint, snug, angle, stretch, used)
    intended = intended_preload(joint)
    other = _is_other(joint, lubricant)
    side = _side(asks, torque, angle, stretch, PEAK_TOLERANCE if peak else SET_TOLERANCE)
    if side is None and other and stretch is None:
        side = Side.OTHERWISE
    against = preload.preload / intended.preload - 1.0 if preload and intended else None
    window = torque_window(asks)
    equal = None
    if other and window is not None:
        equal = preloads.equal_torque(joint, 0.5 * sum(window), group.lubricant, used)
    return TorqueEffect(
        preload=preload,
        intended=intended,
        against_sheet=against,
        side=side,
        equal_torque=equal,
        other_lubricant=other,
        not_computed=None if preload is not None else _why_not(joint, used),
        words=tuple(_words(preload, intended, side, equal)),
        caution=group.caution or cautions()["over_tightening"].words,
    )


def _pass(group: TighteningGroup, number: int | None) -> Pass:
    if number is not None and 1 <= number <= len(group.passes):
        return group.passes[number - 1]
    cold = [each for each in group.passes if not each.after_heat]
    return cold[-1] if cold else Pass()


def _snug(group: TighteningGroup) -> NewtonMetre | None:
    found = [window[0] for each in group.passes if (window := torque_window(each))]
    return found[-1] if found else None


def _preload(
    joint: Joint,
    torque: NewtonMetre | None,
    angle: Radian | None,
    stretch: Metre | None,
    lubricant: str | None,
) -> Preload | None:
    if stretch is not None:
        return preloads.by_stretch(joint, stretch, lubricant)
    if torque is None:
        return None
    if angle is not None:
        return preloads.by_angle(joint, torque, angle, lubricant)
    return preloads.by_torque(joint, torque, lubricant)


def _is_other(joint: Joint, lubricant: str | None) -> bool:
    named = joint.group.lubricant
    if lubricant is None or named is None or lubricant == named:
        return False
    one, other = joint.lubricant(named), joint.lubricant(lubricant)
    return one is None or other is None or one.name != other.name


def _side(
    asks: Pass, torque: float | None, angle: float | None, stretch: float | None, share: float
) -> Side | None:
    low = asks.stretch_low.si if asks.stretch_low is not None else None
    high = asks.stretch_high.si if asks.stretch_high is not None else None
    if stretch is not None and (low is not None or high is not None):
        return _beyond(stretch, low, high, 1e-3 * stretch)
    if angle is not None and asks.angle is not None:
        return _beyond(angle, asks.angle.si, asks.angle.si, ANGLE_TOLERANCE)
    window = torque_window(asks)
    if torque is None or window is None:
        return None
    return _beyond(torque, window[0], window[1], share * torque)


def _beyond(value: float, low: float | None, high: float | None, slack: float) -> Side | None:
    if low is not None and value < low - slack:
        return Side.BELOW
    return Side.ABOVE if high is not None and value > high + slack else None


def _why_not(joint: Joint, lubricant: str | None) -> str:
    return preloads.why_no_preload(joint, lubricant) or "no preload: nothing was given that one follows from"


def _words(
    preload: Preload | None, intended: Preload | None, side: Side | None, equal: float | None
) -> Iterator[str]:
    if preload is None:
        return
    if preload.yields:
        yield "At the upper end of the band it may yield: then it is scrap, unless it is made for that."
    if side is not None and preload.yield_utilisation is not None:
        yield utilisation_words(preload)
    if preload.stripping_margin is not None and (side is not None or preload.stripping_margin < 1.0):
        yield stripping_words(preload)
    if intended is not None and side is not None:
        yield against_words(preload, intended)
    if equal is not None:
        yield (
            f"By calculation {figures.torque(equal)} would give the sheet's preload with this lubricant; "
            "the maker's figure for it goes before that."
        )
    yield from preload.words


def utilisation_words(preload: Preload) -> str:
    """How near to yield and proof load a preload comes."""
    used = preload.yield_utilisation or 0.0
    proof = f", {figures.share(preload.proof_utilisation)} of proof load" if preload.proof_utilisation else ""
    beyond = f"; by a rule of thumb no more than {figures.share(USUAL_MOST)}" if used > USUAL_MOST else ""
    return f"{figures.share(used)} of yield while it is tightened{proof}{beyond}."


def stripping_words(preload: Preload) -> str:
    """How much the thread holds over the upper end of the preload."""
    margin = preload.stripping_margin or 0.0
    if margin < 1.0:
        return f"The thread strips at {margin:.2f} times the upper end of the preload: before it is reached."
    return f"The thread strips at {margin:.2f} times the upper end of the preload."


def against_words(preload: Preload, intended: Preload) -> str:
    """A preload beside the sheet's own."""
    share = preload.preload / intended.preload - 1.0
    if abs(share) < AS_MUCH:
        return f"{figures.force(preload.preload)} of preload, as much as by the sheet's own figure."
    side = "more" if share >= 0.0 else "less"
    return (
        f"{figures.force(preload.preload)} of preload, {figures.share(abs(share))} {side} than the sheet's "
        f"{figures.force(intended.preload)}."
    )
