"""The record in a folder: `record.db`, `photos/`, `head.json`."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager, suppress
from pathlib import Path

from sqlalchemy import Connection, Engine, select
from sqlalchemy.exc import DBAPIError

from fitwright.records.chain import GENESIS, check_anchor, sealed
from fitwright.records.entry import Acknowledgement, Entry, NewEntry
from fitwright.records.errors import (
    CannotWriteError,
    CodeTakenError,
    IdReusedError,
    MeanwhileError,
    NotKeptError,
    RecordError,
    ShorterThanAnchorError,
)
from fitwright.records.ids import new_id
from fitwright.records.kinds import Body, Note
from fitwright.records.registry import checked
from fitwright.records.rules import check_references, history_of
from fitwright.records.search import Search, Standing
from fitwright.records.times import Clock, system_clock, utc_text
from fitwright.store import rows
from fitwright.store.dialect import (
    cannot_write,
    is_read_only,
    reader_of_read_only,
    reading_engine,
    unreadable,
    writing_engine,
)
from fitwright.store.earlier import Earlier, has_sheet
from fitwright.store.errors import NoRecordError
from fitwright.store.headfile import HeadFile
from fitwright.store.in_use import FilesInUse
from fitwright.store.migrate import bring_up
from fitwright.store.photos import Photos
from fitwright.store.places import check_place
from fitwright.store.schema import entries, sheet_texts
from fitwright.store.writer import Writer

DATABASE = "record.db"
HEAD_FILE = "head.json"


def open_record(
    directory: Path, *, clock: Clock = system_clock, create: bool = True, head_files: Sequence[Path] = ()
) -> SqliteRecord:
    """Open the record in a folder, or begin one there.

    Parameters
    ----------
    directory : Path
        The folder; on this computer's own disk and not synchronised.
    clock : callable
        Gives the moment of each commit.
    create : bool
        Whether to begin a record where there is none.
    head_files : sequence of Path
        More places for the head, beside `head.json` in the folder: best on another disk.

    Returns
    -------
    SqliteRecord
        Its `read_only_because` is set where a head file knows more than the record holds.

    Raises
    ------
    UnfitPlaceError, NoRecordError, NewerRecordError, UnreadableRecordError, CannotWriteError
        Each in one sentence that says what to do.
    """
    check_place(directory)
    if not (directory / DATABASE).exists():
        if not create:
            raise NoRecordError(directory)
        try:
            directory.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            raise cannot_write(error) from error
    return SqliteRecord(directory, clock=clock, head_files=(directory / HEAD_FILE, *head_files))


class SqliteRecord:
    """The `Record` of one shop on SQLite; made by `open_record`.

    `read_only_because` is what every write then raises; `troubles` is what must be shown. All methods
    may be called from any thread.
    """

    def __init__(self, directory: Path, *, clock: Clock, head_files: Sequence[Path]) -> None:
        self.directory = directory
        self.database = directory / DATABASE
        self.read_only_because: ShorterThanAnchorError | None = None
        self.photos = Photos(directory / "photos")
        self._clock = clock
        self._head_files = [HeadFile(path) for path in head_files]
        self._writing_engine = writing_engine(self.database)
        self._files = FilesInUse(self.database)
        self._writer = Writer(self._writing_engine, self.database, self._note_head, self._files)
        self._reader = reading_engine(self.database)
        self._writable = False
        self._not_writable = CannotWriteError("the folder of the record is read-only", "make it writable")
        self._found_at_opening: list[str] = []
        self._open()
        self._files.opened()
        self._hold_against_head_files()

    # Writing.

    def append(
        self, new_entries: Sequence[NewEntry], *, since: int | None = None, upon: int | None = None
    ) -> list[Acknowledgement]:
        """Write all entries in one transaction, or none; see `Record.append`."""
        ready = [(new, *checked(new)) for new in new_entries]

        def write(connection: Connection) -> list[Acknowledgement]:
            _check_upon(connection, upon)
            return self._append(connection, ready, since)

        return self._writing().run(write)

    def keep_sheet(self, text: str) -> str:
        """Keep a sheet text under its SHA-256 digest, which is returned."""
        digest = hashlib.sha256(text.encode("utf-8")).hexdigest()
        if not self._has_sheet(digest):
            self._writing().run(lambda connection: _keep_sheet(connection, digest, text))
        return digest

    def keep_photo(self, content: bytes, media_type: str) -> str:
        """Clean a photo and keep it, durable before this returns, under the digest of what is kept."""
        self._writing()
        return self.photos.keep(content, media_type)

    def hold_against(self, anchor: Acknowledgement, where: str) -> None:
        """Hold the history against an anchor kept elsewhere; if it does not fit, write no more.

        Raises
        ------
        ShorterThanAnchorError
            If the history ends before the anchor or has another entry there.
        """
        try:
            check_anchor(anchor, where=where, head=self.head(), at_anchor=self.entry_at(anchor.seq))
        except ShorterThanAnchorError as error:
            self.read_only_because = error
            raise

    def continue_here(self, person: str | None, reason: str) -> Acknowledgement:
        """Go on with a history that is shorter than an anchor; the gap is named in a note."""
        gap = self.read_only_because
        if not isinstance(gap, ShorterThanAnchorError):
            raise CannotWriteError("no anchor is ahead of this record", "nothing needs to be continued")
        words = f"Continued after entry {gap.seq}, though {gap.anchor} knew entry {gap.anchor_seq}: {reason}"
        note = NewEntry(new_id(), None, Note.kind, {"subject": "record", "text": words}, person=person)
        self.read_only_because = None
        try:
            return self.append([note])[0]
        except RecordError:
            self.read_only_because = gap
            raise

    def close(self) -> None:
        """Release the files."""
        self._reader.dispose()
        self._writer.close()
        for file in self._head_files:
            file.close()

    # Reading.

    def entries(
        self, *, after: int = 0, build: str | None = None, limit: int | None = None
    ) -> Iterator[Entry]:
        """Entries in order of `seq`; see `Record.entries`."""
        self._files.require_database()
        if not self._writable:
            self._open()  # what is read without being able to write does not see what others write
        try:
            yield from map(rows.entry_of, rows.in_pages(self._reader, after=after, build=build, limit=limit))
        except DBAPIError as error:
            raise unreadable(self.database, error) from error

    def entry_at(self, seq: int) -> Entry | None:
        """One entry by its place in the order; its body is left unread."""
        with self._reading() as connection:
            row = rows.by_seq(connection, seq)
        return None if row is None else rows.link_of(row).entry

    def entry(self, entry_id: str) -> Entry | None:
        """One entry by its id."""
        with self._reading() as connection:
            row = rows.by_id(connection, entry_id)
        return None if row is None else rows.entry_of(row)

    def search(self, search: Search) -> list[Standing]:
        """The entries looked for, the newest first; see `Record.search`."""
        with self._reading() as connection:
            return [_standing(connection, entry) for entry in rows.newest(connection, search)]

    def counts(self, build: str, *, after: int = 0) -> dict[str, int]:
        """How many entries of each kind a build has after a seq."""
        with self._reading() as connection:
            return rows.counts(connection, build, after=after)

    def last_of(self, build: str) -> Entry | None:
        """The last entry of a build; its body is left unread."""
        with self._reading() as connection:
            row = rows.last_of(connection, build)
        return None if row is None else rows.link_of(row).entry

    def head(self) -> Acknowledgement | None:
        """The last entry's id, seq and hash."""
        with self._reading() as connection:
            return rows.head_of(connection)

    def sheet_text(self, digest: str) -> str:
        """The sheet text with this digest, checked against it."""
        with self._reading() as connection:
            text = connection.execute(
                select(sheet_texts.c.text).where(sheet_texts.c.digest == digest)
            ).scalar_one_or_none()
        if text is None:
            raise NotKeptError("sheet", digest)
        if hashlib.sha256(str(text).encode("utf-8")).hexdigest() != digest:
            raise NotKeptError("undamaged sheet", digest)
        return str(text)

    def photo(self, digest: str) -> bytes:
        """The photo with this digest, checked against it."""
        return self.photos.get(digest)

    @property
    def reader(self) -> Engine:
        """For the backup and the verification of this package."""
        return self._reader

    @property
    def troubles(self) -> list[str]:
        """What must be shown: why it is read-only; head files that cannot be read or written."""
        gap = [str(self.read_only_because)] if self.read_only_because is not None else []
        return gap + self._found_at_opening + [file.trouble for file in self._head_files if file.trouble]

    def heads_noted(self) -> list[tuple[Path, Acknowledgement | None]]:
        """What each head file says."""
        return [(file.path, file.read()) for file in self._head_files]

    # Inside.

    @contextmanager
    def _reading(self) -> Iterator[Connection]:
        try:
            with self._reader.connect() as connection:
                yield connection
        except DBAPIError as error:
            raise unreadable(self.database, error) from error

    def _open(self) -> None:
        """Open for writing; in a read-only folder for reading, until a write finds it writable."""
        try:
            bring_up(self._writing_engine, self.database)
        except DBAPIError as error:
            self._writing_engine.dispose()
            if not is_read_only(error):
                raise unreadable(self.database, error) from error
            self._not_writable = cannot_write(error)
            self._use_reader(reader_of_read_only(self.database, self._not_writable))
            return
        except RecordError:
            self._writing_engine.dispose()
            self._reader.dispose()
            raise
        self._use_reader(reading_engine(self.database))
        self._writable = True

    def _use_reader(self, reader: Engine) -> None:
        self._reader.dispose()
        self._reader = reader

    def _hold_against_head_files(self) -> None:
        """A history shorter than a head file is not written to; a missing head file is made anew."""
        for file in self._head_files:
            noted = file.read()
            self._found_at_opening += [file.trouble] if file.trouble else []
            if noted is not None and self.read_only_because is None:
                with suppress(ShorterThanAnchorError):  # which is now why it is read-only
                    self.hold_against(noted, f"the head file {file.path}")
        head = self.head()
        if head is not None and self._writable and self.read_only_because is None:
            for file in self._head_files:
                file.write(head)

    def _writing(self) -> Writer:
        if self.read_only_because is not None:
            raise self.read_only_because
        if not self._writable:
            self._open()
        if not self._writable:
            raise self._not_writable
        return self._writer

    def _has_sheet(self, digest: str) -> bool:
        with self._reading() as connection:
            return has_sheet(connection, digest)

    def _append(
        self, connection: Connection, ready: Sequence[tuple[NewEntry, Body, str]], since: int | None
    ) -> list[Acknowledgement]:
        head = rows.head_of(connection)
        earlier = Earlier(connection)
        coded = since is not None and any("code" in new.body for new, _, _ in ready)
        taken = rows.codes_after(connection, since or 0) if coded else {}
        answers = []
        for new, body, text in ready:
            answer = _first_answer(connection, new, text)
            if answer is None:
                _check_code(new, taken)
                check_references(new, body, earlier)
                answer = head = self._insert(connection, new, text, head)
            answers.append(answer)
        return answers

    def _insert(
        self, connection: Connection, new: NewEntry, text: str, head: Acknowledgement | None
    ) -> Acknowledgement:
        entry = sealed(
            new,
            seq=1 if head is None else head.seq + 1,
            committed_at=utc_text(self._clock()),
            previous_hash=GENESIS if head is None else head.hash,
            body_text=text,
        )
        connection.execute(entries.insert(), rows.row_of(entry, text))
        return Acknowledgement(entry.id, entry.seq, entry.hash)

    def _note_head(self, connection: Connection) -> Callable[[], None]:
        head = rows.head_of(connection)

        def note() -> None:
            for file in self._head_files:
                if head is not None:
                    file.write(head)

        return note


