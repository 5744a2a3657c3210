"""A lost tail is found through an anchor, said, and not written over."""

from __future__ import annotations

import shutil

import pytest

from fitwright.records.entry import Acknowledgement
from fitwright.records.errors import CannotWriteError, ShorterThanAnchorError
from fitwright.store.verify import verify
from tests.support.record import new, reading
from tests.support.tampering import tamper


def written(record, count):
    return [record.append([reading()])[0] for _ in range(count)]


def put_back(folder, old):
    """Put an old copy of the database back, as a person would."""
    for path in folder.glob("record.db*"):
        path.unlink()
    shutil.copy(old, folder / "record.db")


@pytest.fixture
def old_copy(record, folder, tmp_path, opened):
    """A copy of the database after 3 entries; the record itself has gone on to 5."""
    written(record, 3)
    record.close()
    shutil.copy(folder / "record.db", tmp_path / "old.db")
    again = opened()
    written(again, 2)
    again.close()
    return tmp_path / "old.db"


def test_the_head_file_is_written_after_each_commit(record, folder):
    answers = written(record, 3)
    assert record.heads_noted() == [(folder / "head.json", answers[-1])]


def test_an_old_copy_put_back_is_read_but_not_written(old_copy, folder, opened):
    put_back(folder, old_copy)
    record = opened()
    assert len(list(record.entries())) == 3
    with pytest.raises(ShorterThanAnchorError, match=r"knows entry 5, but the record ends at entry 3"):
        record.append([reading()])
    with pytest.raises(ShorterThanAnchorError):
        record.keep_sheet("x = 1")
    assert record.read_only_because.anchor_seq == 5
    assert record.heads_noted()[0][1].seq == 5
    found = verify(record)
    assert found.chain.sound
    assert not found.sound
    assert "ends at entry 3" in found.anchors[0]


def test_a_person_may_continue_and_the_gap_is_named_in_the_record(old_copy, folder, opened):
    put_back(folder, old_copy)
    record = opened()
    record.continue_here("builder", "the newer disk is dead")
    [note] = [entry for entry in record.entries() if entry.kind == "note"]
    assert "Continued after entry 3" in note.body["text"]
    assert "head.json knew entry 5: the newer disk is dead" in note.body["text"]
    assert record.append([reading()])[0].seq == 5
    record.close()
    assert opened().read_only_because is None


def test_only_a_record_with_a_gap_is_continued(record):
    with pytest.raises(CannotWriteError, match="no anchor is ahead"):
        record.continue_here("builder", "why not")


def test_a_deleted_log_is_found(record, folder, tmp_path, opened):
    written(record, 4)
    for name in ("record.db", "head.json"):  # as if the machine had stopped here, and then the log went
        (tmp_path / "copy").mkdir(exist_ok=True)
        shutil.copy(folder / name, tmp_path / "copy" / name)
    assert (folder / "record.db-wal").stat().st_size > 0
    lost = opened(tmp_path / "copy")
    assert isinstance(lost.read_only_because, ShorterThanAnchorError)
    assert lost.read_only_because.anchor_seq == 4


def test_a_truncated_log_is_found(record, folder, tmp_path, opened):
    written(record, 4)
    shutil.copytree(folder, tmp_path / "copy")
    log = tmp_path / "copy" / "record.db-wal"
    log.write_bytes(log.read_bytes()[: log.stat().st_size - 5000])
    (tmp_path / "copy" / "record.db-shm").unlink()
    assert opened(tmp_path / "copy").read_only_because.anchor_seq == 4


def test_a_deleted_tail_is_found(record, folder, opened):
    written(record, 4)
    record.close()
    tamper(folder, "DELETE FROM entries WHERE seq > 2")
    assert opened().read_only_because.seq == 2


def test_a_second_place_finds_what_a_whole_folder_put_back_hides(record, folder, tmp_path, opened):
    elsewhere = tmp_path / "stick" / "head.json"
    record.close()
    record = opened(head_files=[elsewhere])
    written(record, 2)
    record.close()
    shutil.copytree(folder, tmp_path / "old")
    record = opened(head_files=[elsewhere])
    written(record, 2)
    record.close()
    shutil.rmtree(folder)
    shutil.copytree(tmp_path / "old", folder)
    assert opened(head_files=[elsewhere]).read_only_because.anchor_seq == 4
    assert opened().read_only_because is None


def test_a_device_that_knows_more_makes_it_read_only(record):
    answers = written(record, 3)
    record.hold_against(answers[1], "tablet 2")
    with pytest.raises(ShorterThanAnchorError, match="tablet 2 knows entry 9"):
        record.hold_against(Acknowledgement("a" * 32, 9, "b" * 64), "tablet 2")
    with pytest.raises(ShorterThanAnchorError):
        record.append([reading()])


def test_a_device_with_another_history_makes_it_read_only(record):
    written(record, 3)
    with pytest.raises(ShorterThanAnchorError, match="entry 2 of the record is another one"):
        record.hold_against(Acknowledgement("a" * 32, 2, "b" * 64), "tablet 2")


def test_a_missing_head_file_is_made_anew(record, folder, opened):
    head = written(record, 2)[-1]
    record.close()
    (folder / "head.json").unlink()
    assert opened().heads_noted()[0][1] == head


def test_a_head_file_removed_while_it_is_used_is_made_anew(record, folder):
    written(record, 1)
    (folder / "head.json").unlink()
    head = written(record, 1)[-1]
    assert record.heads_noted()[0][1] == head


@pytest.mark.parametrize("content", [b"", b"\x00" * 256, b"{}", b"[1]", b"\xff\xfe", b'{"seq": "x"}'])
def test_a_head_file_that_holds_no_head_is_said_and_made_anew(record, folder, opened, content):
    head = written(record, 2)[-1]
    record.close()
    (folder / "head.json").write_bytes(content)
    again = opened()
    assert again.read_only_because is None
    assert again.heads_noted()[0][1] == head
    [trouble] = again.troubles
    assert "head.json: the head file" in trouble


def test_a_second_place_that_is_gone_hinders_nothing(tmp_path, opened):
    (tmp_path / "stick").write_text("a file where a folder should be")
    record = opened(head_files=[tmp_path / "stick" / "head.json"])
    assert record.append([new("note", text="t")])[0].seq == 1
    [trouble] = record.troubles
    assert "cannot be written" in trouble
    (tmp_path / "stick").unlink()
    head = record.append([new("note", text="t")])[0]
    assert record.troubles == []
    assert record.heads_noted()[1][1] == head
