"""Unit aliases for signatures: what a float or an array means, readable by people and by tests.

Everything inside fitwright is in SI. An alias says which SI unit a number has; it converts nothing.
Singular names are single numbers, plural names are arrays (or anything that broadcasts).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, TypeAlias

import numpy as np
from numpy.typing import ArrayLike, NDArray


@dataclass(frozen=True, slots=True)
class Unit:
    """The SI unit of an annotated number, as written in docstrings (`m`, `Pa`, `1/K`, `1`)."""

    symbol: str


FloatArray: TypeAlias = NDArray[np.float64]
Number: TypeAlias = Annotated[float, Unit("1")]
Probability: TypeAlias = Annotated[float, Unit("1")]
Metre: TypeAlias = Annotated[float, Unit("m")]
SquareMetre: TypeAlias = Annotated[float, Unit("m2")]
CubicMetre: TypeAlias = Annotated[float, Unit("m3")]
Radian: TypeAlias = Annotated[float, Unit("rad")]
Kelvin: TypeAlias = Annotated[float, Unit("K")]
PerKelvin: TypeAlias = Annotated[float, Unit("1/K")]
Pascal: TypeAlias = Annotated[float, Unit("Pa")]
PascalSecond: TypeAlias = Annotated[float, Unit("Pa s")]
PerPascal: TypeAlias = Annotated[float, Unit("1/Pa")]
SquareMetrePerSecond: TypeAlias = Annotated[float, Unit("m2/s")]
CubicMetrePerSecond: TypeAlias = Annotated[float, Unit("m3/s")]
MetrePerSecond: TypeAlias = Annotated[float, Unit("m/s")]
RadianPerSecond: TypeAlias = Annotated[float, Unit("rad/s")]
PerSecond: TypeAlias = Annotated[float, Unit("1/s")]
KilogramPerCubicMetre: TypeAlias = Annotated[float, Unit("kg/m3")]
Joule: TypeAlias = Annotated[float, Unit("J")]
Watt: TypeAlias = Annotated[float, Unit("W")]
PascalPerMetre: TypeAlias = Annotated[float, Unit("Pa/m")]
Newton: TypeAlias = Annotated[float, Unit("N")]
NewtonMetre: TypeAlias = Annotated[float, Unit("N m")]
NewtonPerMetre: TypeAlias = Annotated[float, Unit("N/m")]
MetrePerNewton: TypeAlias = Annotated[float, Unit("m/N")]
NewtonSecondSquared: TypeAlias = Annotated[float, Unit("N s2")]
Kilogram: TypeAlias = Annotated[float, Unit("kg")]
KilogramSquareMetre: TypeAlias = Annotated[float, Unit("kg m2")]
JoulePerCubicMetreKelvin: TypeAlias = Annotated[float, Unit("J/(m3 K)")]

Numbers: TypeAlias = Annotated[ArrayLike, Unit("1")]
Metres: TypeAlias = Annotated[ArrayLike, Unit("m")]
SquareMetres: TypeAlias = Annotated[ArrayLike, Unit("m2")]
CubicMetres: TypeAlias = Annotated[ArrayLike, Unit("m3")]
Radians: TypeAlias = Annotated[ArrayLike, Unit("rad")]
Kelvins: TypeAlias = Annotated[ArrayLike, Unit("K")]
PerKelvins: TypeAlias = Annotated[ArrayLike, Unit("1/K")]
Pascals: TypeAlias = Annotated[ArrayLike, Unit("Pa")]
PascalSeconds: TypeAlias = Annotated[ArrayLike, Unit("Pa s")]
SquareMetresPerSecond: TypeAlias = Annotated[ArrayLike, Unit("m2/s")]
CubicMetresPerSecond: TypeAlias = Annotated[ArrayLike, Unit("m3/s")]
MetresPerSecond: TypeAlias = Annotated[ArrayLike, Unit("m/s")]
MetresPerSecondSquared: TypeAlias = Annotated[ArrayLike, Unit("m/s2")]
RadiansPerSecond: TypeAlias = Annotated[ArrayLike, Unit("rad/s")]
PerSeconds: TypeAlias = Annotated[ArrayLike, Unit("1/s")]
KilogramsPerCubicMetre: TypeAlias = Annotated[ArrayLike, Unit("kg/m3")]
Newtons: TypeAlias = Annotated[ArrayLike, Unit("N")]
NewtonMetres: TypeAlias = Annotated[ArrayLike, Unit("N m")]
