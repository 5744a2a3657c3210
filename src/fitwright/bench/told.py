"""Any entry of the record in one line: of a build, or of the shop."""

from __future__ import annotations

from functools import singledispatch

from fitwright.bench.amounts import amount_words
from fitwright.bench.context import Bench
from fitwright.bench.entry_words import oil_words, pressure_words, said, title_of
from fitwright.bench.progress import observed
from fitwright.bench.telling import NOUNS
from fitwright.bench.work_words import work_words
from fitwright.records import kinds
from fitwright.records.kinds import Body
from fitwright.units import approximately


def told(body: Body, bench: Bench | None) -> str:
    """What the body of an entry says; without a bench, things are called by their codes."""
    words = _told(body, bench)
    if words or bench is None:
        return words or NOUNS.get(body.kind, (body.kind,))[0]
    return said(body, bench)


def _title(bench: Bench | None, name: str) -> str:
    return title_of(bench, name) if bench is not None else name


@singledispatch
def _told(body: Body, bench: Bench | None) -> str:
    """What is said of work; else nothing: what belongs to a build is told as its own pages tell it."""
    return work_words(body, bench.sheet if bench is not None else None)


@_told.register
def _(body: kinds.Reading, bench: Bench | None) -> str:
    where = _title(bench, body.dimension or body.feature)
    place = "" if body.place == "whole" else f", {body.place.replace('/', ' ')}"
    gauge = body.observation.instrument if isinstance(body.observation, kinds.ValueObservation) else None
    notes = [f"with {gauge}" if gauge else "", f"on {body.members['']}" if "" in body.members else ""]
    notes.append("during rework" if body.during_rework else "")
    tail = "".join(f" {note}" for note in notes if note)
    return f"{where}{place}: {observed(body.observation)}{tail}"


@_told.register
def _(body: kinds.PressureReading, bench: Bench | None) -> str:
    return pressure_words(body, {}) if bench is None else ""


@_told.register
def _(body: kinds.OilChosen, bench: Bench | None) -> str:
    return f"filled with {body.oil or oil_words(body, {})}" if bench is None else ""


@_told.register
def _(body: kinds.Sitting, bench: Bench | None) -> str:
    who = _name(bench, body.measured_by)
    return f"sitting {body.code}: {who} measures{f', {body.words}' if body.words else ''}"


@_told.register
def _(body: kinds.QuestionAnswered, bench: Bench | None) -> str:
    del bench
    return f"asked: {body.text} Answered: {body.answer}"


@_told.register
def _(body: kinds.BuildStarted, bench: Bench | None) -> str:
    del bench
    return f"build {body.code} started: {body.title}"


@_told.register
def _(body: kinds.RevisionTakenOver, bench: Bench | None) -> str:
    del bench
    count = len(body.differences)
    return f"revision of the sheet taken over, {count} {'difference' if count == 1 else 'differences'}"


@_told.register
def _(body: kinds.ReadingsMoved, bench: Bench | None) -> str:
    del bench
    count = len(body.moves)
    return f"{count} {'reading' if count == 1 else 'readings'} moved to where they belong"


@_told.register
def _(body: kinds.Person, bench: Bench | None) -> str:
    del bench
    return f"person {body.code}: {body.name}{f', {body.role}' if body.role else ''}"


@_told.register
def _(body: kinds.Instrument, bench: Bench | None) -> str:
    del bench
    return f"instrument {body.code}: {body.title}, reads to {approximately(body.resolution, body.unit)}"


@_told.register
def _(body: kinds.Calibration, bench: Bench | None) -> str:
    del bench
    when = "never calibrated" if body.never else f"calibrated {body.date or 'at an unknown date'}"
    return f"calibration {body.code} of {body.instrument}: {when}"


@_told.register
def _(body: kinds.Setting, bench: Bench | None) -> str:
    del bench
    against = f" in {body.master}" if body.master else f" against {body.against}" if body.against else ""
    size = f" at {amount_words(body.size)}" if body.size is not None else ""
    return f"setting {body.code} of {body.instrument}{against}{size}"


@_told.register
def _(body: kinds.CheckBack, bench: Bench | None) -> str:
    del bench
    return f"setting {body.setting} looked at again: off by {amount_words(body.drift)}"


@_told.register
def _(body: kinds.BladeSet, bench: Bench | None) -> str:
    del bench
    return f"{'plugs' if body.plugs else 'blades'} {body.code}: {body.title}, {len(body.blades)} in the set"


@_told.register
def _(body: kinds.GaugeStudy, bench: Bench | None) -> str:
    del bench
    return f"gauge study {body.code} of {body.instrument}, {len(body.readings)} readings"


@_told.register
def _(body: kinds.ShopSetting, bench: Bench | None) -> str:
    del bench
    return f"shop setting, {body.name}: {body.value}"


def _name(bench: Bench | None, code: str) -> str:
    held = bench.shop.people.get(code) if bench is not None else None
    return held.body.name if held is not None else code
