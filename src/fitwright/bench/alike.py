"""A run of readings at different places that are equal to the last digit."""

from __future__ import annotations

from collections.abc import Sequence

from fitwright.assess.setting_chains import repeatability_of
from fitwright.bench.context import Bench
from fitwright.model.run_slips import alike_question
from fitwright.model.slips import Question
from fitwright.records.kinds import ValueObservation


def alike_in(bench: Bench, taken: Sequence[str]) -> Question | None:
    """What to ask about the readings taken one after another, the last of them just now.

    A gauge whose division swallows what readings differ by gives equal ones by nature: how much
    they differ at least is what a reading with that gauge adds of its own.
    """
    values: list[float] = []
    places: set[tuple[str | None, str]] = set()
    instrument = None
    for entry_id in reversed(taken):
        record = bench.build.readings.get(entry_id)
        if record is None or not record.effective:
            continue
        observation = record.body.observation
        here = (record.dimension, record.place)
        if not isinstance(observation, ValueObservation) or here in places:
            break
        if instrument is not None and observation.instrument != instrument:
            break
        instrument = observation.instrument
        places.add(here)
        values.insert(0, observation.value.si)
    held = bench.shop.instruments.get(instrument or "")
    if held is None:
        return None
    division = held.body.resolution
    return alike_question(values, division=division, standard_deviation=repeatability_of(held.body))
