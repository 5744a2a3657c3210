"""An oil whose data sheet gives no high-shear viscosity: what is usual, and how sure that is."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal, TypeAlias

from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.physics.oil.oil import HIGH_SHEAR_TEMPERATURE, Oil, dynamic_viscosity
from fitwright.quantity import Number

OilKind: TypeAlias = Literal["monograde", "multigrade"]

_USUAL: dict[OilKind, tuple[float, float]] = {"monograde": (1.0, 0.02), "multigrade": (0.87, 0.05)}


@dataclass(frozen=True, slots=True)
class AssumedShear:
    """An oil with a high-shear viscosity that nobody measured.

    Attributes
    ----------
    oil : Oil
        The oil with it.
    relative_standard_uncertainty : float [1]
        Of the high-shear viscosity.
    caution : str
        What was assumed.
    """

    oil: Oil
    relative_standard_uncertainty: Number
    caution: str


def with_usual_high_shear(oil: Oil, kind: OilKind) -> AssumedShear:
    r"""The oil with the high-shear viscosity that is usual of its kind.

    Parameters
    ----------
    oil : Oil
        The oil; what its data sheet may say of high shear is left aside.
    kind : str
        `monograde` or `multigrade`.

    Returns
    -------
    AssumedShear
        The oil, how sure that is, and words for whoever reads a figure that comes from it.

    Raises
    ------
    OutOfDomainError
        If the kind is neither.

    Notes
    -----
    .. math:: \eta_{HTHS} = s\, \eta_0(150)

    with s = 1 for oils without viscosity improver and 0.87 for those with: mean and standard deviation (0.05)
    of the ten multigrades among the generic oils, whose shares lie between 0.78 and 0.95.

    References
    ----------
    [sae_j300_2015] high-shear viscosity at 150 C and 1e6 1/s

    Examples
    --------
    >>> assumed = with_usual_high_shear(Oil(98e-6, 14.7e-6, 868.0), "multigrade")
    >>> round(assumed.oil.high_shear_viscosity_150 * 1e3, 2)
    4.0
    """
    if kind not in _USUAL:
        raise OutOfDomainError("kind", repr(kind), f"one of {', '.join(_USUAL)}")
    share, spread = _USUAL[kind]
    low = float(dynamic_viscosity(replace(oil, high_shear_viscosity_150=None), HIGH_SHEAR_TEMPERATURE))
    taken = "the one at low shear" if share == 1.0 else f"{share:g} times the one at low shear"
    return AssumedShear(
        oil=replace(oil, high_shear_viscosity_150=share * low),
        relative_standard_uncertainty=spread,
        caution=(
            f"The high-shear viscosity (HTHS) is not known: {taken} was taken,"
            f" as is usual of a {kind}, good to {2.0 * spread:.0%}."
        ),
    )
