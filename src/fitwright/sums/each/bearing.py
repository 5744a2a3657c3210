"""A plain journal bearing under a steady load: where the journal runs, film, flow, friction, pressure."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fitwright.sums.bearing_steps import bearing_steps
from fitwright.sums.declaration import Computed, Found, Output, Sum
from fitwright.sums.forms import SIZE, Amount, Given, Input

if TYPE_CHECKING:
    from fitwright.physics.bearings.steady import SteadyPoint

FULL_FILM = "full film"
TOUCHING = "touching: no film predicted"
BEYOND = "thinner than the tables reach: no film predicted"
_OF_THE_FILM = {
    "eccentricity_ratio": "eccentricity_ratio",
    "minimum_film_thickness": "minimum_film_thickness",
    "attitude_angle": "attitude_angle",
    "side_flow": "side_flow",
    "friction_torque": "friction_torque_full_film",
    "friction_torque_film_only": "friction_torque",
    "maximum_film_pressure": "maximum_film_pressure",
}
"""Each answer, and what it is called of a steady point: published friction has the gap full all round."""


def _compute(given: Given) -> Found:
    point = _point(given)
    film = _film(given, point)
    runs = film == FULL_FILM
    values: dict[str, Computed] = {
        key: _one(point, name) if runs else None for key, name in _OF_THE_FILM.items()
    }
    thinnest, roughness = values["minimum_film_thickness"], given["combined_roughness"]
    held = isinstance(thinnest, float) and roughness is not None
    values |= {
        "film": film,
        "sommerfeld_number": _one(point, "sommerfeld_number"),
        "film_parameter": thinnest / roughness if held else None,
    }
    return Found(values, bearing_steps(given, point, film), tuple(_cautions(given, film)))


def _point(given: Given) -> SteadyPoint:
    from fitwright.data.bearing_tables import bearing_tables
    from fitwright.physics.bearings.steady import steady_point

    return steady_point(
        bearing_tables(),
        journal_diameter=given["journal_diameter"],
        bearing_length=given["bearing_length"],
        radial_clearance=given["radial_clearance"],
        dynamic_viscosity=given["dynamic_viscosity"],
        angular_speed=given["rotational_speed"],
        load=given["load"],
    )


def _one(point: SteadyPoint, key: str) -> float:
    return float(getattr(point, key))


def _film(given: Given, point: SteadyPoint) -> str:
    from fitwright.physics.bearings.touching import Touching, film_over_roughness

    if not point.inside:
        return BEYOND
    held = film_over_roughness(
        _one(point, "minimum_film_thickness"),
        journal_roughness=given["combined_roughness"] or 0.0,
        bearing_roughness=0.0,
    )
    return TOUCHING if isinstance(held, Touching) else FULL_FILM


def _cautions(given: Given, film: str) -> list[str]:
    if film == TOUCHING:
        return ["The film is thinner than three times the roughness: the surfaces touch and wear."]
    if film == BEYOND:
        return [
            "The load squeezes the film below a hundredth of the clearance: no number here is to be trusted."
        ]
    if given["combined_roughness"] is None:
        return [
            "Held against no roughness: give it, or hold the film against three times that of your parts."
        ]
    return []


_LENGTH = Amount("length", above=0.0, typed_in=SIZE)

SUM = Sum(
    name="bearing",
    words=("journal bearing", "main bearing", "big end", "crankshaft", "oil film", "hydrodynamic", "shell"),
    title="Journal bearing",
    text="Where a journal runs under a steady load: thinnest film, oil out of the ends, friction, pressure.",
    inputs=(
        Input("journal_diameter", _LENGTH, "diameter of the journal", required=True),
        Input(
            "bearing_length",
            _LENGTH,
            "length of the film; of one land where a groove parts it",
            required=True,
        ),
        Input(
            "radial_clearance",
            Amount("length", above=0.0),
            "half of bore less journal, at running temperature",
            required=True,
        ),
        Input(
            "dynamic_viscosity",
            Amount("dynamic_viscosity", above=0.0),
            "of the oil in the film, warmer than the sump; the sum `viscosity` helps",
            required=True,
        ),
        Input("rotational_speed", Amount("angular_speed", above=0.0), "of the journal", required=True),
        Input("load", Amount("force", above=0.0), "steady load on the journal", required=True),
        Input(
            "combined_roughness",
            Amount("length", above=0.0),
            "root of the sum of squares of both surfaces' Rq, run in",
            usual=True,
        ),
    ),
    outputs=(
        Output("film", "whether a film is predicted", leads=True),
        Output("eccentricity_ratio", "how far the journal lies off centre, over the clearance", "ratio"),
        Output("minimum_film_thickness", "the smallest gap", "length", leads=True),
        Output("film_parameter", "smallest gap over roughness; three or more parts the surfaces", "ratio"),
        Output("attitude_angle", "from the load to the thinnest film, the way the journal turns", "angle"),
        Output("sommerfeld_number", "(viscosity × rev/s / specific load) × (radius / clearance)²", "ratio"),
        Output("side_flow", "oil that the turning journal pumps out of both ends", "volume_flow", leads=True),
        Output("friction_torque", "that holds the journal back, with the gap full all round", "torque"),
        Output(
            "friction_torque_film_only",
            "the same where the ruptured film drags by the share of the gap that it fills",
            "torque",
        ),
        Output("maximum_film_pressure", "largest pressure in the film", "pressure", leads=True),
    ),
    compute=_compute,
    source="raimondi1958",
    cautions=(
        "Smooth, round, rigid parts, one viscosity, oil in plenty and a steady load are assumed.",
        "The maker's clearances and oil govern; a qualified person judges what an engine hangs on.",
    ),
    example={
        "journal_diameter": "50 mm",
        "bearing_length": "22 mm",
        "radial_clearance": "0.025 mm",
        "dynamic_viscosity": "10 mPa s",
        "rotational_speed": "3000 rpm",
        "load": "3 kN",
        "combined_roughness": "0.4 µm",
    },
)
