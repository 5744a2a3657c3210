"""Several blade-read places at once, or answers that share many unknowns: by a lattice rule."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from scipy import special

from fitwright.physics.metrology.edges import Edge
from fitwright.physics.metrology.given import Given
from fitwright.physics.metrology.lattice import POINTS, lattice_points
from fitwright.quantity import FloatArray

FEWEST = 400
"""With fewer points that carry weight a probability would be wrong by 0.02 or more."""

BARELY = (
    "the answers at {places} barely agree with each other: too few cases are left for a probability;"
    " read them again"
)


@dataclass(frozen=True, slots=True)
class Joint:
    """Gaps of several places as weighted points, with the errors of every blade and hand.

    Attributes
    ----------
    gaps : ndarray [m], shape (J, T)
        Gap of each place at each point.
    reach : ndarray [m], shape (J,)
        The last gap is even over this much on either side; zero where values were read there.
    weight : ndarray, shape (J,)
        Probability of each point; they add up to one, or are zero where no point agrees with all answers.
    errors : mapping of str to ndarray [m], shape (J,)
        Error of each unknown at each point.
    """

    gaps: FloatArray
    reach: FloatArray
    weight: FloatArray
    errors: Mapping[str, FloatArray]

    @classmethod
    def of(cls, given: Given, edges: Mapping[str, Sequence[Edge]], further: Sequence[Edge] = ()) -> Joint:
        r"""Fill the space of all unknowns evenly and weigh each point by the room that it leaves the gaps.

        Parameters
        ----------
        given : Given
            The places, with what values say of them.
        edges : mapping of str to sequence of Edge
            Edges of each of those places.
        further : sequence of Edge
            Edges of other places whose unknowns are wanted too.

        Returns
        -------
        Joint
            Points with their weights.

        Notes
        -----
        With the unknowns :math:`z` on a lattice, a gap with a flat prior is even between its largest lower
        edge and its least upper edge, a gap with values is normal and cut there; the weight of a point is
        the product of the room left:

        .. math:: w(z) = \prod_\mathrm{flat} (h - l)^+ \prod_\mathrm{values} (\Phi(h') - \Phi(l'))^+
        """
        known = {
            key: u for place in given.places for edge in edges[place] for key, u in edge.unknowns.items()
        }
        known |= {key: u for edge in further for key, u in edge.unknowns.items()}
        points = lattice_points(len(known) + len(given.places))
        normal = special.ndtri(points[:, : len(known)])
        errors = {key: known[key] * normal[:, column] for column, key in enumerate(sorted(known))}
        gaps = np.empty((POINTS, len(given.places)))
        weight, reach = np.ones(POINTS), np.zeros(POINTS)
        scores = np.empty((POINTS, len(given.prior_value)))
        for column, place in enumerate(given.places):
            low, high = _room(edges[place], errors)
            # The last flat gap is integrated in closed form, which smooths what is left for the lattice.
            last = column == len(given.places) - 1
            share: FloatArray | float = points[:, len(known) + column]
            if column < len(given.prior_value):
                row = given.prior_factor[column]
                centre = given.prior_value[column] + scores[:, :column] @ row[:column]
                start, end = (
                    special.ndtr((low - centre) / row[column]),
                    special.ndtr((high - centre) / row[column]),
                )
                scores[:, column] = special.ndtri(np.clip(start + share * (end - start), 1e-300, 1.0 - 1e-16))
                gaps[:, column] = centre + row[column] * scores[:, column]
            else:
                start, end = low, high
                share = 0.5 if last else share
                gaps[:, column] = low + share * (high - low)
                reach = 0.5 * np.maximum(high - low, 0.0) if last else reach
            weight = weight * np.maximum(end - start, 0.0)
        total = float(weight.sum())
        return cls(gaps, reach, weight / total if total > 0.0 else weight, errors)

    @property
    def agrees(self) -> bool:
        """Whether enough points carry weight for a probability."""
        squares = float(self.weight @ self.weight)
        return squares > 0.0 and squares * FEWEST <= 1.0

    def edge(self, edge: Edge) -> FloatArray:
        """Value of an edge [m] at each point, shape (J,)."""
        return np.asarray(edge.mean + sum(self.errors[key] for key in edge.unknowns))


def _room(edges: Sequence[Edge], errors: Mapping[str, FloatArray]) -> tuple[FloatArray, FloatArray]:
    """Largest lower and least upper edge [m] at each point."""
    low, high = np.full(POINTS, -np.inf), np.full(POINTS, np.inf)
    for edge in edges:
        value = edge.mean + sum(errors[key] for key in edge.unknowns)
        if edge.is_lower:
            low = np.maximum(low, value)
        else:
            high = np.minimum(high, value)
    return low, high
