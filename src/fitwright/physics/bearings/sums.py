"""Forces, flows and shear of a solved film, dimensionless as in the kernels."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from fitwright.physics.bearings.grids import FilmNodes, parabolic_weights
from fitwright.quantity import FloatArray


@dataclass(frozen=True, slots=True, eq=False)
class FilmFields:
    """Pressure and emptiness at the nodes, and what drove them."""

    pressure: FloatArray
    emptiness: FloatArray
    squeeze: FloatArray
    wedge: float
    conserving: bool


@dataclass(frozen=True, slots=True, eq=False)
class FilmSums:
    """What a film does as a whole, in the units of the kernels.

    `fill` is the share of the gap that is filled, at the nodes. `force` is that on the bearing. `shear` and
    `full_shear` are the integrals of 1/h over the film and over the whole circumference, `drag` half the
    integral of h dp/dphi.
    """

    force: tuple[float, float]
    end_flows: tuple[float, float]
    supply_flow: float
    flow_around: FloatArray
    fill: FloatArray
    shear: float
    full_shear: float
    drag: float
    maximum_pressure: float
    mass_residual: float


def film_sums(nodes: FilmNodes, fields: FilmFields) -> FilmSums:
    """Add up a film.

    Parameters
    ----------
    nodes : FilmNodes
        Nodes and film thickness.
    fields : FilmFields
        What was solved for; the emptiness of the nodes at the ends becomes that of their neighbours.

    Returns
    -------
    FilmSums
        For the whole bearing, also where the nodes cover half of it.

    Notes
    -----
    Trapezoids around, parabolas along the bearing; flows out of the volumes of the fixed nodes, so that they
    add up to the last digit. In deep feeds, with feed at all four corners, nothing is sheared.

    References
    ----------
    [patankar1980] volumes around nodes, fluxes at their faces
    """
    from fitwright.physics.bearings.kernels.film import END, FREE, SUPPLY, balance, conductances

    sides = 2.0 if nodes.mirrored else 1.0
    pressure, emptiness, kinds = fields.pressure, fields.emptiness, nodes.kinds
    for end, inner in ((-1, -2), (0, 1)):
        at_end = kinds[:, end] == END
        emptiness[at_end, end] = emptiness[at_end, inner]
    net, onward, drive = balance(
        nodes.angles,
        nodes.places,
        nodes.film,
        nodes.face_film,
        fields.squeeze,
        fields.wedge,
        pressure,
        emptiness,
    )
    width, depth = conductances(nodes.angles, nodes.places, nodes.film, nodes.face_film)[2:]
    around = sides * width * (pressure @ parabolic_weights(nodes.places))
    outward = -np.where(kinds == END, net, 0.0)
    first = float(outward[:, -1].sum() if nodes.mirrored else outward[:, 0].sum())
    weights = sides * _sheared(nodes)
    fill = _fill(nodes, fields)
    free, fixed = kinds == FREE, kinds != FREE
    if not fields.conserving:
        free = free & (pressure > 0.0)
    driven = np.abs(drive[free]).sum() + np.abs(net[fixed]).sum()
    rise = np.roll(pressure, -1, axis=0) - pressure
    return FilmSums(
        force=(float(around @ np.cos(nodes.angles)), float(around @ np.sin(nodes.angles))),
        end_flows=(first, float(outward[:, -1].sum())),
        supply_flow=sides * float(net[kinds == SUPPLY].sum()),
        flow_around=sides * onward.sum(axis=1),
        fill=fill,
        shear=float(np.sum(weights * fill / nodes.film)),
        full_shear=float(np.sum(weights / nodes.film)),
        drag=0.5 * sides * float(np.sum(nodes.face_film * rise @ depth)),
        maximum_pressure=peak_pressure(nodes.angles, pressure),
        mass_residual=float(np.abs(net[free]).sum() / driven) if driven else 0.0,
    )


def _fill(nodes: FilmNodes, fields: FilmFields) -> FloatArray:
    """Share of the gap that is filled at the nodes: the equations carry it across the faces."""
    if not fields.conserving:
        return 1.0 - fields.emptiness
    downstream = nodes.face_film if fields.wedge > 0.0 else np.roll(nodes.face_film, 1, axis=0)
    carried = (1.0 - fields.emptiness) * downstream / nodes.film
    fill: FloatArray = np.where(fields.emptiness > 0.0, np.minimum(carried, 1.0), 1.0)
    return fill


def _sheared(nodes: FilmNodes) -> FloatArray:
    """Area at each node where a film is sheared."""
    from fitwright.physics.bearings.kernels.film import SUPPLY

    following = np.append(nodes.angles[1:], nodes.angles[0] + 2.0 * np.pi)
    quarter = 0.25 * np.outer(following - nodes.angles, np.diff(nodes.places))
    fed = nodes.kinds == SUPPLY
    both = fed & np.roll(fed, -1, axis=0)
    quarter[both[:, 1:] & both[:, :-1]] = 0.0
    area = np.zeros(nodes.film.shape)
    area[:, :-1] += quarter + np.roll(quarter, 1, axis=0)
    area[:, 1:] += quarter + np.roll(quarter, 1, axis=0)
    return area


def peak_pressure(angles: FloatArray, pressure: FloatArray) -> float:
    """Largest pressure, also between the nodes around.

    Parameters
    ----------
    angles : array (n,) [rad]
        Nodes around the bearing, ascending.
    pressure : array (n, m)
        Pressure at the nodes in any unit.

    Returns
    -------
    float
        Top of the parabola around through the largest and its neighbours.

    References
    ----------
    [abramowitz1964] interpolation through three points

    Examples
    --------
    >>> angles = np.array([0.0, 1.0, 2.0, 3.0, 4.0, 5.0])
    >>> round(float(peak_pressure(angles, 1.0 - (angles[:, np.newaxis] - 2.3) ** 2)), 9)
    1.0
    """
    i, j = np.unravel_index(int(np.argmax(pressure)), pressure.shape)
    before, here, after = (float(pressure[(i + k) % angles.size, j]) for k in (-1, 0, 1))
    back = (angles[i] - angles[i - 1]) % (2.0 * np.pi)
    forth = (angles[(i + 1) % angles.size] - angles[i]) % (2.0 * np.pi)
    slope_back, slope_forth = (here - before) / back, (after - here) / forth
    bend = 2.0 * (slope_forth - slope_back) / (back + forth)
    slope = (slope_back * forth + slope_forth * back) / (back + forth)
    inside = bend < 0.0 and slope_back > 0.0 > slope_forth
    return float(here - 0.5 * slope**2 / bend) if inside else here
