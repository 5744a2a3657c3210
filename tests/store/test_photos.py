"""Photos: turned upright, stripped, bounded, durable before the answer, named by their digest."""

from __future__ import annotations

import hashlib
import io
import zlib

import pytest
from PIL import Image

from fitwright.records.errors import CannotWriteError, NotKeptError
from fitwright.store import files, photos
from fitwright.store.errors import PhotoError
from fitwright.store.photos import cleaned
from tests.support.pictures import picture

TYPES = {"PNG": "image/png", "JPEG": "image/jpeg", "WEBP": "image/webp"}


def shown(content):
    return Image.open(io.BytesIO(content))


@pytest.mark.parametrize("picture_format", TYPES)
def test_a_photo_is_kept_under_the_digest_of_what_is_kept(record, picture_format):
    content = picture(picture_format)
    digest = record.keep_photo(content, TYPES[picture_format])
    kept = record.photo(digest)
    assert hashlib.sha256(kept).hexdigest() == digest
    assert shown(kept).format == picture_format
    assert record.keep_photo(content, TYPES[picture_format]) == digest


@pytest.mark.parametrize("picture_format", TYPES)
def test_what_is_not_the_picture_is_taken_off_and_it_is_turned_upright(picture_format):
    exif = Image.Exif()
    exif[0x0112] = 6  # to be turned a quarter to the right
    exif[0x010E] = "where the shop is"
    content = picture(picture_format, (64, 32), exif=exif) + b"<script>hidden rest</script>"
    assert b"where the shop is" in content
    clean = cleaned(content, TYPES[picture_format])
    assert b"where the shop is" not in clean
    assert b"script" not in clean
    upright = shown(clean)
    assert upright.size == (32, 64)
    assert not upright.getexif()
    assert upright.getpixel((16, 5))[0] < 60
    assert upright.getpixel((16, 58))[0] > 200


def test_comments_and_profiles_are_taken_off():
    clean = cleaned(picture("JPEG", comment=b"the owner's telephone"), "image/jpeg")
    assert b"telephone" not in clean


def test_a_palette_with_transparency_stays_transparent():
    image = Image.new("P", (4, 4), 0)
    image.putpalette([10, 20, 30] * 256)
    out = io.BytesIO()
    image.save(out, "PNG", transparency=0)
    assert shown(cleaned(out.getvalue(), "image/png")).convert("RGBA").getpixel((0, 0))[3] == 0


@pytest.mark.parametrize(
    "content, media_type, sentence",
    [
        (picture("PNG"), "image/jpeg", "first bytes are not those of image/jpeg"),
        (picture("GIF"), "image/gif", "'image/gif' is not taken; send one of"),
        (b"<svg/>", "image/svg+xml", "is not taken"),
        (b"<html>", "image/png", "first bytes"),
        (picture("PNG")[:60], "image/png", "it is no whole picture; take or save it again"),
        (b"\xff\xd8\xff\xe0 nothing more", "image/jpeg", "it is no whole picture; take or save it again"),
        (b"", "image/png", "first bytes"),
    ],
)
def test_what_is_no_such_picture_is_refused(record, folder, content, media_type, sentence):
    with pytest.raises(PhotoError) as caught:
        record.keep_photo(content, media_type)
    assert sentence in str(caught.value)
    assert not (folder / "photos").exists()


def test_too_many_bytes_or_pixels_are_refused(monkeypatch):
    monkeypatch.setattr(photos, "MOST_PIXELS", 31)
    with pytest.raises(PhotoError, match="8 x 4 pixels are too many"):
        cleaned(picture("PNG"), "image/png")
    monkeypatch.setattr(photos, "LARGEST_FILE", 10)
    with pytest.raises(PhotoError, match="bytes are too many; send at most 10"):
        cleaned(picture("PNG"), "image/png")


def test_a_small_file_that_claims_a_huge_picture_is_refused_before_it_is_unpacked():
    small = picture("PNG")
    header = small[12:16] + (60_000).to_bytes(4, "big") * 2 + small[24:29]  # width, height, the rest
    content = small[:12] + header + zlib.crc32(header).to_bytes(4, "big") + small[33:]
    with pytest.raises(PhotoError, match="pixels"):
        cleaned(content, "image/png")


@pytest.mark.parametrize("digest", ["0" * 64, "../record.db", "", "A" * 64])
def test_only_digests_of_kept_photos_are_found(record, digest):
    with pytest.raises(NotKeptError):
        record.photo(digest)


def test_a_photo_is_synced_and_named_before_the_answer(record, monkeypatch):
    done = []
    real = files.os.fsync
    monkeypatch.setattr(files.os, "fsync", lambda handle: (done.append("sync"), real(handle)))
    digest = record.keep_photo(picture(), "image/png")
    assert done == ["sync", "sync"]  # the file, then its name in the folder
    assert record.photos.path(digest).exists()


def test_a_disk_that_refuses_is_said_and_nothing_half_written_stays(record, folder, monkeypatch):
    def refuse(handle):
        raise OSError(28, "No space left on device", "photo")

    monkeypatch.setattr(files.os, "fsync", refuse)
    with pytest.raises(CannotWriteError, match="No space left"):
        record.keep_photo(picture(), "image/png")
    assert not [path for path in (folder / "photos").rglob("*") if path.is_file()]
    monkeypatch.undo()
    assert record.photo(record.keep_photo(picture(), "image/png"))
