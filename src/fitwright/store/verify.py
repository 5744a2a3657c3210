"""Verify the whole record of a shop: the chain, its anchors, and everything that entries name.

What it can say: that the record is as it was written. That says nothing about an engine.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from sqlalchemy.exc import DBAPIError

from fitwright.records.chain import ChainReport, Fault, check_anchor, verified
from fitwright.records.entry import Acknowledgement, Entry
from fitwright.records.errors import RecordError, ShorterThanAnchorError
from fitwright.records.kinds import BuildStarted, EyeCheck, Photo, Reading, RevisionTakenOver
from fitwright.records.registry import body_of
from fitwright.records.times import moment_of
from fitwright.store import rows
from fitwright.store.dialect import integrity, unreadable
from fitwright.store.record import SqliteRecord

Reparse = Callable[[str, str], float]
"""(typed text, unit) -> SI value: the parser as it is today; raises ValueError if it cannot."""

SAME_PARSE = 1e-12


@dataclass(frozen=True, slots=True)
class ClockStep:
    """The clock went back before this entry, by so many seconds."""

    seq: int
    seconds: float


@dataclass(frozen=True, slots=True)
class Verification:
    """What verifying a record found.

    `chain` follows the entries; `faults` are entries that name what is not there, cannot be read or
    parse to another value today; `anchors` are those that the history falls short of; `database` is
    what the database engine finds wrong with its file. `clock_steps` are no faults: order is by `seq`.
    """

    chain: ChainReport
    faults: tuple[Fault, ...]
    anchors: tuple[str, ...]
    anchors_checked: int
    database: tuple[str, ...]
    typed_checked: int
    sheets_checked: int
    photos_checked: int
    clock_steps: tuple[ClockStep, ...]

    @property
    def all_faults(self) -> tuple[Fault, ...]:
        """Every fault of an entry, in order."""
        return tuple(sorted((*self.chain.faults, *self.faults), key=lambda fault: fault.seq))

    @property
    def first(self) -> Fault | None:
        """The first entry with a fault."""
        return self.all_faults[0] if self.all_faults else None

    @property
    def sound(self) -> bool:
        """Whether nothing was found."""
        return not (self.all_faults or self.anchors or self.database)

    @property
    def told(self) -> tuple[str, ...]:
        """All of it in words; the last sentence says what it does not speak of."""
        return tuple(_told(self))


def _told(found: Verification) -> Iterator[str]:
    if found.sound:
        yield (
            f"The record agrees with itself: {found.chain.entries} entries in an unbroken chain. "
            f"Also looked at: heads noted elsewhere {found.anchors_checked}, typed amounts "
            f"{found.typed_checked}, sheets {found.sheets_checked}, photos {found.photos_checked}."
        )
    for fault in found.all_faults:
        yield f"Entry {fault.seq} ({fault.kind}, {fault.id[:8]}): {fault.what}."
    yield from found.anchors
    yield from found.database
    for step in found.clock_steps:
        yield f"The clock went back {step.seconds:g} s before entry {step.seq}; order is by number."
    yield "That says nothing about the engine."


def verify(
    record: SqliteRecord,
    *,
    reparse: Reparse | None = None,
    anchors: Mapping[str, Acknowledgement] | None = None,
) -> Verification:
    """Verify a record from its first entry to its last.

    Parameters
    ----------
    record : SqliteRecord
        The open record; it may be in use.
    reparse : callable, optional
        Parses typed text again; each amount must come out as it did.
    anchors : mapping, optional
        More anchors by their name (a dossier, a device), beside the head files.

    Raises
    ------
    UnreadableRecordError
        If the database cannot be read at all.
    """
    try:
        noted = {f"the head file {path}": head for path, head in record.heads_noted() if head is not None}
        noted |= dict(anchors or {})
        database = _database(record)
        chain = verified(map(rows.link_of, rows.in_pages(record.reader)))
        contents = _Contents(record, reparse)
        for entry in _readable(record, contents):
            contents.check(entry)
        return Verification(
            chain=chain,
            faults=tuple(contents.faults),
            anchors=tuple(_short_of(record, chain, noted)),
            anchors_checked=len(noted),
            database=tuple(database),
            typed_checked=contents.typed,
            sheets_checked=len(contents.sheets),
            photos_checked=len(contents.photos),
            clock_steps=tuple(contents.clock_steps),
        )
    except DBAPIError as error:
        raise unreadable(record.database, error) from error


def _database(record: SqliteRecord) -> list[str]:
    """What the database engine finds; a body that is no JSON any more stops its own check of the indexes."""
    try:
        with record.reader.connect() as connection:
            return integrity(connection)
    except DBAPIError as error:
        return [f"the database's own check stopped: {error.orig}"]


def _readable(record: SqliteRecord, contents: _Contents) -> Iterator[Entry]:
    """The entries that can be read; a fault for each other one."""
    for row in rows.in_pages(record.reader):
        try:
            yield rows.entry_of(row)
        except RecordError:
            contents.fault(rows.link_of(row).entry, "its stored body cannot be read")


def _short_of(
    record: SqliteRecord, chain: ChainReport, anchors: Mapping[str, Acknowledgement]
) -> Iterator[str]:
    for where, anchor in anchors.items():
        try:
            check_anchor(anchor, where=where, head=chain.head, at_anchor=record.entry_at(anchor.seq))
        except ShorterThanAnchorError as error:
            yield str(error)


@dataclass
class _Contents:
    """Looks at what entries hold and name, one after another."""

    record: SqliteRecord
    reparse: Reparse | None
    faults: list[Fault] = field(default_factory=list)
    sheets: dict[str, str | None] = field(default_factory=dict)
    photos: dict[str, str | None] = field(default_factory=dict)
    typed: int = 0
    clock_steps: list[ClockStep] = field(default_factory=list)
    before: str | None = None

    def fault(self, entry: Entry, what: str) -> None:
        self.faults.append(Fault(entry.seq, entry.id, entry.kind, what))

    def check(self, entry: Entry) -> None:
        self._check_clock(entry)
        try:
            body = body_of(entry.kind, entry.kind_version, entry.body)
        except RecordError as error:
            self.fault(entry, str(error))
            return
        match body:
            case BuildStarted() | RevisionTakenOver():
                self._check_kept(entry, body.sheet, self.sheets, self.record.sheet_text)
            case Photo():
                self._check_kept(entry, body.digest, self.photos, self.record.photo)
            case Reading(page_photo=str(digest)) | EyeCheck(photo=str(digest)):
                self._check_kept(entry, digest, self.photos, self.record.photo)
        self._check_typed(entry, entry.body)

    def _check_kept(
        self, entry: Entry, digest: str, seen: dict[str, str | None], fetch: Callable[[str], object]
    ) -> None:
        if digest not in seen:
            try:
                fetch(digest)
                seen[digest] = None
            except RecordError as error:
                seen[digest] = str(error)
        trouble = seen[digest]
        if trouble is not None:
            self.fault(entry, trouble)

    def _check_typed(self, entry: Entry, value: Any) -> None:  # noqa: ANN401 - any JSON
        if isinstance(value, Mapping):
            if {"typed", "unit", "si"} <= value.keys():
                self._check_amount(entry, value)
            for inner in value.values():
                self._check_typed(entry, inner)
        elif isinstance(value, list):
            for inner in value:
                self._check_typed(entry, inner)

    def _check_amount(self, entry: Entry, amount: Mapping[str, Any]) -> None:
        if self.reparse is None:
            return
        self.typed += 1
        words, unit, si = str(amount["typed"]), str(amount["unit"]), float(amount["si"])
        try:
            today = self.reparse(words, unit)
        except ValueError as error:
            self.fault(entry, f"{words!r} in {unit} cannot be parsed any more ({error})")
            return
        if abs(today - si) > SAME_PARSE * max(abs(today), abs(si)):
            self.fault(entry, f"{words!r} in {unit} was stored as {si!r} and parses to {today!r} today")

    def _check_clock(self, entry: Entry) -> None:
        try:
            if self.before is not None:
                step = (moment_of(entry.committed_at) - moment_of(self.before)).total_seconds()
                if step < 0.0:
                    self.clock_steps.append(ClockStep(entry.seq, -step))
        except (TypeError, ValueError):
            self.fault(entry, f"{entry.committed_at!r} is no time")
            return
        self.before = entry.committed_at
