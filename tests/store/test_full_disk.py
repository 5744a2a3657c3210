"""A disk so full that no file can be made beside the database: the record is read all the same."""

from __future__ import annotations

import pytest

from fitwright.records.errors import CannotWriteError
from fitwright.store.backup import MANIFEST, back_up
from fitwright.store.errors import BackupError
from fitwright.store.verify import verify
from tests.support.little_room import files_up_to
from tests.support.record import reading

NO_ROOM = 8192


def test_a_record_on_a_full_disk_is_read_and_says_why_it_cannot_be_written(opened):
    record = opened()
    record.append([reading()])
    record.close()
    with files_up_to(NO_ROOM):
        again = opened()
        assert [entry.seq for entry in again.entries()] == [1]
        assert verify(again).sound
        with pytest.raises(CannotWriteError) as caught:
            again.append([reading()])
        assert str(caught.value) == "not stored: the disk is full; free some space, then enter it again"
    other = opened()
    other.append([reading()])
    assert [entry.seq for entry in again.entries()] == [1, 2]
    assert again.append([reading()])[0].seq == 3


def test_a_backup_that_the_disk_refuses_is_said(record, tmp_path):
    record.append([reading()])
    with files_up_to(NO_ROOM), pytest.raises(BackupError, match="the backup could not be written"):
        back_up(record, tmp_path / "backup")
    assert not (tmp_path / "backup" / MANIFEST).exists()
