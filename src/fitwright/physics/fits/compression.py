"""Volumes at top dead centre, compression ratio with its derivatives, and squish.

Signs are words: a dish adds volume, a dome takes volume away, both are given as positive volumes.
A piston below the deck counts positive, one that stands proud of it negative.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, fields

from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.quantity import CubicMetre, Metre, Number


@dataclass(frozen=True, slots=True)
class CombustionSpace:
    """The sizes that make up one cylinder's volumes.

    Attributes
    ----------
    bore : float [m]
        Cylinder bore.
    stroke : float [m]
        Crank stroke.
    chamber_volume : float [m3]
        Chamber in the head, plug in, up to the head's face.
    gasket_bore : float [m]
        Diameter of the gasket's opening.
    gasket_thickness : float [m]
        Thickness of the gasket once crushed.
    piston_below_deck : float [m]
        Piston crown below the deck at top dead centre; negative where it stands proud.
    dish_volume : float [m3]
        Dish and valve pockets of the piston; adds volume.
    dome_volume : float [m3]
        Dome of the piston; takes volume away.
    crevice_volume : float [m3]
        Space round the top land, down to the top ring.
    """

    bore: Metre
    stroke: Metre
    chamber_volume: CubicMetre
    gasket_bore: Metre
    gasket_thickness: Metre
    piston_below_deck: Metre = 0.0
    dish_volume: CubicMetre = 0.0
    dome_volume: CubicMetre = 0.0
    crevice_volume: CubicMetre = 0.0


@dataclass(frozen=True, slots=True)
class Compression:
    """Volumes of one cylinder and what follows from them.

    Attributes
    ----------
    swept_volume : float [m3]
        Volume that the piston sweeps.
    gasket_volume : float [m3]
        Part of the clearance volume inside the gasket.
    deck_volume : float [m3]
        Part between crown and deck; negative for a piston that stands proud.
    clearance_volume : float [m3]
        Volume at top dead centre.
    compression_ratio : float [1]
        Volume at bottom dead centre over volume at top dead centre.
    squish : float [m]
        Least distance between the flat of the crown and the head's face.
    sensitivities : mapping of str to float
        Derivative of the ratio by each field of `CombustionSpace`, per metre or per cubic metre.
    """

    swept_volume: CubicMetre
    gasket_volume: CubicMetre
    deck_volume: CubicMetre
    clearance_volume: CubicMetre
    compression_ratio: Number
    squish: Metre
    sensitivities: Mapping[str, float]


def compression(space: CombustionSpace, *, chamber_step: Metre = 0.0) -> Compression:
    r"""Volumes, compression ratio and squish of one cylinder.

    Parameters
    ----------
    space : CombustionSpace
        Sizes at one temperature.
    chamber_step : float [m]
        How far the squish face of the head lies above the head's face.

    Returns
    -------
    Compression
        Volumes, ratio, squish and the exact derivatives of the ratio.

    Raises
    ------
    OutOfDomainError
        If a size is negative or nothing is left at top dead centre.

    Notes
    -----
    .. math:: \varepsilon = 1 + \frac{V_s}{V_c}, \quad
              V_c = V_{chamber} + \tfrac{\pi}{4} B_g^2 t + \tfrac{\pi}{4} B^2 h
              + V_{dish} - V_{dome} + V_{crevice}

    References
    ----------
    [heywood1988] section 2.2, geometrical properties of reciprocating engines

    Examples
    --------
    >>> found = compression(CombustionSpace(
    ...     bore=83.5e-3, stroke=84e-3, chamber_volume=40.4e-6, gasket_bore=84.5e-3,
    ...     gasket_thickness=1.1e-3, piston_below_deck=0.2e-3, dish_volume=9.6e-6, crevice_volume=0.5e-6))
    >>> round(found.compression_ratio, 2), round(found.squish * 1e3, 2)
    (8.96, 1.3)
    """
    for field in fields(space):
        value = getattr(space, field.name)
        if field.name != "piston_below_deck" and not value >= 0.0:
            raise OutOfDomainError(field.name, value, "zero or more")
    piston_area = 0.25 * math.pi * space.bore**2
    gasket_area = 0.25 * math.pi * space.gasket_bore**2
    swept = piston_area * space.stroke
    gasket = gasket_area * space.gasket_thickness
    deck = piston_area * space.piston_below_deck
    clearance = (
        space.chamber_volume + gasket + deck + space.dish_volume - space.dome_volume + space.crevice_volume
    )
    if not clearance > 0.0:
        raise OutOfDomainError(
            "clearance volume", clearance, "positive; a dome is given as a positive volume"
        )
    by_swept, by_clearance = 1.0 / clearance, -swept / clearance**2
    by_bore = 0.5 * math.pi * space.bore * (space.stroke * by_swept + space.piston_below_deck * by_clearance)
    return Compression(
        swept_volume=swept,
        gasket_volume=gasket,
        deck_volume=deck,
        clearance_volume=clearance,
        compression_ratio=1.0 + swept / clearance,
        squish=space.piston_below_deck + space.gasket_thickness + chamber_step,
        sensitivities={
            "bore": by_bore,
            "stroke": piston_area * by_swept,
            "chamber_volume": by_clearance,
            "gasket_bore": 0.5 * math.pi * space.gasket_bore * space.gasket_thickness * by_clearance,
            "gasket_thickness": gasket_area * by_clearance,
            "piston_below_deck": piston_area * by_clearance,
            "dish_volume": by_clearance,
            "dome_volume": -by_clearance,
            "crevice_volume": by_clearance,
        },
    )


def ratio_standard_uncertainty(result: Compression, standard_uncertainties: Mapping[str, float]) -> Number:
    r"""Standard uncertainty of a compression ratio whose sizes were measured independently.

    Parameters
    ----------
    result : Compression
        The ratio with its derivatives.
    standard_uncertainties : mapping of str to float
        By field of `CombustionSpace`, in the unit of the field; fields left out count as exact.

    Returns
    -------
    float [1]
        Standard uncertainty of the ratio.

    Raises
    ------
    OutOfDomainError
        If a name is not a field of `CombustionSpace`.

    Notes
    -----
    .. math:: u^2(\varepsilon) = \sum_i (\partial\varepsilon/\partial x_i)^2 u^2(x_i)

    References
    ----------
    [jcgm100_2008] 5.1.2

    Examples
    --------
    >>> found = compression(CombustionSpace(
    ...     bore=83.5e-3, stroke=84e-3, chamber_volume=40.4e-6, gasket_bore=84.5e-3,
    ...     gasket_thickness=1.1e-3, piston_below_deck=0.2e-3, dish_volume=9.6e-6, crevice_volume=0.5e-6))
    >>> round(ratio_standard_uncertainty(found, {"chamber_volume": 0.15e-6}), 3)
    0.021
    """
    unknown = [name for name in standard_uncertainties if name not in result.sensitivities]
    if unknown:
        raise OutOfDomainError(
            "standard_uncertainties", unknown[0], "named after the fields of CombustionSpace"
        )
    return math.hypot(*(result.sensitivities[name] * u for name, u in standard_uncertainties.items()))
