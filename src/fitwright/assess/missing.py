"""A fit that lacks exactly one member: the size wanted of it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from fitwright.assess.chains import Chain
from fitwright.assess.results import BoundVerdict, SizeWanted
from fitwright.assess.subjects import Subject
from fitwright.physics.metrology.size_wanted import size_wanted as wanted

if TYPE_CHECKING:
    from fitwright.assess.judging import Judge


def size_wanted(
    judge: Judge, subject: Subject, chain: Chain, bounds: Sequence[BoundVerdict]
) -> SizeWanted | None:
    """The sizes of the one missing member that would prove the fit within; None otherwise."""
    return None
