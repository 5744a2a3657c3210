"""A pressure read outside its band: which way to look first, in plain words, the gauge before all."""

from __future__ import annotations

from enum import StrEnum
from typing import Final

from fitwright.assess.oil.results import Band
from fitwright.bench.first_start_view import PressureLine
from fitwright.model.circuit import Circuit
from fitwright.units.spellings import definition_of

GAUGE_FIRST: Final = "First the gauge: vent it and read its zero, then hold a second gauge against it."
ZERO_UNKNOWN: Final = (
    "First the gauge: its zero was not read. Vent it, look, and hold a second gauge against it."
)

LOW_HOT_IDLE: Final = (
    "Low at hot idle, where clearances show: the oil (grade, fuel in it, hotter than it reads), then the "
    "relief seat, the pump's end, tip and body clearance, jets that do not close or a turbocharger feed "
    "without restrictor, a missing head restrictor, bearing clearances, a gallery plug."
)
LOW_CRANKING: Final = (
    "Low while cranking: not primed, pickup not sealed, relief valve stuck open, drive not engaged, a plug "
    "or gasket wrong, a pump that turns the wrong way. Stop after the seconds that the maker gives."
)
LOW_AT_SPEED: Final = (
    "Low at speed: if it comes again at the same speed, the pump does not fill or the relief valve opens "
    "early; if not, the pickup is uncovered or there is air in the oil. Then suction leak, drive, filter."
)
LOW_COLD: Final = (
    "Low on cold oil, where almost any pump makes pressure: relief valve stuck open, air on the suction "
    "side, a drive that slips, or another oil than was said."
)
HIGH: Final = (
    "High: oil colder or thicker than was said, relief valve stuck or shimmed, a gallery blocked behind the "
    "gauge. A blocked feed starves a bearing while the gauge looks well."
)

NEAR_IDLE: Final = 1.3
CRANKING: Final = 0.6
"""Times idle speed: below the first it counts as idle, below the second as cranking."""

HOT: Final = 20.0
COLD: Final = 45.0
"""How far below the hottest oil of the sheet oil still counts as hot, and is cold [K]."""


class Stands(StrEnum):
    """How a reading stands to its band."""

    INSIDE = "inside the band"
    EDGE = "at the edge of the band, as far as the gauge was read"
    BELOW = "below the band"
    ABOVE = "above the band"


def stands(line: PressureLine, band: Band) -> Stands | None:
    """How a reading stands to its band; None where there is none.

    What lies outside by less than half of the last digit that was typed is at its edge.
    """
    if band.low is None or band.high is None:
        return None
    if band.low <= line.gauge_pressure <= band.high:
        return Stands.INSIDE
    if band.low - _half_digit(line) <= line.gauge_pressure <= band.high + _half_digit(line):
        return Stands.EDGE
    return Stands.BELOW if line.gauge_pressure < band.low else Stands.ABOVE


def _half_digit(line: PressureLine) -> float:
    typed = line.body.gauge_reading
    return 0.5 * float(definition_of(typed.unit, "pressure").factor) / 10.0**typed.decimals


def outside_words(line: PressureLine, band: Band, circuit: Circuit) -> tuple[str, ...]:
    """What to look at where a reading lies outside its band; nothing where it does not."""
    found = stands(line, band)
    if found not in {Stands.BELOW, Stands.ABOVE}:
        return ()
    first = GAUGE_FIRST if line.has_zero else ZERO_UNKNOWN
    return first, (HIGH if found is Stands.ABOVE else _low(line, circuit))


def _low(line: PressureLine, circuit: Circuit) -> str:
    idle = circuit.idle_speed.si
    hottest = max(each.si for each in circuit.oil_temperatures)
    if line.angular_speed < CRANKING * idle:
        return LOW_CRANKING
    if line.oil_temperature < hottest - COLD:
        return LOW_COLD
    if line.angular_speed <= NEAR_IDLE * idle and line.oil_temperature >= hottest - HOT:
        return LOW_HOT_IDLE
    return LOW_AT_SPEED if line.angular_speed > NEAR_IDLE * idle else LOW_HOT_IDLE
