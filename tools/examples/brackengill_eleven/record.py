"""The record of the Brackengill Eleven, entry by entry in the order of the work."""

from __future__ import annotations

from collections.abc import Mapping

from fitwright.model.sheet import Sheet
from fitwright.records.kinds import BuildStarted, NotMeasured
from tools.examples.assembling import Assembling
from tools.examples.book import Book
from tools.examples.brackengill_eleven import bottom_end, cylinders, parts, pump, reworks
from tools.examples.brackengill_eleven.assembly import assemble
from tools.examples.brackengill_eleven.shop import SHOP

BUILD = "brackengill-eleven"


def write(sheet: Sheet, photos: Mapping[str, str]) -> Book:
    """All entries; `photos` are the digests of the pictures by `step/photo`."""
    book = Book(example="brackengill-eleven", sheet=sheet, device="bench telephone", person="restorer")
    hands = Assembling(book, "inch", photos)
    book.at("2025-03-03 09:00")
    book.shop(*SHOP)
    book.build = BUILD
    _start(book)
    parts.bring_in(book)
    parts.state_sizes(book)
    for station in (bottom_end, cylinders, pump):
        station.receive(book)
    for rework in (
        reworks.centre_main,
        reworks.pump_body,
        reworks.pump_cover,
        reworks.skew_shaft,
        reworks.bush_by_pins,
    ):
        rework(hands)
    _close(book)
    assemble(hands)
    return book


def _start(book: Book) -> None:
    book.tell(
        BuildStarted(
            code=BUILD,
            title="Brackengill Eleven, touring",
            sheet=book.sheet.digest,
            job_number="362",
            engine_number="11-362",
            owner_words="Shows ten pounds hot and knocks on the hill home. Keep what can be kept.",
            duty="touring and week-end trials, 4500 rev/min",
        ),
        BUILD,
    )


def _close(book: Book) -> None:
    for cylinder in range(1, 5):
        for side in ("inlet", "exhaust"):
            subject = f"valve.{cylinder}.{side}.lash"
            because = "set and read with the engine hot, after its first run"
            book.tell(NotMeasured(subject=subject, because=because), subject)
    book.note("Ready for final wash and build.")
