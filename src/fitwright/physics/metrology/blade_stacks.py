"""Which blades of a set, put together, come nearest a wanted thickness."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations
from math import comb

import numpy as np

from fitwright.physics.metrology.edges import Edge
from fitwright.physics.metrology.readings import (
    INTERFACE_THICKNESS,
    Blade,
    BladeAnswer,
    BladeReading,
    Drag,
)
from fitwright.physics.metrology.unknowns import require_finite
from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.quantity import Metre

MOST_STACKS = 2_000_000
"""A set that makes more stacks than this is refused: searching them would take seconds."""


@dataclass(frozen=True, slots=True)
class BladeStack:
    """Some blades put together.

    Attributes
    ----------
    blades : tuple of Blade
        The blades, thickest first.
    thickness : float [m]
        Of the stack, with what its interfaces add.
    standard_uncertainty : float [m]
        Of that thickness.
    difference : float [m]
        Thickness less the thickness wanted.
    """

    blades: tuple[Blade, ...]
    thickness: Metre
    standard_uncertainty: Metre
    difference: Metre


def stacks_nearest(
    wanted: Metre, blades: Sequence[Blade], *, largest_stack: int = 3, count: int = 5
) -> tuple[BladeStack, ...]:
    r"""Find the stacks whose thickness comes nearest a wanted one.

    Parameters
    ----------
    wanted : float [m]
        Thickness wanted.
    blades : sequence of Blade
        The blades at hand, each of which can be used once.
    largest_stack : int
        Most blades in a stack.
    count : int
        How many stacks to return.

    Returns
    -------
    tuple of BladeStack
        The nearest first; of equally near ones the one of fewer blades, then the more certain one.

    Raises
    ------
    OutOfDomainError
        If there is no blade, a number means nothing, or the set makes more stacks than can be searched.

    Notes
    -----
    With k blades of thickness :math:`t_i` and :math:`\delta` for each interface:

    .. math:: t = \sum_i t_i + (k - 1)\,\delta, \quad u^2 = \sum_i u_i^2 + (k - 1)\,u_\delta^2

    References
    ----------
    [jcgm100_2008] 5.1.2

    Examples
    --------
    >>> shelf = [Blade(f"{t:.2f}", t * 1e-3, 1e-6) for t in (0.05, 0.10, 0.15, 0.20, 0.25)]
    >>> best = stacks_nearest(0.352e-3, shelf)[0]
    >>> [blade.key for blade in best.blades], f"{best.thickness * 1e3:.3f} mm"
    (['0.25', '0.10'], '0.352 mm')
    """
    require_finite("thickness wanted", wanted)
    if not blades or largest_stack < 1 or count < 1:
        raise OutOfDomainError("blades", len(blades), "at least one, in stacks of one or more")
    sizes = range(1, min(largest_stack, len(blades)) + 1)
    stacks = sum(comb(len(blades), size) for size in sizes)
    if stacks > MOST_STACKS:
        raise OutOfDomainError(
            "stacks that the blades make", stacks, f"at most {MOST_STACKS}; use fewer blades"
        )
    ordered = sorted(blades, key=lambda blade: (-blade.thickness, blade.key))
    near = [chosen for size in sizes for chosen in _nearest(wanted, ordered, size, count)]
    found = [_stack(wanted, tuple(ordered[position] for position in chosen)) for chosen in near]
    # Differences below a nanometre are no differences.
    found.sort(key=lambda one: (round(abs(one.difference), 9), len(one.blades), one.standard_uncertainty))
    return tuple(found[:count])


def _nearest(wanted: Metre, blades: Sequence[Blade], size: int, count: int) -> list[tuple[int, ...]]:
    """Positions of the nearest stacks of one size."""
    chosen = np.fromiter(
        (position for some in combinations(range(len(blades)), size) for position in some), dtype=np.intp
    ).reshape(-1, size)
    thickness = np.array([blade.thickness for blade in blades])[chosen].sum(axis=1)
    distance = np.abs(thickness + (size - 1) * INTERFACE_THICKNESS - wanted).round(9)
    keep = np.argsort(distance, kind="stable")[:count]
    return [tuple(int(position) for position in chosen[row]) for row in keep]


def _stack(wanted: Metre, blades: tuple[Blade, ...]) -> BladeStack:
    edge = Edge.of(BladeReading("stack", "gap", blades, BladeAnswer.GOES, Drag("nobody")))[0]
    return BladeStack(blades, edge.mean, edge.standard_uncertainty, edge.mean - wanted)
