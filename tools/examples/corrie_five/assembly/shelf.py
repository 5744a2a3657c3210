"""What came onto the shelf for the assembly: wrenches, a stretch gauge, the person in charge, new parts."""

from __future__ import annotations

from fitwright.records.kinds import Body, Calibration, Instrument, Person
from tools.examples.book import Book
from tools.examples.corrie_five.shop import calibration

PEOPLE: tuple[Body, ...] = (Person(code="foreman", name="Foreman", role="in charge of the shop"),)


def wrench(code: str, low: float, high: float, division: float) -> Instrument:
    """A setting torque wrench with its range [N m]."""
    return Instrument(
        code=code,
        title=f"Torque wrench {low:g} to {high:g} N m",
        type="torque wrench",
        unit="N m",
        resolution=division,
        repeatability=division,
        range_low=low,
        range_high=high,
    )


INSTRUMENTS: tuple[Body, ...] = (
    wrench("X1", 2.0, 12.0, 0.1),
    wrench("X2", 10.0, 60.0, 0.5),
    wrench("X3", 40.0, 200.0, 1.0),
    Instrument(
        code="Y1", title="Angle gauge on the half-inch drive", type="angle gauge", unit="deg",
        resolution=0.0175, repeatability=0.0175,
    ),
    Instrument(
        code="Z1", title="Stretch gauge for rod bolts", type="stretch gauge", unit="mm",
        resolution=1e-6, repeatability=1.5e-6,
    ),
)  # fmt: skip

CALIBRATIONS: tuple[Calibration, ...] = (
    calibration("X1", "0.06 N m", "TC 25/0231", "2025-01-20"),
    calibration("X2", "0.4 N m", "TC 25/0232", "2025-01-20"),
    calibration("X3", "1.5 N m", "TC 25/0233", "2025-01-20"),
    calibration("Y1", "0.5 deg", "TC 25/0234", "2025-01-20"),
    calibration("Z1", "1.5 um", "TC 25/0235", "2025-01-20"),
)

NEW_PARTS = (
    ("rear-seal-1", "Rear seal", "rear_seal"),
    *((f"clips-{cylinder}", "Piston clips, a pair", f"piston_clips.{cylinder}") for cylinder in range(1, 6)),
    ("o-ring-1", "O-ring of the pickup", "pickup_o_ring"),
    ("filter-1", "Oil filter", "oil_filter"),
)
"""Parts that are used once: code, what it is, where it goes."""


def bring_in(book: Book) -> None:
    """Write them down on the morning of the assembly."""
    book.person = "builder"
    book.at("2025-02-24 07:40")
    book.shop(*PEOPLE, *INSTRUMENTS, *CALIBRATIONS)
    for code, title, position in NEW_PARTS:
        book.part(code, title, position, origin="new, in its bag")
