"""A table of readings taken into a build: problems and questions first, then batch by batch."""

from __future__ import annotations

import sys
from collections.abc import Iterable
from dataclasses import dataclass

from fitwright.bench.sittings import person_named
from fitwright.cli.errors import INPUT, OK
from fitwright.formats.readings.importing import Answer, Checked, Import
from fitwright.formats.readings.table import Table
from fitwright.wiring import Shop

MOST_SHOWN = 200


@dataclass(frozen=True, slots=True, kw_only=True)
class Choices:
    """What the person said on the command line."""

    answer: Answer | None
    only_good: bool
    sitting: str | None
    person: str | None
    try_only: bool


def import_table(shop: Shop, build: str, table: Table, choices: Choices) -> int:
    """Check a table whole, and take it in if nothing stands in the way."""
    bench = shop.bench(build)
    person = person_named(bench.shop, choices.person) if choices.person is not None else None
    ready = Import(bench, table, sitting=choices.sitting, person=person)
    found = ready.check()
    _list(found.problems)
    _list(found.questions)
    if (found.problems and not choices.only_good) or (found.questions and choices.answer is None):
        sys.stderr.write(_stopped(table, found, choices))
        return INPUT
    if choices.try_only:
        sys.stdout.write(
            f"{_count(_coming(found, choices), 'row')} would be taken in, {found.already} are here.\n"
        )
        return OK
    leave_out = found.bad_rows | (found.asked_rows if choices.answer == "leave-out" else set())
    taken = 0
    for batch in ready.batches(leave_out=leave_out):
        shop.write(batch)
        taken += sum(entry.kind == "reading" for entry in batch)
    sys.stdout.write(_done(table, found, taken, len(leave_out)))
    return OK


def _list(lines: Iterable[object]) -> None:
    everything = list(lines)
    sys.stderr.writelines(f"{line}\n" for line in everything[:MOST_SHOWN])
    if len(everything) > MOST_SHOWN:
        sys.stderr.write(f"... and {len(everything) - MOST_SHOWN} more of this kind.\n")


def _stopped(table: Table, found: Checked, choices: Choices) -> str:
    words = []
    if found.problems and not choices.only_good:
        rows = _count(len(found.bad_rows), "row")
        words.append(f"{rows} cannot be taken in: mend them, or say --only-good to take in the others")
    if found.questions and choices.answer is None:
        rows = _count(len(found.asked_rows), "row")
        words.append(f"{rows} raised questions: mend them, or say --answer keep or --answer leave-out")
    return f"Nothing was taken in from {table.file}. {'; '.join(words)}.\n"


def _coming(found: Checked, choices: Choices) -> int:
    left_out = len(found.asked_rows) if choices.answer == "leave-out" else 0
    return found.new - left_out


def _done(table: Table, found: Checked, taken: int, left_out: int) -> str:
    text = f"{_count(taken, 'reading')} taken in from {table.file}"
    if found.already:
        text += f", {found.already} were here already"
    if left_out:
        text += f", {_count(left_out, 'row')} left out"
    text += ".\n"
    if found.outside_sittings:
        text += (
            f"{_count(found.outside_sittings, 'row')} fit no sitting: their sizes count as at 20 °C. "
            "To say otherwise, name one with --sitting.\n"
        )
    return text


def _count(number: int, noun: str) -> str:
    return f"{number} {noun}" if number == 1 else f"{number} {noun}s"
