"""A shop's way of sitting down to measure: who, how warm, and how its gauges are set."""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.records.kinds import Sitting
from tools.examples.amounts import si
from tools.examples.book import Book


@dataclass(frozen=True, slots=True)
class Bench:
    """Who measures and types, the room, and the uncertainty of a micrometer's own setting [m].

    `no_zero` is what a gauge without a zero error shows, in the shop's unit.
    """

    measured_by: str
    typed_by: str
    room: str
    zero_uncertainty: float
    no_zero: str

    def sit(
        self,
        book: Book,
        code: str,
        words: str,
        instruments: dict[str, str],
        settings: dict[str, str] | None = None,
        *,
        attitude: str | None = None,
        crank: str | None = None,
    ) -> None:
        """Begin a sitting: parts and gauges lay in the room overnight."""
        book.sit(
            Sitting(
                code=code,
                measured_by=self.measured_by,
                typed_by=self.typed_by,
                temperature=si(self.room),
                temperature_uncertainty=0.2,
                part_gauge_difference_uncertainty=0.05,
                instruments=instruments,
                settings=settings or {},
                attitude=attitude,
                crank=crank,
                words=words,
            )
        )

    def zero(self, book: Book, code: str, instrument: str, against: str, *, shows: str | None = None) -> None:
        """A micrometer looked at on its own standard."""
        book.set_gauge(
            code,
            instrument,
            standard_uncertainty=self.zero_uncertainty,
            against=against,
            zero=shows or self.no_zero,
        )


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
