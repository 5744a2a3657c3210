"""A quantity that is normal around each of many weighted nodes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
from scipy import special

from fitwright.physics.metrology.conformity import Bound
from fitwright.physics.metrology.outcomes import Outcomes
from fitwright.quantity import FloatArray, Metre, Probability

MOST_STEPS = 60
CLOSE_ENOUGH: Probability = 1e-7
"""The end of an interval is found where its probability is right to this."""

LEAST_WIDTH = 1e-6
"""A narrower box counts as this wide, in shares of what it is compared with, to keep its digits."""


@dataclass(frozen=True, slots=True)
class Mixture:
    """N quantities, each normal around J nodes that share their weights.

    Attributes
    ----------
    mean : ndarray [m], shape (N, J)
        Mean of each quantity at each node.
    weight : ndarray, shape (J,)
        Probability of each node.
    spread : ndarray [m], shape (N,)
        Standard deviation of each quantity around its nodes.
    reach : ndarray [m], shape (N, J)
        Each node is not a point but even over this much on either side; zero by default.
    """

    mean: FloatArray
    weight: FloatArray
    spread: FloatArray
    reach: FloatArray = field(default_factory=lambda: np.zeros((1, 1)))

    def value(self) -> FloatArray:
        """Mean of each quantity [m], shape (N,)."""
        return self.mean @ self.weight

    def standard_uncertainty(self) -> FloatArray:
        """Standard deviation of each quantity [m], shape (N,)."""
        return np.asarray(np.sqrt(self.node_variance() + self.spread**2))

    def node_variance(self) -> FloatArray:
        """Variance of the nodes of each quantity [m2], shape (N,)."""
        off = self.mean - self.value()[:, np.newaxis]
        return np.asarray((off**2 + self.reach**2 / 3.0) @ self.weight)

    def at_most(self, limit: Metre, *, inclusive: bool = True) -> FloatArray:
        """Probability that each quantity is at most the limit, shape (N,)."""
        chance = _at_most(limit - self.mean, self.spread[:, np.newaxis], self.reach, inclusive=inclusive)
        return np.asarray(chance @ self.weight)

    def probability(self, bound: Bound, *, absolute: bool) -> FloatArray:
        """Probability that the bound holds for each quantity, shape (N,); `absolute` drops the sign."""
        below = self.at_most(bound.limit, inclusive=bound.side == "upper")
        if absolute:
            below = below - self.at_most(-bound.limit, inclusive=bound.side == "lower")
        return np.clip(below if bound.side == "upper" else 1.0 - below, 0.0, 1.0)

    def outcomes(self, bounds: Sequence[Bound], *, absolute: bool) -> Outcomes:
        """Probability of each bound for each quantity."""
        result = Outcomes.unbounded(len(self.mean), len(bounds))
        for column, bound in enumerate(bounds):
            result.holds[:, column] = self.probability(bound, absolute=absolute)
        result.possible[:] = result.holds
        value = self.value()
        result.value[:] = np.abs(value) if absolute else value
        result.standard_uncertainty[:] = self.standard_uncertainty()
        return result

    def interval(self, row: int, probability: Probability) -> tuple[Metre, Metre]:
        """Probabilistically symmetric coverage interval [m] of one quantity."""
        tail = 0.5 * (1.0 - probability)
        return self.quantile(row, tail), self.quantile(row, 1.0 - tail)

    def quantile(self, row: int, probability: Probability) -> Metre:
        """Value [m] that one quantity stays below with a probability."""
        one = Mixture(
            self.mean[row : row + 1],
            self.weight,
            self.spread[row : row + 1],
            self.reach[row : row + 1] if len(self.reach) > 1 else self.reach,
        )
        if not one.spread.any() and not one.reach.any():
            order = np.argsort(one.mean[0])
            weight = self.weight[order]
            return float(np.interp(probability, np.cumsum(weight) - 0.5 * weight, one.mean[0, order]))
        return one.root(probability)

    def root(self, probability: Probability) -> Metre:
        """Where the first quantity's distribution function reaches a probability, by false position [m].

        The end that stays is halved in weight (the Illinois rule), so that both ends close in. It ends where
        the probability is right to `CLOSE_ENOUGH`, or, where the function steps, with the bracket of the step
        a millionth of its first width or less: a third of the steps halve it whatever the function.
        """
        beyond = 9.0 * self.spread[0] + self.reach.max()
        low, high = float(self.mean.min() - beyond), float(self.mean.max() + beyond)
        below, above = -probability, 1.0 - probability
        for step in range(MOST_STEPS):
            # A third of the steps halve the bracket, whatever the shape of the function.
            part = 0.5 if step % 3 == 2 else below / (below - above)
            guess = low + part * (high - low)
            off = float(self.at_most(guess)[0]) - probability
            if abs(off) < CLOSE_ENOUGH:
                return guess
            if off < 0.0:
                low, below, above = guess, off, 0.5 * above
            else:
                high, above, below = guess, off, 0.5 * below
        return 0.5 * (low + high)


def _at_most(room: FloatArray, spread: FloatArray, reach: FloatArray, *, inclusive: bool) -> FloatArray:
    """Probability that a node's quantity does not pass a limit that lies `room` above it."""
    if reach.any():
        return _box_at_most(room, spread, reach)
    reached = room >= 0.0 if inclusive else room > 0.0
    if not spread.any():
        return reached.astype(np.float64)
    score = np.divide(room, spread, out=np.where(reached, np.inf, -np.inf), where=spread > 0.0)
    return np.asarray(special.ndtr(score))


def _box_at_most(room: FloatArray, spread: FloatArray, reach: FloatArray) -> FloatArray:
    """The same for a node that is even over `reach` on either side.

    The integral of the normal distribution function is G(t) = t F(t) + f(t).
    """
    width = np.maximum(2.0 * reach, LEAST_WIDTH * np.maximum(spread, np.abs(room).max()))
    ends = room + 0.5 * width, room - 0.5 * width
    if not spread.any():
        return np.asarray(np.clip(ends[0] / width, 0.0, 1.0))
    first, second = (spread * _integral(end / spread) for end in ends)
    return np.asarray(np.clip((first - second) / width, 0.0, 1.0))


def _integral(score: FloatArray) -> FloatArray:
    density = np.exp(-0.5 * score * score) / np.sqrt(2.0 * np.pi)
    return np.asarray(score * special.ndtr(score) + density)
