"""A whole build carried as a file: put together from a record, and taken into another."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from fitwright.bench.carrying import check_carrying, rested_on, without_readings
from fitwright.formats.build_json import BuildFile, BuildFileError, read_build, write_build
from fitwright.formats.sheet import read_sheet
from fitwright.records.entry import Entry, NewEntry
from fitwright.records.kinds import BuildStarted, Photo, RevisionTakenOver
from fitwright.records.protocol import Record

_NAMING_SHEETS = (BuildStarted.kind, RevisionTakenOver.kind)


@dataclass(frozen=True, slots=True)
class Carried:
    """A build as the text of a file: how many entries, and how many photos it names without holding them."""

    text: str
    entries: int
    photos: int


@dataclass(frozen=True, slots=True)
class Arrival:
    """A build file held against a record: what would be taken in, and how much is there already."""

    build: str
    new: tuple[NewEntry, ...]
    already: int
    sheets: Mapping[str, str]


def carried(record: Record, build: str, *, readings: bool = True) -> Carried:
    """A build with everything of the shop that it rests on; without readings it is a set-up."""
    entries = rested_on(record.entries(build=build), build)
    if not readings:
        entries = without_readings(entries)
    sheets = {digest: record.sheet_text(digest) for digest in _sheets(entries)}
    text = write_build(build, entries, sheets, record.head())
    return Carried(text, len(entries), sum(entry.kind == Photo.kind for entry in entries))


def build_in(text: str, *, file: str) -> BuildFile:
    """The build in the text of a file, with its sheets found sound.

    Raises
    ------
    FormatError
        If it is no build file, something in it was changed, or a sheet cannot be read.
    """
    found = read_build(text, file=file)
    _check_sheets(found)
    return found


def arrival(found: BuildFile, record: Record) -> Arrival:
    """A build file held against the record that it is to be taken into.

    Raises
    ------
    CannotCarryError
        If this shop has another build of that code, or means something else by a code in it.
    """
    already = check_carrying(found.build, found.entries, record.entries())
    return Arrival(found.build, tuple(found.new_entries(without=already)), len(already), found.sheets)


def _sheets(entries: Iterable[Entry]) -> list[str]:
    named = [entry.body["sheet"] for entry in entries if entry.kind in _NAMING_SHEETS]
    return list(dict.fromkeys(named))


def _check_sheets(found: BuildFile) -> None:
    """A sheet that cannot be read would leave the shop with a build that cannot be shown."""
    for digest, text in found.sheets.items():
        if hashlib.sha256(text.encode("utf-8")).hexdigest() != digest:
            raise BuildFileError(
                found.file, f"sheet {digest[:12]}", "does not agree with its digest", "export the build again"
            )
        read_sheet(text, name=f"{found.file}, sheet {digest[:12]}")
    missing = [digest for digest in _sheets(found.entries) if digest not in found.sheets]
    if missing:
        raise BuildFileError(found.file, "sheets", f"{missing[0][:12]} is missing", "export the build again")
