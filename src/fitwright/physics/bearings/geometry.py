"""A journal bearing as the film sees it: sizes, where oil is fed, and how the journal lies and moves.

Angles run around the bearing from its own zero in the direction of positive speeds; places along it are
counted from the middle.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.quantity import Metre, Number, Pascal, PerSecond, Radian, RadianPerSecond


@dataclass(frozen=True, slots=True)
class Feed:
    """A groove or hole that holds the film at a pressure.

    Attributes
    ----------
    angle : float [rad]
        Its middle around the bearing.
    half_arc : float [rad]
        Half of the angle that it spans; zero is a line along the bearing, pi or more goes all round.
    place : float [m]
        Its middle along the bearing.
    half_width : float [m]
        Half of its extent along the bearing; zero is a line around, infinity goes right across.
    gauge_pressure : float [Pa]
        Pressure of the oil in it.
    is_round : bool
        Whether it is a hole, an ellipse between these limits; otherwise it has corners.
    """

    angle: Radian
    half_arc: Radian = 0.0
    place: Metre = 0.0
    half_width: Metre = 0.0
    gauge_pressure: Pascal = 0.0
    is_round: bool = False

    def __post_init__(self) -> None:
        for name in ("half_arc", "half_width", "gauge_pressure"):
            if not getattr(self, name) >= 0.0:
                raise OutOfDomainError(name, getattr(self, name), "zero or more")
        if self.is_round and not (0.0 < self.half_arc < math.pi and 0.0 < self.half_width < math.inf):
            raise OutOfDomainError("half_arc", self.half_arc, "that of a hole, as its half width")


@dataclass(frozen=True, slots=True)
class Bearing:
    """Sizes of a plain journal bearing and its feeds.

    Attributes
    ----------
    journal_diameter : float [m]
        Diameter of the journal.
    bearing_length : float [m]
        Length of the film.
    radial_clearance : float [m]
        Half of the difference of the diameters, in the middle of the bearing.
    taper : float [m]
        Radial clearance at the end of positive places less that in the middle; a straight taper.
    feeds : tuple of Feed
        Grooves and holes.
    sealed_ends : bool
        Whether nothing leaves at the ends; the film is then that of an infinitely long bearing.
    """

    journal_diameter: Metre
    bearing_length: Metre
    radial_clearance: Metre
    taper: Metre = 0.0
    feeds: tuple[Feed, ...] = ()
    sealed_ends: bool = False

    def __post_init__(self) -> None:
        for name in ("journal_diameter", "bearing_length", "radial_clearance"):
            value = getattr(self, name)
            if not 0.0 < value < float("inf"):
                raise OutOfDomainError(name, value, "positive")
        if not abs(self.taper) < self.radial_clearance:
            raise OutOfDomainError("taper", self.taper, "smaller than the radial clearance")


@dataclass(frozen=True, slots=True)
class JournalPosition:
    """Where the journal's axis lies in the bearing.

    Attributes
    ----------
    eccentricity_ratio : float [1]
        Distance of the centres in the middle of the bearing over the radial clearance.
    angle : float [rad]
        Direction in which the journal is displaced: where the film is thinnest.
    tilt : float [1]
        Misalignment: how much further the journal is displaced at the end of positive places than in the
        middle, over the radial clearance.
    tilt_angle : float [rad]
        Direction of that displacement.
    """

    eccentricity_ratio: Number
    angle: Radian = 0.0
    tilt: Number = 0.0
    tilt_angle: Radian = 0.0


@dataclass(frozen=True, slots=True)
class JournalMotion:
    """Speeds; what the film feels is `entrainment_speed` and the squeeze.

    Attributes
    ----------
    journal_speed : float [rad/s]
        Angular speed of the journal.
    bearing_speed : float [rad/s]
        Angular speed of the bearing.
    load_speed : float [rad/s]
        Angular speed of the load, with which the place of the thinnest film goes round.
    eccentricity_rate : float [1/s]
        Rate of change of the eccentricity ratio.
    whirl_speed : float [rad/s]
        Angular speed of the line of centres relative to the load.
    """

    journal_speed: RadianPerSecond = 0.0
    bearing_speed: RadianPerSecond = 0.0
    load_speed: RadianPerSecond = 0.0
    eccentricity_rate: PerSecond = 0.0
    whirl_speed: RadianPerSecond = 0.0

    @property
    def entrainment_speed(self) -> RadianPerSecond:
        """Sum of the speeds of both surfaces as seen from the load [rad/s]: what makes the wedge."""
        return self.journal_speed + self.bearing_speed - 2.0 * self.load_speed
