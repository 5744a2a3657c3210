"""`fitwright shop`: the things of a shop, each a thin command that makes one entry."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from typing import TYPE_CHECKING, Annotated

from cyclopts import App, Parameter

from fitwright.cli.errors import OK
from fitwright.cli.shop import DEFAULT_DATA, Data, opened
from fitwright.cli.shop_gauges import blade_set, calibration, check_back, instrument, setting
from fitwright.cli.shop_oil import oil, pressure_reading
from fitwright.cli.shop_parts import eye_check, fit_part, not_in_this_job, part, state, stated_size, take_out
from fitwright.cli.shop_people import adopt_limit, choice, note, person, photo, rule, sitting, withdraw
from fitwright.cli.shop_pins import pin

if TYPE_CHECKING:
    from fitwright.bench.context import Bench
    from fitwright.wiring import Shop

app = App(
    name="shop",
    help="Enter people, gauges, settings, parts, decisions; list them.\n\nExample: fitwright shop list",
)
_COMMANDS = (
    person,
    pin,
    instrument,
    calibration,
    setting,
    check_back,
    blade_set,
    part,
    fit_part,
    take_out,
    state,
    stated_size,
    eye_check,
    not_in_this_job,
    oil,
    pressure_reading,
    sitting,
    choice,
    adopt_limit,
    withdraw,
    note,
    photo,
    rule,
)
for _command in _COMMANDS:
    app.command(_command)


@app.command(name="list")
def list_(
    *,
    build: Annotated[str | None, Parameter(help="Also the parts and sittings of this build.")] = None,
    data: Data = DEFAULT_DATA,
) -> int:
    """List what is on the shelf: people, instruments with their last setting, blades, rules.

    Example: fitwright shop list --build corrie-five --data demo
    """
    with opened(data) as shop:
        for line in (*_shelf(shop), *(_of_build(shop, build) if build is not None else ())):
            sys.stdout.write(f"{line}\n")
    return OK


def _shelf(shop: Shop) -> Iterator[str]:
    from fitwright.units import approximately

    known = shop.state
    yield "People"
    yield from (f"  {code}: {held.body.name}" for code, held in known.people.items())
    yield "Instruments"
    last = {held.body.instrument: code for code, held in known.settings.items()}
    for code, held in known.instruments.items():
        gauge = held.body
        division = approximately(gauge.resolution, gauge.unit)
        calibrated = known.calibration_of(code)
        facts = [
            gauge.type,
            f"reads to {division}",
            f"last set {last[code]}" if code in last else "",
            _calibrated(calibrated.body.never, calibrated.body.date)
            if calibrated
            else "no calibration recorded",
        ]
        yield f"  {code}: {gauge.title} ({', '.join(fact for fact in facts if fact)})"
    yield "Blades and plugs"
    for code, blades in known.blade_sets.items():
        markings = " ".join(each.marking for each in blades.body.blades if each.available)
        yield f"  {code}: {blades.body.title}: {markings}"
    yield from (f"{name}: {held.body.value}" for name, held in known.shop_settings.items())


def _calibrated(never: bool, date: str | None) -> str:  # noqa: FBT001  (a fact of the record)
    return "never calibrated" if never else f"calibrated {date or 'at an unknown date'}"


def _of_build(shop: Shop, build: str) -> Iterator[str]:
    from fitwright.bench.parts import position_of

    bench = shop.bench(build)
    held = bench.build
    yield "Parts"
    for code, part_held in held.parts.items():
        where = position_of(bench, code) or "on the shelf"
        used = ", used" if part_held.body.used else ""
        yield f"  {code}: {part_held.body.title} ({where}{used})"
    yield "Sittings"
    for code, sitting_held in held.sittings.items():
        words = f": {sitting_held.body.words}" if sitting_held.body.words else ""
        yield f"  {code}: {sitting_held.body.measured_by} measures{words}"
    yield from _oil_of(bench)


def _oil_of(bench: Bench) -> Iterator[str]:
    from fitwright.assess.oil.filling import filling_of
    from fitwright.bench.first_start_view import pressure_lines

    filling = filling_of(bench.sheet, bench.build)
    yield f"Oil: {filling.oil.title if filling.oil is not None else filling.problem}"
    lines = pressure_lines(bench)
    if lines:
        yield "Oil pressure"
        yield from (f"  entry {each.entry.seq}: {each.words}" for each in lines)
