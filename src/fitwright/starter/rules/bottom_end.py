"""Rules of thumb for crank, bearings, rods, pistons and rings."""

from __future__ import annotations

from typing import Final

from fitwright.starter.rules.rule import grams, millimetres, share

MAIN_SHELLS: Final = share(
    "Main running clearance, shells", "main journal", 0.0008, 0.0011, "journal diameter, plain shells"
)
ROD_SHELLS: Final = share(
    "Big-end running clearance, shells",
    "crankpin",
    0.00085,
    0.0011,
    "crankpin diameter, plain shells, steel rod",
)
WHITE_METAL: Final = share(
    "Running clearance, white metal",
    "journal",
    0.00075,
    0.001,
    "journal diameter, white metal on iron or bronze",
)
SHELL_CRUSH: Final = millimetres(
    "Shell crush, bare gap at the joint", 0.05, 0.12, "one joint tightened, the other finger tight"
)
HOUSING_OUT_OF_ROUND: Final = millimetres(
    "Housing out-of-round", None, 0.010, "planes away from the joint; the joint itself may be larger"
)
SHELL_FREE_SPREAD: Final = millimetres("Shell free spread", 0.3, 1.5, "shells as delivered, never re-bent")
TUNNEL_NEIGHBOURS: Final = millimetres(
    "Main tunnel straightness, neighbours", None, 0.02, "any two neighbouring mains"
)
TUNNEL_OVERALL: Final = millimetres("Main tunnel straightness, overall", None, 0.05, "the whole tunnel")
CRANK_RUN_OUT_CLOSE: Final = millimetres(
    "Crank run-out, competition", None, 0.03, "total indicator reading, crank on its end mains, competition"
)
CRANK_RUN_OUT: Final = millimetres(
    "Crank run-out", None, 0.05, "total indicator reading, crank on its end mains"
)
JOURNAL_FORM_CLOSE: Final = millimetres(
    "Journal out-of-round and taper, competition", None, 0.005, "competition"
)
JOURNAL_FORM: Final = millimetres("Journal out-of-round and taper", None, 0.008, "road and slow engines")
END_FLOAT: Final = millimetres("Crank end float", 0.08, 0.20, "plain thrust bearing")
END_FLOAT_WORN: Final = millimetres("Crank end float, wear", None, 0.30, "plain thrust bearing", used=True)
ROD_SIDE: Final = millimetres("Rod side clearance, own pin", 0.10, 0.30, "one rod on its pin, steel rod")
ROD_SIDE_SHARED: Final = millimetres("Rod side clearance, shared pin", 0.25, 0.45, "two rods on one pin")
ROD_LENGTH_MATCH: Final = millimetres(
    "Rod centre length, match", -0.025, 0.025, "rods of one set against rod 1"
)
ROD_BEND: Final = millimetres("Rod bend and twist", None, 0.03, "read over 100 mm")
SMALL_END: Final = millimetres("Small-end bush to pin", 0.008, 0.020, "bronze bush, water-cooled")
SMALL_END_AIR: Final = millimetres(
    "Small-end bush to pin, air-cooled", 0.015, 0.030, "bronze bush, air-cooled"
)
PRESSED_PIN: Final = millimetres(
    "Piston pin pressed in rod, interference", 0.020, 0.045, "steel rod, heated to take the pin"
)
PIN_IN_CAST_PISTON: Final = millimetres("Pin in piston, cast", 0.003, 0.012, "cast piston")
PIN_IN_FORGED_PISTON: Final = millimetres("Pin in piston, forged", 0.003, 0.020, "forged piston")
PIN_END_FLOAT: Final = millimetres(
    "Pin between its clips", 0.10, 0.50, "clips in their grooves, clip thickness out"
)
PISTON_CAST: Final = share(
    "Piston to wall, cast", "bore", 0.0005, 0.0007, "bore, cast piston, at the piston maker's gauge point"
)
PISTON_FORGED: Final = share(
    "Piston to wall, forged", "bore", 0.0008, 0.0012, "bore, forged piston, at the piston maker's gauge point"
)
BORE_FORM: Final = millimetres(
    "Bore taper and out-of-round", None, 0.010, "newly honed, torque plate where specified"
)
BORE_FORM_WORN: Final = millimetres("Bore taper and out-of-round, wear", None, 0.05, "used bores", used=True)
TOP_RING_GAP: Final = share(
    "Top ring gap, naturally aspirated", "bore", 0.0040, 0.0045, "bore, naturally aspirated"
)
TOP_RING_GAP_BOOSTED: Final = share("Top ring gap, boosted", "bore", 0.0050, 0.0065, "bore, boosted")
SECOND_RING_GAP: Final = share("Second ring gap", "bore", 0.0045, 0.0065, "bore")
OIL_RAIL_GAP: Final = millimetres("Oil rail gap", 0.38, None, "three-piece oil ring")
RING_SIDE: Final = millimetres("Ring side clearance", 0.03, 0.08, "aluminium piston, plain rings")
RING_BACK: Final = millimetres("Ring back clearance", 0.3, 0.8, "plain rings")
DECK: Final = millimetres(
    "Piston below the deck", -0.10, 0.50, "flat deck; what is wanted is set by the squish"
)
CAP_REGISTER: Final = millimetres("Main cap in its register", -0.02, 0.02, "caps located by a register")
MASS_MATCH_CLOSE: Final = grams("Mass of piston and rod ends, match, competition", -1.0, 1.0, "competition")
MASS_MATCH: Final = grams("Mass of piston and rod ends, match", -2.0, 2.0, "road and slow engines")
