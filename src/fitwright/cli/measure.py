"""`fitwright measure`: readings typed in the terminal, in measuring order."""

from __future__ import annotations

from typing import Annotated, Literal

from cyclopts import Parameter

from fitwright.bench.errors import UnknownNameError
from fitwright.bench.order import stops
from fitwright.bench.sittings import begin_sitting, new_sitting_code, person_named
from fitwright.cli.errors import OK
from fitwright.cli.measuring import Measuring
from fitwright.cli.session import Session, With
from fitwright.cli.shop import DEFAULT_DATA, Data, family_of, opened
from fitwright.cli.terminal import Terminal
from fitwright.records.kinds import Sitting
from fitwright.wiring import Shop


def measure(
    build: str,
    station: str,
    /,
    *,
    data: Data = DEFAULT_DATA,
    from_the_end: Annotated[bool, Parameter(negative="", help="Begin at the other end.")] = False,
    way: Annotated[
        Literal["places", "planes"],
        Parameter(help="Finish one part before the next, or go along all parts plane by plane."),
    ] = "places",
    sitting: Annotated[
        str | None, Parameter(help="Sitting that the readings belong to; else the last.")
    ] = None,
    instrument: Annotated[str | None, Parameter(help="Gauge to read with; else by the sitting.")] = None,
    setting: Annotated[str | None, Parameter(help="Setting that this gauge reads in; else its last.")] = None,
    person: Annotated[str | None, Parameter(help="Who types; measures too, where a sitting begins.")] = None,
    units: Annotated[Literal["mm", "inch"] | None, Parameter(help="Units of the verdicts.")] = None,
) -> int:
    """Take readings in the terminal, in measuring order; ? lists what can be typed.

    Each reading is durable before its verdicts are shown. End with `end`, Ctrl-D or Ctrl-C.

    Example: fitwright measure corrie-five mains --from-the-end --data demo
    """
    with opened(data) as shop:
        family = family_of(shop, build, units)
        sheet = shop.bench(build).sheet
        if station not in sheet.stations:
            raise UnknownNameError("station", station, list(sheet.stations))
        order = stops(sheet, station, from_the_end=from_the_end, way=way)
        terminal = Terminal()
        code, who = _sitting(shop, build, sitting, person, terminal)
        using = With(person=who, sitting=code, instrument=instrument, setting=setting)
        session = Session(shop, build, order, using, family, terminal)
        Measuring(session).run(sheet.stations[station])
    return OK


def _sitting(
    shop: Shop, build: str, sitting: str | None, person: str | None, terminal: Terminal
) -> tuple[str, str]:
    """The sitting to read in, and who types; one is begun where the build has none that suits."""
    bench = shop.bench(build)
    who = person_named(bench.shop, person) if person is not None else None
    found = bench.sitting(sitting)
    if found is not None and (sitting is not None or who in (None, found.measured_by, found.typed_by)):
        terminal.say(f"Sitting {found.code}: {found.measured_by} measures.")
        return found.code, who or found.typed_by or found.measured_by
    who = who or person_named(bench.shop, None)
    body = Sitting(code=new_sitting_code(bench), measured_by=who, typed_by=who)
    shop.write([begin_sitting(bench, body, person=who)], since=shop.position)
    terminal.say(
        f"Sitting {body.code} begun: {who} measures, parts and gauges taken to be at 20 °C (68 °F). "
        "To state temperatures, begin one with `fitwright shop sitting`."
    )
    return body.code, who
