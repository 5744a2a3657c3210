"""What was put right, and the readings that prove it."""

from __future__ import annotations

from tools.examples.amounts import digits
from tools.examples.assembling import Assembling
from tools.examples.bench import set_in
from tools.examples.book import Book
from tools.examples.corrie_five.bench import M3_ZERO, sit, zero
from tools.examples.corrie_five.parts import state_shim
from tools.examples.corrie_five.pump import around
from tools.examples.corrie_five.top_end import try_lash

STRIPS = {0: (18, 18, 18, 18), 180: (20, 18, 16, 18)}
"""Dowels out, four strips of 0.18 mm round the land, torqued: gaps in hundredths of a millimetre."""

ON_NEW_DOWELS = {0: (18, 18, 18, 18), 180: (20, 18, 16, 18)}
"""On the stepped dowels, front cover torqued."""

LAPPING_PASSES = (("9.083", "9.084"), ("9.073", "9.074"), ("9.064", "9.063"))
"""Pocket depth at a and c after each pass of about 0.010 mm."""


def tunnel(hands: Assembling) -> None:
    """R1: housing of main 4 honed again."""
    book = hands.book
    book.person = "builder"
    book.at("2025-02-17 08:00")
    hands.reworks(
        "R1",
        "block",
        ["main.4.housing_bore", "main.4.fitted_bore", "main.tunnel_straightness"],
        order="Hone tunnel 4 again, from 60.496 to 60.505 or a little over; touch no other.",
        done="Tunnel 4 honed again, 60.496 to 60.509",
    )
    book.note(
        "Tunnel touched: read straightness, pump and rear seal centring again.", "main.tunnel_straightness"
    )
    zero(book, "S-033", "M3", "50 mm rod", shows=M3_ZERO)
    set_in(book, "S-034", "B1", "60.500 mm", ("M3", "S-033"), words="in M3 at 60.502 shown, zero taken off")
    sit(book, "T-21", "Main 4 housing after R1", {"bore gauge": "B1"}, {"B1": "S-034"}, attitude="sump up")
    book.values("main.4.housing_bore", digits("60.", "509 510 511 509 510 511"), "mm")
    set_in(book, "S-035", "B1", "56.000 mm", ("M3", "S-033"), words="in M3 at 56.002 shown, zero taken off")
    gauges = {"bore gauge": "B1", "test indicator": "L1"}
    sit(book, "T-22", "Main 4 fitted, tunnel, rear seal carrier", gauges, {"B1": "S-035"}, attitude="sump up")
    book.values("main.4.fitted_bore", digits("56.", "045 044"), "mm")
    book.values("main.tunnel_straightness", ["0.012"], "mm")
    book.values("rear_seal_carrier.indicator", ["0.062"], "mm")
    book.check_back("S-035", "0.000 mm")
    book.eye_check("mains.turns_by_hand", "free all round, all six caps tight")
    gauges = {"torque gauge": "N1"}
    sit(book, "T-23", "Torque to turn, oiled", gauges, attitude="sump up")
    book.values("crank.turning_torque", ["3.5"], "N m")
    hands.checks_off("R1", "0.052 by the fitted bore, straightness 0.012 overall")


def rod(hands: Assembling) -> None:
    """R2: cap joint of rod 4 ground and its housing honed again."""
    book = hands.book
    book.person = "builder"
    book.at("2025-02-18 08:00")
    hands.reworks(
        "R2",
        "rod.4",
        [
            "rod.4.housing_bore",
            "rod.4.fitted_bore",
            "rod.4.length",
            "rod.4.side_gap",
            "cylinder.4.piston_down",
        ],
        order="Grind the cap joint 0.03, hone to 50.495 or a little over; length again afterwards.",
        done="Cap joint ground 0.03, honed again to 50.496",
    )
    zero(book, "S-036", "M3", "50 mm rod", shows=M3_ZERO)
    zero(book, "S-037", "M2", "25 mm rod")
    set_in(book, "S-038", "B1", "50.500 mm", ("M3", "S-036"), words="in M3 at 50.502 shown, zero taken off")
    sit(book, "T-24", "Rod 4 housing after R2", {"bore gauge": "B1"}, {"B1": "S-038"})
    book.values("rod.4.housing_bore", digits("50.", "496 497 497"), "mm")
    set_in(book, "S-039", "B1", "47.000 mm", ("M2", "S-037"))
    sit(book, "T-25", "Rod 4 with its shells after R2", {"bore gauge": "B1"}, {"B1": "S-039"})
    book.values("rod.4.fitted_bore", digits("47.", "046 046"), "mm")
    _rod_length_and_deck(book)
    hands.checks_off("R2", "Length 142.49: piston 4 stands 0.23 down, inside its limits")


def _rod_length_and_deck(book: Book) -> None:
    book.set_gauge("S-040", "J2", standard_uncertainty=2e-6, against="master bar 142.500", size="142.50 mm")
    sit(book, "T-26", "Rod 4 length and side after R2", {"dial indicator": "J2"}, {"J2": "S-040"})
    book.values("rod.4.length", ["142.49"], "mm")
    book.gap("rod.4.side_gap", "F3:0.26", "F3:0.27")
    sit(book, "T-27", "Piston 4 at the top after R2", {"dial indicator": "J1"}, attitude="deck up")
    book.values("cylinder.4.piston_down", ["0.22", "0.24"], "mm")


