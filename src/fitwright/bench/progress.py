"""How far one has come: places read in a sitting, what a browser or terminal entered last."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

from fitwright.bench.context import Bench
from fitwright.bench.order import Stop
from fitwright.records.entry import Entry
from fitwright.records.kinds import (
    BladeObservation,
    Choice,
    NotMeasured,
    ReadingsMoved,
    ValueObservation,
)
from fitwright.records.projection import ReadingRecord
from fitwright.units import format_value

GOES = frozenset({"goes", "goes freely"})
"""What a blade thinner than its gap does."""


def done(bench: Bench, sitting: str | None) -> set[tuple[str, str]]:
    """The places read in a sitting; a place tried with blades, once they bound it on both sides."""
    found: set[tuple[str, str]] = set()
    answers: dict[tuple[str, str], set[str]] = {}
    for record in bench.build.readings.values():
        if record.body.sitting != sitting or not record.effective:
            continue
        place, observation = (record.dimension or "", record.place), record.body.observation
        if isinstance(observation, BladeObservation):
            answers.setdefault(place, set()).add(observation.answer)
        else:
            found.add(place)
    return found | {place for place, given in answers.items() if is_bounded(given)}


def is_bounded(answers: set[str]) -> bool:
    """Whether blades bound a gap: one goes, and one drags or does not go."""
    return bool(answers & GOES) and bool(answers - GOES)


def taken_by(
    bench: Bench, device: str | None, sitting: str | None, order: Iterable[Stop]
) -> list[ReadingRecord]:
    """The readings that stand, entered by one device in one sitting at some places, in order of entry."""
    here = {(stop.dimension, stop.place) for stop in order}
    return [
        record
        for record in bench.build.readings.values()
        if record.effective
        and record.entry.device == device
        and record.body.sitting == sitting
        and (record.dimension or "", record.place) in here
    ]


@dataclass(frozen=True, slots=True)
class LastEntry:
    """What one device entered last, and the place that it is about, if it is about one."""

    entry: str
    words: str
    stop: Stop | None


def last_by(bench: Bench, device: str | None) -> LastEntry | None:
    """The last entry of a device at the bench that stands and can be taken back."""
    build = bench.build
    found: list[tuple[Entry, str, Stop | None]] = []
    own = (each for each in reversed(build.readings.values()) if each.entry.device == device)
    reading = next((each for each in own if each.effective), None)
    if reading is not None:
        stop = Stop(reading.dimension or "", reading.place)
        found.append((reading.entry, reading_words(reading), stop))
    others = (*build.choices, *build.moves, *build.not_measured.values())
    found += [(each.entry, _WORDS[each.entry.kind], None) for each in others if each.entry.device == device]
    if not found:
        return None
    entry, words, about = max(found, key=lambda each: each[0].seq)
    return LastEntry(entry.id, words, about)


_WORDS: Final = {
    Choice.kind: "the choice between readings",
    ReadingsMoved.kind: "the move of readings",
    NotMeasured.kind: "that it is not measured",
}


def reading_words(record: ReadingRecord) -> str:
    """A reading as it was typed, or the blade and what it did."""
    return observed(record.body.observation)


def observed(observation: ValueObservation | BladeObservation) -> str:
    """What was observed, as it was typed, or the blade and what it did."""
    if isinstance(observation, BladeObservation):
        return f"{' with '.join(observation.blades)} {observation.answer}"
    value = observation.value
    return format_value(value.si, value.unit, value.decimals)
