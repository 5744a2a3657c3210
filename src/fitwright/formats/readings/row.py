"""One row of a table of readings: its entries, or everything that is wrong with it, or its questions."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Final, TypeVar, get_args

from fitwright.assess.evidence import members_of
from fitwright.bench.asking import KEEP
from fitwright.bench.context import Bench
from fitwright.bench.errors import (
    BenchError,
    EmptyPositionError,
    UnknownBladeError,
    WhichInstrumentError,
)
from fitwright.bench.settings import instrument_named
from fitwright.bench.short_entries import blade_typed
from fitwright.bench.sittings import person_named
from fitwright.bench.taking import Taking, take_blade, take_value
from fitwright.formats.readings.columns import ACCEPTED
from fitwright.formats.readings.problems import RowProblem
from fitwright.formats.readings.sittings import Sittings, moment_of
from fitwright.formats.readings.table import Row
from fitwright.model.dimension import Dimension
from fitwright.model.slips import Question
from fitwright.records.entry import NewEntry
from fitwright.records.kinds import Origin
from fitwright.units import QuantityError, parse_quantity

T = TypeVar("T")

ORIGINS: Final[tuple[str, ...]] = get_args(Origin)


@dataclass(frozen=True, slots=True)
class RowQuestion:
    """A question that a row raises; its text names the row."""

    file: str
    row: int
    dimension: str
    question: Question

    def __str__(self) -> str:
        return f"{self.file}, row {self.row}, {self.dimension}: {self.question.text}"


@dataclass(frozen=True, slots=True)
class RowRead:
    """What came of a row; `entries` are there if it has no problem, with its questions answered `keep`."""

    entries: tuple[NewEntry, ...] = ()
    problems: tuple[RowProblem, ...] = ()
    questions: tuple[RowQuestion, ...] = ()


class RowReader:
    """Reads the rows of one file for one build; everything wrong with a row is said at once."""

    def __init__(
        self, bench: Bench, file: str, *, sitting: str | None = None, person: str | None = None
    ) -> None:
        self._bench, self._file, self._person = bench, file, person
        self._sittings = Sittings(bench)
        self._sitting = sitting
        if sitting is not None:
            bench.sitting(sitting)

    def read(self, row: Row, entry_id: str) -> RowRead:
        """The entries of a row under this id."""
        problems = _Problems(self._file, row)
        dimension = self._dimension(row, problems)
        taking = self._taking(row, entry_id, problems)
        if dimension is not None:
            with_place = problems.check("place", lambda: self._bench.place(dimension, row["place"] or None))
            taking = replace(taking, members=self._parts(row, dimension, problems))
            self._check_condition(row, dimension, problems)
            if with_place is not None and not problems.found:
                return self._taken(row, dimension, taking, problems)
        if not row["value"]:
            problems.add("value", "is empty")
        return RowRead(problems=tuple(problems.found))

    def _dimension(self, row: Row, problems: _Problems) -> Dimension | None:
        if not row["dimension"]:
            problems.add("dimension", "is empty")
            return None
        return problems.check("dimension", lambda: self._bench.dimension(row["dimension"]))

    def _taking(self, row: Row, entry_id: str, problems: _Problems) -> Taking:
        bench = self._bench
        measured_by = self._who(row, "measured_by", problems)
        typed_by = self._who(row, "typed_by", problems)
        code = row["instrument"] or None
        blade_set = code if code in bench.shop.blade_sets else None
        instrument = None if blade_set is not None else code
        if instrument is not None:
            problems.check("instrument", lambda: instrument_named(bench.shop, instrument))
        self._check_setting(row, instrument, problems)
        self._check_time(row, problems)
        self._check_origin(row, problems)
        taking = Taking(
            person=typed_by or self._person,
            instrument=instrument,
            setting=row["setting"] or None,
            unit=None,
            origin="file",
            measured_by=measured_by,
            taken_at=row["taken_at"] or None,
            note=_note(row),
            part_temperature=self._temperature(row, problems),
            entry_id=entry_id,
            blade_sets=(blade_set,) if blade_set is not None else (),
        )
        return taking if problems.found else self._in_sitting(taking, row)

    def _in_sitting(self, taking: Taking, row: Row) -> Taking:
        code = self._sitting or self._sittings.find(
            measured_by=taking.measured_by,
            instrument=taking.instrument,
            setting=taking.setting,
            taken_at=row["taken_at"],
        )
        return replace(taking, sitting=code, outside_sittings=code is None)

    def _who(self, row: Row, column: str, problems: _Problems) -> str | None:
        name = row[column]
        return problems.check(column, lambda: person_named(self._bench.shop, name)) if name else None

    def _check_setting(self, row: Row, instrument: str | None, problems: _Problems) -> None:
        code = row["setting"]
        if not code:
            return
        held = self._bench.shop.settings.get(code)
        if held is None:
            problems.add("setting", f'no setting "{code}" in this shop')
        elif instrument is not None and held.body.instrument != instrument:
            problems.add("setting", f"{code} is a setting of {held.body.instrument}, not of {instrument}")

    def _check_time(self, row: Row, problems: _Problems) -> None:
        if row["taken_at"]:
            try:
                moment_of(row["taken_at"])
            except ValueError:
                problems.add("taken_at", f'"{row["taken_at"]}" is no date or time')

    def _check_origin(self, row: Row, problems: _Problems) -> None:
        if row["origin"] and row["origin"] not in ORIGINS:
            problems.add("origin", f'"{row["origin"]}" is none of the origins')

    def _temperature(self, row: Row, problems: _Problems) -> float | None:
        text = row["part_temperature"]
        if not text:
            return None
        found = problems.check(
            "part_temperature", lambda: parse_quantity(text, default_unit="degC", dimension="temperature")
        )
        return found.si if found is not None else None

    def _check_condition(self, row: Row, dimension: Dimension, problems: _Problems) -> None:
        given = row["condition"]
        if not given or given == dimension.condition:
            return
        wanted = dimension.condition or "none"
        problems.add("condition", f'"{given}" is not what {dimension.id} is valid in', f"write {wanted}")

    def _parts(self, row: Row, dimension: Dimension, problems: _Problems) -> dict[str, str] | None:
        """Through which parts a row was taken: those named, else those in place."""
        if not row["part"]:
            return problems.check("part", lambda: self._bench.members(dimension))
        positions = [member.position for member in members_of(self._bench.sheet, dimension)]
        named = _named(row["part"], positions)
        if named is None or set(named) != set(positions):
            form = " + ".join(f"{position}=CODE" for position in positions)
            problems.add("part", f"{dimension.id} is taken through {len(positions)} parts", f"write {form}")
            return None
        for code in named.values():
            if code not in self._bench.build.parts and code not in self._bench.sheet.parts:
                problems.add("part", f'no part "{code}" in this build', "enter it with `fitwright shop part`")
                return None
        return self._as_placed(dimension, named)

    def _as_placed(self, dimension: Dimension, named: dict[str, str]) -> dict[str, str]:
        """A single part that is not in its position carries its reading by itself."""
        if dimension.part is None:
            return named
        code = named[dimension.part]
        return named if self._bench.build.occupant(dimension.part) == code else {"": code}

    def _taken(self, row: Row, dimension: Dimension, taking: Taking, problems: _Problems) -> RowRead:
        try:
            return self._blade_or_value(row, dimension, taking, problems)
        except QuantityError as error:
            problems.add("value", str(error), "")
        except UnknownBladeError as error:
            problems.add("value", str(error), "")
        except WhichInstrumentError as error:
            problems.add("instrument", str(error), "")
        except EmptyPositionError as error:
            problems.add("part", str(error), "")
        except BenchError as error:
            problems.add("dimension", str(error), "")
        return RowRead(problems=tuple(problems.found))

    def _blade_or_value(self, row: Row, dimension: Dimension, taking: Taking, problems: _Problems) -> RowRead:
        blade = blade_typed(row["value"])
        if blade is None:
            return self._value(row, dimension, taking)
        if row["unit"]:
            problems.add("unit", "a blade's answer has no unit", "leave it empty")
            return RowRead(problems=tuple(problems.found))
        taken = take_blade(
            self._bench, dimension.id, row["place"] or None, blade.blades, blade.answer, taking
        )
        return RowRead(entries=taken.entries)

    def _value(self, row: Row, dimension: Dimension, taking: Taking) -> RowRead:
        text = f"{row['value']} {row['unit']}".strip()
        answers: dict[str, str] = {}
        questions: list[RowQuestion] = []
        taking = replace(taking, answers=answers)
        while True:
            found = take_value(self._bench, dimension.id, row["place"] or None, text, taking)
            if not isinstance(found, Question):
                return RowRead(entries=found.entries, questions=tuple(questions))
            questions.append(RowQuestion(self._file, row.number, dimension.id, found))
            answers[found.key] = KEEP


class _Problems:
    """Collects what is wrong with one row."""

    def __init__(self, file: str, row: Row) -> None:
        self._file, self._row = file, row
        self.found: list[RowProblem] = []

    def add(self, column: str, what: str, accepted: str | None = None) -> None:
        """One more problem; without a form of its own, the column's usual one is named."""
        text = ACCEPTED[column] if accepted is None else accepted
        self.found.append(RowProblem(self._file, self._row.number, column, what.rstrip("."), text))

    def check(self, column: str, read: Callable[[], T]) -> T | None:
        """What a cell stands for; what is wrong with it is collected."""
        try:
            return read()
        except (BenchError, QuantityError) as error:
            self.add(column, str(error), "")
            return None


def _named(text: str, positions: list[str]) -> dict[str, str] | None:
    """The parts named in a cell, by position; a single one needs no position."""
    if "=" not in text:
        return {positions[0]: text} if len(positions) == 1 else None
    pairs = [pair.partition("=") for pair in text.split(" + ")]
    return {position.strip(): code.strip() for position, _, code in pairs}


def _note(row: Row) -> str | None:
    """The words of a row; that it was told or on paper stays known, though it came by a file."""
    words = [row["note"]] if row["note"] else []
    if row["origin"] in ("paper", "told"):
        words.append(f"origin in the file: {row['origin']}")
    return "; ".join(words) or None
