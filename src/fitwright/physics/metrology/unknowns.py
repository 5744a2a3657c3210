"""Unknowns that several readings share: a calibration, a setting, a master, a blade, a hand."""

from __future__ import annotations

from dataclasses import dataclass
from math import inf, isfinite, isnan

from fitwright.physics.numerics.errors import OutOfDomainError


@dataclass(frozen=True, slots=True)
class Unknown:
    """One quantity that nobody knows exactly and that may enter several readings.

    Attributes
    ----------
    key : str
        Name of the unknown. Whatever names the same key shares the same unknown, so that it cancels
        in a difference and adds in a sum.
    standard_uncertainty : float
        Its standard uncertainty, in its own unit (metres for an error of length, kelvin for a temperature).
    degrees_of_freedom : float
        Degrees of freedom behind that uncertainty; infinite where it is taken as known.
    """

    key: str
    standard_uncertainty: float
    degrees_of_freedom: float = inf

    def __post_init__(self) -> None:
        """Refuse an uncertainty that is no size and degrees of freedom that are none."""
        require_uncertainty(f"standard uncertainty of {self.key!r}", self.standard_uncertainty)
        require_degrees_of_freedom(f"degrees of freedom of {self.key!r}", self.degrees_of_freedom)


@dataclass(frozen=True, slots=True)
class Shared:
    """An unknown and how much of it enters: reading = size + sensitivity times unknown + ...

    Attributes
    ----------
    unknown : Unknown
        The unknown that enters.
    sensitivity : float
        Change of the reading per unit of the unknown.
    """

    unknown: Unknown
    sensitivity: float


def require_uncertainty(argument: str, value: float) -> None:
    """Refuse a size or uncertainty that is not finite or is negative.

    Parameters
    ----------
    argument : str
        What the number is, for the message.
    value : float
        The number.

    Raises
    ------
    OutOfDomainError
        If it is not finite, or negative.
    """
    if not isfinite(value) or value < 0.0:
        raise OutOfDomainError(argument, value, "finite and not negative")


def require_degrees_of_freedom(argument: str, value: float) -> None:
    """Refuse degrees of freedom that are not above zero (infinite ones are allowed).

    Parameters
    ----------
    argument : str
        What the number is, for the message.
    value : float
        The number.

    Raises
    ------
    OutOfDomainError
        If it is not above zero.
    """
    if isnan(value) or value <= 0.0:
        raise OutOfDomainError(argument, value, "above zero")


def require_finite(argument: str, value: float) -> None:
    """Refuse a number that is not finite.

    Parameters
    ----------
    argument : str
        What the number is, for the message.
    value : float
        The number.

    Raises
    ------
    OutOfDomainError
        If it is not finite.
    """
    if not isfinite(value):
        raise OutOfDomainError(argument, value, "finite")
