"""How what is known of a chain is spread over its values: for pictures, by the same sums as the verdicts."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np

from fitwright.physics.metrology.chain import judge_chain
from fitwright.physics.metrology.combinations import Term
from fitwright.physics.metrology.conformity import Bound, DecisionRule
from fitwright.physics.metrology.readings import BladeReading, ValueReading
from fitwright.physics.metrology.result import BoundResult, ChainResult
from fitwright.physics.metrology.unknowns import Shared
from fitwright.quantity import FloatArray, Metre

POINTS = 96
"""So many points, evenly spaced, show a distribution."""
BEYOND = 0.55
"""How far the points reach beyond the 95 % interval, in widths of it: to 4.1 standard uncertainties."""
STEPS = 36
"""So many doublings find how wide the edge of a gap is that is open on one side."""
PLATEAU = 3.0
"""How many widths of its edge an open gap is shown on."""

Open = Literal["", "above", "below"]


@dataclass(frozen=True, slots=True)
class Distribution:
    """What is known of a quantity, point by point.

    Attributes
    ----------
    value : ndarray [1], shape (K,)
        Points, in the unit of the chain (metres for lengths), evenly spaced, in rising order.
    height : ndarray, shape (K,)
        Density over its largest; where a side is open, the likelihood of the point over its largest.
    share : ndarray, shape (K,)
        Probability of the strip around each point; none (NaN) where a side is open.
    open_side : {"", "above", "below"}
        Which side nothing bounds.
    method : str
        How it was found: "values", "truncated", "blades one side".
    """

    value: FloatArray
    height: FloatArray
    share: FloatArray
    open_side: Open
    method: str


def distribution_of_chain(
    terms: Sequence[Term],
    value_readings: Sequence[ValueReading],
    blade_readings: Sequence[BladeReading],
    *,
    places: tuple[str, ...],
    constant: Metre = 0.0,
    extra: tuple[Shared, ...] = (),
    absolute: bool = False,
) -> Distribution | None:
    r"""How one combination of a chain is distributed, from the same evidence as its verdict.

    Parameters
    ----------
    terms : sequence of Term
        The dimensions with their factors and places.
    value_readings : sequence of ValueReading
        Values.
    blade_readings : sequence of BladeReading
        Answers of blades and plugs.
    places : tuple of str
        The combination: one place for each term.
    constant : float [m]
        Added to the chain.
    extra : tuple of Shared
        Unknowns that enter the chain itself.
    absolute : bool
        Take the size of the chain without its sign.

    Returns
    -------
    Distribution or None
        The distribution; None where nothing is known, or answers contradict each other.

    Raises
    ------
    MetrologyError
        If readings or unknowns contradict each other in form.

    Notes
    -----
    The share of a strip is the difference of two probabilities that a bound holds,

    .. math:: P(a < x \le b) = P(x \le b) - P(x \le a),

    each found as for a verdict: Student's for values, and for blades the flat prior times the likelihood of
    all answers. Where blades leave one side open the posterior has no total; shown is then the likelihood,

    .. math:: L(x) = P(\text{edge} \le x),

    which rises to one over the width of the edge, and stays there as far as anybody can tell.

    References
    ----------
    [jcgm106_2012] 6.2 and 7.2; [jcgm101_2008] 6.4.9

    Examples
    --------
    >>> bore = ValueReading("r1", "bore", 50.060e-3, 1.5e-6)
    >>> shown = distribution_of_chain([Term(1.0, ("bore",))], [bore], [], places=("bore",))
    >>> print(shown.method, f"{shown.value[shown.height.argmax()] * 1e3:.3f} mm", f"{shown.share.sum():.4f}")
    values 50.060 mm 0.9999
    """

    def judged(bounds: Sequence[Bound]) -> ChainResult:
        return judge_chain(
            terms,
            value_readings,
            blade_readings,
            bounds,
            DecisionRule(),
            constant=constant,
            extra=extra,
            pairs=[places],
            absolute=absolute,
        )

    known = judged([])
    low, high = known.interval
    if known.contradictions or not known.method:
        return None
    if low is not None and high is not None:
        return _closed(judged, low, high, known.method) if high > low else None
    if low is not None or high is not None:
        return _open(judged, low, high, known.method)
    return None


def _closed(
    judged: Callable[[Sequence[Bound]], ChainResult], low: Metre, high: Metre, method: str
) -> Distribution:
    reach = BEYOND * (high - low)
    edges = np.linspace(low - reach, high + reach, POINTS + 1)
    below = np.array([one.probability or 0.0 for one in judged(_bounds("upper", edges)).bounds])
    share = np.clip(np.diff(below), 0.0, 1.0)
    return Distribution(0.5 * (edges[:-1] + edges[1:]), share / share.max(), share, "", method)


def _open(
    judged: Callable[[Sequence[Bound]], ChainResult], low: Metre | None, high: Metre | None, method: str
) -> Distribution:
    """A gap that is at least something, or at most something, and nobody knows how much more or less."""
    side: Literal["lower", "upper"] = "lower" if low is not None else "upper"
    end = low if low is not None else high or 0.0
    outwards = 1.0 if low is not None else -1.0
    least = 1e-9 * max(abs(end), 1e-6)
    steps: FloatArray = end + outwards * least * np.exp2(np.arange(STEPS, dtype=np.float64))
    sure = np.array([_likelihood(one) for one in judged(_bounds(side, steps)).bounds]) > 0.999
    width = float(abs(steps[int(np.argmax(sure))] - end)) if sure.any() else abs(end)
    before, beyond = end - outwards * width, end + outwards * PLATEAU * width
    value = np.linspace(min(before, beyond), max(before, beyond), POINTS)
    height = np.array([_likelihood(one) for one in judged(_bounds(side, value)).bounds])
    return Distribution(
        value, height, np.full(POINTS, np.nan), "above" if low is not None else "below", method
    )


def _likelihood(one: BoundResult) -> float:
    """How likely the answers are if the gap is just at a bound: the chance that its edge lies beyond."""
    return 1.0 - one.probability if one.probability is not None else 1.0


def _bounds(side: Literal["lower", "upper"], limits: FloatArray) -> list[Bound]:
    return [Bound(side, float(limit)) for limit in limits]
