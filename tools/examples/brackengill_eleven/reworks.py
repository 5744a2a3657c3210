"""What was put right, and the readings that prove it."""

from __future__ import annotations

from tools.examples.assembling import Assembling
from tools.examples.bench import set_in
from tools.examples.brackengill_eleven.bench import sit, zero


def centre_main(hands: Assembling) -> None:
    """R1: a leaf out on each side of the centre main's cap, then scraped."""
    book = hands.book
    book.person = "restorer"
    book.at("2025-03-10 09:00")
    zero(book, "H-21", "K2", "1 in rod")
    set_in(book, "H-22", "G1", "2.0000 in", ("K2", "H-21"), words="in K2 at the top of its range")
    gauges = {"bore gauge": "G1", "spring balance": "A1", "dial indicator": "V1"}
    settings = {"G1": "H-22"}
    sit(
        book,
        "B-11",
        "Centre main, one leaf of 1.5 thou out on each side",
        gauges,
        settings,
        attitude="sump up",
    )
    book.values("main.2.bore", ["2.0012", "2.0012"], "in", during_rework=True)
    book.note("1.6 thou, tight near the joints. Blue and scrape, about 0.3 thou.", "main.2.running_clearance")
    book.at("2025-03-10 14:00")
    hands.reworks(
        "R1",
        "main.2.bearing",
        ["main.2.bore", "main.2.bore_across"],
        order="Scrape the centre main by the blue, one leaf of 1.5 thou out on each side.",
        done="One 1.5 thou leaf out on each side, scraped 0.3 thou",
    )
    sit(book, "B-12", "Centre main after R1", gauges, settings, attitude="sump up")
    book.values("main.2.bore", ["2.0015", "2.0016"], "in")
    book.values("main.2.bore_across", ["2.0020", "2.0020"], "in")
    book.check_back("H-22", "0.0000 in")
    book.eye_check("mains.blue")
    book.eye_check("mains.mandrel", "freely, all three")
    book.values("crank.turning_torque", ["5.5"], "lbf ft")
    hands.checks_off("R1", "1.9 thou, and the mandrel turns")


def pump_body(hands: Assembling) -> None:
    """R2: pump body lapped, its grooves cut again."""
    book = hands.book
    book.person = "restorer"
    book.at("2025-03-11 09:00")
    zero(book, "H-23", "K4", "surface plate")
    gauges = {"depth micrometer": "K4", "feeler blades": "E1"}
    sit(book, "B-13", "Lapping the pump body", gauges, {"K4": "H-23"})
    for depth in (".7541", ".7530", ".7522"):
        book.values("pump.body_depth", [depth], "in", places=["a"], during_rework=True)
    book.values("pump.groove_depth", [".0150", ".0151"], "in", during_rework=True)
    book.note("Lapping took 3 thou off the grooves too: .015, at the limit. Cut again.", "pump.groove_depth")
    book.at("2025-03-11 13:00")
    hands.reworks(
        "R2",
        "pump.body",
        ["pump.body_depth", "pump.end_gap", "pump.groove_depth"],
        order="Lap the body 3 thou, and cut its grooves again to .018.",
        done="Body lapped 3.0 thou, trapped-oil grooves cut again to .018",
    )
    sit(book, "B-14", "Pump body after R2, washed", gauges, {"K4": "H-23"})
    book.values("pump.body_depth", [".7523", ".7522", ".7522", ".7522"], "in")
    book.values("pump.groove_depth", [".0180", ".0180"], "in")
    for gear in ("driver", "idler"):
        book.gap("pump.end_gap", "E1:.002", "E1:.0025", place=gear)
    hands.checks_off("R2", "2.4 thou by the depths, .002 goes and .0025 does not")


def pump_cover(hands: Assembling) -> None:
    """R3: pump cover ground flat."""
    book = hands.book
    book.person = "restorer"
    book.at("2025-03-11 15:00")
    hands.reworks(
        "R3",
        "pump.cover",
        ["pump.cover.groove_depth"],
        order="Grind the wear groove out of the cover.",
        done="Cover ground flat",
    )
    sit(book, "B-15", "Pump cover after R3", {"test indicator": "V2"})
    book.values("pump.cover.groove_depth", ["0.0"], "thou")
    book.eye_check("pump.metal_to_metal", "sealant thread only")
    book.note(
        "A paper gasket was in the owner's box, 2 thou crushed: it would make 4.4. Metal to metal, sealant "
        "thread only.",
        "pump.end_clearance",
    )


def skew_shaft(hands: Assembling) -> None:
    """R4: thrust shim under the skew shaft."""
    book = hands.book
    book.person = "restorer"
    book.at("2025-03-12 09:00")
    hands.reworks(
        "R4",
        "skew_shaft",
        ["skew_shaft.axial_movement", "skew_shaft.rock"],
        order="Fit a thrust shim of 4 thou under the skew shaft.",
        done="Thrust shim of 4 thou fitted",
    )
    sit(book, "B-16", "Skew shaft after R4", {"dial indicator": "V1"})
    book.values("skew_shaft.axial_movement", ["3.0"], "thou")
    book.values("skew_shaft.rock", ["5.0"], "thou")
    book.note(
        "The shim cured the float and its share. True backlash is 2.7 as before: only the centre distance "
        "would change it.",
        "skew_gear.true_backlash",
    )
    hands.checks_off("R4", "Float 3 thou, apparent backlash 5: both inside")


def bush_by_pins(hands: Assembling) -> None:
    """The bush tried with ground pins: the telescopic gauge alone does not prove 0.75 thou."""
    book = hands.book
    book.person = "restorer"
    book.at("2025-03-12 11:00")
    sit(book, "B-17", "Pump bush with ground pins", {"plug gauge": "E2"})
    book.gap("pump.bush.bore", "E2:.5001", "E2:.5003")
