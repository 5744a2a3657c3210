"""Gauge studies: people, parts and repeats as they were read, and the repeatability taken over from one."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from typing import Final

from fitwright.bench.errors import CannotEnterError, UnknownNameError
from fitwright.bench.settings import amount_of, instrument_named
from fitwright.bench.taking import typed
from fitwright.records.kinds import GaugeStudy, Instrument, StudyReading
from fitwright.records.projection import ShopState
from fitwright.units import definition_of

LEAST: Final = 2
"""So many people, parts and repeats a study needs at least."""


def study_from(
    shop: ShopState,
    code: str,
    instrument: str,
    readings: Sequence[tuple[str, str, str]],
    *,
    limit_band: str | None = None,
    note: str | None = None,
) -> GaugeStudy:
    """A study from its readings (person, part, what the gauge said), repeats in their order.

    Raises
    ------
    BenchError
        If the gauge reads no length, or not every person has every part equally often, twice at least.
    QuantityError
        If a reading cannot be read.
    """
    gauge = instrument_named(shop, instrument)
    if definition_of(gauge.unit).dimension != "length":
        raise CannotEnterError(f"{gauge.code} reads {gauge.unit}", "study a gauge that reads lengths")
    _check_crossed(readings)
    found = tuple(
        StudyReading(person=person, part=part, indication=typed(amount_of(gauge, text)))
        for person, part, text in readings
    )
    band = typed(amount_of(gauge, limit_band)) if limit_band is not None else None
    if band is not None and not band.si > 0.0:
        raise CannotEnterError(f"A band of {limit_band} is none", "say how far apart the limits are")
    return GaugeStudy(code=code, instrument=instrument, readings=found, limit_band=band, note=note)


def _check_crossed(readings: Sequence[tuple[str, str, str]]) -> None:
    counts = Counter((person, part) for person, part, _ in readings)
    people = list(dict.fromkeys(person for person, _, _ in readings))
    parts = list(dict.fromkeys(part for _, part, _ in readings))
    wanted = max(counts.values(), default=0)
    if len(people) < LEAST or len(parts) < LEAST or wanted < LEAST:
        wrong = f"{len(people)} people, {len(parts)} parts and {wanted} repeats are too few"
        raise CannotEnterError(wrong, "a study needs at least two of each")
    for person in people:
        for part in parts:
            if counts[person, part] != wanted:
                wrong = f"{person} has {counts[person, part]} readings of part {part}, not {wanted}"
                raise CannotEnterError(wrong, "every person measures every part equally often")


def with_repeatability(
    shop: ShopState,
    study: str,
    repeatability: float,
    degrees_of_freedom: float | None,
    *,
    reason: str,
) -> Instrument:
    """The newer state of a study's instrument with the repeatability [m] that the study found.

    Raises
    ------
    BenchError
        If there is no such study, no reason is given, or the study found no spread.
    """
    held = shop.studies.get(study)
    if held is None:
        raise UnknownNameError("gauge study", study, list(shop.studies))
    if not reason.strip():
        raise CannotEnterError("The reason is missing", "say in a few words why the gauge now counts so")
    if not repeatability > 0.0:
        raise CannotEnterError(
            f"Study {study} found no spread at all",
            "its step is too coarse to say",
        )
    gauge = instrument_named(shop, held.body.instrument)
    return gauge.model_copy(
        update={
            "repeatability": repeatability,
            "repeatability_degrees_of_freedom": degrees_of_freedom,
            "supersedes": None,
            "reason": f"{reason} (study {study})",
        }
    )
