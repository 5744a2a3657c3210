"""What each parameter does to each pressure and flow, exactly."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from fitwright.physics.network.solution import Solution
from fitwright.physics.oil.oil import oil_parameters
from fitwright.quantity import FloatArray


@dataclass(frozen=True, slots=True, eq=False)
class Derivatives:
    """Slopes of the solution by its parameters, for one sample; NaN where it did not converge.

    Attributes
    ----------
    parameter_names : tuple of str
        As in `Circuit.parameter_names`.
    gauge_pressure : array (p, nodes, k)
        Slope of each node's gauge pressure [Pa] by each parameter [its SI unit].
    flow : array (p, paths, k)
        Slope of each path's flow [m3/s].
    """

    parameter_names: tuple[str, ...]
    gauge_pressure: FloatArray
    flow: FloatArray

    def of_pressure(self, node: int, parameter: str) -> FloatArray:
        """Slope (p,) of one node's pressure by one parameter."""
        return self.gauge_pressure[:, node, self.parameter_names.index(parameter)]


def derivatives(
    solution: Solution, *, sample: int = 0, parameters: Iterable[str] | None = None
) -> Derivatives:
    r"""Derivatives of all node pressures and path flows by the parameters.

    Parameters
    ----------
    solution : Solution
        A solution.
    sample : int
        Which of its samples.
    parameters : iterable of str or None
        Those that are wanted, the others are left zero; None takes all.

    Returns
    -------
    Derivatives
        Slopes at every operating point.

    Notes
    -----
    By the implicit function theorem on the balance of flows F(p, theta) = 0,

    .. math:: \frac{dp}{d\theta} = -\left(\frac{\partial F}{\partial p}\right)^{-1}
              \frac{\partial F}{\partial \theta}

    with one factorization for all parameters. What an element's flow does with one of its own sizes
    comes from its law where the law gives it (clearance of bearings and of the relief plunger, spring
    preload), else from a central difference of fourth order of that law alone, at fixed pressures, with
    a step of 1e-4 of the size: 1e-8 or better where the law is smooth.

    References
    ----------
    [krantz2013] implicit function theorem

    Examples
    --------
    A square law behind a fixed flow: pressure falls with the fourth power of the diameter.

    >>> from fitwright.physics.network.circuit import Circuit, Path, SUMP
    >>> from fitwright.physics.network.elements import Orifice, Pump
    >>> from fitwright.physics.network.sizes import Named
    >>> from fitwright.physics.network.solve import solve
    >>> from fitwright.physics.oil.oil import Oil
    >>> paths = (Path("pump", SUMP, "gallery", Pump(1.59e-6)),
    ...          Path("jet", "gallery", SUMP, Orifice(Named("hole"))))
    >>> found = solve(Circuit(paths, {"hole": 2e-3}), Oil(105e-6, 11.4e-6, 880.0), angular_speeds=400.0,
    ...               oil_temperatures=363.15)
    >>> slope = derivatives(found).of_pressure(0, "hole") * 2e-3 / found.pressure_at("gallery")[0]
    >>> slope.round(3)
    array([-4.])
    """
    from fitwright.physics.network.kernels.points import slopes_of_points

    compiled, names = solution.compiled, solution.circuit.parameter_names
    chosen = set(names if parameters is None else parameters)
    wanted = np.array([float(name in chosen) for name in names])
    points, layout = solution.angular_speeds.size, compiled.layout
    pressure = np.full((points, len(names), layout.diagonal.size), np.nan)
    flow = np.full((points, len(names), layout.parts.shape[0]), np.nan)
    slopes_of_points(
        layout,
        np.arange(points),
        solution.angular_speeds,
        solution.oil_temperatures,
        solution.parameters[sample].copy(),
        wanted,
        oil_parameters(solution.oil),
        solution.place_pressures[sample].copy(),
        pressure,
        flow,
    )
    return Derivatives(
        names,
        np.moveaxis(pressure[..., compiled.node_places], 1, 2),
        np.moveaxis(flow[..., compiled.path_parts], 1, 2),
    )
