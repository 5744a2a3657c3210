"""Sittings of the Tarnside Engine Room: room at 20.5 degrees, parts left overnight beside the gauges."""

from __future__ import annotations

from fitwright.records.kinds import Sitting
from tools.examples.amounts import si
from tools.examples.book import Book

ROOM = si("20.5 degC")
ZERO_UNCERTAINTY = 0.5e-6
"""Standard uncertainty of a micrometer's own setting [m]."""

M3_ZERO = "+0.002 mm"
"""What M3 shows too much on its 50 mm rod; it is taken off, and added when a gauge is set in it."""


def sit(
    book: Book,
    code: str,
    words: str,
    instruments: dict[str, str],
    settings: dict[str, str] | None = None,
    *,
    attitude: str | None = None,
    crank: str | None = None,
) -> None:
    """The builder measures, the apprentice types."""
    book.sit(
        Sitting(
            code=code,
            measured_by="builder",
            typed_by="apprentice",
            temperature=ROOM,
            temperature_uncertainty=0.2,
            part_gauge_difference_uncertainty=0.05,
            instruments=instruments,
            settings=settings or {},
            attitude=attitude,
            crank=crank,
            words=words,
        )
    )


def zero(book: Book, code: str, instrument: str, against: str, shows: str = "+0.000 mm") -> None:
    """A micrometer looked at on its own standard."""
    book.set_gauge(code, instrument, standard_uncertainty=ZERO_UNCERTAINTY, against=against, zero=shows)


def set_in(
    book: Book, code: str, gauge: str, size: str, master: tuple[str, str], *, words: str | None = None
) -> None:
    """A comparison gauge set to zero in a micrometer (and its setting), whose errors it takes over."""
    micrometer, its_setting = master
    book.set_gauge(
        code,
        gauge,
        size=size,
        master=micrometer,
        master_setting=its_setting,
        against=words or f"in {micrometer}",
    )
