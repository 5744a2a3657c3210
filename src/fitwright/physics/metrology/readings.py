"""Readings as metrology sees them: values, and the answers of blades and plugs."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from math import inf

from fitwright.physics.metrology.unknowns import (
    Shared,
    require_degrees_of_freedom,
    require_finite,
    require_uncertainty,
)
from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.quantity import Metre

INTERFACE_THICKNESS: Metre = 2e-6
"""What each interface in a stack of blades adds (film, burrs, curl)."""

INTERFACE_UNCERTAINTY: Metre = 2e-6
"""Standard uncertainty of what each interface adds; each stack put together has its own."""


@dataclass(frozen=True, slots=True)
class ValueReading:
    """One value read at one place: value = size + sum of shared unknowns + own repeatability.

    Attributes
    ----------
    key : str
        Entry id of the reading; no two readings have the same.
    place : str
        Where the size was taken.
    value : float [m]
        The reading, corrected for every known error.
    repeatability : float [m]
        Standard uncertainty that is this reading's own.
    repeatability_degrees_of_freedom : float
        Degrees of freedom behind the repeatability.
    shared : tuple of Shared
        The unknowns that this reading may share with others.
    repeatability_key : str
        Study that the repeatability comes from. Readings that name the same study rest on one estimate of
        their scatter, so that averaging them adds no degrees of freedom; empty: an estimate of its own.
    """

    key: str
    place: str
    value: Metre
    repeatability: Metre
    repeatability_degrees_of_freedom: float = inf
    shared: tuple[Shared, ...] = ()
    repeatability_key: str = ""

    def __post_init__(self) -> None:
        """Refuse numbers that mean nothing."""
        require_finite(f"value of reading {self.key!r}", self.value)
        require_uncertainty(f"repeatability of reading {self.key!r}", self.repeatability)
        require_degrees_of_freedom(
            f"degrees of freedom of reading {self.key!r}", self.repeatability_degrees_of_freedom
        )


class BladeAnswer(StrEnum):
    """What a blade or plug of thickness t answered in a gap; d is the drag of the hand that pushed it."""

    GOES = "goes"
    """Nothing said about drag: gap >= t."""
    GOES_FREELY = "goes freely"
    """gap >= t + d."""
    DRAGS = "drags"
    """t <= gap < t + d."""
    DOES_NOT_GO = "does not go"
    """gap < t."""


@dataclass(frozen=True, slots=True)
class Blade:
    """A blade or plug: one unknown thickness, shared by all readings that used it.

    Attributes
    ----------
    key : str
        Names the blade.
    thickness : float [m]
        Best value: as marked, or as measured.
    standard_uncertainty : float [m]
        Standard uncertainty of that thickness.
    """

    key: str
    thickness: Metre
    standard_uncertainty: Metre

    def __post_init__(self) -> None:
        """Refuse a thickness or uncertainty that is no size."""
        require_uncertainty(f"thickness of blade {self.key!r}", self.thickness)
        require_uncertainty(f"standard uncertainty of blade {self.key!r}", self.standard_uncertainty)


@dataclass(frozen=True, slots=True)
class Drag:
    """How much wider than the blade a gap must be before this person says that the blade goes freely.

    Attributes
    ----------
    key : str
        Names the person; one unknown per person.
    value : float [m]
        Best value.
    standard_uncertainty : float [m]
        Its standard uncertainty.
    """

    key: str
    value: Metre = 3e-6
    standard_uncertainty: Metre = 2e-6

    def __post_init__(self) -> None:
        """Refuse numbers that mean nothing."""
        require_uncertainty(f"drag of {self.key!r}", self.value)
        require_uncertainty(f"standard uncertainty of the drag of {self.key!r}", self.standard_uncertainty)


@dataclass(frozen=True, slots=True)
class BladeReading:
    """One answer of one blade, plug or stack of blades at one place.

    Attributes
    ----------
    key : str
        Entry id of the reading.
    place : str
        Where the gap was tried.
    blades : tuple of Blade
        What was put in: one blade or plug, or a stack.
    answer : BladeAnswer
        What it answered.
    drag : Drag
        The hand that pushed it.
    """

    key: str
    place: str
    blades: tuple[Blade, ...]
    answer: BladeAnswer
    drag: Drag

    def __post_init__(self) -> None:
        """Refuse a reading without a blade, or with one blade twice in a stack."""
        keys = {blade.key for blade in self.blades}
        if not keys or len(keys) != len(self.blades):
            raise OutOfDomainError(
                f"blades of reading {self.key!r}", len(self.blades), "one blade, or several different ones"
            )
        if self.answer is BladeAnswer.DRAGS and self.drag.value == self.drag.standard_uncertainty == 0.0:
            raise OutOfDomainError(f"drag of reading {self.key!r}", 0.0, "above zero where a blade drags")

    @property
    def interfaces(self) -> int:
        """Interfaces between the blades of the stack; none for a single blade."""
        return len(self.blades) - 1
