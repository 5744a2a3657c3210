"""Taper and out-of-round: which pairs of places are held against each other."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from fitwright.assess.chains import Chain, Member
from fitwright.assess.gauges import place_key
from fitwright.model.dimension import Place
from fitwright.model.fit import FitKind
from fitwright.physics.metrology.combinations import Term
from fitwright.physics.metrology.estimation import estimate
from fitwright.physics.metrology.form import Form, form_of


def form_terms(member: Member) -> list[Term]:
    """One place minus another of the same dimension."""
    return [Term(1.0, member.places), Term(-1.0, member.places)]


def form_pairs(member: Member, kind: FitKind | None) -> tuple[tuple[str, str], ...]:
    """The pairs that make a taper (same angle, two planes) or an out-of-round (same plane, two angles).

    Places without planes and angles are all held against each other.
    """
    return tuple(_pairs(member, kind))


def _pairs(member: Member, kind: FitKind | None) -> Iterator[tuple[str, str]]:
    known = set(member.places)
    places = [each for each in member.dimension.places if place_key(member.dimension, each.id) in known]
    for first, second in combinations(places, 2):
        if _belong_together(first, second, kind):
            yield place_key(member.dimension, first.id), place_key(member.dimension, second.id)


def _belong_together(first: Place, second: Place, kind: FitKind | None) -> bool:
    if kind is FitKind.TAPER:
        return first.angle == second.angle and first.plane != second.plane
    if first.plane is None and first.angle is None:
        return True
    return first.plane == second.plane and first.angle != second.angle


def form_seen(chain: Chain) -> Form | None:
    """Mean, taper and out-of-round of the one dimension behind a subject, where it has places."""
    if len(chain.members) != 1:
        return None
    member = chain.members[0]
    if len(member.places) < 2 or not member.values:
        return None
    estimated = estimate(member.values)
    named = {place_key(member.dimension, each.id): each for each in member.dimension.places}
    values = {
        (named[key].plane or "", named[key].angle or named[key].id): float(value)
        for key, value in zip(estimated.places, estimated.values, strict=True)
        if key in named
    }
    return form_of(values, max(reading.repeatability for reading in member.values))
