"""The size of the one member that a fit still lacks."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import inf

import numpy as np

from fitwright.physics.metrology.combinations import Term, combinations
from fitwright.physics.metrology.conformity import Bound, DecisionRule
from fitwright.physics.metrology.estimation import estimate
from fitwright.physics.metrology.known import KnownPart
from fitwright.physics.metrology.readings import ValueReading
from fitwright.physics.metrology.sources import Contributions, Source
from fitwright.physics.metrology.student import student_quantile
from fitwright.physics.metrology.unknowns import Shared, require_uncertainty
from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.quantity import FloatArray, Metre


@dataclass(frozen=True, slots=True)
class SizeWanted:
    """Sizes of the missing member with which the fit would be proven.

    Attributes
    ----------
    smallest, largest : float [m] or None
        Range of the size as it will be measured; None on a side without a limit.
    is_possible : bool
        Whether there is such a size; if not, `smallest` lies above `largest`.
    middle : float [m] or None
        Middle of the range: what to aim at; None where a side is open.
    standard_uncertainty : float [m]
        Largest standard uncertainty of the fit that was taken off, the missing member's own included.
    """

    smallest: Metre | None
    largest: Metre | None
    is_possible: bool
    middle: Metre | None
    standard_uncertainty: Metre


def size_wanted(
    terms: Sequence[Term],
    readings: Sequence[ValueReading],
    coefficient: float,
    bounds: Sequence[Bound],
    rule: DecisionRule,
    *,
    repeatability: Metre = 0.0,
    shared: tuple[Shared, ...] = (),
    constant: Metre = 0.0,
    extra: tuple[Shared, ...] = (),
    pairs: Sequence[tuple[str, ...]] | None = None,
) -> SizeWanted:
    r"""Find the sizes of the one missing member of a chain with which every bound would be proven.

    Parameters
    ----------
    terms : sequence of Term
        The members that were measured.
    readings : sequence of ValueReading
        Their readings.
    coefficient : float
        Factor with which the missing member enters.
    bounds : sequence of Bound
        The bounds of the fit.
    rule : DecisionRule
        When a bound counts as proven.
    repeatability : float [m]
        Standard uncertainty of its own that the reading of the new member will have.
    shared : tuple of Shared
        Unknowns that this reading will share (with the same micrometer they may cancel).
    constant : float [m]
        Added to the chain.
    extra : tuple of Shared
        Unknowns that enter the chain itself.
    pairs : sequence of tuple of str, or None
        Only these combinations of the measured members.

    Returns
    -------
    SizeWanted
        What to order, file, shim or lap to.

    Raises
    ------
    OutOfDomainError
        If the missing member does not enter the chain, or a measured one has no reading.

    Notes
    -----
    With the rest :math:`r_n` of each combination and its uncertainty :math:`u_n`, which includes the new
    reading's, a size :math:`s` proves a lower and an upper limit if for every n

    .. math:: r_n + a s - k u_n \ge L, \quad r_n + a s + k u_n \le U

    References
    ----------
    [jcgm106_2012] 8.3.2 (guarded acceptance)

    Examples
    --------
    >>> housing = ValueReading("r1", "housing", 54.020e-3, 1e-6)
    >>> wanted = size_wanted(
    ...     [Term(1.0, ("housing",))],
    ...     [housing],
    ...     -1.0,
    ...     [Bound("lower", 40e-6), Bound("upper", 75e-6)],
    ...     DecisionRule(),
    ...     repeatability=1e-6,
    ... )
    >>> f"{wanted.smallest * 1e3:.4f} to {wanted.largest * 1e3:.4f} mm"
    '53.9473 to 53.9777 mm'
    """
    if coefficient == 0.0:
        raise OutOfDomainError("coefficient of the missing member", coefficient, "other than zero")
    require_uncertainty("repeatability of the missing member", repeatability)
    places = {place for term in terms for place in term.places}
    used = [reading for reading in readings if reading.place in places]
    selected = combinations(terms, {reading.place for reading in used}, pairs)
    if not selected.names:
        raise OutOfDomainError("readings", len(used), "one or more for each measured member")
    own = tuple(Shared(one.unknown, coefficient * one.sensitivity) for one in shared)
    part = KnownPart.of(selected, estimate(used), constant, (*extra, *own))
    u, guard = _guard(part, coefficient * repeatability, rule)
    at_least = [(bound.limit - part.value + guard) for bound in bounds if bound.side == "lower"]
    at_most = [(bound.limit - part.value - guard) for bound in bounds if bound.side == "upper"]
    floor = max((float(one.max()) for one in at_least), default=None)
    ceiling = min((float(one.min()) for one in at_most), default=None)
    return _range(floor, ceiling, coefficient, float(u.max()))


def _guard(part: KnownPart, own: Metre, rule: DecisionRule) -> tuple[FloatArray, FloatArray]:
    """Standard uncertainty of each combination with the new reading, and its guard band."""
    values = np.hstack((part.contributions.values, np.full((len(part.value), 1), own)))
    new = Source("missing member", abs(own), inf, "missing member")
    whole = Contributions(values, (*part.contributions.sources, new))
    u = whole.standard_uncertainty()
    scores = [student_quantile(float(freedoms), rule.within) for freedoms in whole.degrees_of_freedom()]
    return u, np.array(scores) * u


def _range(floor: Metre | None, ceiling: Metre | None, coefficient: float, u: Metre) -> SizeWanted:
    low = None if floor is None else floor / coefficient
    high = None if ceiling is None else ceiling / coefficient
    smallest, largest = (low, high) if coefficient > 0.0 else (high, low)
    if smallest is None or largest is None:
        return SizeWanted(smallest, largest, is_possible=True, middle=None, standard_uncertainty=u)
    return SizeWanted(
        smallest,
        largest,
        is_possible=smallest <= largest,
        middle=0.5 * (smallest + largest),
        standard_uncertainty=u,
    )
