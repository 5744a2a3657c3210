"""What a person finds in the shipped examples: the shop, and each reading with the way it is typed."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import Any

from fitwright.assess.assessment import assess
from fitwright.assess.results import State
from fitwright.examples import record_entries, sheet_text
from fitwright.formats.sheet import read_sheet
from fitwright.records.entry import NewEntry
from fitwright.records.projection import BuildState, ShopState
from tests.support.record import sealed_chain

Line = Mapping[str, Any]
SHELF = ("shop setting", "person", "instrument", "calibration", "blade set")


def shelf(example: str) -> list[NewEntry]:
    """What lies in an example's shop before anything is measured: people, gauges, calibrations, blades."""
    return [NewEntry(**entry) for entry in record_entries(example) if entry["kind"] in SHELF]


def readings(example: str) -> Iterator[Line]:
    """The readings of an example in the order in which they were taken."""
    return (entry for entry in record_entries(example) if entry["kind"] == "reading")


def first_values(
    example: str, dimensions: Iterable[str], only: Callable[[Line], bool] = lambda entry: True
) -> dict[tuple[str, str], str]:
    """The first value read at each place of some dimensions, as it was typed, in their order."""
    wanted = list(dimensions)
    found: dict[tuple[str, str], str] = {}
    for entry in readings(example):
        body = entry["body"]
        if body["dimension"] in wanted and only(entry):
            found.setdefault((body["dimension"], body["place"]), body["observation"]["value"]["typed"])
    return dict(sorted(found.items(), key=lambda each: wanted.index(each[0][0])))


def verdicts_shipped(example: str, state: State) -> dict[str, str]:
    """What the shipped record of an example proves, by fit and dimension."""
    entries = sealed_chain(NewEntry(**entry) for entry in record_entries(example))
    found = assess(
        read_sheet(sheet_text(example)), ShopState.replay(entries), BuildState.replay(example, entries), state
    )
    return {each.id: each.verdict.value for each in found.verdicts.values()}


def gauges(example: str) -> dict[str, str]:
    """The kind of each gauge on an example's shelf."""
    return {
        entry["body"]["code"]: entry["body"]["type"]
        for entry in record_entries(example)
        if entry["kind"] == "instrument"
    }
