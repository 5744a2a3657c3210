"""Likelihood of a gap, given the edges that blades at one place stated."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np
from scipy import special

from fitwright.physics.metrology.edges import Edge
from fitwright.physics.metrology.readings import Drag
from fitwright.quantity import FloatArray, Metre

REACH = 7.0
"""Standard uncertainties over which a shared unknown is integrated."""

MOST_SHARED = 2
"""Unknowns that are integrated by a product rule; with more of them the lattice rule of `joint` serves."""

SMOOTH, SHARP = np.polynomial.legendre.leggauss(20), np.polynomial.legendre.leggauss(40)
"""Rules for a shared unknown: where everything else is about as uncertain as it is, and where it is not."""

SHARP_EDGE = 0.4
"""An unshared uncertainty below this share of a shared one calls for the finer rule."""


@dataclass(frozen=True, slots=True)
class Pieces:
    """Edges of one place sorted by what they share.

    Attributes
    ----------
    bodies : tuple of tuple of Edge
        Edges grouped by the thickness that they speak of.
    drags : tuple of Drag
        Drags that enter more than one of them, or bound a thickness together with another edge.
    blades : tuple of (str, float)
        Unknowns of thickness that enter more than one body.
    """

    bodies: tuple[tuple[Edge, ...], ...]
    drags: tuple[Drag, ...]
    blades: tuple[tuple[str, Metre], ...]

    @classmethod
    def of(cls, edges: Sequence[Edge]) -> Pieces:
        """Sort the edges; a drag that nothing else shares becomes part of its edge's thickness."""
        uses = Counter(edge.drag for edge in edges if edge.drag is not None)
        bodies = Counter(edge.parts for edge in edges)
        alone = {
            edge.drag for edge in edges if edge.drag and uses[edge.drag] == 1 and bodies[edge.parts] == 1
        }
        grouped: dict[tuple[tuple[str, Metre], ...], list[Edge]] = {}
        for edge in (edge.folded() if edge.drag in alone else edge for edge in edges):
            grouped.setdefault(edge.parts, []).append(edge)
        shared = Counter(part for parts in grouped for part in parts)
        return cls(
            bodies=tuple(map(tuple, grouped.values())),
            drags=tuple(sorted((drag for drag in uses if drag not in alone), key=lambda drag: drag.key)),
            blades=tuple(sorted(part for part, count in shared.items() if count > 1 and part[1] > 0.0)),
        )

    @property
    def shared(self) -> int:
        """Number of unknowns that have to be integrated over."""
        return len(self.drags) + len(self.blades)

    def likelihood(self, gap: FloatArray) -> FloatArray:
        r"""Probability of all answers at each gap [m], shape (J,).

        Given the shared unknowns the bodies are independent, and each body's edges ask its thickness to lie
        in an interval :math:`(x - d_j, x - d_i]`; the shared unknowns are integrated by a product rule. A
        shared blade that was also tried alone is integrated over just the interval that this leaves it.
        """
        grid = _Grid(
            gap.reshape(-1, *([1] * self.shared)), {}, np.array(1.0), SHARP if self.is_sharp() else SMOOTH
        )
        for axis, drag in enumerate(self.drags, start=1):
            grid = grid.with_drag(drag, axis, positive=self._drags_somewhere(drag))
        waiting = list(self.bodies)
        shifts: dict[str, FloatArray] = {}
        for axis, part in enumerate(self.blades, start=1 + len(self.drags)):
            own = [body for body in waiting if body[0].parts == (part,)]
            waiting = [body for body in waiting if body not in own]
            shifts[part[0]], grid = grid.with_blade(part, axis, own)
        result = np.asarray(grid.weight)
        for body in waiting:
            result = result * grid.body(body, shifts)
        full = np.broadcast_to(result, np.broadcast_shapes(result.shape, grid.gap.shape))
        return np.asarray(full.reshape(len(gap), -1).sum(axis=1))

    def is_sharp(self) -> bool:
        """Whether some body, its shared unknowns given, is known much better than one of these."""
        shared = [drag.standard_uncertainty for drag in self.drags] + [u for _, u in self.blades]
        own = [sum(u * u for key, u in body[0].parts if (key, u) not in self.blades) for body in self.bodies]
        return bool(shared) and bool(own) and min(own) < (SHARP_EDGE * max(shared)) ** 2

    def _drags_somewhere(self, drag: Drag) -> bool:
        """Whether some body is bounded by this drag from above and by nothing but itself from below."""
        return any(
            any(edge.drag == drag and not edge.is_lower for edge in body)
            and any(edge.drag is None and edge.is_lower for edge in body)
            for body in self.bodies
        )


