"""The files of the record replaced, deleted or cut: no acknowledged entry goes where nobody finds it."""

from __future__ import annotations

import shutil

import pytest

from fitwright.records.errors import CannotWriteError
from fitwright.store.backup import back_up, restore
from fitwright.store.errors import ReplacedRecordError, StoreError
from fitwright.store.record import DATABASE
from fitwright.store.verify import verify
from tests.support.record import reading

RESTART = "stop fitwright, start it anew, then enter it again"


def test_a_folder_put_in_the_place_of_an_open_record_takes_no_entry(folder, opened, tmp_path):
    record = opened()
    record.append([reading(), reading()])
    back_up(record, tmp_path / "backup")
    folder.rename(tmp_path / "before")
    restore(tmp_path / "backup", folder)
    for _ in range(2):
        with pytest.raises(CannotWriteError, match="replaced") as caught:
            record.append([reading()])
        assert str(caught.value).endswith(RESTART)
        with pytest.raises(ReplacedRecordError):
            list(record.entries())
    record.close()
    again = opened()
    assert again.append([reading()])[0].seq == 3
    assert verify(again).sound


def test_a_deleted_folder_takes_no_entry(folder, opened):
    record = opened()
    record.append([reading()])
    shutil.rmtree(folder)
    with pytest.raises(CannotWriteError):
        record.append([reading()])


def test_what_stood_in_a_deleted_log_is_brought_into_the_database(folder, opened):
    record = opened()
    record.append([reading(), reading()])
    (folder / f"{DATABASE}-wal").unlink()
    with pytest.raises(CannotWriteError, match="log") as caught:
        record.append([reading()])
    assert str(caught.value).endswith(RESTART)
    with pytest.raises(CannotWriteError, match="log"):
        record.append([reading()])
    record.close()
    again = opened()
    assert again.read_only_because is None
    assert [entry.seq for entry in again.entries()] == [1, 2]
    assert again.append([reading()])[0].seq == 3
    assert verify(again).sound


@pytest.mark.parametrize("share", [0.02, 0.3, 0.6, 0.9, 0.99])
def test_a_database_cut_off_is_said_when_it_is_read(folder, opened, share):
    record = opened()
    record.append([reading() for _ in range(300)])
    record.close()
    whole = (folder / DATABASE).read_bytes()
    (folder / DATABASE).write_bytes(whole[: int(len(whole) * share)])
    with pytest.raises(StoreError, match="put back the newest backup"):
        list(opened().entries())
