"""Main bearings as received: housings, journals, fitted bores, and the crank in them."""

from __future__ import annotations

from fitwright.records.kinds import QuestionAnswered
from tools.examples.amounts import digits
from tools.examples.bench import set_in
from tools.examples.book import Book
from tools.examples.corrie_five.bench import M3_ZERO, sit, zero

HOUSINGS = {
    1: "511 512 512 511 513 512",
    2: "509 510 511 510 511 510",
    3: "510 511 512 510 521 511",
    4: "496 497 498 496 497 497",
    5: "508 509 510 508 509 510",
    6: "511 511 513 512 512 513",
}
"""Last digits of 60.xxx mm: front at 0, 60, 120 degrees, then rear; main 3 rear 60 was typed wrong."""

JOURNALS = {
    1: "992 991 992 991",
    2: "991 990 991 991",
    3: "990 990 989 990",
    4: "992 991 991 990",
    5: "989 988 989 989",
    6: "991 991 990 991",
}
"""Last digits of 55.xxx mm, zero of M3 taken off: front at 0 and 90 degrees, then rear."""

FITTED = {1: "047 046", 2: "046 045", 3: "046 047", 4: "031 030", 5: "045 046", 6: "047 047"}
"""Last digits of 56.xxx mm: front and rear, vertical, shells in."""


def receive(book: Book) -> None:
    """All readings of the station, as received."""
    book.at("2025-02-04 08:05")
    zero(book, "S-003", "M3", "50 mm rod", shows=M3_ZERO)
    _ask_about_zero(book)
    set_in(book, "S-013", "B1", "60.500 mm", ("M3", "S-003"), words="in M3 at 60.502 shown, zero taken off")
    _housings(book)
    _journals(book)
    _fitted(book)
    _crank_in_its_mains(book)


def _ask_about_zero(book: Book) -> None:
    book.tell(
        QuestionAnswered(
            question="setting:S-003:sign",
            text="M3 shows +0.002 mm on its rod: does it show too much?",
            answer="Yes, 50.002 on the 50 mm rod. It is taken off every reading.",
            typed="+0.002 mm",
        ),
        "setting:S-003",
    )


def _housings(book: Book) -> None:
    gauges = {"bore gauge": "B1"}
    sit(book, "T-01", "Main housings, caps tightened, no shells", gauges, {"B1": "S-013"}, attitude="sump up")
    written: dict[int, list[str]] = {}
    for main, ends in HOUSINGS.items():
        written[main] = book.values(f"main.{main}.housing_bore", digits("60.", ends), "mm")
    book.values(
        "main.3.housing_bore",
        digits("60.", "512"),
        "mm",
        places=["rear/60"],
        supersedes=written[3][4],
        reason="typed 521 for 512; gauge put back and read again: 60.512",
    )
    book.check_back("S-013", "0.000 mm")
    _readings_of_straightness(book)


def _readings_of_straightness(book: Book) -> None:
    sit(
        book,
        "T-02",
        "Indicator on the mandrel along the tunnel",
        {"test indicator": "L1"},
        attitude="sump up",
    )
    book.values("main.tunnel_straightness", ["0.011"], "mm")


def _journals(book: Book) -> None:
    gauges = {"outside micrometer": "M3"}
    sit(book, "T-03", "Main journals", gauges, {"M3": "S-003"})
    for main, ends in JOURNALS.items():
        book.values(f"main.{main}.journal", digits("55.", ends), "mm")


def _fitted(book: Book) -> None:
    set_in(book, "S-014", "B1", "56.000 mm", ("M3", "S-003"), words="in M3 at 56.002 shown, zero taken off")
    sit(book, "T-04", "Fitted bores, shells in", {"bore gauge": "B1"}, {"B1": "S-014"}, attitude="sump up")
    for main, ends in FITTED.items():
        book.values(f"main.{main}.fitted_bore", digits("56.", ends), "mm")
    book.check_back("S-014", "0.000 mm")
    book.note(
        "Main 4: tight by both routes, and the housing itself is under 60.500. A housing fault, not a shell "
        "fault: an extra-clearance half would read 0.0505 and look fine with the crush wrong.",
        "main.4.running_clearance",
    )


def _crank_in_its_mains(book: Book) -> None:
    gauges = {"dial indicator": "J1", "test indicator": "L1"}
    sit(book, "T-05", "Crank in its mains", gauges, attitude="sump up", crank="at rest")
    book.values("crank.axial_movement", ["0.14"], "mm")
    book.values("crank.centre_indicator", ["0.012"], "mm")
    book.eye_check("mains.oil_holes", "all six")
    book.eye_check("mains.turns_by_hand", "stiff over one third of a turn with cap 4 tight", answer=False)
