"""Rods and crank pins as received."""

from __future__ import annotations

from tools.examples.amounts import digits
from tools.examples.bench import set_in
from tools.examples.book import Book
from tools.examples.corrie_five.bench import M3_ZERO, sit, zero

HOUSINGS = {1: "495 496 496", 2: "496 497 497", 3: "495 495 496", 4: "508 509 509", 5: "496 497 496"}
"""Last digits of 50.xxx mm at 0, 60, 120 degrees."""

PINS = {
    1: "993 992 993 992",
    2: "992 992 991 992",
    3: "994 993 993 993",
    4: "993 992 992 991",
    5: "993 993 992 992",
}
"""Last digits of 46.xxx mm: front at 0 and 90 degrees, then rear."""

FITTED = {1: "045 046", 2: "046 046", 3: "045 045", 4: "058 058", 5: "046 047"}
"""Last digits of 47.xxx mm: front and rear, along the rod, shells in."""

LENGTHS = {1: "142.50", 2: "142.50", 3: "142.51", 4: "142.50", 5: "142.50"}
SIDE_GAPS = {
    1: ("0.22", "0.23"),
    2: ("0.24", "0.25"),
    3: ("0.23", "0.24"),
    4: ("0.26", "0.27"),
    5: ("0.25", "0.26"),
}
"""Blade that goes and the next, which does not [mm]."""


def receive(book: Book) -> None:
    """All readings of the station, as received."""
    book.at("2025-02-05 08:10")
    zero(book, "S-005", "M3", "50 mm rod", shows=M3_ZERO)
    zero(book, "S-002", "M2", "25 mm rod")
    set_in(book, "S-016", "B1", "50.500 mm", ("M3", "S-005"), words="in M3 at 50.502 shown, zero taken off")
    _housings(book)
    _pins(book)
    _fitted(book)
    _lengths_and_sides(book)


def _housings(book: Book) -> None:
    sit(book, "T-06", "Rod housings, bolts to stretch, no shells", {"bore gauge": "B1"}, {"B1": "S-016"})
    for rod, ends in HOUSINGS.items():
        book.values(f"rod.{rod}.housing_bore", digits("50.", ends), "mm")
    book.check_back("S-016", "0.000 mm")


def _pins(book: Book) -> None:
    sit(book, "T-07", "Crank pins", {"outside micrometer": "M2"}, {"M2": "S-002"})
    for rod, ends in PINS.items():
        book.values(f"rod.{rod}.pin", digits("46.", ends), "mm")


def _fitted(book: Book) -> None:
    set_in(book, "S-015", "B1", "47.000 mm", ("M2", "S-002"))
    sit(book, "T-08", "Rods with shells, bolts to stretch", {"bore gauge": "B1"}, {"B1": "S-015"})
    for rod, ends in FITTED.items():
        book.values(f"rod.{rod}.fitted_bore", digits("47.", ends), "mm")
    book.check_back("S-015", "0.000 mm")
    book.note("Rod 4: housing 50.508 is over 50.503, clearance over 0.060.", "rod.4.running_clearance")


def _lengths_and_sides(book: Book) -> None:
    book.set_gauge("S-018", "J2", standard_uncertainty=2e-6, against="master bar 142.500", size="142.50 mm")
    sit(book, "T-09", "Rod lengths, sides on the crank", {"dial indicator": "J2"}, {"J2": "S-018"})
    for rod, length in LENGTHS.items():
        book.values(f"rod.{rod}.length", [length], "mm")
    for rod, (goes, next_one) in SIDE_GAPS.items():
        book.gap(f"rod.{rod}.side_gap", f"F3:{goes}", f"F3:{next_one}")
    book.eye_check("rods.paired")
