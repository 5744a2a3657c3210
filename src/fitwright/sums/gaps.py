"""Gaps round a shaft as given: values and brackets of blades, and what physics makes of them."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from fitwright.sums.errors import InputError, MissingInputError
from fitwright.sums.forms import Given

if TYPE_CHECKING:
    from fitwright.physics.fits.blade_polygon import GapBounds, OffsetPolygon
    from fitwright.physics.fits.centring import Centring, Vector
    from fitwright.physics.fits.closure import Closure
    from fitwright.physics.fits.offset_posterior import GapValue
    from fitwright.quantity import FloatArray

FEWEST = 3
"""Gaps round the shaft that an offset needs."""


@dataclass(frozen=True, slots=True)
class Gap:
    """One gap: a value, or the bracket of the blade that goes and the one that does not [m, rad]."""

    angle: float
    shaft_angle: float
    value: float | None
    at_least: float
    less_than: float
    standard_uncertainty: float

    @classmethod
    def of(cls, each: Given, number: int, value_uncertainty: float, blade_uncertainty: float) -> Gap:
        """The gap as given, refused where it is neither a value nor a bracket."""
        place = f"item {number} of gaps"
        bracket = each["at_least"] is not None or each["less_than"] is not None
        if each["gap"] is None and not bracket:
            raise MissingInputError(place, "give gap, or at_least and less_than")
        if each["gap"] is not None and bracket:
            raise InputError(place, "give either gap, or at_least and less_than")
        low = each["at_least"] or 0.0
        high = math.inf if each["less_than"] is None else each["less_than"]
        if high <= low:
            raise InputError(f"less_than of {place}", "must be thicker than at_least")
        usual = blade_uncertainty if bracket else value_uncertainty
        own = each["standard_uncertainty"]
        return cls(each["angle"], each["shaft_angle"], each["gap"], low, high, usual if own is None else own)


@dataclass(frozen=True, slots=True)
class Located:
    """Where the housing lies: best offset with covariance, and what else the gaps tell.

    `covariance` is None, and so is `chance`, where blades leave the offset open.
    """

    offset: Vector | None
    covariance: FloatArray | None
    mean_gap: float | None
    run_out: Vector | None
    chance: float | None
    centring: Centring | None = None
    closure: Closure | None = None
    polygon: OffsetPolygon | None = None


def located(gaps: Sequence[Gap], limit: float | None, allowed_difference: float | None) -> Located:
    """Where the housing lies, from values alone, or from blades (and values)."""
    if len(gaps) < FEWEST:
        raise InputError("gaps", f"{len(gaps)} given, at least {FEWEST} round the shaft needed")
    if all(each.value is not None for each in gaps):
        return _from_values(gaps, limit, allowed_difference)
    return _from_blades(gaps, limit)


def _from_values(gaps: Sequence[Gap], limit: float | None, allowed_difference: float | None) -> Located:
    import numpy as np

    from fitwright.physics.fits.centring import centre_from_gaps
    from fitwright.physics.fits.closure import closure_of_gaps
    from fitwright.physics.fits.offset_probability import probability_within_radius

    values = [each.value or 0.0 for each in gaps]
    theta, phi = [each.angle for each in gaps], [each.shaft_angle for each in gaps]
    covariance = np.diag([each.standard_uncertainty**2 for each in gaps])
    found = centre_from_gaps(values, station_angles=theta, shaft_angles=phi, covariance=covariance)
    closure = closure_of_gaps(
        values,
        station_angles=theta,
        shaft_angles=phi,
        covariance=covariance,
        allowed_difference=allowed_difference,
    )
    chance = None
    if limit is not None:
        chance = probability_within_radius(found.offset, found.offset_covariance, limit)
    return Located(
        found.offset, found.offset_covariance, found.mean_gap, found.run_out, chance, found, closure
    )


def _from_blades(gaps: Sequence[Gap], limit: float | None) -> Located:
    from fitwright.physics.fits.blade_polygon import offset_polygon
    from fitwright.physics.fits.offset_posterior import offset_posterior

    brackets = [_bounds(each) for each in gaps if each.value is None]
    values = [_value(each) for each in gaps if each.value is not None]
    polygon = offset_polygon(brackets)
    if polygon.contradicting:
        return Located(None, None, None, None, None, polygon=polygon)
    posterior = offset_posterior(_far(gaps) if limit is None else limit, bounds=brackets, values=values)
    if posterior is None:
        return Located(polygon.centroid, None, None, None, None, polygon=polygon)
    chance = None if limit is None else posterior.probability
    return Located(posterior.mean, posterior.covariance, None, None, chance, polygon=polygon)


def _bounds(each: Gap) -> GapBounds:
    from fitwright.physics.fits.blade_polygon import GapBounds

    u = each.standard_uncertainty
    return GapBounds(
        each.angle,
        each.shaft_angle,
        each.at_least,
        each.less_than,
        u if each.at_least > 0.0 else 0.0,
        u if math.isfinite(each.less_than) else 0.0,
    )


def _value(each: Gap) -> GapValue:
    from fitwright.physics.fits.offset_posterior import GapValue

    return GapValue(each.angle, each.shaft_angle, each.value or 0.0, each.standard_uncertainty)


def _far(gaps: Sequence[Gap]) -> float:
    """A limit that no offset between these gaps reaches, where none is asked about."""
    sizes = [each.value or each.at_least for each in gaps]
    return 10.0 * max([*sizes, *(each.less_than for each in gaps if math.isfinite(each.less_than))])
