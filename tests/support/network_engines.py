"""Circuits of the two example engines for the solver, built by hand, and a small one with a bare pump.

Sizes that the tables of the engines do not give (widths of lands, coefficients of the pumps' gaps,
loads of bearings) are invented here; nothing is fitted to any pressure.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from functools import cache

import numpy as np
from numpy.typing import NDArray

from fitwright.physics.bearings.curves import short_bearing_curves
from fitwright.physics.bearings.fed_bearing import (
    FedBearing,
    Feed,
    FeedHole,
    FullGroove,
    PartialGroove,
    film_length_ratio,
)
from fitwright.physics.network.circuit import SUMP, Circuit, Path
from fitwright.physics.network.elements import (
    AnnularLeak,
    Bearing,
    ChainTensioner,
    CrankDrilling,
    Element,
    Filter,
    Jet,
    Orifice,
    Pipe,
    Pump,
    PumpLeak,
    Relief,
    Restrictor,
    Series,
    TurbochargerFeed,
)
from fitwright.physics.network.elements.edges import drilling_loss_coefficient
from fitwright.physics.network.sizes import Named
from fitwright.physics.oil.oil import Oil
from fitwright.physics.pump.leakage import Gap, LeakagePath
from fitwright.physics.pump.relief import Ports, ReliefValve

THICK = Oil(152e-6, 22.6e-6, 855.0)  # the five's
STRAIGHT = Oil(105e-6, 11.4e-6, 885.0)  # the eleven's
FREE = drilling_loss_coefficient(1.0)  # a sharp entry and a free end
INCH, THOU = 25.4e-3, 25.4e-6


def turning(*per_minute: float) -> NDArray[np.float64]:
    """Angular speeds [rad/s] of speeds in revolutions per minute."""
    return np.array(per_minute) * 2.0 * math.pi / 60.0


@cache
def _fed(diameter: float, length: float, feed: Feed, load: float, growth: float = 0.0) -> Bearing:
    """A bearing with the closed-form curves of the short bearing."""
    bearing = FedBearing(diameter, length, feed)
    curves = short_bearing_curves(film_length_ratio(bearing), np.linspace(0.03, 0.98, 60))
    return Bearing(bearing, curves, 25e-6, load, growth)


def with_clearance(bearing: Bearing, parameter: str, *, speed_ratio: float = 1.0) -> Bearing:
    """The same bearing, its diametral clearance a parameter."""
    half = Named(parameter, 0.5)
    return Bearing(
        bearing.bearing, bearing.steady_curves, half, bearing.load, bearing.load_growth, speed_ratio
    )


def corrie() -> Circuit:
    """The five: pump on the crank's nose, filter, jets, turbocharger, two cam galleries."""
    parameters = {
        "pump.end": 0.061e-3,
        "pump.tip": 0.0875e-3,
        "pump.body": 0.140e-3,
        "pump.ratio": 1.0,
        "relief.preload": 7.07e-3,
        "relief.rate": 8.0e3,
        "relief.plunger": 0.043e-3,
        "relief.seat": 0.0,
        "jet.diameter": 1.2e-3,
        "restrictor.diameter": 1.3e-3,
        "turbo.restrictor": 1.3e-3,
        "filter.resistance": 2.0e10,
        "cam.clearance": 0.06e-3,
        "follower.clearance": 0.035e-3,
        **{f"main.{at}.clearance": (54 + at % 3) * 1e-6 for at in range(1, 7)},
        **{f"rod.{at}.clearance": (51 + at % 4) * 1e-6 for at in range(1, 6)},
    }
    return Circuit((*_corrie_supply(), *_corrie_bottom(), *_corrie_top()), parameters)


