"""What the answers at one place, and the values there if any, leave of its gap."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import inf

import numpy as np

from fitwright.physics.metrology.edges import Edge
from fitwright.physics.metrology.likelihood import Pieces
from fitwright.physics.metrology.panels import panel_rule
from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.quantity import FloatArray, Metre

STEPS = (0.0, 1.5, 3.0, 6.5)
"""Break points around an edge or a value, in its standard uncertainties."""

EXACT = 1e-12
"""Least width of an edge without uncertainty, as a share of its size."""


@dataclass(frozen=True, slots=True)
class Posterior:
    """A gap at one place as weighted nodes.

    Attributes
    ----------
    gap : ndarray [m], shape (J,)
        Nodes in rising order.
    weight : ndarray, shape (J,)
        Their probabilities, which add up to one.
    prior : (float, float) or None
        Value and standard uncertainty [m] known from values; None for a flat prior.
    """

    gap: FloatArray
    weight: FloatArray
    prior: tuple[Metre, Metre] | None

    @property
    def mean(self) -> Metre:
        """Mean [m]."""
        return float(self.weight @ self.gap)

    @property
    def standard_uncertainty(self) -> Metre:
        """Standard deviation [m]."""
        return float(np.sqrt(self.weight @ (self.gap - self.mean) ** 2))

    @classmethod
    def of(
        cls, edges: Sequence[Edge], prior: tuple[Metre, Metre] | None, breaks: Sequence[Metre] = ()
    ) -> Posterior:
        r"""Multiply the prior by the likelihood of all answers.

        Parameters
        ----------
        edges : sequence of Edge
            Edges of the place; without a prior, some on both sides.
        prior : (float, float) or None
            Value and standard uncertainty [m] known from values; None for a flat prior.
        breaks : sequence of float [m]
            Where what is asked of the gap steps or bends (its limits).

        Returns
        -------
        Posterior
            Nodes and probabilities.

        Raises
        ------
        OutOfDomainError
            If the sizes lie so far apart that nothing is left within the reach of a float.

        Notes
        -----
        .. math:: p(x) \propto p_0(x)\; P(\text{all lower edges} \le x < \text{all upper edges})
        """
        low, high = _range(edges, prior)
        every = list(breaks)
        for centre, width in [(edge.mean, edge.standard_uncertainty) for edge in edges] + (
            [prior] if prior else []
        ):
            every.extend(centre + sign * step * width for step in STEPS for sign in (-1.0, 1.0))
        gap, weight = panel_rule(low, high, every)
        weight = weight * Pieces.of(edges).likelihood(gap)
        if prior is not None:
            score = (gap - prior[0]) / prior[1]
            weight = weight * np.exp(-0.5 * score * score)
        total = float(weight.sum())
        if not 0.0 < total < inf:
            raise OutOfDomainError("what the answers leave of the gap", total, "above zero and finite")
        return cls(gap, weight / total, prior)


def _range(edges: Sequence[Edge], prior: tuple[Metre, Metre] | None) -> tuple[Metre, Metre]:
    reach = STEPS[-1]
    floors = [edge.mean - reach * edge.standard_uncertainty for edge in edges if edge.is_lower]
    ceilings = [edge.mean + reach * edge.standard_uncertainty for edge in edges if not edge.is_lower]
    if prior is not None:
        floors.append(prior[0] - reach * prior[1])
        ceilings.append(prior[0] + reach * prior[1])
    low, high = max(floors), min(ceilings)
    # Blades without uncertainty that meet leave a point; it is given the least width that floats can show.
    least = EXACT * max(abs(low), abs(high), EXACT)
    return (low, high) if high - low > least else (low - least, low + least)
