"""Readings that belong one place on or back, or in each other's place: mended by one entry.

`run_of` lays the readings of a sitting out in measuring order; `off_by_one` asks whether they fit
better one place off; `moved_by` and `last_moved` make the entry. Its withdrawal puts them back.
"""

from __future__ import annotations

import uuid
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from fitwright.assess.setting_chains import repeatability_of
from fitwright.bench.context import Bench
from fitwright.bench.errors import NoSuchMoveError
from fitwright.bench.order import Stop
from fitwright.model.run_slips import Move, MoveQuestion, moved_question
from fitwright.records.entry import NewEntry
from fitwright.records.kinds import Moved, ReadingsMoved, ValueObservation
from fitwright.records.projection import ReadingRecord

EARLIER_SPREAD = 5.0
"""A place read again is expected within five times what one reading adds of its own."""
NOMINAL_SPREAD = 0.002
"""A place read for the first time is expected within two thousandths of its nominal."""


@dataclass(frozen=True, slots=True)
class Run:
    """The readings of one sitting in measuring order, and what each place should read [SI]."""

    stops: tuple[Stop, ...]
    readings: tuple[ReadingRecord | None, ...]
    expected: tuple[float | None, ...]
    standard_deviation: float

    @property
    def values(self) -> list[float | None]:
        """The values read; None where there is none yet."""
        return [_value(each) for each in self.readings]


def run_of(bench: Bench, stops: Sequence[Stop], sitting: str | None) -> Run | None:
    """The run of a sitting along these stops; None where nothing was read.

    A place is expected to read what it read in earlier sittings; where no place was read before,
    its nominal, which helps as far as nominals differ along the way.
    """
    read = [_last(bench, stop, sitting) for stop in stops]
    taken = [each for each in read if each is not None and _value(each) is not None]
    if not taken:
        return None
    earlier = [_value(_last(bench, stop, sitting, before=True)) for stop in stops]
    if any(each is not None for each in earlier):
        return Run(tuple(stops), tuple(read), tuple(earlier), EARLIER_SPREAD * _own(bench, taken))
    nominals = [bench.dimension(stop.dimension).nominal for stop in stops]
    expected = tuple(None if each is None else each.si for each in nominals)
    largest = max((abs(each) for each in expected if each is not None), default=0.0)
    return Run(tuple(stops), tuple(read), expected, NOMINAL_SPREAD * largest) if largest else None


def off_by_one(run: Run) -> MoveQuestion | None:
    """Whether the readings of a run look one place off, or two of them swapped."""
    if not run.standard_deviation > 0.0:
        return None
    names = [f"{stop.dimension} {stop.place}" for stop in run.stops]
    return moved_question(run.values, run.expected, standard_deviation=run.standard_deviation, places=names)


def moved_by(bench: Bench, run: Run, move: Move, *, person: str | None = None) -> NewEntry:
    """The entry that moves the readings of a run."""
    pairs = []
    for index, record in enumerate(run.readings):
        target = move.target(index)
        if record is not None and target != index:
            pairs.append((record, run.stops[target]))
    return _entry(bench, pairs, person)


def last_moved(
    bench: Bench,
    stops: Sequence[Stop],
    taken: Sequence[str],
    *,
    count: int,
    way: Literal["on", "back"],
    person: str | None = None,
) -> NewEntry:
    """The entry that moves the last readings taken one place on or back along the stops.

    Raises
    ------
    NoSuchMoveError
        If there are not so many readings, or one of them stands at the end of the way.
    """
    held = bench.build.readings
    here = [held[each] for each in taken if each in held and held[each].effective]
    if not 1 <= count <= len(here):
        raise NoSuchMoveError(
            f"There are {len(here)} readings to move, not {count}", "say `move on N` or `move back N`"
        )
    step = 1 if way == "on" else -1
    order = {(stop.dimension, stop.place): index for index, stop in enumerate(stops)}
    pairs = []
    for record in here[-count:]:
        index = order.get((record.dimension or "", record.place), -1) + step
        if not (step <= index < len(stops) and index >= 0):
            raise NoSuchMoveError(
                f"{record.feature} {record.place} has no place {way} of it here", "move fewer readings"
            )
        pairs.append((record, stops[index]))
    return _entry(bench, pairs, person)


def _entry(bench: Bench, pairs: Sequence[tuple[ReadingRecord, Stop]], person: str | None) -> NewEntry:
    moves = []
    for record, stop in pairs:
        dimension = bench.dimension(stop.dimension)
        moves.append(
            Moved(
                entry=record.entry.id,
                dimension=dimension.id,
                feature=dimension.feature,
                place=stop.place,
                members=bench.members(dimension),
            )
        )
    body = ReadingsMoved(moves=tuple(moves))
    return NewEntry(
        id=uuid.uuid4().hex,
        build=bench.build.build,
        kind=ReadingsMoved.kind,
        body=body.model_dump(mode="json"),
        person=person,
    )


def _last(bench: Bench, stop: Stop, sitting: str | None, *, before: bool = False) -> ReadingRecord | None:
    """The last value read at a stop in this sitting, or before it."""
    feature = bench.dimension(stop.dimension).feature
    for record in reversed(bench.build.readings_of(feature)):
        here = record.dimension == stop.dimension and record.place == stop.place and record.effective
        if here and (record.body.sitting == sitting) is not before and _value(record) is not None:
            return record
    return None


def _value(record: ReadingRecord | None) -> float | None:
    observation = record.body.observation if record is not None else None
    return observation.value.si if isinstance(observation, ValueObservation) else None


def _own(bench: Bench, taken: Sequence[ReadingRecord]) -> float:
    """The largest that one of these readings adds of its own [SI]."""
    found = [0.0]
    for record in taken:
        observation = record.body.observation
        code = observation.instrument if isinstance(observation, ValueObservation) else None
        held = bench.shop.instruments.get(code or "")
        if held is not None:
            found.append(repeatability_of(held.body))
    return max(found)
