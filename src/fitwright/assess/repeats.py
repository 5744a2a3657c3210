"""Places read more than once: whether the readings agree, and what a person's choice makes of them.

Readings that agree within their gauge are used together. Readings that differ by more, or that two
devices entered for one place in one sitting, are asked about and prove nothing until somebody
chooses. Kept in spite of their difference, they speak with the scatter that they show, not with the
gauge's repeatability: a choice adds no knowledge.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Sequence
from dataclasses import replace
from statistics import stdev

from fitwright.assess.results import Reason
from fitwright.physics.metrology.readings import ValueReading
from fitwright.physics.metrology.repeats import repeats_agree
from fitwright.physics.numerics.errors import PhysicsError
from fitwright.records.kinds import ValueObservation
from fitwright.records.projection import BuildState, ReadingRecord


def weigh_repeats(
    build: BuildState, records: Sequence[ReadingRecord], values: Sequence[ValueReading]
) -> tuple[tuple[ValueReading, ...], Reason | None]:
    """The values of one dimension as they may be used, and what stands in the way of using them."""
    if len({reading.place for reading in values}) == len(values):
        return tuple(values), None
    if _two_devices(build, records):
        return tuple(values), Reason.TWO_DEVICES
    return _agreeing(build, tuple(values))


def _agreeing(
    build: BuildState, values: tuple[ValueReading, ...]
) -> tuple[tuple[ValueReading, ...], Reason | None]:
    """Widen what a person kept, place by place, until all agree or something is left to ask about."""
    widened: set[str] = set()
    while all(reading.repeatability > 0.0 for reading in values):
        try:
            found = repeats_agree(values)
        except PhysicsError:
            return values, Reason.NOT_COMPUTED
        if found.agree:
            return values, None
        place = next(reading.place for reading in values if reading.key == found.odd_one)
        here = [reading for reading in values if reading.place == place]
        if place in widened or len(here) < 2 or not _kept(build, [reading.key for reading in here]):
            return values, Reason.CONTRADICTORY
        widened.add(place)
        scatter = stdev(sorted(reading.value for reading in here))
        values = tuple(
            replace(reading, repeatability=max(reading.repeatability, scatter))
            if reading.place == place
            else reading
            for reading in values
        )
    return values, None


def _kept(build: BuildState, entries: Collection[str]) -> bool:
    """Whether somebody chose to keep all of these: one that came later is asked about anew."""
    return any(
        held.body.choice == "keep both" and set(entries) <= set(held.body.entries)
        for entry in entries
        for held in build.choices_for(entry)
    )


def _two_devices(build: BuildState, records: Sequence[ReadingRecord]) -> bool:
    """Whether two devices entered a value for one place in one sitting, and nobody chose."""
    together: dict[tuple[str, str], list[ReadingRecord]] = defaultdict(list)
    for record in records:
        if record.body.sitting is not None and isinstance(record.body.observation, ValueObservation):
            together[record.place, record.body.sitting].append(record)
    return any(
        len({record.entry.device for record in group} - {None}) > 1
        and not _kept(build, [record.entry.id for record in group])
        for group in together.values()
    )
