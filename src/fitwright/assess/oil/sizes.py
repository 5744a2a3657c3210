"""What is known of each size that the oil circuit names: measured, stated, or only bounded by its limits.

Oil flows through all of a gap, not through its tightest place: a size here is the mean over its places,
while a verdict is about the worst of them.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from enum import StrEnum
from functools import lru_cache
from math import sqrt
from typing import TYPE_CHECKING, Final

import numpy as np

from fitwright.assess.chains import Chain, lengths_of, signed_lengths
from fitwright.assess.subjects import Subject
from fitwright.model.dimension import Dimension, Judged
from fitwright.model.limit import Limit, LimitClass
from fitwright.physics.metrology.combinations import Term
from fitwright.physics.metrology.conformity import DecisionRule
from fitwright.physics.metrology.estimation import estimate
from fitwright.physics.metrology.readings import BladeReading, ValueReading
from fitwright.physics.metrology.result import ChainResult
from fitwright.physics.metrology.temperature import REFERENCE_TEMPERATURE
from fitwright.physics.numerics.errors import PhysicsError

if TYPE_CHECKING:
    from fitwright.assess.judging import Judge

TEMPERATURE_UNCERTAINTY: Final = 5.0
"""Standard uncertainty of a part's temperature where it is taken to be as warm as the oil [K]."""

PARTS_AS_WARM_AS_OIL: Final = "parts as warm as the oil"


class Basis(StrEnum):
    """What a size rests on, from the best downwards."""

    MEASURED = "measured"
    STATED = "stated"
    LIMIT_BAND = "limit band"
    NOT_KNOWN = "not known"


@dataclass(frozen=True, slots=True)
class Growth:
    """How a size changes with the temperature of its parts.

    `per_kelvin` [m/K]; `expansion` is what one standard uncertainty of each material's expansion
    changes of it [m/K], by material.
    """

    per_kelvin: float = 0.0
    expansion: Mapping[str, float] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class KnownSize:
    """One size with what is known of it [SI].

    `loadings` is what one standard uncertainty of each source changes of it, with its sign: what two
    sizes share stands under one key in both. Where there is a `band` instead, any size in it is as
    likely as any other. `reason` says why it is not measured; `limits` is the band that its limits
    leave it, whether measured or not.
    """

    id: str
    title: str
    station: str | None
    basis: Basis
    value: float
    loadings: Mapping[str, float] = field(default_factory=dict)
    band: tuple[float, float] | None = None
    growth: Growth = Growth()
    critical: bool = False
    reason: str = ""
    limits: tuple[float, float] | None = None

    @property
    def standard_uncertainty(self) -> float:
        """Standard uncertainty cold [SI]."""
        if self.band is not None:
            return (self.band[1] - self.band[0]) / sqrt(12.0)
        return sqrt(sum(each * each for each in self.loadings.values()))

    def at(self, temperature: float) -> float:
        """The size with its parts at a temperature [K]."""
        return self.value + self.growth.per_kelvin * (temperature - REFERENCE_TEMPERATURE)


def known_size(judge: Judge, name: str) -> KnownSize:
    """What is known of a fit or dimension of the sheet, cold (20 °C) and as it grows.

    Raises
    ------
    KeyError
        If the sheet has no such fit or dimension; the sheet's own checks see to that.
    """
    subject = judge.subjects.get(name)
    if subject is None:
        return _of_dimension(judge, judge.sheet.dimensions[name])
    return _of_subject(judge, subject)


def _of_dimension(judge: Judge, dimension: Dimension) -> KnownSize:
    member = judge.member(dimension.id)
    found = KnownSize(dimension.id, dimension.title, dimension.station, Basis.NOT_KNOWN, np.nan)
    chain = Chain((member,))
    if chain.missing:
        nominal = dimension.nominal
        if nominal is None:
            return found
        return replace(found, basis=Basis.STATED, value=nominal.si, reason="nominal size of the sheet")
    return _read(judge, found, chain, Growth())


def _of_subject(judge: Judge, subject: Subject) -> KnownSize:
    critical = subject.limit_class is LimitClass.CRITICAL
    found = KnownSize(
        subject.id,
        subject.title,
        subject.station,
        Basis.NOT_KNOWN,
        np.nan,
        critical=critical,
        limits=_limit_band(subject.limits),
    )
    chain = _complete(judge, subject)
    if chain is None:
        return _banded(found, _open(judge, subject), _growth(judge, subject, None))
    read = _read(judge, found, chain, _growth(judge, subject, chain))
    if read.basis is not Basis.NOT_KNOWN:
        return read
    return _banded(found, read.reason, read.growth, within=read.band)


def _complete(judge: Judge, subject: Subject) -> Chain | None:
    """The governing route if all of it is known, else another that is."""
    routes = sorted(subject.routes, key=lambda each: each is not subject.governing)
    chains = (judge.chain(route) for route in routes)
    return next((chain for chain in chains if chain.members and not chain.missing), None)


