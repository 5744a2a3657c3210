"""The prediction of the oil system in full: pressures, the flow budget, films, the pump, costs and faults."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from rich.console import Console

from fitwright.assess.oil.chosen import card_speeds, card_temperatures
from fitwright.assess.oil.desk import OilDesk
from fitwright.assess.oil.results import (
    Band,
    BearingState,
    Cost,
    FilmState,
    PointState,
    Prediction,
    PumpState,
)
from fitwright.assess.oil.words import BAND_MEANS, VALIDATED
from fitwright.cli.oil_lines import (
    cost_words,
    findings,
    heading,
    plain_table,
    print_cautions,
    print_list,
    print_oil_used,
    print_pressures,
    print_stops,
    rests_on_words,
    unmeasured,
)
from fitwright.drawing.charts.flow_budget import taken_at
from fitwright.drawing.oil_figures import NOT_CONVERGED, OilReader
from fitwright.drawing.oil_words import film_words, flow_edges, where_words
from fitwright.units.display import format_value
from fitwright.units.families import shop_unit

COSTS_SHOWN = 12
BAND, MEASURED = "95 % band", "as measured"
WIDTH_FOR_ALL = 110
"""In a narrower terminal the films stand without what else is known of a bearing."""


@dataclass(frozen=True, slots=True)
class OilShown:
    """What is to be shown: the prediction, the point looked at, and the build as measured to hold it against.

    `named` counts the points before those of the grid, which come row by row.
    """

    desk: OilDesk
    found: Prediction
    base: Prediction | None
    named: int
    focus: int
    facts: str
    otherwise: str
    reader: OilReader

    @property
    def points(self) -> tuple[PointState, ...]:
        """The named points, and the one of one's own."""
        return self.found.points[: self.named]

    @property
    def grid(self) -> tuple[PointState, ...]:
        """Those of the card."""
        return self.found.points[self.named :]

    @property
    def point(self) -> PointState:
        """The one looked at."""
        return self.found.points[self.focus]

    @property
    def before(self) -> PointState | None:
        """The same of the build as measured."""
        return self.base.points[self.focus] if self.base is not None else None


def print_oil(out: Console, shown: OilShown) -> None:
    """Print all of it."""
    found, reader = shown.found, shown.reader
    _print_head(out, shown)
    heading(out, "Pressure at the gauge by speed and oil temperature")
    _print_grid(out, shown)
    heading(out, "Pressure at the gauge at the operating points")
    print_pressures(out, shown.points, reader, shown.base.points[: shown.named] if shown.base else ())
    heading(out, "Stop values")
    print_stops(out, found, reader)
    if not found.stops:
        out.print("  The sheet has none: get them from the engine maker, or from a named person.")
    said = findings(found, shown.points)
    if said:
        heading(out, "What stands out")
        print_list(out, "", said)
    _print_point(out, shown)
    heading(out, f"What costs pressure at {found.points[0].title}")
    _print_costs(out, found.costs, reader)
    if found.faults:
        heading(out, f"What a fault would cost at {found.points[0].title}")
        _print_costs(out, found.faults, reader)
    _print_rests_on(out, shown)


def _print_head(out: Console, shown: OilShown) -> None:
    heading(out, shown.found.title)
    out.print(shown.facts)
    print_oil_used(out, shown.found, shown.reader)
    print_cautions(out, shown.found)
    if shown.otherwise:
        out.print(f"What if: {shown.otherwise}.")


def _print_grid(out: Console, shown: OilShown) -> None:
    """Rows of speeds, columns of oil temperatures; the band below each best estimate."""
    circuit, reader = shown.desk.circuit, shown.reader
    if circuit is None:
        return
    warm = [each.oil_temperature for each in shown.grid[: len(card_temperatures(circuit))]]
    table = plain_table("", *(f"oil {reader.temperature(each)}" for each in warm))
    for row, speed in enumerate(card_speeds(circuit)):
        mine = shown.grid[row * len(warm) : (row + 1) * len(warm)]
        table.add_row(f"  {reader.speed(speed)}", *(_cell(each.gauge_pressure, reader) for each in mine))
    out.print(table)


def _cell(band: Band, reader: OilReader) -> str:
    edges = reader.edges(band)
    return f"{reader.pressure(band)} ({edges})" if edges else reader.pressure(band)


def _print_point(out: Console, shown: OilShown) -> None:
    """All figures of the point that is looked at."""
    point, reader = shown.point, shown.reader
    at = f"at {point.title} ({where_words(point, reader)})"
    heading(out, f"Where the oil goes {at}")
    _print_budget(out, shown)
    for pump in point.pumps:
        heading(out, f"{pump.title} {at}")
        table = plain_table("", "")
        for name, words in _pump_lines(pump, reader):
            table.add_row(f"  {name}", words)
        out.print(table)
    if point.bearings:
        heading(out, f"Films of the bearings {at}")
        _print_films(out, shown)
        out.print("Films are for the load stated: no limit of load or speed.")


