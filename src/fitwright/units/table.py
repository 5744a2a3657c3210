"""The closed table of units: canonical spelling, dimension, exact factor to SI, other spellings.

`SI value = magnitude * factor + offset`, with fractions, so that an inch sheet and the equal
millimetre sheet give the same floats. `oracle` is the same unit in the words of the unit library
that the tests hold every row against (decision 0006). Angles hold pi to double precision.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction
from types import MappingProxyType
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping


@dataclass(frozen=True, slots=True)
class UnitDefinition:
    """One unit: `name` is the spelling that we store, `symbol` the one that we show."""

    name: str
    dimension: str
    factor: Fraction
    oracle: str
    spellings: tuple[str, ...] = ()
    symbol: str = ""
    offset: Fraction = Fraction(0)

    @property
    def shown(self) -> str:
        """The unit as shown to people."""
        return self.symbol or self.name


@dataclass(frozen=True, slots=True)
class DimensionDefinition:
    """A kind of amount, its one SI unit, and an example of how to write one."""

    name: str
    si_unit: str
    example: str


DIMENSIONS: Final[Mapping[str, DimensionDefinition]] = MappingProxyType(
    {
        name: DimensionDefinition(name, si_unit, example)
        for name, si_unit, example in (
            ("length", "m", "67.08 mm"),
            ("area", "m2", "120 mm2"),
            ("volume", "m3", "57.8 cc"),
            ("angle", "rad", "45 deg"),
            ("mass", "kg", "412.5 g"),
            ("force", "N", "640 N"),
            ("torque", "N m", "61 N m"),
            ("pressure", "Pa", "4.5 bar"),
            ("temperature", "K", "90 degC"),
            ("temperature_difference", "K", "70 K"),
            ("thermal_expansion", "1/K", "11.5e-6 /K"),
            ("spring_rate", "N/m", "8 N/mm"),
            ("angular_speed", "rad/s", "6500 rpm"),
            ("speed", "m/s", "12 m/s"),
            ("time", "s", "30 s"),
            ("frequency", "Hz", "210 Hz"),
            ("volume_flow", "m3/s", "9.2 L/min"),
            ("mass_flow", "kg/s", "0.15 kg/s"),
            ("displacement", "m3/rev", "12.4 cc/rev"),
            ("density", "kg/m3", "860 kg/m3"),
            ("kinematic_viscosity", "m2/s", "11.2 mm2/s"),
            ("dynamic_viscosity", "Pa s", "3.5 mPa s"),
            ("pressure_coefficient", "1/Pa", "18 /GPa"),
            ("power", "W", "90 kW"),
            ("energy", "J", "420 J"),
            ("specific_energy", "J/kg", "43 MJ/kg"),
            ("specific_heat", "J/(kg K)", "2000 J/(kg K)"),
            ("thermal_conductivity", "W/(m K)", "150 W/(m K)"),
            ("imbalance", "kg m", "720 g mm"),
            ("moment_of_inertia", "kg m2", "0.012 kg m2"),
            ("torsional_stiffness", "N m/rad", "350 kN m/rad"),
            ("torsional_damping", "N m s/rad", "1.5 N m s/rad"),
            ("ratio", "1", "10.5"),
        )
    }
)

_INCH = Fraction("0.0254")
_FOOT = 12 * _INCH
_POUND = Fraction("0.45359237")
_OUNCE = _POUND / 16
_GRAVITY = Fraction("9.80665")
_POUND_FORCE = _POUND * _GRAVITY
_US_GALLON = 231 * _INCH**3
_IMPERIAL_GALLON = Fraction("0.00454609")
_PI = Fraction(math.pi)
_RANKINE = Fraction(5, 9)
_ICE_POINT = Fraction("273.15")
_FAHRENHEIT_ZERO = _ICE_POINT - 32 * _RANKINE


def _f(number: str) -> Fraction:
    return Fraction(number)


def _rows() -> Iterable[UnitDefinition]:
    unit = UnitDefinition
    length, area, volume, angle = "length", "area", "volume", "angle"
    yield unit("mm", length, _f("1e-3"), "mm", ("millimetre", "millimetres", "millimeter", "millimeters"))
    yield unit("thou", length, _INCH / 1000, "thou", ("thous", "thousandth", "thousandths", "mil", "mils"))
    yield unit("in", length, _INCH, "inch", ('"', "inch", "inches", "ins", "in.", "''"))
    yield unit("um", length, _f("1e-6"), "um", ("micron", "microns", "micrometre", "micrometer"), "µm")
    yield unit("cm", length, _f("1e-2"), "cm", ("centimetre", "centimetres", "centimeter"))
    yield unit("m", length, _f("1"), "m", ("metre", "metres", "meter", "meters"))
    yield unit("ft", length, _FOOT, "foot", ("foot", "feet", "ft."))
    yield unit("uin", length, _INCH / 10**6, "microinch", ("microinch", "microinches"), "µin")
    yield unit("mm2", area, _f("1e-6"), "mm**2", ("sq mm",), "mm²")
    yield unit("cm2", area, _f("1e-4"), "cm**2", ("sq cm",), "cm²")
    yield unit("m2", area, _f("1"), "m**2", ("sq m",), "m²")
    yield unit("in2", area, _INCH**2, "inch**2", ("sq in",), "in²")
    yield unit(
        "cc", volume, _f("1e-6"), "cm**3", ("cm3", "ccm", "cu cm", "mL", "ml", "millilitre", "milliliter")
    )
    yield unit("mm3", volume, _f("1e-9"), "mm**3", (), "mm³")
    yield unit("L", volume, _f("1e-3"), "litre", ("l", "litre", "litres", "liter", "liters", "dm3"))
    yield unit("m3", volume, _f("1"), "m**3", (), "m³")
    yield unit("cu in", volume, _INCH**3, "inch**3", ("in3", "cubic inch", "cubic inches", "cui"))
    yield unit(
        "imp pt",
        volume,
        _IMPERIAL_GALLON / 8,
        "imperial_pint",
        ("imperial pint", "imperial pints", "imp pint"),
    )
    yield unit(
        "imp gal", volume, _IMPERIAL_GALLON, "imperial_gallon", ("imperial gallon", "imperial gallons")
    )
    yield unit(
        "imp qt", volume, _IMPERIAL_GALLON / 4, "imperial_quart", ("imperial quart", "imperial quarts")
    )
    yield unit("US pt", volume, _US_GALLON / 8, "pint", ("us pint", "us pints"))
    yield unit("US qt", volume, _US_GALLON / 4, "quart", ("us quart", "us quarts"))
    yield unit("US gal", volume, _US_GALLON, "gallon", ("us gallon", "us gallons"))
    yield unit(
        "deg", angle, _PI / 180, "degree", ("\u00b0", "degree", "degrees", "degs", "crank deg", "deg."), "°"
    )
    yield unit("rad", angle, _f("1"), "radian", ("radian", "radians"))
    yield unit("turn", angle, 2 * _PI, "turn", ("turns",))
    yield unit("arcmin", angle, _PI / 10800, "arcminute", ("minutes of arc", "arc min"))
    yield from _mechanics()
    yield from _pressures_and_temperatures()
    yield from _flows_and_oil()
    yield from _trains_and_ratios()


def _mechanics() -> Iterable[UnitDefinition]:
    unit = UnitDefinition
    mass, force, torque = "mass", "force", "torque"
    yield unit("g", mass, _f("1e-3"), "g", ("gram", "grams", "gm", "gms", "gramme", "grammes"))
    yield unit("kg", mass, _f("1"), "kg", ("kilogram", "kilograms", "kilo", "kilos"))
    yield unit("mg", mass, _f("1e-6"), "mg")
    yield unit("oz", mass, _OUNCE, "oz", ("ounce", "ounces", "oz."))
    yield unit("lb", mass, _POUND, "lb", ("lbs", "pound", "pounds", "lbm", "lb."))
    yield unit("N", force, _f("1"), "N", ("newton", "newtons"))
    yield unit("kN", force, _f("1e3"), "kN", ("kilonewton", "kilonewtons"))
    yield unit("lbf", force, _POUND_FORCE, "lbf", ("lb", "lbs", "pounds force", "pound force", "lb f"))
    yield unit("ozf", force, _POUND_FORCE / 16, "force_ounce", ("oz",))
    yield unit("kgf", force, _GRAVITY, "kgf", ("kg", "kp", "kilopond", "kg f"))
    feet = (
        "ft lbf",
        "lb ft",
        "ft lb",
        "lbs ft",
        "ft lbs",
        "foot pounds",
        "foot pound",
        "pound feet",
        "pounds feet",
        "ftlb",
        "ftlbs",
        "ftlbf",
        "lbft",
        "lbfft",
    )
    inches = (
        "in lbf",
        "lb in",
        "in lb",
        "lbs in",
        "in lbs",
        "inch pounds",
        "inch pound",
        "pound inches",
        "inlb",
        "inlbs",
        "inlbf",
        "lbin",
        "lbfin",
    )
    metric = ("Nm", "newton metre", "newton metres", "newton meter", "newton meters", "m N")
    yield unit("N m", torque, _f("1"), "N*m", metric, "N·m")
    yield unit("N mm", torque, _f("1e-3"), "N*mm", ("Nmm",), "N·mm")
    yield unit("kN m", torque, _f("1e3"), "kN*m", ("kNm",), "kN·m")
    yield unit("daN m", torque, _f("10"), "dekanewton*m", ("daNm",), "daN·m")
    yield unit("N cm", torque, _f("1e-2"), "N*cm", ("Ncm",), "N·cm")
    yield unit("lbf ft", torque, _POUND_FORCE * _FOOT, "lbf*foot", feet, "lbf·ft")
    yield unit("lbf in", torque, _POUND_FORCE * _INCH, "lbf*inch", inches, "lbf·in")
    yield unit(
        "ozf in",
        torque,
        _POUND_FORCE / 16 * _INCH,
        "force_ounce*inch",
        ("oz in", "in oz", "in ozf"),
        "ozf·in",
    )
    yield unit(
        "kgf m",
        torque,
        _GRAVITY,
        "kgf*m",
        ("mkg", "kg m", "m kg", "mkgf", "mkp", "kpm", "kp m", "kgfm", "kgm"),
        "kgf·m",
    )
    yield unit("kgf cm", torque, _GRAVITY / 100, "kgf*cm", ("cmkg", "kg cm", "cm kg", "kpcm"), "kgf·cm")
    rate = "spring_rate"
    yield unit("N/mm", rate, _f("1e3"), "N/mm")
    yield unit("N/m", rate, _f("1"), "N/m")
    yield unit("kN/m", rate, _f("1e3"), "kN/m")
    yield unit("kN/mm", rate, _f("1e6"), "kN/mm")
    yield unit("lbf/in", rate, _POUND_FORCE / _INCH, "lbf/inch", ("lb/in", "lbs/in", "lb/inch", "lbf/inch"))
    yield unit("kgf/mm", rate, 1000 * _GRAVITY, "kgf/mm", ("kg/mm",))
    spin, minute = "angular_speed", 2 * _PI / 60
    yield unit("rpm", spin, minute, "revolution/minute", ("rev/min", "r/min", "1/min", "revs/min"), "rev/min")
    yield unit("rad/s", spin, _f("1"), "radian/s")
    yield unit("rev/s", spin, 2 * _PI, "revolution/s", ("r/s", "rps"))
    yield unit("m/s", "speed", _f("1"), "m/s")
    yield unit("mm/s", "speed", _f("1e-3"), "mm/s")
    yield unit("ft/min", "speed", _FOOT / 60, "foot/minute", ("fpm",))
    yield unit("s", "time", _f("1"), "s", ("sec", "secs", "second", "seconds"))
    yield unit("ms", "time", _f("1e-3"), "ms")
    yield unit("min", "time", _f("60"), "minute", ("mins", "minute", "minutes"))
    yield unit("h", "time", _f("3600"), "hour", ("hr", "hrs", "hour", "hours"))
    yield unit("Hz", "frequency", _f("1"), "Hz", ("1/s", "hertz"))


def _pressures_and_temperatures() -> Iterable[UnitDefinition]:
    unit = UnitDefinition
    pressure, square_cm = "pressure", _GRAVITY * 10**4
    yield unit("bar", pressure, _f("1e5"), "bar", ("bars", "bar g", "barg"))
    yield unit("mbar", pressure, _f("1e2"), "mbar", ("millibar",))
    yield unit("Pa", pressure, _f("1"), "Pa", ("pascal", "pascals", "N/m2"))
    yield unit("kPa", pressure, _f("1e3"), "kPa")
    yield unit("MPa", pressure, _f("1e6"), "MPa", ("N/mm2",))
    yield unit("GPa", pressure, _f("1e9"), "GPa", ("kN/mm2",))
    yield unit("kgf/mm2", pressure, _GRAVITY * 10**6, "kgf/mm**2", ("kg/mm2",), "kgf/mm²")
    yield unit(
        "psi",
        pressure,
        _POUND_FORCE / _INCH**2,
        "psi",
        ("psig", "lbf/in2", "lb/in2", "lb/sq in", "lbf/sq in", "lbs/in2"),
    )
    yield unit("kgf/cm2", pressure, square_cm, "kgf/cm**2", ("kg/cm2", "kp/cm2", "at", "kg/sq cm"), "kgf/cm²")
    yield unit("inHg", pressure, _INCH * _f("13595.1") * _GRAVITY, "inHg", ("in Hg",))
    for dimension, celsius, fahrenheit in (
        ("temperature", _ICE_POINT, _FAHRENHEIT_ZERO),
        ("temperature_difference", _f("0"), _f("0")),
    ):
        c_oracle, f_oracle = ("degC", "degF") if celsius else ("delta_degC", "delta_degF")
        yield unit("degC", dimension, _f("1"), c_oracle, ("\u00b0C", "C", "deg C", "celsius"), "°C", celsius)
        yield unit(
            "degF", dimension, _RANKINE, f_oracle, ("\u00b0F", "F", "deg F", "fahrenheit"), "°F", fahrenheit
        )
        yield unit("K", dimension, _f("1"), "K", ("kelvin", "kelvins"))
    expansion = "thermal_expansion"
    per_kelvin = ("1/K", "K-1", "/degC", "1/degC", "/\u00b0C", "1/\u00b0C", "/C", "m/(m K)", "in/(in degC)")
    millionths = ("um/(m K)", "um/m/K", "um/m K", "um/(m degC)", "um/m/degC", "um/(m \u00b0C)")
    yield unit("/K", expansion, _f("1"), "1/K", per_kelvin)
    yield unit("ppm/K", expansion, _f("1e-6"), "um/m/K", millionths, "µm/(m·K)")
    yield unit(
        "/degF",
        expansion,
        1 / _RANKINE,
        "1/delta_degF",
        ("1/degF", "/\u00b0F", "1/\u00b0F", "/F", "in/(in degF)"),
        "1/°F",
    )


def _flows_and_oil() -> Iterable[UnitDefinition]:
    unit = UnitDefinition
    flow, kinematic, dynamic = "volume_flow", "kinematic_viscosity", "dynamic_viscosity"
    yield unit(
        "L/min",
        flow,
        _f("1e-3") / 60,
        "litre/minute",
        ("l/min", "lpm", "litres/min", "liters/min", "litre/min"),
    )
    yield unit("L/h", flow, _f("1e-3") / 3600, "litre/hour", ("l/h",))
    yield unit("L/s", flow, _f("1e-3"), "litre/s", ("l/s",))
    yield unit("cc/s", flow, _f("1e-6"), "cm**3/s", ("mL/s", "ml/s", "cm3/s"))
    yield unit("cc/min", flow, _f("1e-6") / 60, "cm**3/minute", ("mL/min", "ml/min", "cm3/min"))
    yield unit("m3/s", flow, _f("1"), "m**3/s", (), "m³/s")
    yield unit("m3/h", flow, _f("1") / 3600, "m**3/hour", (), "m³/h")
    yield unit("US gal/min", flow, _US_GALLON / 60, "gallon/minute", ("US gpm",))
    yield unit("imp gal/min", flow, _IMPERIAL_GALLON / 60, "imperial_gallon/minute", ("imp gpm",))
    yield unit("kg/s", "mass_flow", _f("1"), "kg/s")
    yield unit("g/s", "mass_flow", _f("1e-3"), "g/s")
    yield unit("kg/h", "mass_flow", _f("1") / 3600, "kg/hour")
    yield unit("cc/rev", "displacement", _f("1e-6"), "cm**3", ("cm3/rev", "mL/rev", "ml/rev"))
    yield unit("m3/rev", "displacement", _f("1"), "m**3", (), "m³/rev")
    yield unit("cu in/rev", "displacement", _INCH**3, "inch**3", ("in3/rev",))
    yield unit("kg/m3", "density", _f("1"), "kg/m**3", (), "kg/m³")
    yield unit(
        "g/cm3", "density", _f("1e3"), "g/cm**3", ("g/cc", "g/mL", "g/ml", "kg/L", "kg/l", "kg/dm3"), "g/cm³"
    )
    yield unit("mm2/s", kinematic, _f("1e-6"), "mm**2/s", ("cSt", "centistokes", "centistoke"), "mm²/s")
    yield unit("m2/s", kinematic, _f("1"), "m**2/s", (), "m²/s")
    yield unit("mPa s", dynamic, _f("1e-3"), "mPa*s", ("mPas", "cP", "centipoise", "mPa-s"), "mPa·s")
    yield unit("Pa s", dynamic, _f("1"), "Pa*s", ("Pas", "N s/m2"), "Pa·s")
    yield unit("/GPa", "pressure_coefficient", _f("1e-9"), "1/GPa", ("1/GPa", "GPa-1"), "1/GPa")
    yield unit("/Pa", "pressure_coefficient", _f("1"), "1/Pa", ("1/Pa", "Pa-1", "m2/N"), "1/Pa")


def _trains_and_ratios() -> Iterable[UnitDefinition]:
    unit = UnitDefinition
    horsepower = 550 * _POUND_FORCE * _FOOT
    yield unit("kW", "power", _f("1e3"), "kW", ("kilowatt", "kilowatts"))
    yield unit("W", "power", _f("1"), "W", ("watt", "watts"))
    yield unit("hp", "power", horsepower, "horsepower", ("bhp", "horsepower"))
    yield unit("PS", "power", 75 * _GRAVITY, "metric_horsepower", ("metric hp", "metric horsepower", "cv"))
    yield unit("J", "energy", _f("1"), "J", ("joule", "joules"))
    yield unit("kJ", "energy", _f("1e3"), "kJ")
    yield unit("MJ/kg", "specific_energy", _f("1e6"), "MJ/kg")
    yield unit("kJ/kg", "specific_energy", _f("1e3"), "kJ/kg")
    yield unit("J/kg", "specific_energy", _f("1"), "J/kg")
    yield unit("J/(kg K)", "specific_heat", _f("1"), "J/kg/K", ("J/kg/K", "J/kg K"), "J/(kg·K)")
    yield unit("kJ/(kg K)", "specific_heat", _f("1e3"), "kJ/kg/K", ("kJ/kg/K", "kJ/kg K"), "kJ/(kg·K)")
    yield unit("W/(m K)", "thermal_conductivity", _f("1"), "W/m/K", ("W/m/K", "W/m K"), "W/(m·K)")
    yield unit("g mm", "imbalance", _f("1e-6"), "g*mm", ("gmm", "mm g"), "g·mm")
    yield unit("g cm", "imbalance", _f("1e-5"), "g*cm", ("gcm",), "g·cm")
    yield unit("kg m", "imbalance", _f("1"), "kg*m", (), "kg·m")
    yield unit("oz in", "imbalance", _OUNCE * _INCH, "oz*inch", ("in oz",), "oz·in")
    yield unit("kg m2", "moment_of_inertia", _f("1"), "kg*m**2", ("kgm2",), "kg·m²")
    yield unit("kg cm2", "moment_of_inertia", _f("1e-4"), "kg*cm**2", (), "kg·cm²")
    yield unit("kg mm2", "moment_of_inertia", _f("1e-6"), "kg*mm**2", (), "kg·mm²")
    yield unit("N m/rad", "torsional_stiffness", _f("1"), "N*m/radian", ("Nm/rad",), "N·m/rad")
    yield unit("kN m/rad", "torsional_stiffness", _f("1e3"), "kN*m/radian", ("kNm/rad",), "kN·m/rad")
    yield unit("N m/deg", "torsional_stiffness", 180 / _PI, "N*m/degree", ("Nm/deg", "Nm/\u00b0"), "N·m/°")
    yield unit(
        "N m s/rad", "torsional_damping", _f("1"), "N*m*s/radian", ("Nms/rad", "Nm s/rad"), "N·m·s/rad"
    )
    yield unit("1", "ratio", _f("1"), "dimensionless", (":1", ": 1", "to 1"))
    yield unit("%", "ratio", _f("1e-2"), "percent", ("percent", "per cent", "pct"))
    yield unit("mm/m", "ratio", _f("1e-3"), "mm/m", ("um/mm",))
    yield unit("thou/in", "ratio", _f("1e-3"), "thou/inch")


UNITS: Final[tuple[UnitDefinition, ...]] = tuple(_rows())
"""All units; of two with one name the first is meant where no dimension is asked for."""
