"""Deck, chambers, camshafts, timing, valves to pistons and lash, as received."""

from __future__ import annotations

from tools.examples.amounts import digits
from tools.examples.bench import set_in
from tools.examples.book import Book
from tools.examples.corrie_five.bench import sit, zero

PISTON_DOWN = {
    1: ("0.20", "0.22"),
    2: ("0.19", "0.21"),
    3: ("0.18", "0.20"),
    4: ("0.21", "0.23"),
    5: ("0.20", "0.20"),
}
"""Front and rear over the pin [mm]."""

CHAMBERS = {1: "40.4", 2: "40.3", 3: "40.5", 4: "40.4", 5: "40.4"}
"""By burette [cc]."""

CAM_BORES = {"inlet": "050 051 050 052 050 051", "exhaust": "051 050 052 051 050 050"}
"""Last digits of 26.xxx mm, bearings 1 to 6."""

CAM_JOURNALS = {
    "inlet": ("994 994", "995 994", "994 993", "994 994", "995 994", "994 994"),
    "exhaust": ("994 993", "993 993", "994 994", "995 994", "994 994", "993 993"),
}
"""Last digits of 25.xxx mm at 0 and 90 degrees, journals 1 to 6."""

PISTON_GAPS = {
    "inlet": {1: "2.02", 2: "2.00", 3: "1.95", 4: "2.01", 5: "1.99"},
    "exhaust": {1: "2.47", 2: "2.45", 3: "2.41", 4: "2.46", 5: "2.44"},
}
"""Least gap at the worst crank angle [mm]."""

LASH = {
    "inlet": {1: (19, 20), 2: (20, 19), 3: (20, 25), 4: (19, 19), 5: (20, 20)},
    "exhaust": {1: (29, 30), 2: (21, 30), 3: (30, 29), 4: (30, 30), 5: (29, 29)},
}
"""Blade that goes at valves a and b, in hundredths of a millimetre; the next one does not go."""


def receive(book: Book) -> None:
    """All readings of these stations, as received."""
    _deck(book)
    _camshafts(book)
    _timing(book)
    _lash(book)


def _deck(book: Book) -> None:
    book.at("2025-02-10 08:00")
    gauges = {"height gauge": "H1", "dial indicator": "J1", "burette": "U1"}
    sit(book, "T-13", "Trial build: deck, pistons at the top, chambers", gauges, attitude="deck up")
    book.values("block.deck_height", ["216.20", "216.21"], "mm")
    for cylinder, sizes in PISTON_DOWN.items():
        book.values(f"cylinder.{cylinder}.piston_down", sizes, "mm")
    for cylinder, volume in CHAMBERS.items():
        book.values(f"cylinder.{cylinder}.chamber_volume", [volume], "cc")


def _camshafts(book: Book) -> None:
    book.at("2025-02-10 10:30")
    zero(book, "S-007", "M2", "25 mm rod")
    set_in(book, "S-020", "B2", "26.000 mm", ("M2", "S-007"))
    sit(
        book,
        "T-14",
        "Camshaft bearings, caps tightened",
        {"bore gauge": "B2", "outside micrometer": "M2", "dial indicator": "J1"},
        {"B2": "S-020", "M2": "S-007"},
    )
    for side in ("inlet", "exhaust"):
        for bearing, size in enumerate(digits("26.", CAM_BORES[side]), start=1):
            book.values(f"camshaft.{side}.{bearing}.bearing_bore", [size], "mm")
        for journal, ends in enumerate(CAM_JOURNALS[side], start=1):
            book.values(f"camshaft.{side}.{journal}.journal", digits("25.", ends), "mm")
    book.values("camshaft.inlet.axial_movement", ["0.12"], "mm")
    book.values("camshaft.exhaust.axial_movement", ["0.11"], "mm")


def _timing(book: Book) -> None:
    book.at("2025-02-10 14:00")
    gauges = {"degree wheel": "W1", "dial indicator": "J1"}
    sit(book, "T-15", "Timing and valves to pistons, light springs, plugs out", gauges, attitude="deck up")
    book.values("camshaft.inlet.lobe_centre", ["108.5"], "deg")
    book.values("camshaft.exhaust.lobe_centre", ["111.5"], "deg")
    book.note(
        "Wheel zeroed anew from both stops, both centres read a second time.", "camshaft.inlet.lobe_centre"
    )
    book.values("camshaft.inlet.lobe_centre", ["108.5"], "deg")
    book.values("camshaft.exhaust.lobe_centre", ["111.5"], "deg")
    for side, gaps in PISTON_GAPS.items():
        for cylinder, size in gaps.items():
            book.values(f"valve.{cylinder}.{side}.piston_gap", [size], "mm")
    book.eye_check("timing.two_turns", "by the nose nut, both ways")


def _lash(book: Book) -> None:
    book.at("2025-02-11 08:30")
    sit(book, "T-16", "Lash, engine cold, lash set", {"feeler blades": "F3"}, attitude="deck up")
    for side, cylinders in LASH.items():
        for cylinder, pair in cylinders.items():
            for letter, hundredths in zip("ab", pair, strict=True):
                try_lash(book, f"valve.{cylinder}.{side}.{letter}.cam_gap", hundredths)


def try_lash(book: Book, dimension: str, hundredths: int) -> None:
    """The blade that goes, and the next, which does not."""
    book.gap(dimension, f"F3:{hundredths / 100:.2f}", f"F3:{(hundredths + 1) / 100:.2f}")
