"""Draw the pictures of the documentation anew: `python -m tools.pictures`.

Eight engines: an example with the verdicts of its record, as its parts came; the others as `fitwright new`
makes their sheets, with nothing measured yet.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from math import radians
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Final

from fitwright import api
from fitwright.drawing.engine_section import StationState, View, standalone_svg, station_states
from fitwright.examples import sheet_text
from fitwright.formats.sheet import read_sheet
from fitwright.model.sheet import Sheet
from fitwright.starter.answers import Answers
from fitwright.starter.sheet import write_sheet

FOLDER: Final = Path(__file__).resolve().parents[1] / "docs" / "pictures"


@dataclass(frozen=True, slots=True)
class Picture:
    """A file below docs/pictures: an engine by its answers (or an example by its name) and a view."""

    file: str
    engine: Answers | str
    view: View


PICTURES: Final = (
    Picture("section-inline-five.svg", "corrie-five", "along"),
    Picture("section-pushrod-four.svg", "brackengill-eleven", "across"),
    Picture(
        "section-vee-eight.svg",
        Answers(
            name="Vee eight",
            arrangement="vee",
            valve_train="pushrod",
            pump="dry sump",
            pump_stages=3,
            bore=0.1016,
            stroke=0.0884,
            rod_length=0.1524,
        ),
        "across",
    ),
    Picture(
        "section-vee-twelve.svg",
        Answers(
            name="Vee twelve",
            arrangement="vee",
            cylinders=12,
            bank_angle=radians(60.0),
            valve_train="double overhead camshafts",
            valves_per_cylinder=4,
            pump="crank-driven internal rotor",
            bore=0.082,
            stroke=0.0742,
        ),
        "along",
    ),
    Picture(
        "section-flat-four.svg",
        Answers(
            name="Flat four",
            arrangement="flat",
            cylinders=4,
            cooling="air",
            valve_train="pushrod",
            pump="camshaft-driven",
            bore=0.0855,
            stroke=0.069,
            rod_length=0.137,
        ),
        "along",
    ),
    Picture(
        "section-parallel-twin.svg",
        Answers(
            name="Parallel twin",
            arrangement="twin",
            cooling="air",
            bearings="rolling",
            bore=0.072,
            stroke=0.066,
        ),
        "across",
    ),
    Picture(
        "section-two-stroke.svg",
        Answers(
            name="Two-stroke single",
            arrangement="single",
            cooling="air",
            bearings="rolling",
            valve_train="two-stroke",
            bore=0.054,
            stroke=0.054,
        ),
        "along",
    ),
    Picture(
        "section-side-valve-four.svg",
        Answers(
            name="Side-valve four",
            duty="historic",
            bearings="white metal",
            valve_train="side valve",
            bore=0.0635,
            stroke=0.0925,
        ),
        "across",
    ),
)


def drawn() -> Iterator[tuple[str, str]]:
    """Name and text of each file."""
    for picture in PICTURES:
        sheet, states = _engine(picture.engine)
        yield picture.file, standalone_svg(sheet, states, view=picture.view)


def _engine(engine: Answers | str) -> tuple[Sheet, Mapping[str, StationState]]:
    if isinstance(engine, Answers):
        sheet = read_sheet(write_sheet(engine))
        return sheet, {name: _unmeasured(sheet, name) for name in sheet.stations}
    sheet = read_sheet(sheet_text(engine))
    with TemporaryDirectory() as folder:
        api.prepare_demo(Path(folder) / "demo")
        with api.open(Path(folder) / "demo") as shop:
            return sheet, station_states(sheet, shop.build(engine).fits("as-received"))


def _unmeasured(sheet: Sheet, station: str) -> StationState:
    """A station before its first reading: every limited fit and dimension is not measured."""
    fits = sum(bool(fit.limits) for fit in sheet.fits.values() if fit.station == station)
    sizes = sum(bool(size.limits) for size in sheet.dimensions.values() if size.station == station)
    return StationState(station, sheet.stations[station].title, not_measured=fits + sizes)


def main() -> None:
    """Write every picture and say how large it is."""
    for name, text in drawn():
        (FOLDER / name).write_text(text, encoding="utf-8", newline="\n")
        sys.stdout.write(f"{name}: {len(text) // 1000} kB\n")


if __name__ == "__main__":
    main()
