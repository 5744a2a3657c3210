"""What would settle a bound that is unproven or was never measured."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from itertools import combinations

import numpy as np
from scipy import special

from fitwright.physics.metrology.chain import judge_chain
from fitwright.physics.metrology.combinations import Term
from fitwright.physics.metrology.conformity import Bound, DecisionRule, Verdict
from fitwright.physics.metrology.edges import FAR, Edge
from fitwright.physics.metrology.likelihood import Pieces
from fitwright.physics.metrology.panels import panel_rule
from fitwright.physics.metrology.posterior import STEPS, Posterior
from fitwright.physics.metrology.readings import Blade, BladeAnswer, BladeReading, Drag, ValueReading
from fitwright.physics.metrology.unknowns import require_uncertainty
from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.quantity import FloatArray, Metre, Probability

Stack = tuple[Blade, ...]

PLACE = "gap"
TRIAL = "what would be tried"

MOST_BLADES = 12
"""Blades and stacks that are tried out: those nearest the limit."""

NEARLY = 0.01
"""Fewer repeats are proposed if ten would settle no more than this beyond them."""

NEGLIGIBLE = 0.005
"""What settles a bound less often is not proposed."""


class Means(StrEnum):
    """With what a bound would be settled."""

    BLADE = "blade"
    STACK = "stack of blades"
    GAUGE = "gauge"


@dataclass(frozen=True, slots=True)
class Gauge:
    """A gauge, or a way of measuring, for the quantity as a whole.

    Attributes
    ----------
    key : str
        Names it.
    systematic_uncertainty : float [m]
        Standard uncertainty that repeats share (calibration, setting).
    repeatability : float [m]
        Standard uncertainty of one reading's own error.
    taken : int
        Readings with it that what is known already contains: further ones are repeats of these.
    """

    key: str
    systematic_uncertainty: Metre
    repeatability: Metre
    taken: int = 0

    def __post_init__(self) -> None:
        """Refuse uncertainties that are none."""
        require_uncertainty(f"systematic uncertainty of {self.key!r}", self.systematic_uncertainty)
        require_uncertainty(f"repeatability of {self.key!r}", self.repeatability)
        if self.taken < 0:
            raise OutOfDomainError(f"readings taken with {self.key!r}", self.taken, "zero or more")

    def standard_uncertainty(self, repeats: int) -> Metre:
        """Standard uncertainty [m] of the mean of this many readings."""
        return float(np.hypot(self.systematic_uncertainty, self.repeatability / np.sqrt(repeats)))


@dataclass(frozen=True, slots=True)
class Known:
    """What is known of the quantity before anything more is done.

    Attributes
    ----------
    value, standard_uncertainty : float [m] or None
        From values, where there are any.
    blade_readings : tuple of BladeReading
        What blades have said.
    window : (float, float) [m] or None
        Where the quantity may lie, all of it equally likely. It never enters a verdict, only the likelihood
        of an answer, and only where readings leave the quantity open. Where a blade has shown more it is
        widened.
    """

    value: Metre | None = None
    standard_uncertainty: Metre | None = None
    blade_readings: tuple[BladeReading, ...] = ()
    window: tuple[Metre, Metre] | None = None

    def __post_init__(self) -> None:
        """Refuse a value without uncertainty: it leaves nothing to settle."""
        if self.standard_uncertainty is not None and not self.standard_uncertainty > 0.0:
            raise OutOfDomainError("standard uncertainty", self.standard_uncertainty, "above zero")

    @property
    def prior(self) -> tuple[Metre, Metre] | None:
        """Value and standard uncertainty [m] from values, if any."""
        if self.value is None or self.standard_uncertainty is None:
            return None
        return self.value, self.standard_uncertainty

    @property
    def edges(self) -> tuple[Edge, ...]:
        """Edges of the blade readings that matter."""
        return Edge.relevant(self.blade_readings, self.prior)

    @property
    def is_assumed(self) -> bool:
        """Whether only the window says how likely an answer is."""
        return self.prior is None and len({edge.is_lower for edge in self.edges}) < 2

    def belief(self, breaks: Sequence[Metre] = ()) -> tuple[FloatArray, FloatArray]:
        """Nodes [m] and probabilities of the quantity; `breaks` [m] is where what is asked of it bends."""
        if not self.is_assumed:
            posterior = Posterior.of(self.edges, self.prior, breaks)
            return posterior.gap, posterior.weight
        low, high = self._window()
        cuts = [cut for edge in self.edges for cut in _around(edge)]
        gap, weight = panel_rule(low, high, [*cuts, *breaks])
        weight = weight * Pieces.of(self.edges).likelihood(gap) if self.edges else weight
        return gap, weight / weight.sum()

    def _window(self) -> tuple[Metre, Metre]:
        """The window, with as much again beyond a blade that has shown it to be too narrow."""
        if self.window is None:
            raise OutOfDomainError("window", None, "given where readings leave the quantity open")
        low, high = self.window
        width = high - low
        for edge in self.edges:
            reach = FAR * edge.standard_uncertainty
            if edge.is_lower and edge.mean + reach > high:
                high = edge.mean + reach + width
            if not edge.is_lower and edge.mean - reach < low:
                low = edge.mean - reach - width
        return low, high

    def verdict(self, bound: Bound, rule: DecisionRule, trial: BladeReading) -> Verdict:
        """Verdict on the bound with one more blade reading."""
        values = [ValueReading("known", PLACE, *self.prior)] if self.prior else []
        blades = [replace(reading, place=PLACE) for reading in (*self.blade_readings, trial)]
        return judge_chain([Term(1.0, (PLACE,))], values, blades, [bound], rule).verdict


@dataclass(frozen=True, slots=True)
class Proposal:
    """One thing to do, with the likelihood that it settles the bound.

    Attributes
    ----------
    means : Means
        Blade, stack or gauge.
    blades : tuple of Blade
        What to put in.
    gauge : str
        Which gauge.
    repeats : int
        How many readings to take with it.
    within, outside : float
        Probability that the outcome shows the bound to hold, or to fail.
    is_assumed : bool
        The likelihoods rest on a window in which every size was taken as equally likely.
    """

    means: Means
    blades: tuple[Blade, ...]
    gauge: str
    repeats: int
    within: Probability
    outside: Probability
    is_assumed: bool

    @property
    def settles(self) -> Probability:
        """Probability that the outcome settles the bound either way."""
        return self.within + self.outside


def what_settles(
    bound: Bound,
    rule: DecisionRule,
    known: Known,
    *,
    shelf: Sequence[Blade] = (),
    gauges: Sequence[Gauge] = (),
    largest_stack: int = 2,
    most_repeats: int = 10,
) -> tuple[Proposal, ...]:
    r"""Rank blades, stacks and gauges by how likely their outcome settles a bound either way.

    Parameters
    ----------
    bound : Bound
        The bound to settle.
    rule : DecisionRule
        When it counts as settled.
    known : Known
        What is known of the quantity.
    shelf : sequence of Blade
        Blades at hand; they are tried alone and in stacks.
    gauges : sequence of Gauge
        Gauges at hand.
    largest_stack : int
        Most blades in a stack.
    most_repeats : int
        Most readings with one gauge.

    Returns
    -------
    tuple of Proposal
        Those that can settle it at all, the likeliest first; of equal ones the simpler first.

    Raises
    ------
    OutOfDomainError
        If readings leave the quantity open and no window is given.

    Notes
    -----
    For a blade both answers are judged as if they had been given, and their probabilities come from what is
    known, :math:`P(\text{goes}) = \int p(x)\,P(T \le x)\,dx`. For a gauge on top of values with uncertainty
    :math:`u_0` that would bring it down to :math:`u_1`, the new best value is distributed as
    :math:`N(\hat x, u_0^2 - u_1^2)`; without values the indication is spread as what is known, widened by the
    gauge's own uncertainty.

    References
    ----------
    [jcgm106_2012] 7.2, 8.3; [gelman2013] 1.3 (predictive distributions)

    Examples
    --------
    >>> shelf = [Blade("0.04", 40e-6, 1e-6), Blade("0.05", 50e-6, 1e-6), Blade("0.10", 100e-6, 1e-6)]
    >>> best = what_settles(
    ...     Bound("lower", 42e-6), DecisionRule(), Known(window=(20e-6, 120e-6)), shelf=shelf
    ... )[0]
    >>> best.blades[0].key, round(best.settles, 2), best.is_assumed
    ('0.05', 0.7, True)
    """
    stacks = _Question(bound, rule, known, *known.belief()).stacks(shelf, largest_stack)
    breaks = [bound.limit, *(cut for blades in stacks for cut in _around(_edge(blades)))]
    question = _Question(bound, rule, known, *known.belief(breaks))
    proposals = [question.tried(blades) for blades in stacks]
    for gauge in gauges:
        proposals.extend(question.read(gauge, most_repeats))
    useful = [proposal for proposal in proposals if proposal.settles >= NEGLIGIBLE]
    return tuple(sorted(useful, key=lambda one: (-round(one.settles, 6), len(one.blades) + one.repeats)))


@dataclass(frozen=True, slots=True)
class _Question:
    """A bound to settle, and the quantity as nodes with their probabilities."""

    bound: Bound
    rule: DecisionRule
    known: Known
    gap: FloatArray
    weight: FloatArray

    def stacks(self, shelf: Sequence[Blade], largest: int) -> list[Stack]:
        """Blades and stacks that could go in or stick, half of them single blades.

        First those that can decide by themselves (further from the limit than their own thickness
        leaves open), the nearest first; the others may still help together with what is known.
        """
        ordered = sorted(shelf, key=lambda blade: (blade.thickness, blade.key))
        edges = {
            chosen: _edge(chosen) for size in range(1, largest + 1) for chosen in combinations(ordered, size)
        }
        low, high = float(self.gap[0]), float(self.gap[-1])
        inside = [
            chosen
            for chosen, edge in edges.items()
            if low - 3.0 * edge.standard_uncertainty < edge.mean < high + 3.0 * edge.standard_uncertainty
        ]
        guard = float(special.ndtri(self.rule.within))

        def usefulness(chosen: Stack) -> tuple[bool, Metre, int]:
            distance = abs(edges[chosen].mean - self.bound.limit)
            return distance < guard * edges[chosen].standard_uncertainty, distance, len(chosen)

        ranked = sorted(inside, key=usefulness)
        single = [chosen for chosen in ranked if len(chosen) == 1][: MOST_BLADES // 2]
        stacked = [chosen for chosen in ranked if len(chosen) > 1][: MOST_BLADES - len(single)]
        return single + stacked

    def tried(self, blades: Stack) -> Proposal:
        """Judge both answers that a blade or stack can give."""
        goes = float(self.weight @ Pieces.of([_edge(blades)]).likelihood(self.gap))
        chance = {Verdict.WITHIN: 0.0, Verdict.OUTSIDE: 0.0}
        for answer, probability in ((BladeAnswer.GOES, goes), (BladeAnswer.DOES_NOT_GO, 1.0 - goes)):
            verdict = self.known.verdict(self.bound, self.rule, _trial(blades, answer))
            if verdict in chance:
                chance[verdict] += probability
        return Proposal(
            means=Means.STACK if len(blades) > 1 else Means.BLADE,
            blades=blades,
            gauge="",
            repeats=0,
            within=chance[Verdict.WITHIN],
            outside=chance[Verdict.OUTSIDE],
            is_assumed=self.known.is_assumed,
        )

    def read(self, gauge: Gauge, most_repeats: int) -> list[Proposal]:
        """One reading, and the fewest repeats that settle nearly as often as the most."""
        every = [
            Proposal(
                Means.GAUGE, (), gauge.key, repeats, *self.chances(gauge, repeats), self.known.is_assumed
            )
            for repeats in range(1, most_repeats + 1)
        ]
        enough = next(one for one in every if one.settles >= every[-1].settles - NEARLY)
        return [every[0]] if enough is every[0] else [every[0], enough]

    def chances(self, gauge: Gauge, repeats: int) -> tuple[Probability, Probability]:
        """Probability that the mean of some readings shows the bound to hold, and to fail."""
        sign = 1.0 if self.bound.side == "lower" else -1.0
        within, outside = (
            float(special.ndtri(self.rule.within)),
            float(special.ndtri(1.0 - self.rule.outside)),
        )
        prior = self.known.prior
        if prior is not None and not self.known.edges:
            after = _after(prior[1], gauge, repeats)
            spread = float(np.sqrt(max(prior[1] ** 2 - after**2, 0.0)))
            margin = sign * (prior[0] - self.bound.limit)
            return _tail(margin - within * after, spread), _tail(-margin - outside * after, spread)
        # Where blades have cut what is known, the new readings alone are asked to settle the bound, which
        # they do a little less often than all together.
        u = gauge.standard_uncertainty(repeats)
        margins = sign * (self.gap - self.bound.limit)
        if u == 0.0:
            return float(self.weight @ (margins >= 0.0)), float(self.weight @ (margins < 0.0))
        shown = self.weight @ special.ndtr(margins / u - within)
        failed = self.weight @ special.ndtr(-margins / u - outside)
        return float(shown), float(failed)


def _trial(blades: Stack, answer: BladeAnswer) -> BladeReading:
    return BladeReading(TRIAL, PLACE, blades, answer, Drag("nobody"))


def _around(edge: Edge) -> list[Metre]:
    return [edge.mean + sign * step * edge.standard_uncertainty for step in STEPS for sign in (-1.0, 1.0)]


def _edge(blades: Stack) -> Edge:
    return Edge.of(_trial(blades, BladeAnswer.GOES))[0]


def _after(before: Metre, gauge: Gauge, repeats: int) -> Metre:
    """Standard uncertainty once the readings are taken."""
    if gauge.taken:
        return min(before, gauge.standard_uncertainty(gauge.taken + repeats))
    new = gauge.standard_uncertainty(repeats)
    return 0.0 if new == 0.0 or before == 0.0 else before * new / float(np.hypot(before, new))


def _tail(margin: Metre, spread: Metre) -> Probability:
    """Probability that a normal deviation leaves the margin at least zero."""
    if spread == 0.0:
        return float(margin >= 0.0)
    return float(special.ndtr(margin / spread))
