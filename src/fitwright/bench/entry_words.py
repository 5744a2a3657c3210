"""An entry of a build in words, as a list of what happened shows it; and what things are called."""

from __future__ import annotations

from collections.abc import Mapping
from functools import singledispatch

from fitwright.bench.amounts import amount_words
from fitwright.bench.context import Bench
from fitwright.bench.statements import eye_checks_of
from fitwright.bench.telling import NOUNS
from fitwright.bench.work_words import called, work_words
from fitwright.model.oil import Oil
from fitwright.records import kinds
from fitwright.records.entry import Entry
from fitwright.records.kinds import Body
from fitwright.units import format_value

SHORTENED = 60
"""So many characters of a text stand in a line."""


def entry_words(bench: Bench, entry: Entry) -> str:
    """What an entry of this build says, in one line."""
    held = bench.build.ledger.recorded.get(entry.id)
    return said(held.body, bench) if held is not None else NOUNS.get(entry.kind, (entry.kind,))[0]


def title_of(bench: Bench, name: str) -> str:
    """What the sheet calls a fit, a dimension, a position, a station, a step, a check; else its name."""
    sheet = bench.sheet
    for things in (sheet.fits, sheet.dimensions, sheet.parts, sheet.stations):
        found = things.get(name)
        if found is not None:
            return found.title
    check = eye_checks_of(bench).get(name)
    return check.question if check is not None else called(sheet, name) or name


@singledispatch
def said(body: Body, bench: Bench) -> str:
    """What the body of an entry says, in one line."""
    return work_words(body, bench.sheet) or NOUNS.get(body.kind, (body.kind,))[0]


@said.register
def _(body: kinds.Part, bench: Bench) -> str:
    place = title_of(bench, body.position) if body.position else ""
    where = f" in {place}" if place and place != body.title else "" if place else " on the shelf"
    facts = [f"serial {body.serial}" if body.serial else "", body.origin or "", "used" if body.used else ""]
    told = ", ".join(each for each in facts if each)
    return f"part {body.code}, {body.title}{where}{f': {told}' if told else ''}"


@said.register
def _(body: kinds.Fitting, bench: Bench) -> str:
    return f"{body.part} put into {title_of(bench, body.position)}"


@said.register
def _(body: kinds.TakingOut, bench: Bench) -> str:
    return f"{body.part} taken out of {title_of(bench, body.position)}"


@said.register
def _(body: kinds.State, bench: Bench) -> str:
    del bench
    return f"{body.change} {body.code} of {body.part}: {body.words}"


@said.register
def _(body: kinds.StatedSize, bench: Bench) -> str:
    either_way = f" ± {amount_words(body.tolerance)}" if body.tolerance is not None else ""
    where = title_of(bench, body.dimension) if body.dimension else body.feature
    at = "" if body.place == "whole" else f", {body.place}"
    return f"{where}{at} stated {amount_words(body.size)}{either_way} by {body.stated_by}"


@said.register
def _(body: kinds.EyeCheck, bench: Bench) -> str:
    words = f", {body.words}" if body.words else ""
    return f"{title_of(bench, body.check)} {'yes' if body.answer else 'no'}{words}"


@said.register
def _(body: kinds.LimitAdopted, bench: Bench) -> str:
    stated = [
        f"{word} {amount_words(bound)}"
        for word, bound in (("from", body.lower), ("to", body.upper))
        if bound is not None
    ]
    bounds = f", {' '.join(stated)}" if stated else ""
    because = f": {body.reason}" if body.reason else ""
    return f"limit of {body.source} adopted for {title_of(bench, body.subject)}{bounds}{because}"


@said.register
def _(body: kinds.NotMeasured, bench: Bench) -> str:
    return f"{title_of(bench, body.subject)} not measured, because {body.because}"


@said.register
def _(body: kinds.NotInThisJob, bench: Bench) -> str:
    return f"{title_of(bench, body.subject)} not in this job{f': {body.reason}' if body.reason else ''}"


@said.register
def _(body: kinds.Choice, bench: Bench) -> str:
    count = len(body.entries)
    which = "1 reading" if count == 1 else f"{count} readings"
    about = f" of {title_of(bench, body.dimension)}" if body.dimension else ""
    return f"{body.choice}: {which}{about}{f'; {body.reason}' if body.reason else ''}"


@said.register
def _(body: kinds.PressureReading, bench: Bench) -> str:
    return pressure_words(body, bench.sheet.oils)


@said.register
def _(body: kinds.OilChosen, bench: Bench) -> str:
    return f"filled with {oil_words(body, bench.sheet.oils)}{f': {body.reason}' if body.reason else ''}"


def pressure_words(body: kinds.PressureReading, oils: Mapping[str, Oil]) -> str:
    """A pressure with its speed and temperature, as it was typed; what the needle showed beside it."""
    at = f"at {amount_words(body.angular_speed)}, oil {amount_words(body.oil_temperature)}"
    shown, zero = body.gauge_reading, body.zero
    if zero is None:
        said_so = f"gauge {amount_words(shown)} {at}; zero not read"
    else:
        decimals = max(shown.decimals, zero.decimals if zero.unit == shown.unit else 0)
        pressure = format_value(body.gauge_pressure, shown.unit, decimals)
        said_so = f"{pressure} {at}; gauge {amount_words(shown)}, zero {amount_words(zero)}"
    lifted, oil = body.seconds_to_pressure, body.oil
    more = (
        f"gauge lifted after {amount_words(lifted)}" if lifted is not None else "",
        f"with {body.instrument}" if body.instrument else "",
        f"on {oils[oil].title if oil in oils else _short(oil)}" if oil else "",
        _short(body.step) if body.step else "",
    )
    return "; ".join(each for each in (said_so, *more) if each)


def oil_words(body: kinds.OilChosen, oils: Mapping[str, Oil]) -> str:
    """What an oil that was chosen is called."""
    if body.data_sheet is not None:
        source = f" (data sheet: {_short(body.data_sheet.source)})" if body.data_sheet.source else ""
        return f"{_short(body.data_sheet.title)}{source or ' (data sheet)'}"
    if body.grade is not None:
        return f"SAE {body.grade} (grade only)"
    known = oils.get(body.oil or "")
    return known.title if known is not None else f"{body.oil}, which the sheet does not have"


@said.register
def _(body: kinds.Note, bench: Bench) -> str:
    about = f" on {title_of(bench, body.subject)}" if body.subject else ""
    return f"note{about}: {_short(body.text)}"


@said.register
def _(body: kinds.Photo, bench: Bench) -> str:
    about = f" of {title_of(bench, body.subject)}" if body.subject else ""
    return f"photo{about}{f': {_short(body.caption)}' if body.caption else ''}"


@said.register
def _(body: kinds.Withdrawal, bench: Bench) -> str:
    held = bench.build.ledger.recorded.get(body.entry)
    if held is None:
        return "taken back: an entry that is not here"
    because = f"; {body.reason}" if body.reason else ""
    brought = isinstance(held.body, kinds.Withdrawal)
    word = "brought back what entry" if brought else "took back entry"
    tail = (
        f"{held.entry.seq} took back" if brought else f"{held.entry.seq} ({_short(said(held.body, bench))})"
    )
    return f"{word} {tail}{because}"


def _short(text: str) -> str:
    line = " ".join(text.split())
    return line if len(line) <= SHORTENED else f"{line[: SHORTENED - 1].rstrip()}…"