@dataclass(frozen=True, slots=True)
class _Grid:
    """Gaps along the first axis, each shared unknown along one more; `weight` is the rule's."""

    gap: FloatArray
    drags: dict[Drag, FloatArray]
    weight: FloatArray
    rule: tuple[FloatArray, FloatArray]

    def with_drag(self, drag: Drag, axis: int, *, positive: bool) -> _Grid:
        """Integrate over a drag; a drag that makes a blade drag cannot be negative."""
        low = drag.value - REACH * drag.standard_uncertainty
        high = drag.value + REACH * drag.standard_uncertainty
        low = max(low, 0.0) if positive else low
        if drag.standard_uncertainty == 0.0:
            value, weight = np.array([drag.value]), np.array([1.0])
        else:
            value = 0.5 * (low + high) + 0.5 * (high - low) * self.rule[0]
            score = (value - drag.value) / drag.standard_uncertainty
            weight = 0.5 * (high - low) / drag.standard_uncertainty * self.rule[1] * _density(score)
        shape = [-1 if position == axis else 1 for position in range(self.gap.ndim)]
        drags = {**self.drags, drag: value.reshape(shape)}
        return _Grid(self.gap, drags, self.weight * weight.reshape(shape), self.rule)

    def with_blade(
        self, part: tuple[str, Metre], axis: int, own: Sequence[Sequence[Edge]]
    ) -> tuple[FloatArray, _Grid]:
        """Integrate over a shared blade, inside the interval that its own edges leave; also its error."""
        low, high = np.array(-REACH), np.array(REACH)
        for body in own:
            below, above = self.interval(body, body[0].thickness, part[1])
            low, high = np.maximum(low, below), np.minimum(high, above)
        half = 0.5 * np.maximum(high - low, 0.0)
        shape = [-1 if position == axis else 1 for position in range(self.gap.ndim)]
        score = 0.5 * (low + high) + half * self.rule[0].reshape(shape)
        weight = half * self.rule[1].reshape(shape) * _density(score)
        return score * part[1], _Grid(self.gap, self.drags, self.weight * weight, self.rule)

    def body(self, body: Sequence[Edge], shifts: dict[str, FloatArray]) -> FloatArray:
        """Probability that the thickness of a body lies where its edges ask it to."""
        thickness = np.asarray(body[0].thickness)
        for key, _ in body[0].parts:
            thickness = thickness + shifts.get(key, 0.0)
        own = np.sqrt(sum(u * u for key, u in body[0].parts if key not in shifts))
        low, high = self.interval(body, thickness, float(own))
        # The difference is taken in the tail that is small, so that it keeps its digits.
        mirrored = low > 0.0
        first, second = np.where(mirrored, -high, low), np.where(mirrored, -low, high)
        return np.asarray(np.maximum(special.ndtr(second) - special.ndtr(first), 0.0))

    def interval(
        self, body: Sequence[Edge], thickness: FloatArray | Metre, standard_uncertainty: Metre
    ) -> tuple[FloatArray, FloatArray]:
        """Interval of the standardised thickness that the edges of a body ask for."""
        tops = [self._standardised(edge, thickness, standard_uncertainty) for edge in body if edge.is_lower]
        ends = [
            self._standardised(edge, thickness, standard_uncertainty) for edge in body if not edge.is_lower
        ]
        return _extreme(np.maximum, ends, -np.inf), _extreme(np.minimum, tops, np.inf)

    def _standardised(
        self, edge: Edge, thickness: FloatArray | Metre, standard_uncertainty: Metre
    ) -> FloatArray:
        room = self.gap - thickness
        if edge.drag is not None:
            room = room - self.drags[edge.drag]
        if standard_uncertainty == 0.0:
            return np.where(room >= 0.0, np.inf, -np.inf)
        return np.asarray(room / standard_uncertainty)


def _density(score: FloatArray) -> FloatArray:
    return np.asarray(np.exp(-0.5 * score * score) / np.sqrt(2.0 * np.pi))


def _extreme(choose: np.ufunc, found: Iterable[FloatArray], start: float) -> FloatArray:
    result = np.array(start)
    for one in found:
        result = np.asarray(choose(result, one))
    return result
