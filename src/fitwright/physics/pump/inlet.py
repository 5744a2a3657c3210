"""What the way from the sump to the pump costs: height, strainer, edges, pipe."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.physics.passages.edges import (
    DEFAULT_AUTHOR,
    EntranceAuthor,
    entrance_loss_coefficient,
)
from fitwright.physics.passages.pipes import pipe_pressure_drop
from fitwright.quantity import (
    CubicMetrePerSecond,
    KilogramPerCubicMetre,
    Metre,
    Number,
    Pascal,
    PascalSecond,
    SquareMetre,
)

GRAVITY: Final = 9.80665
"""Standard acceleration of free fall [m/s2]."""


@dataclass(frozen=True, slots=True)
class InletPath:
    """The way of the oil from the sump to the inlet port of the pump.

    Attributes
    ----------
    pipe_diameter : float [m]
        Inside of the pickup pipe or drilling.
    pipe_length : float [m]
        Its length.
    edge_radius : float [m]
        Radius of the edge where oil enters it; zero for a sharp edge.
    roughness : float [m]
        Roughness height of its wall.
    other_losses : float [1]
        Loss coefficient of bends and further edges, on the speed in the pipe.
    rise : float [m]
        Height of the pump's inlet above the oil's surface; negative where it lies below.
    strainer_area : float [m2]
        Open area of the strainer; infinite to leave it out.
    strainer_loss_coefficient : float [1]
        Of the strainer, on the speed through its open area.
    """

    pipe_diameter: Metre
    pipe_length: Metre
    edge_radius: Metre = 0.0
    roughness: Metre = 0.0
    other_losses: Number = 0.0
    rise: Metre = 0.0
    strainer_area: SquareMetre = math.inf
    strainer_loss_coefficient: Number = 1.5


@dataclass(frozen=True, slots=True)
class EdgeGain:
    """What rounding the edge of an inlet drilling is worth at a flow.

    Attributes
    ----------
    pressure : float [Pa]
        By how much the pressure at the pump rises, by the author chosen.
    least, most : float [Pa]
        The smallest and the largest gain by any one author, sharp and rounded edge both by that author.
    standard_uncertainty : float [Pa]
        Of the gain, taken as even between least and most.
    """

    pressure: Pascal
    least: Pascal
    most: Pascal
    standard_uncertainty: Pascal


def inlet_gauge_pressure(
    path: InletPath,
    flow: CubicMetrePerSecond,
    *,
    density: KilogramPerCubicMetre,
    dynamic_viscosity: PascalSecond,
    author: EntranceAuthor = DEFAULT_AUTHOR,
) -> Pascal:
    r"""Gauge pressure at the inlet of the pump at a flow, with the speed in the pipe counted in.

    Parameters
    ----------
    path : InletPath
        The way from the sump.
    flow : float [m3/s]
        What the pump draws.
    density : float [kg/m3]
        Of the oil.
    dynamic_viscosity : float [Pa s]
        Of the oil.
    author : str
        Whose loss coefficients of edges, as in `entrance_loss_coefficient`.

    Returns
    -------
    float [Pa]
        Total gauge pressure, negative where the pump has to suck.

    Raises
    ------
    OutOfDomainError
        If a size means nothing.

    Notes
    -----
    .. math:: p = -\rho g h - \zeta_s \frac{\rho}{2} \left(\frac{Q}{A_s}\right)^2
              - \frac{\rho v^2}{2} \left(f \frac{L}{D} + K_{edge} + K\right)

    The oil's surface is at the pressure of the surroundings; surge and foam are left out.

    References
    ----------
    [white2011] head loss of pipes and minor losses
    [rennels2012] rounded entrance, the default author

    Examples
    --------
    >>> path = InletPath(pipe_diameter=18e-3, pipe_length=0.25, rise=0.1)
    >>> round(inlet_gauge_pressure(path, 30e-3 / 60.0, density=850.0, dynamic_viscosity=0.012))
    -2818
    """
    if not (path.strainer_area > 0.0 and path.strainer_loss_coefficient >= 0.0 and path.edge_radius >= 0.0):
        raise OutOfDomainError("path", path, "one with positive area, no negative loss or radius")
    edge = entrance_loss_coefficient(path.edge_radius / path.pipe_diameter, author)
    pipe = pipe_pressure_drop(
        flow,
        diameter=path.pipe_diameter,
        length=path.pipe_length,
        density=density,
        dynamic_viscosity=dynamic_viscosity,
        roughness=path.roughness,
        loss_coefficient=float(edge) + path.other_losses,
    )
    strainer = 0.5 * density * path.strainer_loss_coefficient * (flow / path.strainer_area) ** 2
    return -density * GRAVITY * path.rise - strainer - float(pipe)


def edge_gain(
    pipe_diameter: Metre,
    edge_radius: Metre,
    flow: CubicMetrePerSecond,
    *,
    density: KilogramPerCubicMetre,
    author: EntranceAuthor = DEFAULT_AUTHOR,
) -> EdgeGain:
    r"""Pressure gained at a flow by rounding a sharp inlet edge of a drilling or port.

    Parameters
    ----------
    pipe_diameter : float [m]
        Of the drilling, or the hydraulic diameter of the port.
    edge_radius : float [m]
        Radius to be put on.
    flow : float [m3/s]
        Through the drilling.
    density : float [kg/m3]
        Of the oil.
    author : str
        Whose loss coefficients.

    Returns
    -------
    EdgeGain
        The gain, and its range over all authors.

    Raises
    ------
    OutOfDomainError
        If a size is not positive.

    Notes
    -----
    .. math:: \Delta p = \frac{\rho v^2}{2} \left(K(0) - K(r/d)\right)

    The authors differ by more than their own scatter, so that their range is what is known. For turbulent
    flow: at Reynolds numbers below some thousand an edge buys less.

    References
    ----------
    [rennels2012] rounded entrance, comparison with older data

    Examples
    --------
    >>> gain = edge_gain(14e-3, 2e-3, 40e-3 / 60.0, density=850.0)
    >>> [round(each / 100.0, 1) for each in (gain.pressure, gain.least, gain.most)]  # millibar
    [33.1, 31.0, 36.1]
    """
    from fitwright.physics.passages.edges import ENTRANCE_AUTHORS

    if not (pipe_diameter > 0.0 and edge_radius >= 0.0):
        raise OutOfDomainError("pipe_diameter", pipe_diameter, "positive, and no radius negative")
    head = 0.5 * density * (4.0 * flow / (math.pi * pipe_diameter**2)) ** 2
    ratios = [0.0, edge_radius / pipe_diameter]

    def gained(whose: EntranceAuthor) -> Pascal:
        sharp, rounded = entrance_loss_coefficient(ratios, whose).tolist()
        return head * float(sharp - rounded)

    each = [gained(whose) for whose in ENTRANCE_AUTHORS]
    least, most = min(each), max(each)
    return EdgeGain(gained(author), least, most, (most - least) / math.sqrt(12.0))
