"""What a first start showed, for a page: readings that count, gauges to read with, and what is told first."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from fitwright.assess.oil.filling import filling_of
from fitwright.bench.context import Bench
from fitwright.bench.entry_words import pressure_words
from fitwright.bench.settings import last_setting_of
from fitwright.records.entry import Entry
from fitwright.records.kinds import Instrument, PressureReading, Typed
from fitwright.records.projection import Recorded
from fitwright.units import definition_of

CAUTIONS: Final = (
    "Before the engine turns, try the stop: what cuts fuel and ignition must be within reach and tested.",
    "One named person may call stop, and everybody stops at that word.",
    "Oil under pressure is hot: keep eyes and hands away from lines, fittings and the gauge's hose.",
    "The engine maker's manual governs: its pressures, speeds and times come before anything shown here.",
)
"""What whoever starts an engine is told first."""

ZERO_NOT_READ: Final = (
    "Zero not read: a gauge whose needle is not at zero when vented shifts every reading by as much. "
    "Vent it, look, and correct the reading with its zero."
)
"""Said of each reading whose gauge nobody looked at while it was vented."""


@dataclass(frozen=True, slots=True)
class PressureLine:
    """A reading that counts: its amounts [rad/s, K, Pa], and what is said of it.

    `gauge_pressure` is the reading less its zero where that was read (`has_zero`). `oil` is the id of
    the oil that it was read on, or its words; `caution` is empty where there is none.
    """

    entry: Entry
    body: PressureReading
    words: str
    angular_speed: float
    oil_temperature: float
    gauge_reading: float
    gauge_pressure: float
    has_zero: bool
    oil: str
    caution: str


def pressure_gauges(bench: Bench) -> tuple[Instrument, ...]:
    """The gauges on the shelf that read a pressure."""
    every = (held.body for held in bench.shop.instruments.values())
    return tuple(each for each in every if definition_of(each.unit).dimension == "pressure")


def last_zero_of(bench: Bench, instrument: str) -> Typed | None:
    """What a gauge last showed vented, by this build's readings or else its setting.

    It is offered to whoever types, never assumed: a needle may have moved since.
    """
    for held in reversed(bench.build.pressure_readings):
        if held.body.instrument == instrument and held.body.zero is not None:
            return held.body.zero
    setting = bench.shop.settings.get(last_setting_of(bench.shop, instrument) or "")
    return setting.body.zero if setting is not None else None


def pressure_lines(bench: Bench) -> tuple[PressureLine, ...]:
    """The readings of a build that count, by oil temperature, then speed, then as they were entered."""
    lines = (_line(bench, held) for held in bench.build.pressure_readings)
    return tuple(sorted(lines, key=lambda each: (each.oil_temperature, each.angular_speed, each.entry.seq)))


def _line(bench: Bench, held: Recorded[PressureReading]) -> PressureLine:
    body = held.body
    filling = filling_of(bench.sheet, bench.build, before=bench.build.ledger.order(held.entry.id))
    return PressureLine(
        entry=held.entry,
        body=body,
        words=pressure_words(body, bench.sheet.oils),
        angular_speed=body.angular_speed.si,
        oil_temperature=body.oil_temperature.si,
        gauge_reading=body.gauge_reading.si,
        gauge_pressure=body.gauge_pressure,
        has_zero=body.zero is not None,
        oil=body.oil or (filling.oil.id if filling.oil is not None else ""),
        caution="" if body.zero is not None else ZERO_NOT_READ,
    )
