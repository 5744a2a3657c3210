"""What is asked of metrology for a subject: the terms, the readings, and what comes on top of them."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from fitwright.assess.chains import Chain, signed_lengths, unknowns_of_lengths
from fitwright.assess.form import form_pairs, form_terms
from fitwright.assess.grip import change_of
from fitwright.assess.ratio import linear_ratio
from fitwright.assess.subjects import Subject
from fitwright.model.part import TemperatureCase
from fitwright.physics.metrology.chain import judge_chain
from fitwright.physics.metrology.combinations import Term
from fitwright.physics.metrology.conformity import Bound, DecisionRule
from fitwright.physics.metrology.distribution import Distribution, distribution_of_chain
from fitwright.physics.metrology.readings import BladeReading, ValueReading
from fitwright.physics.metrology.result import ChainResult
from fitwright.physics.metrology.unknowns import Shared

if TYPE_CHECKING:
    from fitwright.assess.judging import Judge


@dataclass(frozen=True, slots=True)
class Posed:
    """A chain as metrology is asked about it; `pairs` and `absolute` as for a taper or out-of-round."""

    terms: tuple[Term, ...]
    values: tuple[ValueReading, ...]
    blades: tuple[BladeReading, ...]
    constant: float = 0.0
    extra: tuple[Shared, ...] = ()
    pairs: tuple[tuple[str, ...], ...] | None = None
    absolute: bool = False

    def judged(self, bounds: list[Bound], rule: DecisionRule) -> ChainResult:
        """The verdict on some bounds."""
        return judge_chain(
            self.terms,
            self.values,
            self.blades,
            bounds,
            rule,
            constant=self.constant,
            extra=self.extra,
            pairs=self.pairs,
            absolute=self.absolute,
        )

    def distribution(self, places: tuple[str, ...]) -> Distribution | None:
        """How one combination of places is distributed."""
        return distribution_of_chain(
            self.terms,
            self.values,
            self.blades,
            places=places,
            constant=self.constant,
            extra=self.extra,
            absolute=self.absolute,
        )


def posed_chain(subject: Subject, chain: Chain) -> Posed:
    """A route: a signed chain of dimensions."""
    return Posed(tuple(chain.terms(subject.judged)), chain.values(), chain.blades())


def posed_hot(judge: Judge, subject: Subject, chain: Chain, case: TemperatureCase) -> Posed:
    """The chain moved by what grows in a case; as read where the sheet does not say what grows."""
    lengths = signed_lengths(judge.gauges, subject, chain)
    return replace(
        posed_chain(subject, chain),
        constant=change_of(judge.gauges, lengths, case),
        extra=unknowns_of_lengths(judge.gauges, lengths, case),
    )


def posed_form(judge: Judge, subject: Subject) -> Posed | None:
    """A taper or out-of-round: differences of places of one dimension; None without two to compare."""
    assert subject.fit is not None and subject.fit.form_of is not None  # noqa: S101, PT018
    member = judge.member(subject.fit.form_of)
    pairs = form_pairs(member, subject.fit_kind)
    if not pairs:
        return None
    return Posed(tuple(form_terms(member)), member.values, member.blades, pairs=pairs, absolute=True)


def posed_ratio(judge: Judge, subject: Subject) -> Posed | None:
    """A compression ratio about the sizes read; None while one is missing."""
    assert subject.fit is not None and subject.fit.compression is not None  # noqa: S101, PT018
    members = {name: judge.member(name) for name in subject.dimensions()}
    chain = Chain(tuple(members.values()))
    if chain.missing:
        return None
    linear = linear_ratio(subject.fit.compression, members)
    return Posed(linear.terms, chain.values(), chain.blades(), constant=linear.constant)
