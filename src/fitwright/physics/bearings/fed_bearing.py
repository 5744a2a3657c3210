"""A bearing with its feed, as the kernels read it: sizes, kind of feed, and how its heat leaves."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TypeAlias

import numpy as np

from fitwright.physics.bearings.feed import groove_end_factor, hole_shape_factor, pocket_shape_factor
from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.quantity import FloatArray, JoulePerCubicMetreKelvin, Kelvin, Metre, Number, Radian

USUAL_HEAT_CAPACITY: JoulePerCubicMetreKelvin = 1.8e6
"""Heat capacity of a cubic metre of mineral oil, the usual value of bearing design [J/(m3 K)]."""

LARGEST_RISE: Kelvin = 200.0
"""Warming from feed to end of the bearing at which the heat balance levels off [K]."""


DRAG_EXPONENT: Number = 0.7
"""Of the feed's axial extent over the bearing's length, in the share of the hydrodynamic flow that the
journal drags out of it; fitted to direct solutions of the film (docs/theory/bearing-feed.md)."""


@dataclass(frozen=True, slots=True)
class FullGroove:
    """A groove all round, midway between the ends.

    Attributes
    ----------
    groove_width : float [m]
        Width along the axis.
    """

    groove_width: Metre


@dataclass(frozen=True, slots=True)
class PartialGroove:
    """A groove over a part of the circumference, midway between the ends.

    Attributes
    ----------
    groove_width : float [m]
        Width along the axis.
    groove_arc : float [rad]
        Angle over which it runs; pi for a grooved upper shell.
    """

    groove_width: Metre
    groove_arc: Radian = math.pi


@dataclass(frozen=True, slots=True)
class FeedHole:
    """A round hole midway between the ends.

    Attributes
    ----------
    hole_diameter : float [m]
        Where it meets the gap, over its chamfer.
    """

    hole_diameter: Metre


@dataclass(frozen=True, slots=True)
class AxialPocket:
    """A narrow pocket along the axis, midway between the ends.

    Attributes
    ----------
    pocket_length : float [m]
        Length along the axis.
    """

    pocket_length: Metre


Feed: TypeAlias = FullGroove | PartialGroove | FeedHole | AxialPocket


@dataclass(frozen=True, slots=True)
class FedBearing:
    """A plain journal bearing and its feed.

    Attributes
    ----------
    journal_diameter : float [m]
        Diameter of the journal.
    bearing_length : float [m]
        Length of the shells that carries, chamfers taken off, groove included.
    feed : FullGroove, PartialGroove, FeedHole or AxialPocket
        How the oil comes in.
    feed_angle : float [rad]
        From the place opposite the load to the middle of the feed, positive in the direction of rotation.
    carried_share : float [1]
        Share of the friction power that the oil carries off; the rest goes into journal and housing.
    mean_weight : float [1]
        Where between feed and outlet temperature the temperature lies that the film's viscosity belongs to.
    heat_capacity : float [J/(m3 K)]
        Heat capacity of the oil by volume.
    """

    journal_diameter: Metre
    bearing_length: Metre
    feed: Feed
    feed_angle: Radian = 0.0
    carried_share: Number = 1.0
    mean_weight: Number = 0.5
    heat_capacity: JoulePerCubicMetreKelvin = USUAL_HEAT_CAPACITY


def film_length(bearing: FedBearing) -> Metre:
    """Length of the film that the steady curves are to be taken for.

    Parameters
    ----------
    bearing : FedBearing
        The bearing.

    Returns
    -------
    float [m]
        One land of a bearing with a full groove, which is two bearings of that length; the whole length of
        any other, because its loaded part runs through.

    Raises
    ------
    OutOfDomainError
        If a size or a share means nothing.

    References
    ----------
    [neale1995] central circumferential groove: two bearings side by side

    Examples
    --------
    >>> film_length(FedBearing(0.056, 0.022, FullGroove(0.004)))
    0.009
    """
    _check(bearing)
    if isinstance(bearing.feed, FullGroove):
        return 0.5 * (bearing.bearing_length - bearing.feed.groove_width)
    return bearing.bearing_length


def film_length_ratio(bearing: FedBearing) -> Number:
    """Length ratio that the steady curves of a bearing are to be taken at.

    Parameters
    ----------
    bearing : FedBearing
        The bearing.

    Returns
    -------
    float [1]
        `film_length` over the journal's diameter.

    References
    ----------
    [neale1995] central circumferential groove: two bearings side by side

    Examples
    --------
    >>> film_length_ratio(FedBearing(0.05, 0.02, FeedHole(0.006)))
    0.4
    """
    return film_length(bearing) / bearing.journal_diameter


def bearing_parameters(bearing: FedBearing) -> FloatArray:
    """Vector of a bearing for the kernels.

    Parameters
    ----------
    bearing : FedBearing
        The bearing.

    Returns
    -------
    array (13,) [1]
        Journal radius, length and number of films, land length, kind of feed, half arc of the groove, feed
        angle, shape factor of hole, pocket or groove's end, carried share, mean weight, heat capacity,
        largest rise, share of the hydrodynamic flow that the journal drags out of the feed.

    References
    ----------
    [neale1995] central circumferential groove: two bearings side by side

    Examples
    --------
    >>> bearing_parameters(FedBearing(0.056, 0.022, FullGroove(0.004)))[:5]
    array([0.028, 0.009, 2.   , 0.009, 0.   ])
    """
    from fitwright.physics.bearings.kernels import supply as kernel

    feed, length = bearing.feed, bearing.bearing_length
    vector = np.zeros(kernel.PARAMETERS)
    vector[kernel.JOURNAL_RADIUS] = 0.5 * bearing.journal_diameter
    vector[kernel.FILM_LENGTH] = film_length(bearing)
    vector[kernel.FILM_COUNT] = 1.0
    vector[kernel.FEED_ANGLE] = bearing.feed_angle
    vector[kernel.CARRIED_SHARE] = bearing.carried_share
    vector[kernel.MEAN_WEIGHT] = bearing.mean_weight
    vector[kernel.HEAT_CAPACITY] = bearing.heat_capacity
    vector[kernel.LARGEST_RISE] = LARGEST_RISE
    match feed:
        case FullGroove():
            vector[kernel.FILM_COUNT] = 2.0
            vector[kernel.FEED_KIND] = kernel.FULL_GROOVE
            vector[kernel.LAND_LENGTH] = 0.5 * (length - feed.groove_width)
        case PartialGroove():
            vector[kernel.FEED_KIND] = kernel.PARTIAL_GROOVE
            vector[kernel.LAND_LENGTH] = 0.5 * (length - feed.groove_width)
            vector[kernel.HALF_ARC] = 0.5 * feed.groove_arc
            if feed.groove_arc < 2.0 * math.pi:
                vector[kernel.SHAPE_FACTOR] = groove_end_factor(feed.groove_width, bearing_length=length)
            vector[kernel.DRAG_SHARE] = (feed.groove_width / length) ** DRAG_EXPONENT
        case FeedHole():
            vector[kernel.FEED_KIND] = kernel.LOCAL_FEED
            vector[kernel.SHAPE_FACTOR] = hole_shape_factor(feed.hole_diameter, bearing_length=length)
            vector[kernel.DRAG_SHARE] = (feed.hole_diameter / length) ** DRAG_EXPONENT
        case AxialPocket():
            vector[kernel.FEED_KIND] = kernel.LOCAL_FEED
            vector[kernel.SHAPE_FACTOR] = pocket_shape_factor(feed.pocket_length, bearing_length=length)
            vector[kernel.DRAG_SHARE] = (feed.pocket_length / length) ** DRAG_EXPONENT
    return vector


def _check(bearing: FedBearing) -> None:
    for name in ("journal_diameter", "bearing_length", "heat_capacity", "mean_weight"):
        if not getattr(bearing, name) > 0.0:
            raise OutOfDomainError(name, getattr(bearing, name), "positive")
    for name in ("carried_share", "mean_weight"):
        if not 0.0 <= getattr(bearing, name) <= 1.0:
            raise OutOfDomainError(name, getattr(bearing, name), "between zero and one")
    if isinstance(bearing.feed, FullGroove | PartialGroove):
        width = bearing.feed.groove_width
        if not 0.0 <= width < bearing.bearing_length:
            raise OutOfDomainError("groove_width", width, "zero or more and below the bearing's length")
    if isinstance(bearing.feed, PartialGroove) and not 0.0 < bearing.feed.groove_arc <= 2.0 * math.pi:
        raise OutOfDomainError("groove_arc", bearing.feed.groove_arc, "above zero, up to a full turn")
