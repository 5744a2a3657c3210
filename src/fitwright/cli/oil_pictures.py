"""The pictures of the oil system as SVG files in a folder."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from fitwright.cli.errors import UsageError
from fitwright.cli.files import written
from fitwright.cli.oil_report import OilShown
from fitwright.drawing.canvas import Picture
from fitwright.drawing.charts.costs import costs
from fitwright.drawing.charts.film import films
from fitwright.drawing.charts.flow_budget import flow_budget, taken_at
from fitwright.drawing.charts.pressure_speed import pressure_speed
from fitwright.drawing.charts.shown import Selected
from fitwright.drawing.oil_circuit import circuit_drawing
from fitwright.drawing.oil_style import standalone

MOST_COSTS = 12


def write_pictures(folder: Path, shown: OilShown) -> list[Path]:
    """Write circuit, pressure, budget, costs, faults and films; what was there is replaced."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise UsageError(
            f"{folder} is no folder that can be made ({error.strerror}); name another place."
        ) from error
    files = []
    for name, picture in _pictures(shown):
        file = folder / f"{name}.svg"
        with written(file) as part:
            part.write_text(standalone(picture), encoding="utf-8")
        files.append(file)
    return files


def _pictures(shown: OilShown) -> Iterator[tuple[str, Picture]]:
    found, point, family = shown.found, shown.point, shown.reader.family
    circuit, base = shown.desk.circuit, shown.base
    if circuit is not None:
        yield "circuit", circuit_drawing(circuit, point, family=family)
    yield (
        "pressure",
        pressure_speed(
            (base or found).curves,
            family=family,
            stops=found.stops,
            selected=Selected(point.angular_speed, point.oil_temperature),
            what_if=found.curves if base is not None else (),
        ),
    )
    yield "budget", flow_budget(taken_at(point), family=family)
    yield "costs", costs(found.costs, family=family, most=MOST_COSTS)
    if found.faults:
        yield "faults", costs(found.faults, family=family, most=MOST_COSTS)
    if point.bearings:
        yield "films", films(point.bearings, family=family)