def ring(hands: Assembling) -> None:
    """R3: top ring 4 filed."""
    book = hands.book
    book.person = "builder"
    book.at("2025-02-18 13:00")
    hands.reworks(
        "R3",
        "ring.4.top",
        ["ring.4.top.gap"],
        order="File one end, straight across, and deburr.",
        done="Filed one end, 0.43 to 0.51, deburred",
        target="0.51 mm",
    )
    sit(book, "T-28", "Top ring 4 in its bore after R3", {"feeler blades": "F2"})
    book.gap("ring.4.top.gap", "F2:0.45 F2:0.06", "F2:0.50 F2:0.02")
    hands.checks_off("R3")


def pump_face(hands: Assembling) -> None:
    """R4: face of the pump body lapped, measured after each pass."""
    book = hands.book
    book.person = "builder"
    book.at("2025-02-19 08:00")
    zero(book, "S-041", "D1", "surface plate")
    gauges = {"depth micrometer": "D1", "feeler blades": "F2"}
    sit(book, "T-29", "Lapping the pump face, 800 wet on plate glass", gauges, {"D1": "S-041"})
    for depths in LAPPING_PASSES:
        book.values("pump.pocket_depth", depths, "mm", places=["a", "c"], during_rework=True)
    hands.reworks(
        "R4",
        "pump.body",
        ["pump.pocket_depth", "pump.end_gap"],
        order="Lap the body face in passes of 0.01, measured after each, until the end clearance is 0.06.",
        done="Body face lapped 0.036",
    )
    book.at("2025-02-19 10:30")
    sit(book, "T-30", "Pump after R4, washed, an hour on the plate", gauges, {"D1": "S-041"})
    book.values("pump.pocket_depth", ["9.058", "9.058", "9.059", "9.057"], "mm")
    book.gap("pump.end_gap", "F2:0.06", "F2:0.07")
    hands.checks_off("R4", "0.061 by parts, 0.06 goes and 0.07 does not")


def pump_centring(hands: Assembling) -> None:
    """R5: pump centred on the crank, new stepped dowels."""
    book = hands.book
    book.person = "builder"
    book.at("2025-02-20 08:00")
    hands.reworks(
        "R5",
        "pump.dowels",
        ["pump.spigot_gap", "pump.sump_face_height"],
        order="Centre the pump on four strips of 0.18, turn stepped dowels, ream their holes in place.",
        done="Pump centred on four 0.18 strips, new stepped dowels, holes reamed in place",
        change="replacement",
    )
    book.take_out("pump.dowels")
    gauges = {"feeler blades": "F3"}
    words = "Dowels out, four strips of 0.18, torqued"
    sit(book, "T-31", words, gauges, attitude="upright, deck up", crank="at rest")
    around(book, STRIPS, during_rework=True)
    book.part("pump-dowels-2", "Dowels, stepped 0.10", origin="turned here")
    book.fit("pump-dowels-2", "pump.dowels")
    book.note("Set 0.01 high at rest on purpose: the running crank lifts.", "pump.housing_offset")
    book.at("2025-02-20 14:00")
    words = "On the stepped dowels, front cover torqued"
    sit(book, "T-32", words, gauges, attitude="upright, deck up", crank="at rest")
    around(book, ON_NEW_DOWELS)
    book.values("pump.sump_face_height", ["0.02", "0.03"], "mm", instrument="D1")
    book.eye_check("pump_on_crank.no_drag_point")
    hands.checks_off("R5", "0.010 high at rest, front cover torqued")


def pickup(hands: Assembling) -> None:
    """R6: foot of the pickup set anew."""
    book = hands.book
    book.person = "builder"
    book.at("2025-02-20 15:30")
    hands.reworks(
        "R6",
        "pickup",
        ["pickup.clay_thickness"],
        order="Set the foot of the pickup anew and brace its bracket.",
        done="Foot set anew and bracket braced",
        target="9.5 mm",
    )
    sit(book, "T-33", "Sump on over clay after R6", {"depth micrometer": "D2"}, attitude="sump up")
    book.values("pickup.clay_thickness", ["9.5"], "mm")
    hands.checks_off("R6")


def shims(hands: Assembling) -> None:
    """R7 and R8: shims of valves 3I-b and 2E-a changed."""
    book = hands.book
    book.person = "builder"
    book.at("2025-02-21 08:00")
    words = "New = 2.85 + 0.25 - 0.20 = 2.90"
    _shim(hands, "R7", "valve.3.inlet.b", new="shim-290-04", thickness="2.90", words=words)
    words = "New = 2.95 + 0.21 - 0.30 = 2.86, nearest 2.85"
    _shim(hands, "R8", "valve.2.exhaust.a", new="shim-285-11", thickness="2.85", words=words)
    sit(book, "T-34", "Lash of the two, cold, lash set", {"feeler blades": "F3"}, attitude="deck up")
    try_lash(book, "valve.3.inlet.b.cam_gap", 20)
    try_lash(book, "valve.2.exhaust.a.cam_gap", 30)
    hands.checks_off("R7")
    hands.checks_off("R8")


def _shim(hands: Assembling, code: str, valve: str, *, new: str, thickness: str, words: str) -> None:
    book, position = hands.book, f"{valve}.shim"
    hands.reworks(
        code,
        position,
        [f"{valve}.cam_gap"],
        order=f"Change the shim for {thickness}.",
        done=words,
        change="replacement",
    )
    book.take_out(position)
    book.part(new, f"Shim {thickness}", origin="shim drawer")
    book.fit(new, position)
    state_shim(book, position, thickness)
