"""Oil pump and its skew drive as found."""

from __future__ import annotations

from tools.examples.bench import set_in
from tools.examples.book import Book
from tools.examples.brackengill_eleven.bench import sit, zero

BODY_DEPTH = (".7552", ".7553", ".7552", ".7552")
"""At a, b, c, d [in]."""


def receive(book: Book) -> None:
    """All readings of pump and drive, as found."""
    book.at("2025-03-07 09:00")
    zero(book, "H-08", "K1", "anvils closed")
    zero(book, "H-09", "K2", "1 in rod")
    zero(book, "H-10", "K4", "surface plate")
    set_in(book, "H-11", "G1", "1.4000 in", ("K2", "H-09"))
    set_in(book, "H-12", "G2", ".5000 in", ("K1", "H-08"))
    _body_and_gears(book)
    _spindle_and_relief(book)
    _skew_drive(book)


def _body_and_gears(book: Book) -> None:
    gauges = {
        "depth micrometer": "K4",
        "outside micrometer": "K1",
        "bore gauge": "G1",
        "feeler blades": "E1",
        "test indicator": "V2",
        "dial indicator": "V1",
    }
    settings = {"K4": "H-10", "K1": "H-08", "K2": "H-09", "G1": "H-11"}
    sit(book, "B-07", "Pump body, gears and cover, washed and dry", gauges, settings)
    book.values("pump.body_depth", BODY_DEPTH, "in")
    book.values("pump.gear_width", [".7497", ".7498"], "in")
    for gear in ("driver", "idler"):
        book.gap("pump.end_gap", "E1:.005", "E1:.006", place=gear)
    book.values("pump.cover.groove_depth", ["1.5"], "thou")
    book.values("pump.body_bore", ["1.3805", "1.3806"], "in")
    book.values("pump.gear_diameter", ["1.3750", "1.3749"], "in", instrument="K2")
    book.values("pump.tooth_gap", ["7.0"], "thou")
    book.values("pump.groove_depth", [".0180", ".0181"], "in")
    book.check_back("H-11", "0.0000 in")
    book.note("The groove in the cover adds 1.5 thou where it runs: 6.9 there.", "pump.end_clearance")


def _spindle_and_relief(book: Book) -> None:
    gauges = {
        "outside micrometer": "K1",
        "telescopic gauge": "G2",
        "depth micrometer": "K4",
        "spring tester": "A2",
        "pressure gauge": "A3",
    }
    settings = {"K1": "H-08", "G2": "H-12", "K4": "H-10"}
    sit(book, "B-08", "Spindle, bush and relief valve", gauges, settings)
    book.values("pump.spindle.diameter", [".4992", ".4992"], "in")
    book.values("pump.bush.bore", [".5002"], "in")
    book.values("pump.relief_bore", [".5000", ".5000", ".5000"], "in")
    book.values("pump.relief_plunger.diameter", [".4985", ".4985"], "in")
    book.values("pump.relief_spring.stiffness", ["14.0"], "lbf/in")
    book.values("pump.relief_spring.preload_length", [".5890"], "in")
    for _ in range(2):
        book.values("pump.relief_pressure", ["42"], "psi")
    book.note("No shim under the relief spring; .020 in would be worth 1.4 psi.", "pump.relief_pressure")


def _skew_drive(book: Book) -> None:
    sit(book, "B-09", "Skew shaft in the block", {"dial indicator": "V1"})
    book.values("skew_shaft.axial_movement", ["7.0"], "thou")
    book.values("skew_shaft.rock", ["8.0"], "thou")
    book.note(
        "8.0 apparent is 2.7 true and 7 thou of float times .754: cure the float first, the gears are sound.",
        "skew_gear.apparent_backlash",
    )
