"""Viscosity of an oil at a temperature, from the two viscosities on its data sheet."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fitwright.sums.declaration import Found, Output, PutIn, Step, Sum
from fitwright.sums.errors import InputError
from fitwright.sums.forms import Amount, Given, Input

if TYPE_CHECKING:
    from fitwright.physics.oil.oil import Oil

_ASSUMED_DENSITY = 860.0
_COLDEST, _WARMEST = 273.15, 423.15


def _compute(given: Given) -> Found:
    from fitwright.physics.oil.oil import density, kinematic_viscosity

    oil, temperature = _oil(given), given["temperature"]
    kinematic = float(kinematic_viscosity(oil, temperature))
    rho = None if given["density_15"] is None else float(density(oil, temperature))
    dynamic = None if rho is None else kinematic * rho
    return Found(
        {
            "kinematic_viscosity": kinematic,
            "dynamic_viscosity": dynamic,
            "density": rho,
            "ten_kelvin_warmer": float(kinematic_viscosity(oil, temperature + 10.0)),
            "viscosity_index": _index(given),
            "grades": _grades(given),
        },
        (
            _line(given, oil),
            _at_temperature(given, oil, kinematic),
            *_dynamic(given, kinematic, rho, dynamic),
        ),
        tuple(_cautions(temperature, kinematic)),
    )


def _oil(given: Given) -> Oil:
    from fitwright.physics.oil.oil import Oil

    at_40, at_100 = given["kinematic_viscosity_40"], given["kinematic_viscosity_100"]
    if not at_40 > at_100:
        raise InputError("kinematic_viscosity_100", "must be below that at 40 °C: oil thins as it warms")
    return Oil(at_40, at_100, given["density_15"] or _ASSUMED_DENSITY)


def _index(given: Given) -> float | None:
    """The viscosity index; None for an oil too thin or too thick at 100 °C to have one."""
    from fitwright.data.oils import viscosity_index_table
    from fitwright.physics.numerics.errors import OutOfDomainError
    from fitwright.physics.oil.viscosity_index import viscosity_index

    at_40, at_100 = given["kinematic_viscosity_40"], given["kinematic_viscosity_100"]
    try:
        return viscosity_index(at_40, at_100, viscosity_index_table())
    except OutOfDomainError:
        return None


def _grades(given: Given) -> str | None:
    from fitwright.data.oils import j300
    from fitwright.physics.oil.grades import classified

    found = classified(given["kinematic_viscosity_100"], None, j300()).grades
    return " or ".join(found) or None


def _line(given: Given, oil: Oil) -> Step:
    from fitwright.physics.oil.walther import walther_line

    a, b = (float(each) for each in walther_line(oil.kinematic_viscosity_40, oil.kinematic_viscosity_100))
    return Step(
        "The line through both viscosities",
        "log log(ν + 0.7) = A − B × log T, with ν in mm²/s and T in kelvin",
        (
            PutIn("viscosity at 40 °C", given["kinematic_viscosity_40"], "kinematic_viscosity", "given"),
            PutIn("viscosity at 100 °C", given["kinematic_viscosity_100"], "kinematic_viscosity", "given"),
            PutIn("A", a, "ratio"),
        ),
        PutIn("B", b, "ratio"),
        "astm_d341_2020",
    )


def _at_temperature(given: Given, oil: Oil, kinematic: float) -> Step:
    from fitwright.physics.oil.walther import walther_line

    a, b = (float(each) for each in walther_line(oil.kinematic_viscosity_40, oil.kinematic_viscosity_100))
    return Step(
        "Viscosity at the temperature",
        "10^(10^(A − B × log T)) − 0.7, and below 2 mm²/s the standard's correction",
        (
            PutIn("A", a, "ratio", "step before"),
            PutIn("B", b, "ratio", "step before"),
            PutIn("temperature", given["temperature"], "temperature", "given"),
        ),
        PutIn("kinematic viscosity", kinematic, "kinematic_viscosity"),
        "astm_d341_2020",
    )


def _dynamic(given: Given, kinematic: float, rho: float | None, dynamic: float | None) -> tuple[Step, ...]:
    if rho is None:
        return ()
    return (
        Step(
            "Density at the temperature",
            "ρ15 × exp(−α ΔT (1 + 0.8 α ΔT)), with α = 0.6278 / ρ15 and ΔT from 15 °C",
            (
                PutIn("ρ15, density at 15 °C", given["density_15"], "density", "given"),
                PutIn("temperature", given["temperature"], "temperature", "given"),
            ),
            PutIn("density", rho, "density"),
            "astm_d1250_1980",
        ),
        Step(
            "Dynamic viscosity",
            "kinematic viscosity × density",
            (
                PutIn("kinematic viscosity", kinematic, "kinematic_viscosity", "step before"),
                PutIn("density", rho, "density", "step before"),
            ),
            PutIn("dynamic viscosity", dynamic, "dynamic_viscosity"),
        ),
    )


def _cautions(temperature: float, kinematic: float) -> list[str]:
    said = []
    if temperature < _COLDEST:
        said.append("Below 0 °C wax and polymer decide: the oil is thicker than this line says.")
    if temperature > _WARMEST:
        said.append("Above 150 °C the line is used beyond the temperatures at which oils are measured.")
    if kinematic < 2e-6:
        said.append("Below 2 mm²/s the line is less certain.")
    return said


_THICK = Amount("kinematic_viscosity", least=0.21e-6, most=1.0)

SUM = Sum(
    name="viscosity",
    words=("oil grade", "cSt", "centistokes", "oil temperature", "data sheet", "viscosity index", "SAE"),
    title="Viscosity at a temperature",
    text="How thick an oil is at a temperature, from the two viscosities on its data sheet.",
    inputs=(
        Input("kinematic_viscosity_40", _THICK, "kinematic viscosity at 40 °C (KV40)", required=True),
        Input("kinematic_viscosity_100", _THICK, "kinematic viscosity at 100 °C (KV100)", required=True),
        Input(
            "temperature",
            Amount("temperature", least=233.15, most=473.15),
            "temperature of the oil",
            required=True,
        ),
        Input(
            "density_15",
            Amount("density", least=700.0, most=1200.0),
            "density at 15 °C, for the dynamic viscosity",
            usual=True,
        ),
    ),
    outputs=(
        Output("kinematic_viscosity", "at the temperature, at low shear", "kinematic_viscosity", leads=True),
        Output("dynamic_viscosity", "at the temperature, at low shear", "dynamic_viscosity", leads=True),
        Output("density", "at the temperature", "density"),
        Output("ten_kelvin_warmer", "kinematic viscosity 10 K warmer", "kinematic_viscosity"),
        Output("viscosity_index", "how little it thins with temperature, by ASTM D2270", "ratio"),
        Output("grades", "grades of SAE J300 without W that its viscosity at 100 °C fits"),
    ),
    compute=_compute,
    source="astm_d341_2020",
    cautions=(
        "In a bearing a multigrade is thinner than this: shear thins it. Hot oil burns.",
        "The engine maker's manual says which oil; this says only how thick one is.",
    ),
    example={
        "kinematic_viscosity_40": "98 mm2/s",
        "kinematic_viscosity_100": "14.7 mm2/s",
        "temperature": "110 degC",
        "density_15": "868 kg/m3",
    },
)
