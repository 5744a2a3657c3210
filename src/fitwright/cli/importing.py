"""A table of readings taken into a build: problems and questions first, then batch by batch."""

from __future__ import annotations

import sys
from collections.abc import Iterable
from dataclasses import dataclass

from fitwright.bench.sittings import person_named
from fitwright.cli.errors import INPUT, OK
from fitwright.formats.readings.deciding import (
    Decided,
    coming,
    count,
    left_out,
    outside_sittings_words,
    stands_in_the_way,
    taken_in_words,
)
from fitwright.formats.readings.importing import Checked, Import
from fitwright.formats.readings.table import Table
from fitwright.wiring import Shop

MOST_SHOWN = 200


@dataclass(frozen=True, slots=True, kw_only=True)
class Choices:
    """What the person said on the command line."""

    decided: Decided
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
    decided = choices.decided
    if stands_in_the_way(found, decided):
        sys.stderr.write(_stopped(table, found, decided))
        return INPUT
    if choices.try_only:
        rows = count(coming(found, decided), "row")
        sys.stdout.write(f"{rows} would be taken in, {found.already} are here.\n")
        return OK
    taken = 0
    for batch in ready.batches(leave_out=left_out(found, decided)):
        shop.write(batch)
        taken += sum(entry.kind == "reading" for entry in batch)
    sys.stdout.write(f"{taken_in_words(taken, found, decided, table.file)}\n")
    outside = outside_sittings_words(found)
    if outside:
        sys.stdout.write(f"{outside} To say otherwise, name one with --sitting.\n")
    return OK


def _list(lines: Iterable[object]) -> None:
    everything = list(lines)
    sys.stderr.writelines(f"{line}\n" for line in everything[:MOST_SHOWN])
    if len(everything) > MOST_SHOWN:
        sys.stderr.write(f"... and {len(everything) - MOST_SHOWN} more of this kind.\n")


def _stopped(table: Table, found: Checked, decided: Decided) -> str:
    words = []
    if found.problems and not decided.only_good:
        rows = count(len(found.bad_rows), "row")
        words.append(f"{rows} cannot be taken in: mend them, or say --only-good to take in the others")
    if found.questions and decided.answer is None:
        rows = count(len(found.asked_rows), "row")
        words.append(f"{rows} raised questions: mend them, or say --answer keep or --answer leave-out")
    return f"Nothing was taken in from {table.file}. {'; '.join(words)}.\n"
