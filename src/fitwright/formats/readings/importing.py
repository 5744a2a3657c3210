"""A table of readings for a build: checked whole, then taken in batch by batch.

Each row's id follows from the build, the digest of the file and the number of the row, so that the same file
again changes nothing, and an import that was cut off goes on where it stopped. A row of another
file that says what is recorded already is a question, like a value that looks mistyped.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any, Final, Literal

from fitwright.bench.context import Bench
from fitwright.formats.readings.problems import RowProblem
from fitwright.formats.readings.row import RowQuestion, RowRead, RowReader
from fitwright.formats.readings.table import Row, Table
from fitwright.model.slips import Question
from fitwright.records.entry import NewEntry
from fitwright.records.ids import imported_id

BATCH: Final = 1000
Answer = Literal["keep", "leave-out"]


@dataclass(slots=True)
class Checked:
    """What checking a whole table found: how many rows are new, and what stands in their way."""

    new: int = 0
    already: int = 0
    outside_sittings: int = 0
    problems: list[RowProblem] = field(default_factory=list)
    questions: list[RowQuestion] = field(default_factory=list)
    bad_rows: set[int] = field(default_factory=set)
    asked_rows: set[int] = field(default_factory=set)


class Import:
    """One table on its way into one build."""

    def __init__(
        self, bench: Bench, table: Table, *, sitting: str | None = None, person: str | None = None
    ) -> None:
        self._bench, self._table = bench, table
        self._reader = RowReader(bench, table.file, sitting=sitting, person=person)
        build = bench.build.build
        self._ids = {row.number: imported_id(build, table.digest, row.number) for row in table.rows}
        self._recorded = _recorded(bench, set(self._ids.values()))

    def check(self) -> Checked:
        """Read every row, and keep only what is wrong or to be asked."""
        found = Checked(problems=list(self._table.problems))
        found.bad_rows |= {problem.row for problem in found.problems}
        for row in self._table.rows:
            if self._is_here(row):
                found.already += 1
                continue
            read = self._read(row)
            found.problems += read.problems
            found.questions += read.questions
            if read.problems:
                found.bad_rows.add(row.number)
            elif read.questions:
                found.asked_rows.add(row.number)
            found.new += bool(read.entries)
            found.outside_sittings += bool(read.entries) and read.entries[0].body.get("sitting") is None
        found.problems.sort(key=lambda problem: problem.row)
        return found

    def batches(self, *, leave_out: set[int]) -> Iterator[list[NewEntry]]:
        """The entries of all new rows but those left out, in the order of the file."""
        batch: list[NewEntry] = []
        for row in self._table.rows:
            if row.number in leave_out or self._is_here(row):
                continue
            batch.extend(self._read(row).entries)
            if len(batch) >= BATCH:
                yield batch
                batch = []
        if batch:
            yield batch

    def _is_here(self, row: Row) -> bool:
        return self._ids[row.number] in self._bench.build.readings

    def _read(self, row: Row) -> RowRead:
        read = self._reader.read(row, self._ids[row.number])
        if not read.entries:
            return read
        body = read.entries[0].body
        times = self._recorded.get(_key(body))
        if times is None or (row["taken_at"] and row["taken_at"] not in times):
            return read
        question = Question(
            f"again:{self._ids[row.number]}", "this is recorded already, from elsewhere. Take it again?"
        )
        asked = RowQuestion(self._table.file, row.number, row["dimension"], question)
        return RowRead(read.entries, read.problems, (*read.questions, asked))


def _recorded(bench: Bench, own: set[str]) -> dict[tuple[Any, ...], set[str | None]]:
    """What is recorded already, but by rows of this file: what was read, and when."""
    found: dict[tuple[Any, ...], set[str | None]] = {}
    for record in bench.build.readings.values():
        if record.effective and record.entry.id not in own:
            body = record.body.model_dump(mode="json")
            body |= {"dimension": record.dimension, "feature": record.feature, "place": record.place}
            times = found.setdefault(_key(body), set())
            times |= {record.body.taken_at, record.entry.client_time, record.entry.committed_at}
    return found


def _key(body: Any) -> tuple[Any, ...]:  # noqa: ANN401  (a body as plain data)
    observation = body["observation"]
    if observation["type"] == "value":
        read = (observation["value"]["si"], observation["instrument"])
    else:
        read = (*observation["blades"], observation["answer"])
    return (body["feature"], body["place"], *sorted(body["members"].values()), *read)
