"""Verification finds what was changed behind the record's back, at exactly that entry."""

from __future__ import annotations

from datetime import timedelta

import pytest

from fitwright.records.canonical import canonical_text
from fitwright.records.entry import Acknowledgement
from fitwright.store.errors import DamagedEntryError, UnreadableRecordError
from fitwright.store.verify import verify
from tests.support.pictures import picture
from tests.support.record import new, reading
from tests.support.tampering import flip, tamper

MILLIMETRE = 1e-3


def parse(words, unit):
    assert unit == "mm"
    return float(words.replace(",", ".")) * MILLIMETRE


@pytest.fixture
def filled(record):
    """A record with a bit of everything; closed by the test that tampers with it."""
    sheet = record.keep_sheet("x = 1")
    photo = record.keep_photo(picture(), "image/png")
    record.append(
        [
            new("build started", code="b1", title="t", sheet=sheet),
            *(reading(si=0.0559 + step * MILLIMETRE / 100) for step in range(6)),
            reading(page_photo=photo),
            new("photo", digest=photo, media_type="image/png"),
        ]
    )
    return record


def test_a_sound_record_is_sound_and_says_how_much_was_looked_at(filled):
    found = verify(filled, reparse=parse)
    assert found.sound
    assert found.first is None
    assert (found.chain.entries, found.anchors_checked) == (9, 1)
    assert (found.typed_checked, found.sheets_checked, found.photos_checked) == (7, 1, 1)


TAMPERED = {
    "body": "replace(body, 'front 0', 'front 1')",
    "person": "'apprentice'",
    "device": "'tablet'",
    "build": "NULL",
    "kind_version": "2",
    "committed_at": "'2031-05-04T09:30:00.004000Z '",
    "client_time": "'2031'",
    "id": "'ffffffffffffffffffffffffffffffff'",
    "hash": "replace(hash, substr(hash, 1, 1), CASE substr(hash, 1, 1) WHEN 'a' THEN 'b' ELSE 'a' END)",
    "previous_hash": "'1111111111111111111111111111111111111111111111111111111111111111'",
}


@pytest.mark.parametrize("column", TAMPERED)
@pytest.mark.parametrize("seq", [2, 5])
def test_a_changed_value_is_found_at_exactly_that_entry(filled, folder, opened, column, seq):
    filled.close()
    tamper(folder, f"UPDATE entries SET {column} = {TAMPERED[column]} WHERE seq = {seq}")
    found = verify(opened(), reparse=parse)
    assert {fault.seq for fault in found.all_faults} == {seq}
    assert "changed" in found.chain.first.what


@pytest.mark.parametrize("at", [0, 1, 40, 200, -1])
@pytest.mark.parametrize("byte", [b"~", b"\xff", b"\x00"])
def test_one_byte_changed_on_the_disk_is_found_at_exactly_that_entry(filled, folder, opened, at, byte):
    body = canonical_text(filled.entry(list(filled.entries())[4].id).body).encode()
    filled.close()
    flip(folder, body, at % len(body), byte)
    found = verify(opened(), reparse=parse)
    assert {fault.seq for fault in found.all_faults} == {5}


def test_a_body_that_cannot_be_read_is_said_when_it_is_read(filled, folder, opened):
    filled.close()
    tamper(folder, "UPDATE entries SET body = '[' WHERE seq = 4")
    record = opened()
    with pytest.raises(DamagedEntryError, match=r"entry 4 .* is damaged"):
        list(record.entries())
    assert [fault.seq for fault in verify(record).faults] == [4]


def test_an_entry_cut_out_of_the_middle_is_found(filled, folder, opened):
    filled.close()
    tamper(folder, "DELETE FROM entries WHERE seq = 5")
    found = verify(opened())
    assert [fault.seq for fault in found.chain.faults] == [6]
    assert "1 entry is missing before it" in found.first.what


def test_a_changed_or_missing_sheet_is_found_at_the_entry_that_names_it(filled, folder, opened):
    filled.close()
    tamper(folder, "UPDATE sheet_texts SET text = 'x = 2'")
    assert [fault.seq for fault in verify(opened()).faults] == [1]
    tamper(folder, "DELETE FROM sheet_texts")
    [fault] = verify(opened()).faults
    assert "no sheet" in fault.what


def test_a_changed_or_missing_photo_is_found_at_every_entry_that_names_it(filled, folder):
    [photo] = (folder / "photos").glob("??/*")
    photo.write_bytes(photo.read_bytes()[:-1])
    assert [fault.seq for fault in verify(filled).faults] == [8, 9]
    photo.unlink()
    assert "no photo" in verify(filled).first.what


def test_an_amount_that_parses_otherwise_today_is_found(record):
    record.append([reading(si=0.0559), reading(si=0.056)])
    wrong = verify(record, reparse=lambda words, unit: parse(words, unit) * (1.0 + 1e-9))
    assert [fault.seq for fault in wrong.faults] == [1, 2]
    assert "parses to" in wrong.first.what


def test_an_amount_that_cannot_be_parsed_any_more_is_found(record):
    record.append([reading()])

    def refuse(words, unit):
        message = f"{unit} is no unit"
        raise ValueError(message)

    assert "cannot be parsed any more (mm is no unit)" in verify(record, reparse=refuse).first.what


def test_other_anchors_are_held_against_the_history(filled):
    head = filled.head()
    assert verify(filled, anchors={"dossier 3": head}).sound
    found = verify(filled, anchors={"dossier 3": Acknowledgement(head.id, head.seq, "0" * 64)})
    assert "dossier 3 knows entry 9, but entry 9 of the record is another one" in found.anchors[0]


def test_a_clock_that_went_back_is_noted_and_is_no_fault(record, clock):
    record.append([reading()])
    clock.now -= timedelta(hours=2)
    record.append([reading()])
    found = verify(record)
    assert found.sound
    [step] = found.clock_steps
    assert step.seq == 2
    assert step.seconds == pytest.approx(7199.999, abs=1e-6)


def test_a_page_of_zeros_is_found(filled, folder, opened):
    filled.append([new("note", text="x" * 3000) for _ in range(50)])
    filled.close()
    database = folder / "record.db"
    content = bytearray(database.read_bytes())
    for page in range(10, 14):
        content[page * 4096 : (page + 1) * 4096] = bytes(4096)
    database.write_bytes(content)
    try:
        found = verify(opened())
    except UnreadableRecordError as error:
        assert "damaged" in str(error)  # noqa: PT017 - both are right: refused, or found
    else:
        assert not found.sound
        assert found.database


def test_a_damaged_header_is_refused_in_one_sentence(filled, folder, opened):
    filled.close()
    database = folder / "record.db"
    database.write_bytes(b"\x00" * 100 + database.read_bytes()[100:])
    with pytest.raises(UnreadableRecordError, match="damaged: it is no database; keep the file as it is"):
        opened()