def _read(judge: Judge, found: KnownSize, chain: Chain, growth: Growth) -> KnownSize:
    """A chain of which every member is known: by values jointly, with blades by metrology."""
    basis = Basis.MEASURED if chain.read else Basis.STATED
    try:
        if not chain.blades():
            return _by_values(found, chain, basis, growth)
        return _by_blades(judge, found, chain, basis, growth)
    except PhysicsError as error:
        return replace(found, growth=growth, reason=f"not computed: {error}")


def _by_values(found: KnownSize, chain: Chain, basis: Basis, growth: Growth) -> KnownSize:
    estimated = estimate(chain.values())
    row = {place: index for index, place in enumerate(estimated.places)}
    weights = np.zeros(len(estimated.places))
    for term in chain.terms(Judged.MEAN):
        weights[row[term.places[0]]] += term.coefficient
    loadings = weights @ estimated.loadings
    named = {
        source.key: float(loading)
        for source, loading in zip(estimated.sources, loadings, strict=True)
        if loading != 0.0
    }
    return replace(found, basis=basis, value=float(weights @ estimated.values), loadings=named, growth=growth)


def _by_blades(judge: Judge, found: KnownSize, chain: Chain, basis: Basis, growth: Growth) -> KnownSize:
    rule = judge.rules.of(LimitClass.NORMAL)
    result = _blades_judged(tuple(chain.terms(Judged.MEAN)), chain.values(), chain.blades(), rule)
    if result.contradictions:
        return replace(found, growth=growth, reason="its readings contradict each other")
    low, high = result.interval
    if result.value is None or result.standard_uncertainty is None or low is None or high is None:
        within = (-np.inf if low is None else low, np.inf if high is None else high)
        return replace(found, growth=growth, band=within, reason="blades bound it on one side only")
    own = {f"blades of {found.id}": result.standard_uncertainty}
    return replace(found, basis=basis, value=result.value, loadings=own, growth=growth)


@lru_cache(maxsize=256)
def _blades_judged(
    terms: tuple[Term, ...],
    values: tuple[ValueReading, ...],
    blades: tuple[BladeReading, ...],
    rule: DecisionRule,
) -> ChainResult:
    """Blades at several places take a while, and are asked about again with every entry that comes."""
    from fitwright.physics.metrology.chain import judge_chain

    return judge_chain(terms, values, blades, [], rule)


def _banded(
    found: KnownSize,
    reason: str,
    growth: Growth,
    *,
    within: tuple[float, float] | None = None,
) -> KnownSize:
    """Anywhere between its limits, narrowed by what one-sided blades say; not known where it has none."""
    limits = found.limits
    if limits is None:
        return replace(found, growth=growth, band=None, reason=reason)
    low, high = limits
    if within is not None:
        low, high = _narrowed(limits, within)
    return replace(
        found,
        basis=Basis.LIMIT_BAND,
        value=0.5 * (low + high),
        band=(low, high),
        growth=growth,
        reason=reason,
    )


def _narrowed(limits: tuple[float, float], within: tuple[float, float]) -> tuple[float, float]:
    """What blades leave of a limit band; beyond it, as wide again as the band from where they stop."""
    low, high = max(limits[0], within[0]), min(limits[1], within[1])
    if low < high:
        return low, high
    width = limits[1] - limits[0]
    return (within[0], within[0] + width) if np.isfinite(within[0]) else (within[1] - width, within[1])


def _limit_band(limits: tuple[Limit, ...]) -> tuple[float, float] | None:
    """The band of the cold limit that governs and has both bounds; else the narrowest such band."""
    bands = [
        (not limit.governs, limit.upper.si - limit.lower.si, (limit.lower.si, limit.upper.si))
        for limit in limits
        if limit.lower is not None and limit.upper is not None and limit.temperature_case is None
    ]
    return min(bands)[2] if bands else None


def _open(judge: Judge, subject: Subject) -> str:
    """Why it is not measured, if somebody said so."""
    said = (judge.build.not_measured_because(name) for name in subject.dimensions())
    return next((f"not measured: {because}" for because in said if because), "not measured")


def _growth(judge: Judge, subject: Subject, chain: Chain | None) -> Growth:
    """From what the sheet says grows, or from the lengths of the chain."""
    lengths = signed_lengths(judge.gauges, subject, chain if chain is not None else Chain(()))
    if not lengths and chain is not None and len(chain.members) > 1:
        lengths = lengths_of(judge.gauges, chain)
    materials = judge.sheet.materials
    expansion: dict[str, float] = {}
    for (_, material), length in lengths.items():
        expansion[material] = expansion.get(material, 0.0) + length
    return Growth(
        per_kelvin=sum(length * materials[name].expansion for name, length in expansion.items()),
        expansion={
            name: length * materials[name].expansion_uncertainty for name, length in expansion.items()
        },
    )
