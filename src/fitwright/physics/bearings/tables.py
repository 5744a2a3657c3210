"""Tables of the finite bearing: steady characteristics and mobility over length ratio and eccentricity.

The numbers come from direct solutions (`direct`), made once; here they are interpolated, once
differentiable in both directions. Outside the tables there is no number.
"""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np

from fitwright.physics.bearings.curves import SteadyCurves, curves_from_regular
from fitwright.physics.bearings.mobility import MobilityMap, bordered_planes
from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.physics.numerics.splines import spline_slopes
from fitwright.quantity import FloatArray, Number

DEPTH_SHARES, ANGLE_SHARES = 2, 3
"""Into how many steps those of the mobility tables are divided for the kernels."""


@dataclass(frozen=True, slots=True, eq=False)
class BearingTables:
    """Regular functions of direct solutions, and how they were made.

    Attributes
    ----------
    length_ratio : array (l,) [1]
        Bearing length over journal diameter, ascending.
    eccentricity_ratio : array (n,) [1]
        Ascending, above zero and below one.
    steady : array (l, n, 6) [1]
        `regular_functions` of the steady curves.
    mobility_depth : array (d,) [1]
        -ln(1 - eccentricity ratio), evenly from zero.
    mobility : array (l, d, m, 3) [1]
        Logarithms of M_xi (L/D)^2 / (1 - xi)^(5/2) and of -M_eta (L/D)^2 / (eta (1 - xi)^(3/2)), and
        (P/pmax) / (1 - xi)^(1/2); over the angle g from the eccentricity to the load, evenly in
        arccos(1 - g / pi).
    mass_residual : float [1]
        Largest relative imbalance of the films that were added up.
    grids : array (2, 2)
        Steps around and along, of the steady films and of the squeezed ones.
    solver : str
        Which solver made them.
    """

    length_ratio: FloatArray
    eccentricity_ratio: FloatArray
    steady: FloatArray
    mobility_depth: FloatArray
    mobility: FloatArray
    mass_residual: Number
    grids: FloatArray
    solver: str
    coefficients: FloatArray = field(init=False, repr=False)
    """Value, slopes by eccentricity and by ln of the length ratio, and cross slope: (l, n, 6, 4)."""

    def __post_init__(self) -> None:
        by_length = spline_slopes(np.log(self.length_ratio), self.steady)
        both = np.stack((self.steady, by_length), axis=-1)
        by_both = np.moveaxis(spline_slopes(self.eccentricity_ratio, np.moveaxis(both, 1, 0)), 0, 1)
        parts = (both[..., 0], by_both[..., 0], both[..., 1], by_both[..., 1])
        object.__setattr__(self, "coefficients", np.ascontiguousarray(np.stack(parts, axis=-1)))

    def curves(self, length_ratio: Number) -> SteadyCurves:
        """Steady characteristics at a length ratio of the tables."""
        values = self._blended(length_ratio, self.steady)
        return curves_from_regular(length_ratio, self.eccentricity_ratio, values)

    def mobility_map(self, length_ratio: Number) -> MobilityMap:
        """Mobility at a length ratio of the tables, on nodes close enough for the kernels."""
        planes = self._blended(length_ratio, self.mobility)
        planes = _refined(_refined(planes, DEPTH_SHARES, axis=0), ANGLE_SHARES, axis=1)
        planes[..., 0] = np.exp(planes[..., 0])
        planes[..., 1] = -np.exp(planes[..., 1])
        largest = float(self.mobility_depth[-1])
        return MobilityMap(length_ratio, bordered_planes(planes), largest, f"tables: {self.solver}")

    def _blended(self, length_ratio: Number, values: FloatArray) -> FloatArray:
        """Values at a length ratio, by the spline over its logarithm."""
        at, nodes = np.log(length_ratio) if length_ratio > 0.0 else np.nan, np.log(self.length_ratio)
        if not nodes[0] - 1e-12 <= at <= nodes[-1] + 1e-12:
            domain = f"between {self.length_ratio[0]:.3g} and {self.length_ratio[-1]:.3g}"
            raise OutOfDomainError("length_ratio", length_ratio, domain)
        cell = int(np.clip(np.searchsorted(nodes, at, side="right") - 1, 0, nodes.size - 2))
        slopes = spline_slopes(nodes, values)
        blended: FloatArray = _cubic(nodes, values, slopes, np.array([at]), np.array([cell]))[0]
        return blended


def _cubic(
    nodes: FloatArray, values: FloatArray, slopes: FloatArray, at: FloatArray, cell: FloatArray
) -> FloatArray:
    """Cubic pieces over the first axis, at places in the cells given."""
    width = nodes[cell + 1] - nodes[cell]
    t = ((at - nodes[cell]) / width).reshape(-1, *[1] * (values.ndim - 1))
    width = width.reshape(t.shape)
    second = values[cell + 1] - values[cell]
    bend = 3.0 * second - (2.0 * slopes[cell] + slopes[cell + 1]) * width
    twist = (slopes[cell] + slopes[cell + 1]) * width - 2.0 * second
    result: FloatArray = values[cell] + t * (slopes[cell] * width + t * (bend + t * twist))
    return result


def _refined(values: FloatArray, shares: int, *, axis: int) -> FloatArray:
    """Values between even nodes as well, each step divided evenly."""
    rows = np.moveaxis(values, axis, 0)
    nodes = np.arange(rows.shape[0], dtype=np.float64)
    at = np.arange((rows.shape[0] - 1) * shares + 1) / shares
    cell = np.minimum(at.astype(np.intp), rows.shape[0] - 2)
    return np.moveaxis(_cubic(nodes, rows, spline_slopes(nodes, rows), at, cell), 0, axis)
