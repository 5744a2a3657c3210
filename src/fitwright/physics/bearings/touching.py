"""A film thickness held against the roughness of both surfaces: a film, or none that could be predicted."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TypeAlias

from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.quantity import Metre, Number

LEAST_FILM_PARAMETER: Number = 3.0
"""Film thickness over combined roughness below which the surfaces touch."""


@dataclass(frozen=True, slots=True)
class PredictedFilm:
    """A film that parts both surfaces.

    Attributes
    ----------
    thickness : float [m]
        Smallest thickness.
    film_parameter : float [1]
        Thickness over the combined roughness; infinite over smooth surfaces.
    """

    thickness: Metre
    film_parameter: Number


@dataclass(frozen=True, slots=True)
class Touching:
    """No film: the surfaces touch, and how far they would be apart means nothing, so there is no number.

    Attributes
    ----------
    combined_roughness : float [m]
        Combined root-mean-square roughness of both surfaces.
    """

    combined_roughness: Metre

    def __str__(self) -> str:
        """Say so."""
        return "touching: no film predicted"


FilmOverRoughness: TypeAlias = PredictedFilm | Touching


def combined_roughness(journal_roughness: Metre, bearing_roughness: Metre) -> Metre:
    r"""Root-mean-square roughness of two surfaces together.

    Parameters
    ----------
    journal_roughness : float [m]
        Rq of the journal, as it is or as it will be when run in; Ra is some 0.8 of it.
    bearing_roughness : float [m]
        Rq of the bearing.

    Returns
    -------
    float [m]
        Combined roughness.

    Raises
    ------
    OutOfDomainError
        If a roughness is negative.

    Notes
    -----
    .. math:: R_q = \sqrt{R_{q,1}^2 + R_{q,2}^2}

    References
    ----------
    [hamrock2004] film parameter

    Examples
    --------
    >>> round(combined_roughness(0.3e-6, 0.4e-6) * 1e6, 2)
    0.5
    """
    if not (journal_roughness >= 0.0 and bearing_roughness >= 0.0):
        raise OutOfDomainError("roughness", min(journal_roughness, bearing_roughness), "zero or more")
    return math.hypot(journal_roughness, bearing_roughness)


def film_over_roughness(
    film_thickness: Metre, *, journal_roughness: Metre, bearing_roughness: Metre
) -> FilmOverRoughness:
    r"""Whether a computed film parts two surfaces.

    Parameters
    ----------
    film_thickness : float [m]
        Smallest thickness between smooth, round, parallel parts.
    journal_roughness : float [m]
        Rq of the journal.
    bearing_roughness : float [m]
        Rq of the bearing.

    Returns
    -------
    PredictedFilm or Touching
        The film, or that none is predicted; the latter carries no thickness.

    Raises
    ------
    OutOfDomainError
        If a roughness is negative or the thickness is not a number.

    Notes
    -----
    .. math:: \Lambda = \frac{h_{min}}{\sqrt{R_{q,1}^2 + R_{q,2}^2}} \ge 3

    References
    ----------
    [hamrock2004] film parameter and regimes

    Examples
    --------
    >>> film_over_roughness(2.0e-6, journal_roughness=0.2e-6, bearing_roughness=0.3e-6).film_parameter
    5.547
    >>> print(film_over_roughness(1.0e-6, journal_roughness=0.2e-6, bearing_roughness=0.3e-6))
    touching: no film predicted
    """
    roughness = combined_roughness(journal_roughness, bearing_roughness)
    if math.isnan(film_thickness):
        raise OutOfDomainError("film_thickness", film_thickness, "a number")
    if not film_thickness > 0.0 or film_thickness < LEAST_FILM_PARAMETER * roughness:
        return Touching(roughness)
    return PredictedFilm(film_thickness, film_thickness / roughness if roughness else math.inf)
