"""Backup and restore: a folder with the database, the photos, and a manifest that says what it holds.

A backup is made while the record is in use. Both follow the chain in
what they wrote from the first entry to the last: the backup against the record, the restored record
against the manifest.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import asdict, dataclass
from pathlib import Path, PurePosixPath

from fitwright.records.chain import ChainReport, verified
from fitwright.records.entry import Acknowledgement
from fitwright.records.times import Clock, system_clock, utc_text
from fitwright.store import rows
from fitwright.store.dialect import REFUSALS, copy_database, reading_engine
from fitwright.store.errors import BackupError
from fitwright.store.files import file_digest, write_durably
from fitwright.store.headfile import HeadFile
from fitwright.store.places import check_place
from fitwright.store.record import DATABASE, HEAD_FILE, SqliteRecord
from fitwright.store.schema import sheet_texts

MANIFEST = "manifest.json"
FORMAT = 1


@dataclass(frozen=True, slots=True)
class KeptFile:
    """A file of a backup, by its path inside it."""

    path: str
    size: int
    sha256: str


@dataclass(frozen=True, slots=True)
class Manifest:
    """What a backup holds: how many entries, sheets and photos, the head, every file's digest.

    `faults` are entries that did not agree with the chain when the backup was made: a damaged record
    is backed up too, and says so.
    """

    format: int
    made_at: str
    entries: int
    sheets: int
    photos: int
    head: Acknowledgement | None
    faults: tuple[str, ...]
    files: tuple[KeptFile, ...]


def back_up(record: SqliteRecord, target: Path, *, clock: Clock = system_clock) -> Manifest:
    """Copy a record, which may be in use, into a new folder, and verify the copy.

    Raises
    ------
    BackupError
        If the folder is not empty, the disk refuses, or the copy does not verify.
    """
    _require_empty(target)
    try:
        (target / "photos").mkdir(parents=True)
        copy_database(record.reader, target / DATABASE)
        for source in _photo_files(record.directory):
            _copy(source, target / source.relative_to(record.directory))
        manifest = _manifest_of(target, utc_text(clock()))
        write_durably(target / MANIFEST, json.dumps(asdict(manifest), indent=1).encode())
    except REFUSALS as error:
        raise BackupError(target, f"the backup could not be written ({error})", "try another disk") from error
    _check_against(record, target, manifest.head)
    return manifest


def restore(backup: Path, target: Path) -> Manifest:
    """Make a record of a backup in an empty folder, and verify it.

    Raises
    ------
    BackupError
        If the backup is not what its manifest says, the folder is not empty, or the disk refuses.
    UnfitPlaceError
        If the folder is no place for a live record.
    """
    check_place(target)
    manifest = read_manifest(backup)
    check_files(backup, manifest)
    _require_empty(target)
    try:
        target.mkdir(parents=True, exist_ok=True)
        _note_head(target, manifest)
        # The database comes last: until it is there, what was cut off half way is no record.
        for kept in sorted(manifest.files, key=lambda kept: kept.path == DATABASE):
            _copy(backup / kept.path, target / kept.path)
    except OSError as error:
        raise BackupError(target, f"the record could not be written ({error})", "free some space") from error
    check_files(target, manifest)
    _check_contents(target, manifest)
    return manifest


def _note_head(target: Path, manifest: Manifest) -> None:
    if manifest.head is not None:
        head_file = HeadFile(target / HEAD_FILE)
        head_file.write(manifest.head)
        head_file.close()


def read_manifest(backup: Path) -> Manifest:
    """The manifest of a backup.

    Raises
    ------
    BackupError
        If there is none, or it is not one.
    """
    path = backup / MANIFEST
    try:
        fields = json.loads(path.read_text(encoding="utf-8"))
        files = tuple(KeptFile(**kept) for kept in fields.pop("files"))
        head, faults = fields.pop("head"), tuple(fields.pop("faults"))
        anchor = None if head is None else Acknowledgement(**head)
        manifest = Manifest(**fields, head=anchor, faults=faults, files=files)
    except FileNotFoundError:
        raise BackupError(backup, "there is no manifest.json in it", "name the folder of a backup") from None
    except (OSError, ValueError, TypeError, KeyError, AttributeError) as error:
        wrong = f"the manifest cannot be read ({error})"
        raise BackupError(path, wrong, "use another backup") from error
    for kept in manifest.files:
        inside = PurePosixPath(kept.path)
        if inside.is_absolute() or ".." in inside.parts or "\\" in kept.path:
            raise BackupError(path, f"it names a file outside the backup ({kept.path})", "use another backup")
    return manifest


def check_files(folder: Path, manifest: Manifest) -> None:
    """Hold the files of a folder against a manifest.

    Raises
    ------
    BackupError
        For the first file that is missing or another.
    """
    for kept in manifest.files:
        path = folder / kept.path
        if not path.is_file():
            raise BackupError(path, "this file of the manifest is missing", "use another backup")
        if path.stat().st_size != kept.size or file_digest(path) != kept.sha256:
            raise BackupError(path, "this file is not the one in the manifest", "use another backup")


def _require_empty(target: Path) -> None:
    if target.exists() and (not target.is_dir() or any(target.iterdir())):
        raise BackupError(target, "it is not an empty folder", "name a new or empty folder")


def _photo_files(directory: Path) -> Iterator[Path]:
    for path in sorted((directory / "photos").glob("??/*")):
        if not path.name.startswith("."):
            yield path


def _copy(source: Path, target: Path) -> None:
    write_durably(target, source.read_bytes())


def _manifest_of(folder: Path, made_at: str) -> Manifest:
    paths = [folder / DATABASE, *_photo_files(folder)]
    chain, sheets = _contents_of(folder)
    return Manifest(
        format=FORMAT,
        made_at=made_at,
        entries=chain.entries,
        sheets=sheets,
        photos=len(paths) - 1,
        head=chain.head,
        faults=tuple(map(str, chain.faults)),
        files=tuple(
            KeptFile(path.relative_to(folder).as_posix(), path.stat().st_size, file_digest(path))
            for path in paths
        ),
    )


def _contents_of(folder: Path) -> tuple[ChainReport, int]:
    """Follow the chain in a copy; nothing is written beside it."""
    engine = reading_engine(folder / DATABASE, immutable=True)
    try:
        with engine.connect() as connection:
            sheets = rows.count(connection, sheet_texts)
        return verified(map(rows.link_of, rows.in_pages(engine))), sheets
    finally:
        engine.dispose()


def _check_contents(folder: Path, manifest: Manifest) -> None:
    chain, sheets = _contents_of(folder)
    found = (chain.entries, sheets, chain.head, tuple(map(str, chain.faults)))
    if found != (manifest.entries, manifest.sheets, manifest.head, manifest.faults):
        raise BackupError(folder, "what it holds is not what the manifest says", "use another backup")


def _check_against(record: SqliteRecord, target: Path, head: Acknowledgement | None) -> None:
    original = None if head is None else record.entry_at(head.seq)
    if head is not None and (original is None or original.hash != head.hash):
        raise BackupError(target, "the copy ends in another entry than the record", "make another backup")
