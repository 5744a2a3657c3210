"""Backup while in use, restore into an empty folder, both verified."""

from __future__ import annotations

import json
import threading

import pytest

from fitwright.store import backup, places
from fitwright.store.backup import back_up, check_files, read_manifest, restore
from fitwright.store.errors import BackupError, NoRecordError, UnfitPlaceError
from fitwright.store.record import open_record
from fitwright.store.verify import verify
from tests.support.pictures import picture
from tests.support.record import new, reading
from tests.support.tampering import tamper


@pytest.fixture
def filled(record):
    sheet = record.keep_sheet("x = 1")
    photo = record.keep_photo(picture(), "image/png")
    record.append(
        [
            new("build started", code="b1", title="t", sheet=sheet),
            reading(),
            new("photo", digest=photo, media_type="image/png"),
        ]
    )
    return record


def test_a_backup_says_what_it_holds(filled, tmp_path, clock):
    manifest = back_up(filled, tmp_path / "backup", clock=clock)
    assert (manifest.entries, manifest.sheets, manifest.photos) == (3, 1, 1)
    assert manifest.head == filled.head()
    assert manifest.faults == ()
    assert manifest.made_at.startswith("2031-05-04T09:30")
    assert read_manifest(tmp_path / "backup") == manifest
    names = sorted(path.name for path in (tmp_path / "backup").iterdir())
    assert names == ["manifest.json", "photos", "record.db"]


def test_a_restored_record_is_the_same_record(filled, tmp_path, opened):
    back_up(filled, tmp_path / "backup")
    restore(tmp_path / "backup", tmp_path / "new")
    again = opened(tmp_path / "new")
    assert list(again.entries()) == list(filled.entries())
    assert verify(again).sound
    assert again.heads_noted()[0][1] == filled.head()
    assert again.append([reading()])[0].seq == 4


def test_a_restore_that_is_cut_off_leaves_no_record(filled, tmp_path, monkeypatch):
    """Half a record must not look like a whole one."""
    back_up(filled, tmp_path / "backup")
    copy, copied = backup._copy, []

    def cut_off(source, target):
        if len(copied) == 1:
            raise OSError(28, "No space left on device", str(target))
        copied.append(target)
        copy(source, target)

    monkeypatch.setattr(backup, "_copy", cut_off)
    with pytest.raises(BackupError, match="No space left"):
        restore(tmp_path / "backup", tmp_path / "new")
    assert copied
    with pytest.raises(NoRecordError):
        open_record(tmp_path / "new", create=False)


def test_an_empty_record_can_be_backed_up_and_restored(record, tmp_path, opened):
    assert back_up(record, tmp_path / "backup").head is None
    restore(tmp_path / "backup", tmp_path / "new")
    assert opened(tmp_path / "new").head() is None


def test_a_backup_is_taken_while_others_write(record, tmp_path, opened):
    record.append([reading() for _ in range(200)])
    stop = threading.Event()

    def write():
        while not stop.is_set():
            record.append([reading()])

    writers = [threading.Thread(target=write) for _ in range(4)]
    for thread in writers:
        thread.start()
    try:
        manifest = back_up(record, tmp_path / "backup")
    finally:
        stop.set()
        for thread in writers:
            thread.join()
    assert manifest.entries >= 200
    restore(tmp_path / "backup", tmp_path / "new")
    assert opened(tmp_path / "new").head() == manifest.head
    assert verify(record).sound


@pytest.mark.parametrize("into", ["backup", "restore"])
def test_only_an_empty_folder_is_written_into(filled, tmp_path, into):
    full = tmp_path / "full"
    full.mkdir()
    (full / "keep me").write_text("x")
    back_up(filled, tmp_path / "backup")
    with pytest.raises(BackupError, match="not an empty folder"):
        back_up(filled, full) if into == "backup" else restore(tmp_path / "backup", full)
    assert (full / "keep me").read_text() == "x"


@pytest.mark.parametrize("name", ["record.db", "photos"])
def test_a_backup_with_a_changed_or_missing_file_is_refused(filled, tmp_path, name):
    back_up(filled, tmp_path / "backup")
    path = tmp_path / "backup" / name
    [file] = [path] if path.is_file() else list(path.glob("??/*"))
    content = bytearray(file.read_bytes())
    content[-1] ^= 1
    file.write_bytes(content)
    with pytest.raises(BackupError, match="not the one in the manifest"):
        restore(tmp_path / "backup", tmp_path / "new")
    file.unlink()
    with pytest.raises(BackupError, match="is missing"):
        restore(tmp_path / "backup", tmp_path / "new")
    assert not (tmp_path / "new").exists()


def test_a_manifest_that_was_changed_with_its_file_is_found(filled, tmp_path):
    back_up(filled, tmp_path / "backup")
    path = tmp_path / "backup" / "manifest.json"
    fields = json.loads(path.read_text())
    fields["entries"] = 2
    path.write_text(json.dumps(fields))
    with pytest.raises(BackupError, match="not what the manifest says"):
        restore(tmp_path / "backup", tmp_path / "new")


@pytest.mark.parametrize("text", ["", "{", "[]", '{"format": 1}', '{"files": [{"path": "x"}]}'])
def test_a_manifest_that_is_none_is_said(tmp_path, text):
    with pytest.raises(BackupError, match=r"no manifest\.json"):
        read_manifest(tmp_path)
    (tmp_path / "manifest.json").write_text(text)
    with pytest.raises(BackupError, match="cannot be read"):
        read_manifest(tmp_path)


@pytest.mark.parametrize("path", ["../record.db", "/etc/passwd", "photos/../../x", "..\\x"])
def test_a_manifest_names_no_file_outside(filled, tmp_path, path):
    back_up(filled, tmp_path / "backup")
    manifest = tmp_path / "backup" / "manifest.json"
    fields = json.loads(manifest.read_text())
    fields["files"][0]["path"] = path
    manifest.write_text(json.dumps(fields))
    with pytest.raises(BackupError, match="outside the backup"):
        restore(tmp_path / "backup", tmp_path / "new")


def test_a_damaged_record_is_backed_up_and_says_so(filled, folder, tmp_path, opened):
    filled.close()
    tamper(folder, "UPDATE entries SET person = 'x' WHERE seq = 2")
    manifest = back_up(opened(), tmp_path / "backup")
    [fault] = manifest.faults
    assert fault.startswith("entry 2 (reading")
    assert restore(tmp_path / "backup", tmp_path / "new").faults == manifest.faults


def test_nothing_is_restored_to_an_unfit_place(filled, tmp_path, monkeypatch):
    back_up(filled, tmp_path / "backup")
    monkeypatch.setattr(places, "file_system", lambda place, mounts: "nfs4")
    with pytest.raises(UnfitPlaceError):
        restore(tmp_path / "backup", tmp_path / "new")
    check_files(tmp_path / "backup", read_manifest(tmp_path / "backup"))
