"""What pressure is left for a big end that is fed through the crank, at a speed."""

from __future__ import annotations

from math import isfinite

from fitwright.sums.declaration import Computed, Found, Output, PutIn, Step, Sum
from fitwright.sums.errors import InputError
from fitwright.sums.forms import SIZE, Amount, Given, Input


def _compute(given: Given) -> Found:
    from fitwright.physics.bearings.crank_feed import speed_of_no_margin

    surface, inner = 0.5 * given["main_journal_diameter"], given["innermost_radius"]
    if inner > surface:
        raise InputError("innermost_radius", "it must not be larger than the radius of the main journal")
    lost = _change(given, surface, inner)
    margin = given["gauge_pressure"] + lost
    outlet = given["big_end_feed_radius"]
    gained = None if outlet is None or margin < 0.0 else _change(given, inner, outlet)
    limit = speed_of_no_margin(
        given["density"], gauge_pressure=given["gauge_pressure"], from_radius=surface, to_radius=inner
    )
    values: dict[str, Computed] = {
        "centrifugal_pressure_change": lost,
        "margin": margin,
        "big_end_pressure": None if gained is None else margin + gained,
        "speed_of_no_margin": limit if isfinite(limit) else None,
    }
    return Found(values, _steps(given, lost, margin, gained), _cautions(margin))


def _change(given: Given, start: float, end: float) -> float:
    from fitwright.physics.bearings.crank_feed import centrifugal_pressure_change

    return centrifugal_pressure_change(
        given["density"], angular_speed=given["rotational_speed"], from_radius=start, to_radius=end
    )


def _steps(given: Given, lost: float, margin: float, gained: float | None) -> tuple[Step, ...]:
    density = PutIn("ρ, density", given["density"], "density", given.origin("density"))
    speed = PutIn("ω, speed of the crank", given["rotational_speed"], "angular_speed", "given")
    inner = PutIn(
        "r₂, innermost radius", given["innermost_radius"], "length", given.origin("innermost_radius")
    )
    surface = PutIn("r₁, half of the main journal", 0.5 * given["main_journal_diameter"], "length", "given")
    steps = [
        Step(
            "Inwards, against the turning column",
            "ρ × ω² × (r₂² − r₁²) / 2",
            (density, speed, inner, surface),
            PutIn("change of pressure", lost, "pressure"),
            "white2011",
        ),
        Step(
            "What is left at the innermost place",
            "pressure at the main + change of pressure",
            (
                PutIn("pressure at the main", given["gauge_pressure"], "pressure", "given"),
                PutIn("change of pressure", lost, "pressure", "step before"),
            ),
            PutIn("margin", margin, "pressure"),
        ),
    ]
    if gained is not None:
        steps.append(_outwards(given, (density, speed, inner), margin, gained))
    return tuple(steps)


def _outwards(given: Given, before: tuple[PutIn, PutIn, PutIn], margin: float, gained: float) -> Step:
    return Step(
        "Outwards to the big end, as long as the column holds",
        "margin + ρ × ω² × (r₃² − r₂²) / 2",
        (
            PutIn("margin", margin, "pressure", "step before"),
            *before,
            PutIn("r₃, feed of the big end", given["big_end_feed_radius"], "length", "given"),
        ),
        PutIn("pressure at the big end", margin + gained, "pressure"),
        "white2011",
    )


def _cautions(margin: float) -> tuple[str, ...]:
    return (_BROKEN,) if margin < 0.0 else ()


_BROKEN = (
    "Nothing is left: below ambient pressure the oil lets its air go, the column breaks, the big end starves."
)
_SIZE = Amount("length", above=0.0, typed_in=SIZE)

SUM = Sum(
    name="feed-margin",
    words=("big end", "rod bearing", "centrifugal", "crank drilling", "oil starvation", "oil pressure"),
    title="Feed of a big end at speed",
    text="Pressure that the turning crank takes from the oil on its way in, and what the big end is left.",
    inputs=(
        Input("gauge_pressure", Amount("pressure", least=0.0), "pressure at the main bearing", required=True),
        Input("main_journal_diameter", _SIZE, "where the oil enters the crank", required=True),
        Input(
            "rotational_speed",
            Amount("angular_speed", above=0.0),
            "highest speed of the crank",
            required=True,
        ),
        Input("density", Amount("density", above=0.0), "density of the warm oil", default="820 kg/m3"),
        Input(
            "innermost_radius",
            Amount("length", least=0.0, typed_in=SIZE),
            "smallest distance of the drilling from the crank's axis; zero if it passes through it",
            default="0 mm",
        ),
        Input(
            "big_end_feed_radius",
            _SIZE,
            "distance from the crank's axis to where the oil leaves the crank pin",
            usual=True,
        ),
    ),
    outputs=(
        Output("centrifugal_pressure_change", "from the main journal inwards; negative", "pressure"),
        Output("margin", "pressure left at the innermost place of the drilling", "pressure", leads=True),
        Output(
            "big_end_pressure", "where the oil leaves the crank pin; null where the column breaks", "pressure"
        ),
        Output(
            "speed_of_no_margin",
            "speed at which nothing is left; null where the drilling does not lead inwards",
            "angular_speed",
            leads=True,
        ),
    ),
    compute=_compute,
    source="white2011",
    cautions=(
        "Air in the oil, a narrow drilling and a half groove take more than is computed here.",
        "The maker's oil pressures and speeds govern; a qualified person judges what an engine hangs on.",
    ),
    example={
        "gauge_pressure": "4.5 bar",
        "main_journal_diameter": "56 mm",
        "rotational_speed": "8000 rpm",
        "big_end_feed_radius": "70 mm",
    },
)
