"""What rests on a thing of the shop: readings taken with it, fits that use them, fits that it un-proved."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from fitwright.assess.errors import GaugeNotKnownError
from fitwright.assess.evidence import drift_words
from fitwright.assess.gauges import Gauges
from fitwright.assess.judging import Judge
from fitwright.assess.results import FitVerdict, Verdict
from fitwright.assess.setting_chains import Gauge
from fitwright.records.kinds import BladeObservation
from fitwright.records.projection import ReadingRecord


@dataclass(frozen=True, slots=True)
class Resting:
    """What rests on something in one build: how many readings, which sittings, which fits."""

    readings: int
    sittings: tuple[str, ...]
    fits: tuple[FitVerdict, ...]


@dataclass(frozen=True, slots=True)
class Drifted:
    """Fits that lost readings by a drift: those now unproven, and those still judged by other readings."""

    unproved: tuple[FitVerdict, ...]
    judged_still: tuple[FitVerdict, ...]


_OPEN = frozenset({Verdict.UNPROVEN, Verdict.NOT_MEASURED})


def resting_on(
    judge: Judge, verdicts: Mapping[str, FitVerdict], concerns: Callable[[Gauges, ReadingRecord], bool]
) -> Resting:
    """What rests on the readings that something concerns; those withdrawn or superseded do not count."""
    gauges = judge.gauges
    records = [each for each in gauges.build.readings.values() if each.effective and concerns(gauges, each)]
    ids = {each.entry.id for each in records}
    fits = tuple(each for each in verdicts.values() if not ids.isdisjoint(each.readings))
    sittings = dict.fromkeys(each.body.sitting for each in records if each.body.sitting is not None)
    return Resting(len(records), tuple(sittings), fits)


def touched_by_drift(verdicts: Mapping[str, FitVerdict], setting: str) -> Drifted:
    """The fits of which a reading does not count any more because its setting was found drifted."""
    words = drift_words(setting)
    lost = [each for each in verdicts.values() if any(unused.why == words for unused in each.unused)]
    open_ones = tuple(each for each in lost if each.verdict in _OPEN)
    return Drifted(open_ones, tuple(each for each in lost if each.verdict not in _OPEN))


def in_setting(code: str) -> Callable[[Gauges, ReadingRecord], bool]:
    """Whether a reading was taken in a setting, or in one that was made in it."""

    def concerns(gauges: Gauges, record: ReadingRecord) -> bool:
        gauge = _gauge(gauges, record)
        return gauge is not None and any(each.code == code for each in gauges.settings_behind(gauge))

    return concerns


def with_instrument(code: str) -> Callable[[Gauges, ReadingRecord], bool]:
    """Whether a reading was taken with an instrument, or with one that was set in it."""

    def concerns(gauges: Gauges, record: ReadingRecord) -> bool:
        gauge = _gauge(gauges, record)
        if gauge is None:
            return False
        masters = {each.master for each in gauges.settings_behind(gauge)}
        return code == gauge.instrument.code or code in masters

    return concerns


def with_blades(code: str, marking: str | None = None) -> Callable[[Gauges, ReadingRecord], bool]:
    """Whether a reading was taken with a blade set, or with one blade of it."""

    def concerns(gauges: Gauges, record: ReadingRecord) -> bool:
        del gauges  # a blade is named in the reading itself
        observation = record.body.observation
        if not isinstance(observation, BladeObservation):
            return False
        names = (name.partition(":") for name in observation.blades)
        return any(of == code and marking in (None, blade) for of, _, blade in names)

    return concerns


def _gauge(gauges: Gauges, record: ReadingRecord) -> Gauge | None:
    """The gauge behind a reading; None where it is a blade, or the shop does not have it."""
    try:
        return gauges.gauge(record)
    except GaugeNotKnownError:
        return None
