"""The shipped examples for tests: their readings before the assembly began, and how their assembly stands."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Any

from fitwright.assess.assembly.results import Standing
from fitwright.assess.assembly.standing import standing_of
from fitwright.assess.assessment import Assessor
from fitwright.assess.results import State
from fitwright.examples import record_entries, sheet_text
from fitwright.formats.sheet import read_sheet
from fitwright.model.sheet import Sheet
from fitwright.records.entry import Entry, NewEntry
from fitwright.records.projection import BuildState, ShopState
from fitwright.records.registry import WORK_KINDS
from tests.support.record import sealed_chain

TRIAL_DONE = {
    "corrie-five": "Trial build done. Strip, wash, final build next.",
    "brackengill-eleven": "Ready for final wash and build.",
}
"""The note with which the trial build ends: everything was read and put right, nothing is assembled."""

Line = Mapping[str, Any]


def before_assembly(name: str) -> list[dict[str, Any]]:
    """The entries of an example up to the end of its trial build."""
    lines = record_entries(name)
    end = next(at for at, each in enumerate(lines, 1) if each["body"].get("text") == TRIAL_DONE[name])
    return lines[:end]


def measured(name: str) -> list[dict[str, Any]]:
    """The same without orders of rework and what was ticked off afterwards: what a bench day enters."""
    return [each for each in before_assembly(name) if each["kind"] not in WORK_KINDS]


@cache
def sheet_of(name: str) -> Sheet:
    """The engine sheet of an example."""
    return read_sheet(sheet_text(name), name=f"{name}/sheet.toml")


@cache
def chain_of(name: str) -> tuple[Entry, ...]:
    """The whole record of an example as a store would hold it."""
    return tuple(sealed_chain(NewEntry(**each) for each in record_entries(name)))


def assessor_of(name: str, upto: int | None = None) -> Assessor:
    """The current verdicts of an example, as they are or were after an entry."""
    entries = [each for each in chain_of(name) if upto is None or each.seq <= upto]
    return Assessor(
        sheet_of(name), ShopState.replay(entries), BuildState.replay(name, entries), State.CURRENT
    )


@cache
def standing(name: str, upto: int | None = None) -> Standing:
    """How the assembly of an example stands, or stood after an entry."""
    return standing_of(assessor_of(name, upto))
