"""Mains and big ends as found."""

from __future__ import annotations

from tools.examples.amounts import digits
from tools.examples.bench import set_in
from tools.examples.book import Book
from tools.examples.brackengill_eleven.bench import sit, zero

MAIN_BORES = {1: "16 17", 2: "27 28", 3: "17 17"}
MAIN_BORES_ACROSS = {1: "18 18", 2: "28 29", 3: "19 18"}
"""Last digits of 2.00xx in: front and rear."""

MAIN_JOURNALS = {1: "97 96 97 96", 2: "96 96 95 96", 3: "97 97 96 97"}
"""Last digits of 1.99xx in: front at 0 and 90 degrees, then rear."""

BIG_ENDS = {1: "14 15", 2: "15 16", 3: "15 15", 4: "14 14"}
"""Last digits of 1.75xx in: front and rear, along the rod."""

CRANK_PINS = {1: "96 96 95 96", 2: "97 96 97 97", 3: "96 96 96 95", 4: "96 95 96 96"}
"""Last digits of 1.74xx in: front at 0 and 90 degrees, then rear."""

SIDE_GAPS = {1: ("005", "006"), 2: ("006", "007"), 3: ("005", "006"), 4: ("006", "007")}
"""Blade that goes and the next, which does not, thousandths of an inch."""


def receive(book: Book) -> None:
    """All readings of the two stations, as found."""
    book.at("2025-03-04 09:00")
    zero(book, "H-01", "K2", "1 in rod")
    set_in(book, "H-02", "G1", "2.0000 in", ("K2", "H-01"), words="in K2 at the top of its range")
    _mains(book)
    _big_ends_in_one_plane(book)
    _big_ends_at_all_places(book)


def _mains(book: Book) -> None:
    gauges = {"bore gauge": "G1", "outside micrometer": "K2", "dial indicator": "V1", "spring balance": "A1"}
    sit(
        book,
        "B-01",
        "Mains, caps tight on their shims",
        gauges,
        {"G1": "H-02", "K2": "H-01"},
        attitude="sump up",
    )
    for main in (1, 2, 3):
        book.values(f"main.{main}.bore", digits("2.00", MAIN_BORES[main]), "in")
        book.values(f"main.{main}.bore_across", digits("2.00", MAIN_BORES_ACROSS[main]), "in")
        book.values(f"main.{main}.journal", digits("1.99", MAIN_JOURNALS[main]), "in")
    book.values("crank.axial_movement", ["4.5"], "thou")
    book.check_back("H-02", "0.0000 in")
    book.note("Centre main 3.1 thou; the cap stands on leaves of 1.5 thou.", "main.2.running_clearance")


def _big_ends_in_one_plane(book: Book) -> None:
    set_in(book, "H-03", "G1", "1.7500 in", ("K2", "H-01"))
    gauges = {"bore gauge": "G1", "outside micrometer": "K2", "feeler blades": "E1"}
    sit(book, "B-02", "Big ends, front plane", gauges, {"G1": "H-03", "K2": "H-01"})
    for rod in BIG_ENDS:
        book.values(f"rod.{rod}.bore", digits("1.75", BIG_ENDS[rod])[:1], "in", places=["front"])
        pins = digits("1.74", CRANK_PINS[rod])[:2]
        book.values(f"rod.{rod}.pin", pins, "in", places=["front/0", "front/90"])
    for rod, (goes, next_one) in SIDE_GAPS.items():
        book.gap(f"rod.{rod}.side_gap", f"E1:.{goes}", f"E1:.{next_one}")
    book.note("One plane proves little against 2.2 thou: read every place.", "rod.3.running_clearance")


def _big_ends_at_all_places(book: Book) -> None:
    book.at("2025-03-05 09:00")
    zero(book, "H-04", "K2", "1 in rod")
    set_in(book, "H-05", "G1", "1.7500 in", ("K2", "H-04"))
    gauges = {"bore gauge": "G1", "outside micrometer": "K2"}
    sit(book, "B-03", "Big ends, rear plane", gauges, {"G1": "H-05", "K2": "H-04"})
    for rod in BIG_ENDS:
        book.values(f"rod.{rod}.bore", digits("1.75", BIG_ENDS[rod])[1:], "in", places=["rear"])
        pins = digits("1.74", CRANK_PINS[rod])[2:]
        book.values(f"rod.{rod}.pin", pins, "in", places=["rear/0", "rear/90"])
    book.check_back("H-05", "0.0000 in")
