"""The readings behind a fit, dimension by dimension: which count, and which do not, with the reason."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from fitwright.assess.chains import Member
from fitwright.assess.errors import GaugeNotKnownError
from fitwright.assess.judging import Judge
from fitwright.assess.results import FitVerdict, State
from fitwright.bench.context import Bench
from fitwright.model.dimension import Dimension
from fitwright.records.kinds import BladeObservation
from fitwright.records.projection import ReadingRecord
from fitwright.web.addresses import fit_address, measure_address, record_address
from fitwright.web.hands import Hands, View
from fitwright.web.whose import when_written, who_wrote


@dataclass(frozen=True, slots=True)
class ReadingRow:
    """One reading: where, what was typed, with what, when and by whom; `why` it does not count."""

    anchor: str
    place: str
    typed: str
    gauge: str
    setting: str
    sitting: str
    who: str
    when: str
    note: str
    why: str
    seq: int
    entry: str
    change: str


@dataclass(frozen=True, slots=True)
class Unread:
    """A place without a reading that counts, and the way to read it."""

    place: str
    measure: str


@dataclass(frozen=True, slots=True)
class ReadingTable:
    """The readings of one dimension."""

    title: str
    stated: bool
    rows: tuple[ReadingRow, ...]
    unread: tuple[Unread, ...]
    measure: str


def reading_tables(hands: Hands, view: View, verdict: FitVerdict) -> tuple[ReadingTable, ...]:
    """The readings of every dimension that a fit rests on."""
    judge = hands.shop.assessor(view.code, view.state).judge
    names = judge.subjects[verdict.id].dimensions()
    return tuple(_table(hands, view, judge, verdict.id, judge.member(name)) for name in names)


def first_measure(tables: tuple[ReadingTable, ...]) -> str:
    """Where to measure next: the first place that is not read, else the first dimension again."""
    unread = [each.measure for table in tables for each in table.unread]
    return next(iter(unread), tables[0].measure if tables else "")


def _table(hands: Hands, view: View, judge: Judge, subject: str, member: Member) -> ReadingTable:
    dimension, bench = member.dimension, hands.shop.bench(view.code)
    why = {each.entry: each.why for each in member.evidence.unused}
    entries = [*(each.entry.id for each in member.evidence.used), *why]
    records = sorted((bench.build.readings[each] for each in entries), key=lambda each: each.entry.seq)
    read = {each.place for each in member.evidence.used}
    return ReadingTable(
        title=dimension.title,
        stated=bool(member.stated),
        rows=tuple(_row(bench, view, judge, subject, each, why.get(each.entry.id, "")) for each in records),
        unread=tuple(
            Unread(_place(dimension, each.id), _measure(view, dimension, each.id))
            for each in dimension.places
            if each.id not in read
        ),
        measure=_measure(view, dimension, dimension.places[0].id),
    )


def _measure(view: View, dimension: Dimension, place: str) -> str:
    station = dimension.station or ""
    return measure_address(view.code, view.family, station=station, dimension=dimension.id, place=place)


def _place(dimension: Dimension, place: str) -> str:
    return "its only place" if len(dimension.places) == 1 else place.replace("/", " ")


def _row(bench: Bench, view: View, judge: Judge, subject: str, record: ReadingRecord, why: str) -> ReadingRow:
    gauge, setting = gauge_words(judge, record)
    sitting = bench.build.sittings.get(record.body.sitting or "")
    change = fit_address(view.code, subject, State.CURRENT, view.family)
    return ReadingRow(
        anchor=f"reading-{record.entry.seq}",
        place=record.place.replace("/", " "),
        typed=typed_words(record),
        gauge=gauge,
        setting=setting,
        sitting=record.body.sitting or "",
        who=_who(bench, record, sitting.body.measured_by if sitting is not None else None),
        when=when_written(bench.shop, record.entry),
        note=_note(record),
        why=why,
        seq=record.entry.seq,
        entry=record_address(view.code, entry=record.entry.seq),
        change=f"{change}&reading={record.entry.id}#change",
    )


def typed_words(record: ReadingRecord) -> str:
    """What was entered: a value as it was typed, or what a blade did."""
    observation = record.body.observation
    if isinstance(observation, BladeObservation):
        return f"{' + '.join(observation.blades)} {observation.answer}"
    typed = observation.value.typed
    return typed if observation.value.unit in typed else f"{typed} {observation.value.unit}"


def gauge_words(judge: Judge, record: ReadingRecord) -> tuple[str, str]:
    """With which gauge, in which setting."""
    observation = record.body.observation
    if isinstance(observation, BladeObservation):
        return "blade", ""
    try:
        gauge = judge.gauges.gauge(record)
    except GaugeNotKnownError as error:
        return error.gauge or "not said", ""
    if gauge is None:
        return "", ""
    setting = gauge.setting
    if setting is None:
        return gauge.instrument.code, ""
    zero = f", zero {setting.zero.typed}" if setting.zero is not None else ""
    return gauge.instrument.code, f"{setting.code}{zero}"


def _who(bench: Bench, record: ReadingRecord, of_sitting: str | None) -> str:
    code = record.body.measured_by or of_sitting
    held = bench.shop.people.get(code or "")
    return held.body.name if held is not None else code or who_wrote(bench.shop, record.entry)


def _note(record: ReadingRecord) -> str:
    body = record.body
    said = [
        body.note or "",
        f"from {body.origin}" if body.origin != "bench" else "",
        f"taken {body.taken_at}" if body.taken_at else "",
        f"correction: {body.reason}" if body.supersedes else "",
    ]
    return "; ".join(each for each in said if each)


def all_readings(tables: tuple[ReadingTable, ...]) -> Iterator[ReadingRow]:
    """Every row of some tables."""
    for table in tables:
        yield from table.rows
