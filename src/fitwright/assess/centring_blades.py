"""The offset of a housing from blades tried around its shaft, or from blades and values."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache
from math import inf, sqrt
from typing import TYPE_CHECKING

import numpy as np

from fitwright.assess.bounds import Asked
from fitwright.assess.centred import Centred, angles_of, bound_result, chain_result
from fitwright.assess.chains import Member
from fitwright.assess.gauges import place_key
from fitwright.assess.hanging import attitude, direction_names, running
from fitwright.assess.results import CentringFound
from fitwright.model.fit import CentringSpec
from fitwright.physics.fits.blade_polygon import GapBounds, OffsetPolygon, offset_polygon
from fitwright.physics.fits.centring import (
    OFFSET_UNKNOWNS,
    Centring,
    centre_from_gaps,
    gap_design,
    tells_apart,
)
from fitwright.physics.fits.centring_move import centring_move
from fitwright.physics.fits.offset_posterior import GapValue, OffsetPosterior, offset_posteriors
from fitwright.physics.metrology.conformity import Bound, DecisionRule
from fitwright.physics.metrology.contradiction import contradiction_at
from fitwright.physics.metrology.edges import Edge
from fitwright.physics.metrology.estimation import Estimate, estimate
from fitwright.physics.metrology.readings import BladeReading
from fitwright.physics.metrology.result import Contradiction, Explanation

if TYPE_CHECKING:
    from fitwright.assess.judging import Judge

_EXPLAINED = 2.0
"""Blades contradict each other when they must give way by more than this many standard uncertainties."""


def from_blades(
    judge: Judge, spec: CentringSpec, member: Member, asked: Sequence[Asked], rule: DecisionRule
) -> Centred:
    """The polygon of offsets that the blades leave, and how likely each bound holds.

    Answers that cannot all be right, at one place or around the shaft, give no figure.
    """
    at_places = _contradictions_at_places(member)
    if at_places:
        return _no_figure(member, asked, rule, at_places)
    brackets, values = _brackets(member), _gap_values(member)
    limits = tuple(max(0.0, one.bound.limit) for one in asked) or (0.0,)
    polygon, posteriors = _offsets(limits, tuple(brackets), tuple(values))
    if not posteriors or _clash(polygon, brackets):
        return _no_figure(member, asked, rule, _contradictions_around(polygon, member))
    return _figure(judge, spec, member, polygon, posteriors, [(one.bound, rule) for one in asked])


@lru_cache(maxsize=32)
def _offsets(
    limits: tuple[float, ...], brackets: tuple[GapBounds, ...], values: tuple[GapValue, ...]
) -> tuple[OffsetPolygon, tuple[OffsetPosterior, ...]]:
    """The polygon, and one posterior for each limit; none where the offset stays open.

    Remembered: a new bearing clearance moves the running offset, and the blades around the shaft say what
    they said before.
    """
    found = offset_posteriors(limits, bounds=brackets, values=values)
    return offset_polygon(brackets), tuple(each for each in found if each is not None)


def _figure(
    judge: Judge,
    spec: CentringSpec,
    member: Member,
    polygon: OffsetPolygon,
    posteriors: Sequence[OffsetPosterior],
    asked: Sequence[tuple[Bound, DecisionRule]],
) -> Centred:
    best = posteriors[0].mean
    uncertainty = sqrt(float(np.trace(posteriors[0].covariance)) / 2.0)
    middles = _from_middles(_brackets(member))
    afloat = running(judge, spec, replace(middles, offset=best)) if middles is not None else None
    aimed = afloat.offset if afloat is not None else best
    names = direction_names(judge.sheet.engine.directions)
    found = CentringFound(
        offset=best,
        standard_uncertainty=uncertainty,
        mean_gap=middles.mean_gap if middles is not None else None,
        run_out=middles.run_out if middles is not None else None,
        running_offset=afloat.offset if afloat is not None else None,
        closure=None,
        polygon=tuple((float(x), float(y)) for x, y in polygon.vertices),
        move=centring_move(aimed, names, attitude=attitude(judge, spec)),
    )
    bounds = tuple(
        bound_result(bound, _chance(bound, posterior), best.magnitude, uncertainty, rule)
        for (bound, rule), posterior in zip(asked, posteriors, strict=False)
    )
    closed = polygon.centroid is not None
    interval = (polygon.least_offset, polygon.greatest_offset) if closed else (None, None)
    result = chain_result(bounds, member.places, best.magnitude, uncertainty, interval, "blades")
    return Centred(result, found)


def _chance(bound: Bound, posterior: OffsetPosterior) -> float:
    if bound.limit <= 0.0:
        return 1.0 if bound.side == "lower" else 0.0
    inside = posterior.probability
    return inside if bound.side == "upper" else 1.0 - inside


def _no_figure(
    member: Member, asked: Sequence[Asked], rule: DecisionRule, clashes: tuple[Contradiction, ...]
) -> Centred:
    """Bounds without a probability: the blades leave the offset open, or contradict each other."""
    bounds = tuple(bound_result(one.bound, None, None, None, rule) for one in asked)
    result = chain_result(bounds, member.places, None, None, (None, None), "blades")
    return Centred(replace(result, contradictions=clashes), None)


def _contradictions_at_places(member: Member) -> tuple[Contradiction, ...]:
    """Answers at one place that cannot all be right."""
    values = estimate(member.values) if member.values else None
    found = []
    for place in member.places:
        edges = [edge for reading in member.blades if reading.place == place for edge in Edge.of(reading)]
        keys = tuple(sorted(reading.key for reading in member.values if reading.place == place))
        clash = contradiction_at(place, edges, _known(values, place), keys)
        if clash is not None:
            found.append(clash)
    return tuple(found)


def _known(values: Estimate | None, place: str) -> tuple[float, float] | None:
    if values is None or place not in values.places:
        return None
    row = values.places.index(place)
    return float(values.values[row]), sqrt(float(values.covariance[row, row]))


def _clash(polygon: OffsetPolygon, brackets: Sequence[GapBounds]) -> bool:
    """Whether no offset agrees with all blades, by more than their thicknesses explain."""
    most = max(
        max(each.at_least_standard_uncertainty, each.at_most_standard_uncertainty) for each in brackets
    )
    return bool(polygon.contradicting) and polygon.widening > _EXPLAINED * most


def _contradictions_around(polygon: OffsetPolygon, member: Member) -> tuple[Contradiction, ...]:
    """The places whose blades no offset can satisfy together."""
    if not polygon.contradicting:
        return ()
    tried = [key for key in member.places if any(reading.place == key for reading in member.blades)]
    clashing = [tried[index] for index in polygon.contradicting]
    readings = tuple(reading.key for reading in member.blades if reading.place in clashing)
    why = Explanation("one answer mistyped, or a burr or dirt under a blade", 1.0)
    return (Contradiction(", ".join(clashing), readings, 0.0, (why,)),)


def _brackets(member: Member) -> list[GapBounds]:
    found = []
    for place in member.dimension.places:
        key = place_key(member.dimension, place.id)
        here = [reading for reading in member.blades if reading.place == key]
        if here:
            theta, phi = angles_of(place.id)
            found.append(_bracket(theta, phi, here))
    return found


def _bracket(theta: float, phi: float, readings: Sequence[BladeReading]) -> GapBounds:
    """The tightest bounds that the answers at one place give."""
    edges = [edge for reading in readings for edge in Edge.of(reading)]
    low = max((edge for edge in edges if edge.is_lower), key=lambda edge: edge.mean, default=None)
    high = min((edge for edge in edges if not edge.is_lower), key=lambda edge: edge.mean, default=None)
    at_least = low.mean if low is not None else 0.0
    return GapBounds(
        theta,
        phi,
        at_least,
        # Blades that just contradict are within their uncertainties here: more is a contradiction.
        max(at_least, high.mean) if high is not None else inf,
        low.standard_uncertainty if low is not None else 0.0,
        high.standard_uncertainty if high is not None else 0.0,
    )


def _gap_values(member: Member) -> list[GapValue]:
    if not member.values:
        return []
    estimated = estimate(member.values)
    found = []
    for place in member.dimension.places:
        known = _known(estimated, place_key(member.dimension, place.id))
        if known is not None:
            found.append(GapValue(*angles_of(place.id), *known))
    return found


def _from_middles(brackets: Sequence[GapBounds]) -> Centring | None:
    """Mean gap and run-out from the middles of the brackets: best estimates, no more than that."""
    closed = [each for each in brackets if each.at_most < inf]
    design = gap_design([each.station_angle for each in closed], [each.shaft_angle for each in closed])
    if not closed or not tells_apart(design[:, :OFFSET_UNKNOWNS], OFFSET_UNKNOWNS):
        return None
    widths = np.array([each.at_most - each.at_least for each in closed])
    floor = np.array([each.at_most_standard_uncertainty for each in closed]) ** 2 + 1e-18
    return centre_from_gaps(
        [(each.at_most + each.at_least) / 2.0 for each in closed],
        station_angles=[each.station_angle for each in closed],
        shaft_angles=[each.shaft_angle for each in closed],
        covariance=np.diag(widths**2 / 12.0 + floor),
    )
