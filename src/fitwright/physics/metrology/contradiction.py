"""Answers that cannot all be right, and the weight of each explanation."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import product

import numpy as np
from scipy import special

from fitwright.physics.metrology.edges import Edge
from fitwright.physics.metrology.result import Contradiction, Explanation
from fitwright.quantity import Metre, Probability

LEAST_CONSISTENT: Probability = 0.05
"""Answers that are consistent with less than this probability contradict each other."""

MISTYPED: Probability = 1.0 / 200.0
"""How often one answer is mistyped."""

ELSEWHERE: Probability = 1.0 / 400.0
"""How often one reading is put down at another place: taken as half as often as a mistyped answer."""

THICKNESS = "blade thickness differs from its marking"
SLIP = "one answer mistyped (1 in 200)"
OTHER_PLACE = "read at another place"


def contradiction_at(
    place: str,
    edges: Sequence[Edge],
    prior: tuple[Metre, Metre] | None = None,
    value_readings: tuple[str, ...] = (),
) -> Contradiction | None:
    r"""Find the two statements at a place that agree least, if they agree too little.

    Parameters
    ----------
    place : str
        The place.
    edges : sequence of Edge
        What blades stated there.
    prior : (float, float) [m] or None
        Value and standard uncertainty known there from values.
    value_readings : tuple of str
        Keys of the value readings behind that.

    Returns
    -------
    Contradiction or None
        The least consistent pair with its explanations; None where all can be right.

    Notes
    -----
    Every lower edge is held against every upper edge of another reading, and each edge against the value:

    .. math:: P_{ij} = \Phi\!\left(\frac{\bar B_j - \bar B_i}{u(B_j - B_i)}\right)

    Below `LEAST_CONSISTENT` they contradict each other. The explanations are weighed by how often they
    happen: thickness (or the value) as far out as that by :math:`P_{ij}` itself, a mistyped answer by
    `MISTYPED` and a reading put down at another place by `ELSEWHERE` for each reading of the pair.

    References
    ----------
    [jcgm106_2012] 6.2 (prior knowledge and readings combined)

    Examples
    --------
    >>> from fitwright.physics.metrology.readings import Blade, BladeAnswer, BladeReading, Drag
    >>> thin, thick = Blade("0.05", 50e-6, 1e-6), Blade("0.06", 60e-6, 1e-6)
    >>> readings = [
    ...     BladeReading("r1", "end gap", (thin,), BladeAnswer.DOES_NOT_GO, Drag("builder")),
    ...     BladeReading("r2", "end gap", (thick,), BladeAnswer.GOES, Drag("builder")),
    ... ]
    >>> found = contradiction_at("end gap", [edge for one in readings for edge in Edge.of(one)])
    >>> found.readings, found.explanations[0].text
    (('r1', 'r2'), 'one answer mistyped (1 in 200)')
    """
    floors = [edge for edge in edges if edge.is_lower]
    ceilings = [edge for edge in edges if not edge.is_lower]
    found: list[tuple[Probability, tuple[str, ...]]] = [
        (_consistent(*lower.against(upper)), (lower.reading, upper.reading))
        for lower, upper in product(floors, ceilings)
        if lower.reading != upper.reading
    ]
    if prior is not None:
        value, u = prior
        for edge in edges:
            margin = value - edge.mean if edge.is_lower else edge.mean - value
            spread = float(np.hypot(u, edge.standard_uncertainty))
            found.append((_consistent(margin, spread), (edge.reading, *value_readings)))
    probability, readings = min(found, default=(1.0, ()))
    if probability >= LEAST_CONSISTENT:
        return None
    return Contradiction(
        place, tuple(sorted(readings)), probability, _explanations(probability, len(readings))
    )


def _consistent(margin: Metre, standard_uncertainty: Metre) -> Probability:
    if standard_uncertainty == 0.0:
        # A gap that is at least t and less than t is none.
        return float(margin > 0.0)
    return float(special.ndtr(margin / standard_uncertainty))


def _explanations(probability: Probability, readings: int) -> tuple[Explanation, ...]:
    weights = {
        THICKNESS: probability,
        SLIP: 1.0 - (1.0 - MISTYPED) ** readings,
        OTHER_PLACE: 1.0 - (1.0 - ELSEWHERE) ** readings,
    }
    total = sum(weights.values())
    ranked = sorted(weights.items(), key=lambda item: -item[1])
    return tuple(Explanation(text, weight / total) for text, weight in ranked)
