"""The record of the Corrie Five, entry by entry in the order of the work."""

from __future__ import annotations

from collections.abc import Mapping

from fitwright.model.sheet import Sheet
from fitwright.records.kinds import BuildStarted, NotInThisJob, NotMeasured
from tools.examples.assembling import Assembling
from tools.examples.book import Book
from tools.examples.corrie_five import cylinders, mains, parts, pump, reworks, rods, top_end
from tools.examples.corrie_five.assembly import assemble
from tools.examples.corrie_five.shop import SHOP

BUILD = "corrie-five"


def write(sheet: Sheet, photos: Mapping[str, str]) -> Book:
    """All entries; `photos` are the digests of the pictures by `step/photo`."""
    book = Book(example="corrie-five", sheet=sheet, device="bench tablet", person="builder")
    hands = Assembling(book, "mm", photos)
    book.shop(*SHOP)
    book.build = BUILD
    _start(book)
    parts.bring_in(book)
    parts.state_sizes(book)
    for station in (mains, rods, cylinders, top_end, pump):
        station.receive(book)
    for rework in (
        reworks.tunnel,
        reworks.rod,
        reworks.ring,
        reworks.pump_face,
        reworks.pump_centring,
        reworks.pickup,
        reworks.shims,
    ):
        rework(hands)
    _close(book)
    assemble(hands)
    return book


def _start(book: Book) -> None:
    book.tell(
        BuildStarted(
            code=BUILD,
            title="Corrie Five, hill climb",
            sheet=book.sheet.digest,
            job_number="25-07",
            engine_number="C5-0117",
            owner_words="Oil light flickered at idle after the last event. Make it last the season.",
            duty="hill climb, two-minute sprints, 8000 rev/min",
        ),
        BUILD,
    )
    book.tell(
        NotInThisJob(subject="turbocharger.axial_movement", reason="exchange unit, sealed by its maker"),
        "turbocharger.axial_movement",
    )


def _close(book: Book) -> None:
    book.tell(
        NotMeasured(
            subject="flywheel.face_run_out",
            because="flywheel and clutch are at the balancer; to be read when they are bolted up",
        ),
        "flywheel.face_run_out",
    )
    book.note("Trial build done. Strip, wash, final build next.")
