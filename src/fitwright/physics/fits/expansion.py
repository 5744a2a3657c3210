"""Signed chains of sizes at temperature, with what expansion adds to their uncertainty."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from fitwright.physics.metrology.temperature import REFERENCE_TEMPERATURE
from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.quantity import FloatArray, Kelvin, Metre, Metres, Number, PerKelvin, PerKelvins

EXPANSION_UNCERTAINTY: PerKelvin = 1e-6
"""Standard uncertainty of an expansion coefficient from a handbook [1/K]."""

TEMPERATURE_UNCERTAINTY: Kelvin = 5.0
"""Standard uncertainty of a part temperature that is assumed, not measured [K]."""


@dataclass(frozen=True, slots=True)
class ChainMember:
    """One size in a signed chain, what its part is made of and how warm it is.

    Attributes
    ----------
    coefficient : float [1]
        Sign and factor with which the size enters: +1 a bore, -1 a shaft, -2 a shell wall.
    length : float [m]
        The size at the reference temperature.
    expansion_coefficient : float [1/K]
        Mean linear expansion coefficient between the reference temperature and `temperature`.
    temperature : float [K]
        Thermodynamic temperature of the part.
    length_standard_uncertainty : float [m]
        Standard uncertainty of `length`.
    expansion_standard_uncertainty : float [1/K]
        Standard uncertainty of `expansion_coefficient`.
    temperature_standard_uncertainty : float [K]
        Standard uncertainty of `temperature`.
    material : str
        Members with the same name share one unknown expansion coefficient; empty shares none.
    temperature_group : str
        Members with the same name share one unknown temperature; empty shares none.
    """

    coefficient: Number
    length: Metre
    expansion_coefficient: PerKelvin
    temperature: Kelvin = REFERENCE_TEMPERATURE
    length_standard_uncertainty: Metre = 0.0
    expansion_standard_uncertainty: PerKelvin = EXPANSION_UNCERTAINTY
    temperature_standard_uncertainty: Kelvin = TEMPERATURE_UNCERTAINTY
    material: str = ""
    temperature_group: str = ""


@dataclass(frozen=True, slots=True)
class ChainAtTemperature:
    """A chain of sizes, cold and at the temperatures of its members.

    Attributes
    ----------
    cold_size : float [m]
        The chain at the reference temperature.
    hot_size : float [m]
        The chain at the members' temperatures.
    change : float [m]
        `hot_size` minus `cold_size`.
    thermal_standard_uncertainty : float [m]
        What the expansion coefficients and the temperatures contribute.
    standard_uncertainty : float [m]
        Of `hot_size`, with the lengths taken as independent of each other.
    length_sensitivities : tuple of float [1]
        Derivative of `hot_size` by each member's length.
    expansion_sensitivities : tuple of float [m K]
        Derivative of `hot_size` by each member's expansion coefficient.
    temperature_sensitivities : tuple of float [m/K]
        Derivative of `hot_size` by each member's temperature.
    """

    cold_size: Metre
    hot_size: Metre
    change: Metre
    thermal_standard_uncertainty: Metre
    standard_uncertainty: Metre
    length_sensitivities: tuple[float, ...]
    expansion_sensitivities: tuple[float, ...]
    temperature_sensitivities: tuple[float, ...]


def size_at_temperature(
    size: Metres,
    *,
    expansion_coefficient: PerKelvins,
    temperature: Kelvin,
    reference_temperature: Kelvin = REFERENCE_TEMPERATURE,
) -> FloatArray:
    r"""Size of a part that is warm throughout.

    Parameters
    ----------
    size : array_like [m], shape (*s)
        Size at the reference temperature.
    expansion_coefficient : array_like [1/K], broadcastable to (*s)
        Mean linear expansion coefficient between the two temperatures.
    temperature : float [K]
        Thermodynamic temperature of the part.
    reference_temperature : float [K]
        Temperature that `size` is referred to.

    Returns
    -------
    ndarray [m], shape (*s)
        Size at `temperature`.

    Notes
    -----
    .. math:: L_T = L (1 + \alpha (T - T_0))

    References
    ----------
    [jcgm100_2008] H.1.2

    Examples
    --------
    >>> float(size_at_temperature(0.060, expansion_coefficient=23e-6, temperature=383.15))
    0.0601242
    """
    warming = temperature - reference_temperature
    return np.asarray(size, dtype=float) * (1.0 + np.asarray(expansion_coefficient) * warming)


def chain_at_temperature(
    members: Sequence[ChainMember], *, reference_temperature: Kelvin = REFERENCE_TEMPERATURE
) -> ChainAtTemperature:
    r"""Add signed sizes up, cold and at each member's own temperature.

    Parameters
    ----------
    members : sequence of ChainMember
        The sizes, at least one.
    reference_temperature : float [K]
        Temperature that the lengths are referred to.

    Returns
    -------
    ChainAtTemperature
        Both sizes, the change, its uncertainty and the sensitivities, from which a caller can
        correlate the lengths with other unknowns.

    Raises
    ------
    OutOfDomainError
        If there is no member, or members that share a material or a temperature state it
        differently.

    Notes
    -----
    .. math:: y_T = \sum_i c_i L_i (1 + \alpha_i (T_i - T_0))

    The uncertainty is of first order. Sensitivities of members that share an unknown are added
    before they are squared, so what warms both parts of a fit alike cancels in their difference.

    References
    ----------
    [jcgm100_2008] 5.2.2 and H.1

    Examples
    --------
    An aluminium housing 90 K above the reference on a steel shaft as warm:

    >>> bore = ChainMember(1.0, 0.084105, 23e-6, 383.15, temperature_group="pump")
    >>> rotor = ChainMember(-1.0, 0.083965, 11.5e-6, 383.15, temperature_group="pump")
    >>> hot = chain_at_temperature([bore, rotor])
    >>> round(hot.cold_size * 1e3, 3), round(hot.hot_size * 1e3, 3)
    (0.14, 0.227)
    """
    if not members:
        raise OutOfDomainError("members", members, "at least one size")
    _check_shared(
        members, lambda m: (m.material, m.expansion_coefficient, m.expansion_standard_uncertainty), "material"
    )
    _check_shared(
        members,
        lambda m: (m.temperature_group, m.temperature, m.temperature_standard_uncertainty),
        "temperature_group",
    )
    cold = sum(m.coefficient * m.length for m in members)
    warmings = [m.temperature - reference_temperature for m in members]
    by_length = [
        m.coefficient * (1.0 + m.expansion_coefficient * w) for m, w in zip(members, warmings, strict=True)
    ]
    by_expansion = [m.coefficient * m.length * w for m, w in zip(members, warmings, strict=True)]
    by_temperature = [m.coefficient * m.length * m.expansion_coefficient for m in members]
    change = sum(s * m.expansion_coefficient for s, m in zip(by_expansion, members, strict=True))
    thermal = math.hypot(
        _shared_uncertainty(
            by_expansion, [m.expansion_standard_uncertainty for m in members], [m.material for m in members]
        ),
        _shared_uncertainty(
            by_temperature,
            [m.temperature_standard_uncertainty for m in members],
            [m.temperature_group for m in members],
        ),
    )
    lengths = math.hypot(
        *(s * m.length_standard_uncertainty for s, m in zip(by_length, members, strict=True))
    )
    return ChainAtTemperature(
        cold_size=cold,
        hot_size=cold + change,
        change=change,
        thermal_standard_uncertainty=thermal,
        standard_uncertainty=math.hypot(thermal, lengths),
        length_sensitivities=tuple(by_length),
        expansion_sensitivities=tuple(by_expansion),
        temperature_sensitivities=tuple(by_temperature),
    )


def _check_shared(
    members: Sequence[ChainMember],
    stated: Callable[[ChainMember], tuple[str, float, float]],
    argument: str,
) -> None:
    """Members that share an unknown have to state the same value and uncertainty for it."""
    first: dict[str, tuple[float, float]] = {}
    for member in members:
        name, value, uncertainty = stated(member)
        if name and first.setdefault(name, (value, uncertainty)) != (value, uncertainty):
            raise OutOfDomainError(argument, repr(name), "stated alike by every member that shares it")


def _shared_uncertainty(
    sensitivities: Sequence[float], uncertainties: Sequence[float], names: Sequence[str]
) -> float:
    """Root sum of squares over unknowns, where members with one name share one unknown."""
    shared: defaultdict[str, float] = defaultdict(float)
    own: list[float] = []
    for sensitivity, uncertainty, name in zip(sensitivities, uncertainties, names, strict=True):
        if name:
            shared[name] += sensitivity * uncertainty
        else:
            own.append(sensitivity * uncertainty)
    return math.hypot(*own, *shared.values())
