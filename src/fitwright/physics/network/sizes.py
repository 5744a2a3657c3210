"""A size in the circuit: a plain number, or one that follows a named parameter."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TypeAlias

VISCOSITY_FACTOR = "oil.viscosity_factor"
TEMPERATURE_CHANGE = "oil.temperature_change"
SPEED_FACTOR = "engine.speed_factor"
# Parameters that every circuit has, behind its own, with the values that change nothing.
COMMON: Mapping[str, float] = {VISCOSITY_FACTOR: 1.0, TEMPERATURE_CHANGE: 0.0, SPEED_FACTOR: 1.0}


@dataclass(frozen=True, slots=True)
class Named:
    """A size that follows a parameter: `factor * parameter + offset`.

    Several elements may follow one parameter. A diametral clearance that is measured feeds a radial
    clearance as `Named("main.4.running_clearance", 0.5)`.
    """

    parameter: str
    factor: float = 1.0
    offset: float = 0.0


Size: TypeAlias = float | Named


def value_of(size: Size, parameters: Mapping[str, float]) -> float:
    """The number that a size has with some values of the parameters.

    Parameters
    ----------
    size : float or Named
        The size.
    parameters : mapping of str to float
        Values of the parameters.

    Returns
    -------
    float
        In the unit of the size.

    References
    ----------
    [jcgm100_2008] 4.1, a quantity as a function of input quantities

    Examples
    --------
    >>> value_of(Named("main.1.running_clearance", 0.5), {"main.1.running_clearance": 54e-6})
    2.7e-05
    """
    if isinstance(size, Named):
        return size.factor * parameters[size.parameter] + size.offset
    return float(size)
