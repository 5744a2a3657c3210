"""Predictions for tests of charts and words: their figures are made up, and mean nothing."""

from __future__ import annotations

from dataclasses import replace
from math import pi, tanh

from fitwright.assess.oil.results import (
    Band,
    BearingState,
    Cost,
    FilmState,
    GroupFlow,
    NodeState,
    OilUsed,
    PointState,
    Prediction,
    PressureCurve,
    PumpState,
    StopValue,
)
from fitwright.assess.oil.sizes import Basis, KnownSize
from fitwright.drawing.charts.shown import ReliefPlateau, StartReading

BAR, KELVIN = 1e5, 273.15


def rad_per_s(rev_per_min: float) -> float:
    """A speed in rad/s."""
    return rev_per_min * pi / 30.0


def curve(
    celsius: float, *, share: float = 1.0, gaps: tuple[int, ...] = (), bands: bool = True
) -> PressureCurve:
    """A curve that rises into a plateau; points in `gaps` did not converge."""
    speeds = [700.0 + 365.0 * n for n in range(21)]
    stiff = share * 95.0 / celsius
    bests = [BAR * 5.4 * tanh(stiff * speed / 3100.0) for speed in speeds]
    found = tuple(
        Band(None) if n in gaps else Band(best, 0.9 * best, 1.07 * best) if bands else Band(best)
        for n, best in enumerate(bests)
    )
    return PressureCurve(celsius + KELVIN, tuple(map(rad_per_s, speeds)), found)


CURVES = (curve(80.0), curve(100.0, gaps=(8, 9, 20)), curve(120.0, gaps=(15,)))
WHAT_IF = (curve(100.0, share=0.8, bands=False),)
RELIEF = ReliefPlateau(4.9 * BAR, 5.6 * BAR)
STOPS = (
    StopValue("Stop", "maker, p. A-12", 1.0 * BAR, rad_per_s(900), 383.15, None),
    StopValue(
        "Look into it", "the shop's foreman", 1.6 * BAR, rad_per_s(900), 373.15, None, "lower edge below it"
    ),
    StopValue("Stop", "rule of thumb", 2.6 * BAR, rad_per_s(4000), None, None),
    StopValue("Stop", "maker, p. A-12", None, None, None, 20.0),
)
READINGS = (
    StartReading(rad_per_s(900), 363.15, 2.35 * BAR, 0.1 * BAR),
    StartReading(rad_per_s(2500), 371.15, 4.4 * BAR, 0.1 * BAR, "within the band"),
    StartReading(rad_per_s(2600), None, 4.45 * BAR),
)

COSTS = (
    Cost("main", "Mains 1 to 6", "mains", -0.11 * BAR, 1e-5, -0.34 * BAR, "from the middle of their limits"),
    Cost("rod", "Big ends", "big ends", -0.05 * BAR, 1e-5, -0.06 * BAR, "from the middle of their limits"),
    Cost("end", "Pump end clearance", "pump", -0.09 * BAR, 1e-5, 0.12 * BAR, "from the middle of its limits"),
    Cost(
        "cam", "Inlet camshaft bearings", "head", -0.02 * BAR, 1e-5, None, "", "the solution did not converge"
    ),
    Cost("jets", "Jets stay open", None, None, None, -0.61 * BAR, "against jets as they are"),
    Cost("seat", "Relief seat leaks", None, None, None, None, "", "the solution did not converge"),
)


def bearing(
    title: str,
    best: float | None,
    *,
    state: FilmState = FilmState.FILM,
    roughness: float | None = 0.4e-6,
    starved: bool = False,
) -> BearingState:
    """A bearing with a film [m], its band 20 % wide to either side."""
    film = Band(None) if best is None else Band(best, 0.8 * best, 1.2 * best)
    none = Band(None)
    return BearingState(
        id=title,
        title=title,
        group="mains",
        state=state,
        film_thickness=film,
        eccentricity_ratio=0.8,
        film_temperature=390.0,
        friction_power=120.0,
        flow=none,
        feed_pressure=none,
        starved=starved,
        roughness=roughness,
    )


BEARINGS = (
    bearing("Main 1", 2.6e-6),
    bearing("Main 2", 1.35e-6),
    bearing("Main 3", 0.9e-6, starved=True),
    bearing("Big end 1", None, state=FilmState.TOUCHING),
    bearing("Big end 2", None, state=FilmState.NO_LOAD),
    bearing("Big end 3", None, state=FilmState.NOT_CONVERGED),
    bearing("Inlet camshaft bearing at the chain", 5.1e-6, roughness=None),
)


def point(title: str, rev_per_min: float, celsius: float, best: float | None, **other: object) -> PointState:
    """An operating point with the pressure at its gauge [Pa] and one bearing of each kind."""
    band = Band(best) if best is None else Band(best, 0.9 * best, 1.1 * best)
    found = PointState(
        title=title,
        angular_speed=rad_per_s(rev_per_min),
        oil_temperature=celsius + KELVIN,
        converged=best is not None,
        gauge_pressure=band,
        nodes=(NodeState("gallery", "gallery", band, is_gauge=True),),
        paths=(),
        budget=(GroupFlow("mains", Band(3e-5), 0.4), GroupFlow("relief valve", Band(1e-5), 0.1)),
        bearings=BEARINGS,
        pumps=(PumpState("pressure", "Oil pump", 1e-4, 2e-5, 8e-5, 1e-5, 0.125, 1.0, -2e3, 0.4),),
    )
    return replace(found, **other)  # type: ignore[arg-type]  # fields of a point


def size(name: str, *, critical: bool = False) -> KnownSize:
    """A size that is not measured: anywhere between its limits."""
    return KnownSize(
        name,
        name,
        "mains",
        Basis.LIMIT_BAND,
        5e-5,
        {},
        (3e-5, 7e-5),
        critical=critical,
        reason="not measured",
    )


def prediction(*, problem: str = "") -> Prediction:
    """All of it: a point that did not converge, a stop value that is crossed, sizes not measured."""
    robbed, thin = "Jets rob the idle pressure.", "Fed with less than half of what they would draw: Main 1."
    sizes = {each.id: each for each in (size("Pump end clearance"), size("Main 1 clearance", critical=True))}
    crossed = StopValue("", "the shop's foreman", 3e5, rad_per_s(900), 383.15, None, "Do not start.")
    return Prediction(
        title="Oil of an engine of this sheet, while 2 sizes are not measured",
        oil=OilUsed(
            "street", "Street oil", "data sheet", 98e-6, 14.7e-6, ("Its density was taken as usual.",)
        ),
        sizes=sizes,
        unmeasured=tuple(sizes.values()),
        not_known=(),
        curves=CURVES,
        points=(
            point("hot idle", 900, 110, 2.4 * BAR, findings=(robbed, thin)),
            point("pull", 6000, 115, 5.2 * BAR, findings=(thin,)),
            point("top", 9000, 120, None),
        ),
        costs=COSTS,
        faults=COSTS[-2:],
        stops=(*STOPS, crossed),
        filling_limit=rad_per_s(8200),
        cautions=("A prediction, not a limit.",),
        not_modelled=("No air in the oil.",),
        problem=problem,
        falls=("With hot oil the pressure falls.",),
    )