def _print_budget(out: Console, shown: OilShown) -> None:
    before = {each.title: each.flow for each in taken_at(shown.before)} if shown.before is not None else {}
    taken, shares = taken_at(shown.point), {each.group: each.share for each in shown.point.budget}
    bands = any(flow_edges(each.flow) for each in taken)
    table = plain_table("", "flow", *_if(bands, BAND), "of what the pump delivers", *_if(before, MEASURED))
    for each in taken:
        share = shares.get(each.title)
        table.add_row(
            f"  {each.title}",
            shown.reader.flow(each.flow.best),
            *_if(bands, flow_edges(each.flow)),
            f"{share:.0%}" if share is not None else "",
            *_if(before, shown.reader.flow(before[each.title].best) if each.title in before else ""),
        )
    out.print(table)


def _if(wanted: object, cell: str) -> tuple[str, ...]:
    """A cell of a column that is there only where it is wanted."""
    return (cell,) if wanted else ()


def _pump_lines(pump: PumpState, reader: OilReader) -> Iterator[tuple[str, str]]:
    yield "displaces", reader.flow(pump.displaced)
    yield "leaks inside, back to its inlet", reader.flow(pump.leakage)
    yield "delivers", reader.flow(pump.delivered)
    yield "the relief valve lets go", reader.flow(pump.relieved)
    yield "reserve: share of it that the engine does not take", _share(pump.reserve)
    yield "chambers that fill", _share(pump.fill)
    yield "pressure at its inlet, against the air's", reader.pressure(Band(pump.inlet_pressure))
    torque = pump.drive_torque
    unit = shop_unit("torque", reader.family)
    yield (
        "drive torque",
        NOT_CONVERGED if torque is None else format_value(torque, unit, 2, dimension="torque"),
    )


def _share(value: float | None) -> str:
    return NOT_CONVERGED if value is None else f"{value:.0%}"


def _print_films(out: Console, shown: OilShown) -> None:
    """The film of each bearing, and in a wide terminal what else is worth knowing of it."""
    reader, bearings = shown.reader, shown.point.bearings
    before = {each.id: each for each in shown.before.bearings} if shown.before is not None else {}
    bands = any(each.film_thickness.low is not None for each in bearings)
    wide = out.width >= WIDTH_FOR_ALL
    feeds = wide and any(each.feed_margin is not None for each in bearings)
    table = plain_table(
        *("", "thinnest film", *_if(bands, BAND), *_if(before, MEASURED), "takes", *_if(wide, "fed with")),
        *(*_if(feeds, "least to the pin"), *(("ecc.", "film", "friction", "") if wide else ())),
    )
    for each in bearings:
        there = each.state is FilmState.FILM
        table.add_row(
            f"  {each.title}",
            film_words(each, reader),
            *_if(bands, reader.film_edges(each.film_thickness) if there else ""),
            *_if(before, film_words(before[each.id], reader) if each.id in before else ""),
            reader.flow(each.flow.best),
            *_if(wide, reader.pressure(each.feed_pressure)),
            *_if(feeds, reader.pressure(Band(each.feed_margin)) if each.feed_margin is not None else ""),
            *(_of_film(each, reader) if wide else ()),
        )
    out.print(table)


def _of_film(each: BearingState, reader: OilReader) -> Iterator[str]:
    yield f"{each.eccentricity_ratio:.2f}" if each.eccentricity_ratio is not None else ""
    yield reader.temperature(each.film_temperature) if each.film_temperature is not None else ""
    yield f"{each.friction_power:.0f} W" if each.friction_power is not None else ""
    yield "draws all that its feed passes" if each.starved else ""


def _print_costs(out: Console, costs: Sequence[Cost], reader: OilReader) -> None:
    table = plain_table("", "")
    for each in costs[:COSTS_SHOWN]:
        table.add_row(f"  {each.title}", cost_words(each, reader))
    out.print(table)
    if len(costs) > COSTS_SHOWN:
        out.print(f"  and {len(costs) - COSTS_SHOWN} that cost less; --json has them all")


def _print_rests_on(out: Console, shown: OilShown) -> None:
    found, reader = shown.found, shown.reader
    heading(out, "What it rests on")
    out.print(rests_on_words(found))
    print_list(out, "Not measured, critical ones first:", unmeasured(found.unmeasured, reader))
    limit = found.filling_limit
    if limit is not None:
        out.print(f"From {reader.speed(limit)} on, with the hottest oil, the pump's chambers no longer fill.")
    out.print(BAND_MEANS)
    out.print(VALIDATED)
    print_list(out, "Not modelled:", found.not_modelled)
