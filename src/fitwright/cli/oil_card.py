"""The card of expected pressures as text, to print for the first start: with a column to write in."""

from __future__ import annotations

from collections.abc import Iterator

from rich.console import Console
from rich.text import Text

from fitwright.assess.oil.chosen import card_speeds, card_temperatures
from fitwright.assess.oil.words import BAND_MEANS
from fitwright.cli.oil_lines import plain_table, print_oil_used, print_stops, rests_on_words
from fitwright.cli.oil_report import OilShown
from fitwright.drawing.oil_figures import OilReader
from fitwright.drawing.oil_words import CARD_CAUTION, CARD_LINES, NOBODY, stop_words

BLANK = "________"


def print_card(out: Console, shown: OilShown) -> None:
    """Print it."""
    found, reader = shown.found, shown.reader
    out.print(Text(f"Expected pressures: {found.title}", style="bold"))
    out.print(shown.facts)
    if shown.otherwise:
        out.print(f"What if: {shown.otherwise}. Not the build as measured.")
    print_oil_used(out, found, reader)
    for each in found.oil.cautions if found.oil is not None else ():
        out.print(each)
    out.print("A prediction, no limit: the engine maker's manual governs, a qualified person decides.")
    print_stops(out, found, reader, crossed_only=True)
    out.print()
    _print_rows(out, shown)
    out.print(f"Best estimate, in brackets its 95 % band. {BAND_MEANS}")
    out.print("Write what the gauge shows, less its zero, beside the temperature of the oil.")
    out.print()
    for line in _lines(shown, reader):
        out.print(line)


def _print_rows(out: Console, shown: OilShown) -> None:
    """A row for each speed: the columns of oil temperatures, then what is read."""
    circuit, reader = shown.desk.circuit, shown.reader
    if circuit is None:
        return
    across = len(card_temperatures(circuit))
    warm = [reader.temperature(each.oil_temperature) for each in shown.grid[:across]]
    table = plain_table("rev/min", *(f"oil {each}" for each in warm), "oil", "read")
    for row, speed in enumerate(card_speeds(circuit)):
        mine = shown.grid[row * across : (row + 1) * across]
        cells = [
            f"{reader.pressure(each.gauge_pressure)}\n({reader.edges(each.gauge_pressure)})"
            if reader.edges(each.gauge_pressure)
            else reader.pressure(each.gauge_pressure)
            for each in mine
        ]
        table.add_row(reader.speed(speed), *cells, BLANK, f"{BLANK}\n")
    out.print(table)


def _lines(shown: OilShown, reader: OilReader) -> Iterator[str]:
    """What stops a first start, and what is written in before it."""
    stops = shown.found.stops
    stated = [each.seconds for each in stops if each.seconds is not None]
    seconds = f"{min(stated):g}" if stated else f"{BLANK} (the engine maker's)"
    yield from (f"[ ] {each.format(seconds=seconds)}" for each in CARD_LINES)
    yield from (f"[ ] {stop_words(each, reader)}: {each.who or NOBODY}" for each in stops)
    if not stops:
        yield f"[ ] No stop value is in the sheet; who says so, and how much: {BLANK}{BLANK}"
    yield f"One named person calls stop, and everybody stops at that word: {BLANK}{BLANK}"
    yield f"Gauge, its zero when vented: {BLANK}   Second gauge, its zero when vented: {BLANK}"
    yield f"Date, who ran it, where the oil temperature is read: {BLANK}{BLANK}"
    yield rests_on_words(shown.found)
    yield f"Caution: {CARD_CAUTION}"
