"""What a person finds in the shipped examples: the shop, the readings, and what these prove."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from fitwright.assess.assessment import assess
from fitwright.assess.results import State
from fitwright.examples import sheet_text
from fitwright.formats.sheet import read_sheet
from fitwright.records.entry import NewEntry
from fitwright.records.kinds import BladeObservation, ValueObservation
from fitwright.records.projection import BuildState, ShopState
from tests.support.examples import measured
from tests.support.record import sealed_chain

Line = Mapping[str, Any]
SHELF = ("shop setting", "person", "instrument", "calibration", "blade set")


def shelf(example: str) -> list[NewEntry]:
    """What lies in an example's shop before anything is measured: people, gauges, calibrations, blades."""
    return [NewEntry(**entry) for entry in measured(example) if entry["kind"] in SHELF]


def gauges(example: str, what: str = "type") -> dict[str, str]:
    """The kind of each gauge on an example's shelf, or its unit."""
    found = (entry["body"] for entry in measured(example) if entry["kind"] == "instrument")
    return {body["code"]: body[what] for body in found}


def readings(example: str) -> Iterator[Line]:
    """The readings of an example in the order in which they were taken."""
    return (entry for entry in measured(example) if entry["kind"] == "reading")


def first_values(example: str, dimensions: Iterable[str]) -> dict[tuple[str, str], str]:
    """The first value read at each place of some dimensions, as it was typed, in their order."""
    wanted = list(dimensions)
    found: dict[tuple[str, str], str] = {}
    for entry in readings(example):
        body = entry["body"]
        if body["dimension"] in wanted:
            found.setdefault((body["dimension"], body["place"]), body["observation"]["value"]["typed"])
    return dict(sorted(found.items(), key=lambda each: wanted.index(each[0][0])))


def verdicts_shipped(example: str, state: State) -> dict[str, str]:
    """What the shipped record of an example proves, by fit and dimension."""
    entries = sealed_chain(NewEntry(**entry) for entry in measured(example))
    found = assess(
        read_sheet(sheet_text(example)), ShopState.replay(entries), BuildState.replay(example, entries), state
    )
    return {each.id: each.verdict.value for each in found.verdicts.values()}


def readings_shipped(example: str) -> list[tuple[str, ...]]:
    """The readings of an example's shipped record that stand, in order of entry."""
    entries = sealed_chain(NewEntry(**entry) for entry in measured(example))
    return readings_in(BuildState.replay(example, entries))


def settings_shipped(example: str) -> dict[str, tuple[object, ...]]:
    """What each gauge of an example was set to, by the code of the setting."""
    return settings_in(ShopState.replay(sealed_chain(NewEntry(**entry) for entry in measured(example))))


def settings_in(shop: ShopState) -> dict[str, tuple[object, ...]]:
    """Gauge, size, zero, what it was set in and how that stood, by the code of the setting."""
    return {
        code: (
            held.body.instrument,
            held.body.size and f"{held.body.size.si:.9g}",
            held.body.zero and f"{held.body.zero.si:.9g}",
            held.body.master,
            held.body.master_setting,
        )
        for code, held in shop.settings.items()
    }


def readings_in(build: BuildState) -> list[tuple[str, ...]]:
    """Where, through which parts and with which gauge what was read, of the readings that stand."""
    found = []
    for record in build.readings.values():
        observation = record.body.observation
        if record.effective:
            where = (record.dimension or "", record.place)
            when = ("during rework",) if record.body.during_rework else ()
            parts = sorted(record.members.values())
            found.append((*where, *_observed(observation), *when, *parts))
    return found


def _observed(observation: object) -> tuple[str, ...]:
    if isinstance(observation, ValueObservation):
        size = f"{observation.value.si:.9g}"
        return (size, observation.instrument or "", observation.setting or "")
    assert isinstance(observation, BladeObservation)
    return (" ".join(observation.blades), observation.answer)
