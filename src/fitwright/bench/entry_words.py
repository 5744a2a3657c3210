"""An entry of a build in words, as a list of what happened shows it; and what things are called."""

from __future__ import annotations

from functools import singledispatch

from fitwright.bench.context import Bench
from fitwright.bench.statements import eye_checks_of
from fitwright.bench.telling import NOUNS
from fitwright.records import kinds
from fitwright.records.entry import Entry
from fitwright.records.kinds import Body, Typed
from fitwright.units import format_value

SHORTENED = 60
"""So many characters of a text stand in a line."""


def entry_words(bench: Bench, entry: Entry) -> str:
    """What an entry of this build says, in one line."""
    held = bench.build.ledger.recorded.get(entry.id)
    return said(held.body, bench) if held is not None else NOUNS.get(entry.kind, (entry.kind,))[0]


def title_of(bench: Bench, name: str) -> str:
    """What the sheet calls a fit, a dimension, a position, a station or an eye check; else its name."""
    sheet = bench.sheet
    for things in (sheet.fits, sheet.dimensions, sheet.parts, sheet.stations):
        found = things.get(name)
        if found is not None:
            return found.title
    check = eye_checks_of(bench).get(name)
    return check.question if check is not None else name


def amount_words(amount: Typed) -> str:
    """An amount as it was typed, with its unit."""
    return format_value(amount.si, amount.unit, amount.decimals)


@singledispatch
def said(body: Body, bench: Bench) -> str:
    """What the body of an entry says, in one line."""
    del bench
    return NOUNS.get(body.kind, (body.kind,))[0]


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
