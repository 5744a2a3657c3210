"""`fitwright oil --cycle`: films of mains and big ends over the cycle."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Final

from rich.console import Console

from fitwright.assess.oil.orbits import BELOW_IDLE
from fitwright.assess.oil.points import OilPoint, named_points
from fitwright.assess.oil.results import CycleFilms
from fitwright.cli.errors import UsageError
from fitwright.cli.files import written
from fitwright.cli.oil_asked import AskedOil
from fitwright.cli.oil_lines import heading, plain_table, print_list
from fitwright.drawing.charts.film_over_cycle import film_over_cycle
from fitwright.drawing.cycle_words import CYCLE_HEADINGS, cycle_rows, gas_words, groups_of, thinnest_words
from fitwright.drawing.oil_figures import OilReader
from fitwright.drawing.oil_style import standalone
from fitwright.formats.errors import FormatError
from fitwright.formats.load_cycle import read_load_cycle
from fitwright.physics.train.load_cycle import LoadCycle

NOT_FIRED: Final = "not fired"


@dataclass(frozen=True, slots=True)
class AskedCycle:
    """What is asked: the desk's question, and a load cycle of one bearing instead of the crank train."""

    asked: AskedOil
    load_cycle: LoadCycle | None = None
    bearing: str = ""

    @classmethod
    def of(cls, asked: AskedOil, file: Path | None, bearing: str) -> AskedCycle:
        """With the file read; words and files that cannot be used are a `UsageError`."""
        if (file is None) != (not bearing):
            raise UsageError("A load cycle is that of one bearing: give --load-cycle and --bearing together.")
        if file is None:
            return cls(asked)
        try:
            return cls(asked, read_load_cycle(file.read_bytes(), file=file.name), bearing)
        except (OSError, FormatError) as error:
            said = f"{file}: {error.strerror}." if isinstance(error, OSError) else f"{error}."
            raise UsageError(said) from error

    def point(self) -> OilPoint:
        """The point looked at: hot idle where none is asked for."""
        circuit = self.asked.desk.circuit
        assert circuit is not None  # noqa: S101 - a desk without one is refused before
        return self.asked.point or named_points(circuit)[0]

    def films(self, point: OilPoint) -> CycleFilms:
        """Films at a point."""
        desk, what_if = self.asked.desk, self.asked.what_if
        if self.load_cycle is not None:
            return desk.films_under(self.load_cycle, self.bearing, point, what_if)
        return desk.films_over_cycle(point, what_if)

    def answer(self) -> CycleFilms:
        """Films at the point looked at; what keeps them from being worked out is a `UsageError`."""
        found = self.films(self.point())
        if found.problem:
            raise UsageError(f"{self.asked.rests_on.build}: {found.problem}")
        return found


def print_cycle(out: Console, cycle: AskedCycle) -> None:
    """Films at every operating point in short, at the one looked at in full, and what they rest on."""
    reader, found = OilReader(cycle.asked.family), cycle.answer()
    heading(out, f"Films over the cycle of {cycle.asked.desk.engine_name}")
    out.print(cycle.asked.facts)
    _print_points(out, cycle, reader)
    at = f"{reader.speed(found.angular_speed)}, oil {reader.temperature(found.oil_temperature)}"
    heading(out, f"Films over the cycle at {found.title} ({at})")
    table = plain_table("", *CYCLE_HEADINGS, "")
    for each in cycle_rows(found, reader):
        table.add_row(f"  {each.title}", each.film, *each.figures, each.note)
    out.print(table)
    gas = gas_words(found, reader.family)
    if gas:
        out.print(gas)
    print_list(out, "What they rest on:", found.cautions)


def _print_points(out: Console, cycle: AskedCycle, reader: OilReader) -> None:
    """The thinnest of each group at the points of the sheet."""
    circuit = cycle.asked.desk.circuit
    if circuit is None or cycle.load_cycle is not None:
        return
    found = [cycle.films(point) for point in named_points(circuit)]
    groups = groups_of(found)
    table = plain_table("", "", *groups)
    for each in found:
        where = f"{reader.speed(each.angular_speed)}, oil {reader.temperature(each.oil_temperature)}"
        row = [thinnest_words(each, group, reader) for group in groups]
        if each.problem:
            row[:1] = [NOT_FIRED if each.problem == BELOW_IDLE else each.problem]
        table.add_row(f"  {each.title}", where, *row)
    heading(out, "Thinnest film at the operating points")
    out.print(table)


def write_cycle_picture(folder: Path, cycle: AskedCycle) -> Path:
    """The chart of film over crank angle as a file."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise UsageError(
            f"{folder} is no folder that can be made ({error.strerror}); name another place."
        ) from error
    file = folder / "films-over-cycle.svg"
    with written(file) as part:
        part.write_text(
            standalone(film_over_cycle(cycle.answer(), family=cycle.asked.family)), encoding="utf-8"
        )
    return file
