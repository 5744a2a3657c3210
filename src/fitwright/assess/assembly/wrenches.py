"""The torque wrench of a tightening: its calibration, and whether the torque lies where it can be trusted."""

from __future__ import annotations

from datetime import date, datetime
from typing import Final

from fitwright.assess.assembly import figures
from fitwright.assess.assembly.fastener_results import WrenchUsed
from fitwright.assess.assembly.times import last_day
from fitwright.quantity import NewtonMetre, Number
from fitwright.records.kinds import Calibration, Instrument
from fitwright.records.projection import ShopState

OLD: Final = 366
"""A calibration of more than so many days before is said to be old; how long it holds the shop decides."""
LEAST_SHARE: Final[Number] = 0.2
"""Rule of thumb: a wrench is good from a fifth of its scale upwards (ISO 6789-1 tests from there)."""


def wrench_used(
    shop: ShopState, code: str | None, torque: NewtonMetre | None, at: datetime | None, seq: int
) -> WrenchUsed | None:
    """What is to be said of the wrench of a tightening; None where none was named."""
    if code is None:
        return None
    held = shop.instruments.get(code)
    if held is None:
        return WrenchUsed(code, code, False, None, None, None, False, ("the shop does not know this wrench",))  # noqa: FBT003
    calibration = shop.calibration_of(code, at=seq) or shop.calibration_of(code)
    calibrated, said = _calibrated(calibration.body if calibration is not None else None, at)
    in_range, thumb, reach = _in_range(held.body, torque)
    return WrenchUsed(
        code=code,
        title=held.body.title,
        known=True,
        calibrated=calibrated,
        calibration_date=calibration.body.date if calibration is not None else None,
        in_range=in_range,
        by_rule_of_thumb=thumb,
        words=tuple(each for each in (said, reach) if each),
    )


def _calibrated(calibration: Calibration | None, at: datetime | None) -> tuple[bool | None, str]:
    if calibration is None:
        return None, "no calibration recorded"
    if calibration.never:
        return False, "never calibrated"
    day = last_day(calibration.date)
    if day is None:
        return False, "calibrated, nobody said when"
    return _young_enough(day, at)


def _young_enough(day: date, at: datetime | None) -> tuple[bool, str]:
    days = (at.date() - day).days if at is not None else 0
    if days < 0:
        return False, "calibrated only after it was used"
    if days > OLD:
        return False, f"calibrated {days / 365.25:.1f} years before it was used"
    return True, ""


def _in_range(instrument: Instrument, torque: NewtonMetre | None) -> tuple[bool | None, bool, str]:
    """Whether a torque lies in the usable range: the one recorded, or a fifth of the scale and upwards."""
    high = instrument.range_high
    if torque is None or high is None:
        return None, False, ""
    thumb = instrument.range_low is None or instrument.range_low <= 0.0
    low = LEAST_SHARE * high if thumb else instrument.range_low or 0.0
    tiny = 1e-6 * high
    if low - tiny <= torque <= high + tiny:
        return True, thumb, ""
    reach = f"{figures.torque(low)} to {figures.torque(high)}"
    rule = ", by a rule of thumb" if thumb and torque < low else ""
    return False, thumb, f"{figures.torque(torque)} lies outside its range of {reach}{rule}"
