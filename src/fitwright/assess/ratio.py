"""A compression ratio as a chain: linear about the sizes read, with the exact derivatives."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from fitwright.assess.chains import Member
from fitwright.model.fit import CompressionMembers
from fitwright.physics.fits.compression import CombustionSpace, compression
from fitwright.physics.metrology.combinations import Term


@dataclass(frozen=True, slots=True)
class LinearRatio:
    """Terms and constant of the ratio about the sizes read."""

    terms: tuple[Term, ...]
    constant: float
    compression_ratio: float


def linear_ratio(spec: CompressionMembers, members: Mapping[str, Member]) -> LinearRatio:
    """Expand the ratio about the mean of each member's places; all members must be known."""
    named = {
        "bore": spec.bore,
        "stroke": spec.stroke,
        "chamber_volume": spec.chamber_volume,
        "gasket_bore": spec.gasket_bore,
        "gasket_thickness": spec.gasket_thickness,
        "piston_below_deck": spec.deck,
        "dish_volume": spec.dish_volume,
        "crevice_volume": spec.crevice_volume,
    }
    sizes = {field: members[name].mean() or 0.0 for field, name in named.items() if name is not None}
    found = compression(CombustionSpace(**sizes))
    terms: list[Term] = []
    constant = found.compression_ratio
    for field, name in named.items():
        if name is None:
            continue
        slope = found.sensitivities[field]
        places = members[name].places
        terms.extend(Term(slope / len(places), (place,)) for place in places)
        constant -= slope * sizes[field]
    return LinearRatio(tuple(terms), constant, found.compression_ratio)
