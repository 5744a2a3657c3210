"""The working of a journal bearing."""

from __future__ import annotations

from math import pi
from typing import TYPE_CHECKING

from fitwright.sums.declaration import PutIn, Step
from fitwright.sums.forms import Given

if TYPE_CHECKING:
    from fitwright.physics.bearings.steady import SteadyPoint

_TABLES = "tables of direct film solutions"


def bearing_steps(given: Given, point: SteadyPoint, film: str) -> tuple[Step, ...]:
    """The steps from sizes to the film; those after the load only where there is one."""
    first = (_specific(given), _sommerfeld(given, point))
    if not point.inside:
        return first
    steps = (*first, _place(given, point), _thinnest(given, point))
    if film.startswith("touching"):
        return (*steps, _roughness(given, point, film))
    held = () if given["combined_roughness"] is None else (_roughness(given, point, film),)
    return (*steps, *held, _flow(given, point), _friction(given, point), _pressure(given, point))


def _specific_load(given: Given) -> float:
    return float(given["load"] / (given["bearing_length"] * given["journal_diameter"]))


def _specific(given: Given) -> Step:
    return Step(
        "Specific load",
        "W / (L × D)",
        (
            PutIn("W, load", given["load"], "force", "given"),
            PutIn("L, bearing length", given["bearing_length"], "length", "given"),
            PutIn("D, journal diameter", given["journal_diameter"], "length", "given"),
        ),
        PutIn("specific load", _specific_load(given), "pressure"),
        "raimondi1958",
    )


def _sommerfeld(given: Given, point: SteadyPoint) -> Step:
    return Step(
        "Sommerfeld number",
        "(μ × N / P) × (R / c)², N in revolutions per second",
        (
            PutIn("μ, dynamic viscosity", given["dynamic_viscosity"], "dynamic_viscosity", "given"),
            PutIn("N, speed", given["rotational_speed"] / (2.0 * pi), "frequency", "given"),
            PutIn("P, specific load", _specific_load(given), "pressure", "step before"),
            PutIn("R, journal radius", 0.5 * given["journal_diameter"], "length", "given"),
            PutIn("c, radial clearance", given["radial_clearance"], "length", "given"),
        ),
        PutIn("Sommerfeld number", float(point.sommerfeld_number), "ratio"),
        "raimondi1958",
    )


def _place(given: Given, point: SteadyPoint) -> Step:
    return Step(
        "Where the journal runs",
        "read at the Sommerfeld number and the length ratio",
        (
            PutIn("Sommerfeld number", float(point.sommerfeld_number), "ratio", "step before"),
            PutIn("L / D", given["bearing_length"] / given["journal_diameter"], "ratio", "given"),
            PutIn("attitude angle", float(point.attitude_angle), "angle", _TABLES),
        ),
        PutIn("eccentricity ratio", float(point.eccentricity_ratio), "ratio"),
        "raimondi1958",
    )


def _thinnest(given: Given, point: SteadyPoint) -> Step:
    return Step(
        "Thinnest film",
        "c × (1 − eccentricity ratio)",
        (
            PutIn("c, radial clearance", given["radial_clearance"], "length", "given"),
            PutIn("eccentricity ratio", float(point.eccentricity_ratio), "ratio", "step before"),
        ),
        PutIn("minimum film thickness", float(point.minimum_film_thickness), "length"),
        "raimondi1958",
    )


def _roughness(given: Given, point: SteadyPoint, film: str) -> Step:
    return Step(
        "Held against the roughness",
        "thinnest film / combined roughness, to be 3 or more",
        (
            PutIn("thinnest film", float(point.minimum_film_thickness), "length", "step before"),
            PutIn("combined roughness", given["combined_roughness"], "length", "given"),
        ),
        PutIn("film", film),
        "hamrock2004",
    )


def _flow(given: Given, point: SteadyPoint) -> Step:
    turns = given["rotational_speed"] / (2.0 * pi)
    unit = 0.5 * given["journal_diameter"] * given["radial_clearance"] * turns * given["bearing_length"]
    return Step(
        "Oil out of both ends",
        "q × R × c × N × L",
        (PutIn("q, side flow number", float(point.side_flow) / unit, "ratio", _TABLES),),
        PutIn("side flow", float(point.side_flow), "volume_flow"),
        "raimondi1958",
    )


def _friction(given: Given, point: SteadyPoint) -> Step:
    torque, clearance = float(point.friction_torque_full_film), given["radial_clearance"]
    return Step(
        "Friction, the gap full all round as in the published tables",
        "(R/c × f) × W × c",
        (
            PutIn("R/c × f", torque / (given["load"] * clearance), "ratio", _TABLES),
            PutIn("W, load", given["load"], "force", "given"),
            PutIn("c, radial clearance", clearance, "length", "given"),
        ),
        PutIn("friction torque", torque, "torque"),
        "raimondi1958",
    )


def _pressure(given: Given, point: SteadyPoint) -> Step:
    largest = float(point.maximum_film_pressure)
    return Step(
        "Largest pressure",
        "P / (P/pmax)",
        (
            PutIn("P, specific load", _specific_load(given), "pressure", "first step"),
            PutIn("P/pmax", _specific_load(given) / largest, "ratio", _TABLES),
        ),
        PutIn("largest film pressure", largest, "pressure"),
        "raimondi1958",
    )
