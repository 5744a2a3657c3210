"""The amounts of a tightening as a form asks for them: their units, and where each is expected."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from fitwright.assess.assembly.asked import SET_TOLERANCE
from fitwright.bench.amounts import amount
from fitwright.bench.plausible import Asked
from fitwright.bench.wrenches import usable_range
from fitwright.data.errors import DataError
from fitwright.data.threads import thread_of
from fitwright.model.amount import Written
from fitwright.model.fastener import Pass, TighteningGroup, TighteningMethod
from fitwright.model.slips import Window
from fitwright.physics.fasteners.wrench import LEAST_POSSIBLE, MOST_POSSIBLE, is_possible_torque
from fitwright.records.kinds import Instrument
from fitwright.units import Family, shop_unit

ANY_TORQUE: Final = Window(amount("0.2", "N m"), amount("5000", "N m"))
ANY_ANGLE: Final = Window(amount("5", "deg"), amount("720", "deg"))
ANY_STRETCH: Final = Window(amount("0.01", "mm"), amount("1.5", "mm"))
ANY_LENGTH: Final = Window(0.0, amount("600", "mm"))
USUAL_SHARE: Final = 0.7
"""What class 10.9 is tightened to lies near this share of what brings class 12.9 to yield."""
WIDE: Final = 2.0
"""What is stated is expected between half and twice as much."""


@dataclass(frozen=True, slots=True)
class Gauges:
    """What a tightening is read with, as far as it was named."""

    wrench: Instrument | None = None
    angle_gauge: Instrument | None = None
    stretch_gauge: Instrument | None = None


def pass_of(group: TighteningGroup, number: int) -> Pass:
    """What the sheet says of a pass; an empty one where it says nothing."""
    return group.passes[number - 1] if 0 < number <= len(group.passes) else Pass()


def amounts_asked(
    group: TighteningGroup, number: int, family: Family, gauges: Gauges | None = None
) -> tuple[Asked, ...]:
    """The amounts of a pass of a group; which are needed follows from the sheet."""
    of_pass, gauges = pass_of(group, number), gauges or Gauges()
    by_stretch = of_pass.stretch_low is not None
    return (
        _torque(group, of_pass, family, gauges.wrench, needed=of_pass.torque is not None and not by_stretch),
        _angle(of_pass, gauges.angle_gauge),
        _stretch(of_pass, family, gauges.stretch_gauge),
        _length("free_length", "Free length", family, gauges.stretch_gauge),
        _length("tightened_length", "Tightened length", family, gauges.stretch_gauge),
    )


def possible_torques(group: TighteningGroup) -> tuple[Window, float | None]:
    """The torques that can be meant for the thread of a group at all, and one that is usual for it."""
    try:
        yields = is_possible_torque(thread_of(group.thread), 0.0).yield_torque
    except DataError:
        return ANY_TORQUE, None
    return Window(LEAST_POSSIBLE * yields, MOST_POSSIBLE * yields), USUAL_SHARE * yields


def torque_unit(of_pass: Pass, family: Family) -> str:
    """The unit of a torque typed without one: the sheet's where the reader's family uses it."""
    stated = of_pass.torque.unit if of_pass.torque is not None else ""
    in_family = stated.startswith("lbf") == (family == "inch")
    return stated if stated and in_family else shop_unit("torque", family)


def _torque(
    group: TighteningGroup, of_pass: Pass, family: Family, wrench: Instrument | None, *, needed: bool
) -> Asked:
    low, high = of_pass.torque, of_pass.upto or of_pass.torque
    judged = low is not None and group.method is not TighteningMethod.STRETCH
    possible, usual = possible_torques(group)
    return Asked(
        name="torque",
        label="Torque",
        dimension="torque",
        unit=wrench.unit if wrench is not None else torque_unit(of_pass, family),
        window=_around(low, high) or possible,
        usual=low.si if low is not None else usual,
        needed=needed,
        gauge=usable_range(wrench) if wrench is not None else None,
        lower=low.si * (1.0 - SET_TOLERANCE) if judged and low is not None else None,
        upper=high.si * (1.0 + SET_TOLERANCE) if judged and high is not None else None,
        far=not judged,  # what it does to the joint is asked about instead
    )


def _angle(of_pass: Pass, gauge: Instrument | None) -> Asked:
    return Asked(
        name="angle",
        label="Angle",
        dimension="angle",
        unit=gauge.unit if gauge is not None else "deg",
        window=_around(of_pass.angle, of_pass.angle) or ANY_ANGLE,
        usual=of_pass.angle.si if of_pass.angle is not None else None,
        needed=of_pass.angle is not None,
        far=of_pass.angle is None,
        gauge=gauge,
    )


def _stretch(of_pass: Pass, family: Family, gauge: Instrument | None) -> Asked:
    low, high = of_pass.stretch_low, of_pass.stretch_high
    largest = high.si if high is not None else ANY_STRETCH.low
    return Asked(
        name="stretch",
        label="Stretch",
        dimension="length",
        unit=gauge.unit if gauge is not None else shop_unit("length", family, largest),
        window=_around(low, high) or ANY_STRETCH,
        far=low is None,
        gauge=gauge,
    )


def _length(name: str, label: str, family: Family, gauge: Instrument | None) -> Asked:
    return Asked(
        name=name,
        label=label,
        dimension="length",
        unit=gauge.unit if gauge is not None else shop_unit("length", family, ANY_LENGTH.high),
        window=ANY_LENGTH,
        gauge=gauge,
    )


def _around(low: Written | None, high: Written | None) -> Window | None:
    if low is None and high is None:
        return None
    least = low.si if low is not None else 0.0
    return Window(least / WIDE, (high.si if high is not None else least) * WIDE)