def _check_code(new: NewEntry, taken: Mapping[tuple[str, str], int]) -> None:
    """Two who look for a free code at the same moment find the same one."""
    code = new.body.get("code")
    if isinstance(code, str) and (new.kind, code) in taken:
        raise CodeTakenError(new.kind, code, taken[new.kind, code])


def _check_upon(connection: Connection, upon: int | None) -> None:
    """What was held against the record as it stood is written only where it still stands so."""
    head = rows.head_of(connection) if upon is not None else None
    if upon is not None and head is not None and head.seq != upon:
        raise MeanwhileError(upon, head.seq)


def _standing(connection: Connection, entry: Entry) -> Standing:
    history = history_of(entry, lambda entry_id: rows.naming(connection, entry_id))
    return Standing(entry, history.withdrawn_by(entry.id), history.superseded_by(entry.id))


def _first_answer(connection: Connection, new: NewEntry, text: str) -> Acknowledgement | None:
    """The answer that an id was given before, if the entry is the same."""
    row = rows.by_id(connection, new.id)
    if row is None:
        return None
    stored = (row.build, row.kind, row.kind_version, row.person, row.body)
    if stored != (new.build, new.kind, new.kind_version, new.person, text):
        raise IdReusedError(new.id, row.seq, row.kind)
    return Acknowledgement(row.id, row.seq, row.hash)


def _keep_sheet(connection: Connection, digest: str, text: str) -> None:
    if not has_sheet(connection, digest):
        connection.execute(sheet_texts.insert(), {"digest": digest, "text": text})
