"""What the readings say of every bound at every combination of places, and the verdict that follows."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fitwright.physics.metrology.conformity import (
    Bound,
    DecisionRule,
    Reason,
    Verdict,
    acceptance_limit,
    can_prove,
)
from fitwright.physics.metrology.result import BoundResult
from fitwright.quantity import FloatArray, Numbers


@dataclass(frozen=True, slots=True)
class Outcomes:
    """N combinations against B bounds.

    Attributes
    ----------
    holds : ndarray, shape (N, B)
        Probability with which the readings show that the bound holds; NaN where nothing speaks for it.
    possible : ndarray, shape (N, B)
        Largest probability of the bound that the readings leave open: the same as `holds` where the value is
        known on both sides, 1 where nothing speaks against it.
    value, standard_uncertainty, degrees_of_freedom : ndarray, shape (N,)
        Of each combination; NaN where the gap is open on one side.
    contradicted : ndarray of bool, shape (N,)
        Combinations with answers that cannot all be right: they have no probability.
    """

    holds: FloatArray
    possible: FloatArray
    value: FloatArray
    standard_uncertainty: FloatArray
    degrees_of_freedom: FloatArray
    contradicted: NDArray[np.bool_]

    @classmethod
    def unbounded(cls, combinations: int, bounds: int) -> Outcomes:
        """Outcomes of which nothing is known yet, to be filled in."""
        return cls(
            holds=np.full((combinations, bounds), np.nan),
            possible=np.ones((combinations, bounds)),
            value=np.full(combinations, np.nan),
            standard_uncertainty=np.full(combinations, np.nan),
            degrees_of_freedom=np.full(combinations, np.inf),
            contradicted=np.zeros(combinations, dtype=np.bool_),
        )

    def put(self, rows: Sequence[int], part: Outcomes) -> None:
        """Fill in the outcomes of some combinations."""
        chosen = list(rows)
        for name in (
            "holds",
            "possible",
            "value",
            "standard_uncertainty",
            "degrees_of_freedom",
            "contradicted",
        ):
            getattr(self, name)[chosen] = getattr(part, name)

    def judge(
        self, names: Sequence[tuple[str, ...]], bounds: Sequence[Bound], column: int, rule: DecisionRule
    ) -> tuple[int, BoundResult]:
        """Judge one bound; also the row of the combination that governs it."""
        bound = bounds[column]
        row = self._worst(column, bound, rule)
        holds, possible = float(self.holds[row, column]), float(self.possible[row, column])
        shown = None if np.isnan(holds) else holds
        contradicted = bool(self.contradicted[row])
        verdict = Verdict.UNPROVEN if contradicted else rule.verdict(shown, possible)
        probability = possible if verdict is Verdict.OUTSIDE else shown
        value, uncertainty = float(self.value[row]), float(self.standard_uncertainty[row])
        freedoms = float(self.degrees_of_freedom[row])
        known = not np.isnan(uncertainty)
        return row, BoundResult(
            side=bound.side,
            limit=bound.limit,
            probability=None if contradicted else probability,
            verdict=verdict,
            places=names[row],
            value=None if np.isnan(value) else value,
            standard_uncertainty=uncertainty if known else None,
            degrees_of_freedom=freedoms,
            acceptance_limit=acceptance_limit(bound, uncertainty, rule, freedoms) if known else None,
            reason=self._reason(row, verdict, shown, bounds, rule),
        )

    def _worst(self, column: int, bound: Bound, rule: DecisionRule) -> int:
        """Row of the combination that governs one bound.

        A bound shown to fail somewhere fails; else contradictory answers govern, then a place where nothing
        bounds it, then the least probability. Far from a limit all probabilities are one (or nought) to the
        last digit: there the least margin in standard uncertainties tells them apart.
        """
        margin = margin_of(bound, self.value, self.standard_uncertainty)
        possible = np.where(self.contradicted, 1.0, self.possible[:, column])
        if possible.min() <= rule.outside:
            return _least(possible, margin)
        if self.contradicted.any():
            return int(np.argmax(self.contradicted))
        holds = self.holds[:, column]
        open_ended = np.isnan(holds)
        return int(np.argmax(open_ended)) if open_ended.any() else _least(holds, margin)

    def _reason(
        self, row: int, verdict: Verdict, shown: float | None, bounds: Sequence[Bound], rule: DecisionRule
    ) -> Reason | None:
        if verdict is not Verdict.UNPROVEN:
            return None
        if self.contradicted[row]:
            return Reason.CONTRADICTORY
        uncertainty = float(self.standard_uncertainty[row])
        if np.isnan(uncertainty):
            # A blade that goes and lies far below the limit says nothing about it.
            return Reason.NOTHING_BOUNDS_IT if shown is None or shown <= rule.outside else Reason.AT_THE_LIMIT
        lower = max((bound.limit for bound in bounds if bound.side == "lower"), default=None)
        upper = min((bound.limit for bound in bounds if bound.side == "upper"), default=None)
        if lower is not None and upper is not None and lower > upper:
            return Reason.TOO_COARSE
        freedoms = float(self.degrees_of_freedom[row])
        capable = can_prove(lower, upper, uncertainty, rule, freedoms).can_prove
        return Reason.AT_THE_LIMIT if capable else Reason.TOO_COARSE


def margin_of(bound: Bound, value: Numbers, standard_uncertainty: Numbers) -> FloatArray:
    r"""How many standard uncertainties a value lies inside a bound.

    Parameters
    ----------
    bound : Bound
        The bound.
    value : array_like [1], shape (*s)
        Best values, in the unit of the limit; NaN where there is none.
    standard_uncertainty : array_like [1], shape (*s)
        Standard uncertainties, in the unit of the limit.

    Returns
    -------
    ndarray [1], shape (*s)
        Margins, negative outside; infinite where there is no value.

    Notes
    -----
    .. math:: z_L = (\hat x - L)/u, \quad z_U = (U - \hat x)/u

    It orders combinations of one method; chances of different degrees of freedom go before it.

    References
    ----------
    [jcgm106_2012] 7.3, eq. 6 and 7

    Examples
    --------
    >>> margin_of(Bound("lower", 0.040e-3), [0.043e-3, float("nan")], [0.002e-3, 1e-6]).round(2).tolist()
    [1.5, inf]
    """
    inside = np.subtract(value, bound.limit) if bound.side == "lower" else np.subtract(bound.limit, value)
    spread = np.maximum(standard_uncertainty, np.finfo(np.float64).tiny)
    with np.errstate(over="ignore"):
        margins = inside / spread
    return np.where(np.isnan(margins), np.inf, margins)


def _least(chances: FloatArray, margin: FloatArray) -> int:
    """Row of the least chance; of equal ones that of the least margin, then the first."""
    return int(np.lexsort((margin, chances))[0])
