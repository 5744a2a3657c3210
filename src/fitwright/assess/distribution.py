"""How what is known of a fit is spread, for the picture beside a verdict: at its worst places, and hot."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from fitwright.assess.posed import Posed, posed_chain, posed_form, posed_hot, posed_ratio
from fitwright.assess.results import FitVerdict
from fitwright.assess.subjects import Subject
from fitwright.model.fit import FitKind
from fitwright.physics.metrology.conformity import DecisionRule
from fitwright.physics.metrology.distribution import Distribution
from fitwright.physics.numerics.errors import PhysicsError

if TYPE_CHECKING:
    from fitwright.assess.judging import Judge


@dataclass(frozen=True, slots=True)
class Spread:
    """A distribution with what it is of: the places that it belongs to, and the temperature case."""

    title: str
    places: tuple[str, ...]
    sides: tuple[str, ...]
    distribution: Distribution


@dataclass(frozen=True, slots=True)
class Spreads:
    """Cold: one for each combination of places that a bound is judged at. Hot: at the governing one."""

    cold: tuple[Spread, ...]
    hot: tuple[Spread, ...]


def spreads_of(judge: Judge, verdict: FitVerdict) -> Spreads | None:
    """The distributions behind a verdict.

    None where nothing is known, where answers contradict each other, and for a centring, whose two
    directions are judged together.
    """
    subject = judge.subjects[verdict.id]
    try:
        posed = _posed(judge, subject)
        cold = tuple(_cold(posed, verdict)) if posed is not None else ()
        hot = tuple(_hot(judge, subject, verdict)) if cold else ()
    except PhysicsError:
        return None
    return Spreads(cold, hot) if cold else None


def _posed(judge: Judge, subject: Subject) -> Posed | None:
    if subject.fit_kind is FitKind.CENTRING:
        return None
    if subject.fit_kind is FitKind.RATIO and subject.fit is not None and subject.fit.compression:
        return posed_ratio(judge, subject)
    if subject.fit_kind in (FitKind.TAPER, FitKind.OUT_OF_ROUND):
        return posed_form(judge, subject)
    if subject.governing is None:
        return None
    chain = judge.chain(subject.governing)
    return None if chain.missing else posed_chain(subject, chain)


def _cold(posed: Posed, verdict: FitVerdict) -> Iterator[Spread]:
    """At the worst places of each bound that is shown; where none is stated, at those that govern."""
    sides: dict[tuple[str, ...], list[str]] = {}
    for bound in verdict.bounds:
        if bound.places and bound.temperature_case is None and (bound.governs or not _governs(verdict)):
            sides.setdefault(bound.places, []).append(bound.side)
    if not sides:
        result = posed.judged([], DecisionRule())
        sides = {result.places: []} if result.places else {}
    for places, of_sides in sides.items():
        found = posed.distribution(places)
        if found is not None:
            yield Spread("cold", places, tuple(dict.fromkeys(of_sides)), found)


def _governs(verdict: FitVerdict) -> bool:
    return any(bound.governs for bound in verdict.bounds)


def _hot(judge: Judge, subject: Subject, verdict: FitVerdict) -> Iterator[Spread]:
    result = next((route.result for route in verdict.routes if route.governs), None)
    if result is None or subject.governing is None:
        return
    chain = judge.chain(subject.governing)
    for state in verdict.hot:
        case = judge.sheet.temperature_cases[state.case]
        found = posed_hot(judge, subject, chain, case).distribution(result.places)
        if found is not None:
            yield Spread(state.title, result.places, (), found)