def _corrie_supply() -> Iterator[Path]:
    leaks = (
        PumpLeak(LeakagePath("faces", 5.0, 1.5e-4, Gap.END), Named("pump.end")),
        PumpLeak(LeakagePath("tips", 0.04, -2.0e-4, Gap.TIP), Named("pump.tip")),
        PumpLeak(LeakagePath("body", 0.02, 0.0, Gap.BODY), Named("pump.body", 0.5)),
    )
    valve = ReliefValve(
        8.0e3, 7.07e-3, 12.0e-3, 5.0e-3, Ports.ANNULUS, plunger_diameter=12.0e-3,
        plunger_eccentricity_ratio=1.0, land_length=12.0e-3, port_lead=0.5e-3, seat_width=0.5e-3,
        flow_force_coefficient=0.3,
    )  # fmt: skip
    relief = Relief(
        valve,
        preload_length=Named("relief.preload"),
        plunger_radial_clearance=Named("relief.plunger", 0.5),
        seat_leak_lift=Named("relief.seat"),
        spring_rate=Named("relief.rate"),
    )
    pump = Pump(10.016e-6 / (2.0 * math.pi), leaks, Named("pump.ratio"), -0.4e5, 1.8e-4, 2.0e-5)
    yield Path("strainer", SUMP, "pickup", Orifice(math.sqrt(4.0 * 1600e-6 / math.pi)), "inlet")
    yield Path("pickup pipe", "pickup", "inlet", Pipe(16e-3, 0.210, 0.0, FREE), "inlet")
    yield Path("pump", "inlet", "outlet", pump, "pump")
    yield Path("outlet pipe", "outlet", "tee", Pipe(12e-3, 0.140, 0.0, FREE), "main")
    yield Path("relief", "tee", "inlet", relief, "relief")
    yield Path("filter", "tee", "clean", Filter(Named("filter.resistance"), 1.2e5, 2.2e5, 12e-3), "main")
    yield Path("gallery entry", "clean", "gallery 1", Pipe(12e-3, 0.090, 0.0, FREE), "main")


def _corrie_bottom() -> Iterator[Path]:
    main = _fed(56e-3, 19e-3, PartialGroove(4e-3), 300.0, 4.0e-3)
    rod = _fed(47e-3, 20e-3, FeedHole(5e-3), 300.0, 9.0e-3)
    for at in range(1, 6):
        yield Path(f"gallery {at}", f"gallery {at}", f"gallery {at + 1}", Pipe(12e-3, 0.086), "main")
    for at in range(1, 7):
        feed = Pipe(6e-3, 0.045, 0.0, FREE)
        yield Path(f"main feed {at}", f"gallery {at}", f"main {at}", feed, "mains")
        bearing = with_clearance(main, f"main.{at}.clearance")
        yield Path(f"main {at}", f"main {at}", SUMP, bearing, "mains")
    for at in range(1, 6):
        drilling = CrankDrilling(5e-3, 0.062, (0.028, 0.012, 0.0655), fed_share=0.5)
        yield Path(f"crank {at}", f"main {at}", f"rod {at}", drilling, "rods")
        bearing = with_clearance(rod, f"rod.{at}.clearance")
        yield Path(f"rod {at}", f"rod {at}", SUMP, bearing, "rods")
        jet = Jet(Named("jet.diameter"), 1.8e5, 2.4e5, 0.75)
        yield Path(f"jet {at}", f"gallery {at}", SUMP, jet, "jets")


def _corrie_top() -> Iterator[Path]:
    line = TurbochargerFeed(6e-3, 0.450, Named("turbo.restrictor"), 2.0e12)
    tensioner = ChainTensioner(14e-3, 20e-6, 25e-3, 1.0, 0.8e-3)
    yield Path("turbo", "gallery 6", SUMP, line, "turbo")
    yield Path("tensioner", "gallery 1", SUMP, tensioner, "timing drive")
    yield Path("riser", "gallery 6", "head", Pipe(8e-3, 0.180, 0.0, FREE), "head")
    for side in ("in", "ex"):
        restrictor = Restrictor(Named("restrictor.diameter"), 4e-3)
        yield Path(f"{side} restrictor", "head", f"{side} cam 1", restrictor, "head")
        for at in range(1, 6):
            yield Path(f"{side} gallery {at}", f"{side} cam {at}", f"{side} cam {at + 1}", Pipe(8e-3, 0.082))
        for at in range(1, 7):
            yield from _corrie_camshaft(side, at)


def _corrie_camshaft(side: str, at: int) -> Iterator[Path]:
    cam = with_clearance(_fed(26e-3, 18e-3, FeedHole(2.5e-3), 200.0), "cam.clearance", speed_ratio=0.5)
    followers = Series(
        (
            Pipe(2e-3, 0.010, 0.0, FREE, 10.0 / 6.0),
            AnnularLeak(28e-3, Named("follower.clearance", 0.5), 12e-3, 1.0, 20.0 / 6.0),
        )
    )
    node, journal = f"{side} cam {at}", f"{side} journal {at}"
    yield Path(f"{side} feed {at}", node, journal, Pipe(2.5e-3, 0.012, 0.0, FREE), "cams")
    yield Path(journal, journal, SUMP, cam, "cams")
    yield Path(f"{side} followers {at}", node, SUMP, followers, "followers")


