"""`fitwright oil`: the oil pressure of a build predicted from what was measured, and what if."""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any, Literal

from cyclopts import Parameter

from fitwright.cli.errors import FOUND, OK
from fitwright.cli.shop import DEFAULT_DATA, Data, family_of, opened

if TYPE_CHECKING:
    from fitwright.cli.oil_asked import AskedOil
    from fitwright.cli.oil_report import OilShown


def oil(
    build: str,
    /,
    *,
    data: Data = DEFAULT_DATA,
    state: Annotated[
        Literal["as-received", "current"],
        Parameter(help="Which readings count: before any rework, or the latest."),
    ] = "current",
    speed: Annotated[str | None, Parameter(help="Speed of the crank to look at, rev/min; else idle.")] = None,
    temperature: Annotated[
        str | None, Parameter(help="Oil temperature to look at; else hot oil.", allow_leading_hyphen=True)
    ] = None,
    oil_: Annotated[
        str | None, Parameter(name="--oil", help="What if: another oil of the sheet, by its id.")
    ] = None,
    change: Annotated[
        tuple[str, ...],
        Parameter(
            negative="",
            show_default=False,
            help='What if: a group of clearances changed, as "mains=+0.02 mm".',
        ),
    ] = (),
    size: Annotated[
        tuple[str, ...],
        Parameter(
            negative="",
            show_default=False,
            help='What if: amounts of the circuit, as "paths.jet.*.diameter=1.0 mm".',
        ),
    ] = (),
    shim: Annotated[str | None, Parameter(help="What if: a shim under the relief spring.")] = None,
    seat: Annotated[str | None, Parameter(help="What if: a relief seat held open by so much.")] = None,
    pump_speed: Annotated[str | None, Parameter(help="What if: the pump so many times as fast.")] = None,
    fuel: Annotated[str | None, Parameter(help="What if: fuel in the oil by mass, as 3 %.")] = None,
    temperature_change: Annotated[
        str | None, Parameter(help="What if: all oil so much warmer, as +10 K.", allow_leading_hyphen=True)
    ] = None,
    misalignment: Annotated[
        str | None, Parameter(help="What if: each journal tilted by so much from end to end.")
    ] = None,
    as_json: Annotated[bool, Parameter(name="--json", negative="", help="Print JSON in SI units.")] = False,
    svg: Annotated[
        Path | None, Parameter(help="Write circuit, pressure, budget, costs and films as SVG files there.")
    ] = None,
    card: Annotated[
        bool, Parameter(negative="", help="Print the card of expected pressures for the first start.")
    ] = False,
    cycle: Annotated[
        bool,
        Parameter(negative="", help="Instead: films over the cycle, by the loads of the crank train."),
    ] = False,
    load_cycle: Annotated[
        Path | None,
        Parameter(help="Instead: the film of one --bearing under a load cycle from this CSV file."),
    ] = None,
    bearing: Annotated[
        str | None, Parameter(help="Which one: the id of its path, as main.1.bearing.")
    ] = None,
    fail_on: Annotated[
        Literal["stop-value"] | None,
        Parameter(help="Exit with 1 if the prediction lies below a stop value."),
    ] = None,
    units: Annotated[Literal["mm", "inch"] | None, Parameter(help="Units to show.")] = None,
) -> int:
    """Predict the oil pressure of a build from what was measured: bands, flows, films, what costs most.

    A prediction is no limit: stop values come from the engine maker or a named person.

    Example: fitwright oil corrie-five --data demo --change "mains=+0.02 mm" --speed 900
    """
    from fitwright.assess.results import State
    from fitwright.cli.oil_asked import AskedOil
    from fitwright.cli.oil_asking import OilFlags

    flags = OilFlags(
        oil_ or "",
        change,
        size,
        shim or "",
        seat or "",
        pump_speed or "",
        fuel or "",
        temperature_change or "",
        misalignment or "",
    )
    with opened(data) as shop:
        asked = AskedOil.of(shop, build, State(state), family_of(shop, build, units))
        asked = asked.with_words(speed or "", temperature or "", flags)
        if cycle or load_cycle is not None or bearing:
            _films_over_cycle(asked, load_cycle, bearing or "", svg, as_json=as_json)
            return OK
        shown = asked.shown(grid=not as_json, base_bands=svg is not None)
        if svg is not None:
            _write_pictures(svg, shown)
        if as_json:
            _write_json(asked, shown)
        elif svg is None or card:
            _print(shown, card=card)
    return FOUND if fail_on is not None and any(each.crossed for each in shown.found.stops) else OK


def _films_over_cycle(
    asked: AskedOil, file: Path | None, bearing: str, svg: Path | None, *, as_json: bool
) -> None:
    from fitwright.cli.console import console
    from fitwright.cli.oil_cycle import AskedCycle, print_cycle, write_cycle_picture
    from fitwright.formats.oil_prediction import cycle_as_json

    cycle = AskedCycle.of(asked, file, bearing)
    if svg is not None:
        sys.stderr.write(f"{write_cycle_picture(svg, cycle)}\n")
    if as_json:
        _dump(cycle_as_json(cycle.answer(), asked.rests_on, asked.what_if))
    elif svg is None:
        print_cycle(console(), cycle)


def _print(shown: OilShown, *, card: bool) -> None:
    from fitwright.cli.console import console

    if card:
        from fitwright.cli.oil_card import print_card

        print_card(console(), shown)
        return
    from fitwright.cli.oil_report import print_oil

    print_oil(console(), shown)


def _write_json(asked: AskedOil, shown: OilShown) -> None:
    from fitwright.formats.oil_prediction import oil_as_json

    _dump(oil_as_json(shown.found, asked.rests_on, asked.what_if, shown.base))


def _dump(document: dict[str, Any]) -> None:
    json.dump(document, sys.stdout, ensure_ascii=False, indent=1, allow_nan=False)
    sys.stdout.write("\n")


def _write_pictures(folder: Path, shown: OilShown) -> None:
    """Write them; their names go to standard error, so that JSON stands alone on standard output."""
    from fitwright.cli.oil_pictures import write_pictures

    for file in write_pictures(folder, shown):
        sys.stderr.write(f"{file}\n")
