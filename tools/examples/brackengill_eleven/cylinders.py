"""Cylinders, pistons, rings, deck and compression as found."""

from __future__ import annotations

from tools.examples.amounts import digits
from tools.examples.bench import set_in
from tools.examples.book import Book
from tools.examples.brackengill_eleven.bench import sit, zero

BORES = {
    1: "53 53 53 54 54 54",
    2: "54 54 55 54 55 55",
    3: "54 54 54 55 54 55",
    4: "53 53 54 53 54 54",
}
"""Last digits of 2.62xx in: upper at 0 and 90 degrees, middle, lower."""

SKIRTS = {1: "24", 2: "24", 3: "24", 4: "25"}
"""Last digits of 2.62xx in."""

RING_GAPS = {
    "top": {1: 9, 2: 9, 3: 10, 4: 9},
    "second": {1: 10, 2: 9, 3: 9, 4: 10},
}
"""Blade that goes, in thou; the next does not."""

PISTON_DOWN = {1: ("15.0", "15.5"), 2: ("14.5", "15.0"), 3: ("15.0", "15.0"), 4: ("15.5", "15.0")}
"""Front and rear over the pin, in thou."""

CHAMBERS = {1: "50.0", 2: "49.9", 3: "50.1", 4: "50.0"}
"""By burette [cc]."""


def receive(book: Book) -> None:
    """All readings of these stations, as found."""
    book.at("2025-03-06 09:00")
    zero(book, "H-06", "K3", "2 in rod")
    set_in(book, "H-07", "G1", "2.6250 in", ("K3", "H-06"))
    gauges = {"bore gauge": "G1", "outside micrometer": "K3"}
    sit(book, "B-04", "Cylinders and skirts", gauges, {"G1": "H-07", "K3": "H-06"})
    for cylinder, ends in BORES.items():
        book.values(f"cylinder.{cylinder}.bore", digits("2.62", ends), "in")
        book.values(f"piston.{cylinder}.skirt", digits("2.62", SKIRTS[cylinder]), "in")
    book.check_back("H-07", "0.0000 in")
    _rings(book)
    _deck(book)


def _rings(book: Book) -> None:
    sit(book, "B-05", "Rings square in their own bores, 1 in down", {"feeler blades": "E1"})
    for ring, cylinders in RING_GAPS.items():
        for cylinder, thou in cylinders.items():
            book.gap(f"ring.{cylinder}.{ring}.gap", f"E1:.{thou:03d}", f"E1:.{thou + 1:03d}")


def _deck(book: Book) -> None:
    book.at("2025-03-06 14:00")
    gauges = {"dial indicator": "V1", "burette": "A4"}
    sit(book, "B-06", "Trial build: pistons at the top, chambers, camshaft", gauges, attitude="head side up")
    for cylinder, sizes in PISTON_DOWN.items():
        book.values(f"cylinder.{cylinder}.piston_down", sizes, "thou")
        book.values(f"cylinder.{cylinder}.chamber_volume", [CHAMBERS[cylinder]], "cc")
    book.values("camshaft.axial_movement", ["5.5"], "thou")