def brackengill() -> Circuit:
    """The eleven: spur pump at half speed, no filter, white-metal mains with full grooves."""
    parameters = {
        "pump.end": 2.4 * THOU,
        "pump.radial": 2.75 * THOU,
        "relief.preload": 0.589 * INCH,
        "relief.plunger": 1.5 * THOU,
        "relief.seat": 0.0,
        "rocker.diameter": 0.055 * INCH,
        "skew.diameter": 0.035 * INCH,
        "cam.clearance": 2.5 * THOU,
        **{f"main.{at}.clearance": (1.9 + 0.05 * at) * THOU for at in range(1, 4)},
        **{f"rod.{at}.clearance": 1.8 * THOU for at in range(1, 5)},
    }
    return Circuit((*_brackengill_supply(), *_brackengill_engine()), parameters)


def _brackengill_supply() -> Iterator[Path]:
    leaks = (
        PumpLeak(LeakagePath("faces", 1.6, 5.0e-5, Gap.END), Named("pump.end")),
        PumpLeak(LeakagePath("tips", 0.25, -1.0e-4, Gap.TIP), Named("pump.radial")),
    )
    valve = ReliefValve(
        2452.0, 0.589 * INCH, 0.5 * INCH, 6e-3, Ports.SEAT, plunger_diameter=0.5 * INCH,
        plunger_eccentricity_ratio=1.0, land_length=12e-3, seat_width=0.4e-3,
    )  # fmt: skip
    relief = Relief(
        valve,
        preload_length=Named("relief.preload"),
        plunger_radial_clearance=Named("relief.plunger", 0.5),
        seat_leak_lift=Named("relief.seat"),
    )
    pump = Pump(10.86e-6 / (2.0 * math.pi), leaks, 0.5, -0.5e5, 1.0e-4, 0.0)
    yield Path("strainer", SUMP, "pickup", Orifice(30e-3), "inlet")
    yield Path("pickup pipe", "pickup", "inlet", Pipe(12.7e-3, 0.152, 0.0, FREE), "inlet")
    yield Path("pump", "inlet", "outlet", pump, "pump")
    yield Path("relief", "outlet", SUMP, relief, "relief")
    yield Path("delivery", "outlet", "gallery 1", Pipe(9.5e-3, 0.127, 0.0, FREE), "main")


def _brackengill_engine() -> Iterator[Path]:
    main = _fed(50.8e-3, 38.1e-3, FullGroove(6e-3), 300.0, 6.0e-3)
    rod = _fed(44.45e-3, 30e-3, FeedHole(4.76e-3), 300.0, 9.0e-3)
    cam = with_clearance(_fed(45e-3, 25e-3, FeedHole(3.97e-3), 300.0), "cam.clearance", speed_ratio=0.5)
    for at in (1, 2):
        yield Path(f"gallery {at}", f"gallery {at}", f"gallery {at + 1}", Pipe(9.5e-3, 0.216), "main")
    for at in (1, 2, 3):
        yield Path(f"main feed {at}", f"gallery {at}", f"main {at}", Pipe(6.35e-3, 0.051, 0.0, FREE), "mains")
        yield Path(f"main {at}", f"main {at}", SUMP, with_clearance(main, f"main.{at}.clearance"), "mains")
        yield Path(f"cam feed {at}", f"gallery {at}", f"cam {at}", Pipe(3.97e-3, 0.102, 0.0, FREE), "cams")
        yield Path(f"cam {at}", f"cam {at}", SUMP, cam, "cams")
    for at, feeds in ((1, 1), (2, 2), (3, 2), (4, 3)):
        drilling = CrankDrilling(4.76e-3, 0.089, (0.0254, 0.0, 0.07556), 0.0, 0.5, 2.2)
        yield Path(f"crank {at}", f"main {feeds}", f"rod {at}", drilling, "rods")
        yield Path(f"rod {at}", f"rod {at}", SUMP, with_clearance(rod, f"rod.{at}.clearance"), "rods")
    yield Path("rockers", "gallery 3", SUMP, Orifice(Named("rocker.diameter"), 0.7), "rockers")
    yield Path("skew gear", "gallery 1", SUMP, Jet(Named("skew.diameter"), 0.0, 1.0, 0.7), "jets")


def small(
    paths: Mapping[str, tuple[str, str, Element]], parameters: Mapping[str, float] | None = None
) -> Circuit:
    """A pump that always fills and never leaks, into a `gallery`, and paths: name -> (from, to, element)."""
    pump = Path("pump", SUMP, "gallery", Pump(1.6e-6, filling_area=0.1), "pump")
    others = (Path(name, up, down, element) for name, (up, down, element) in paths.items())
    return Circuit((pump, *others), parameters or {})
