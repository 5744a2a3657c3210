"""Photos as files named by their digest: turned upright, stripped of everything but the picture."""

from __future__ import annotations

import hashlib
import io
import re
from pathlib import Path

from fitwright.records.errors import CannotWriteError, NotKeptError
from fitwright.store.dialect import cannot_write
from fitwright.store.errors import PhotoError
from fitwright.store.files import write_durably

FORMATS = {"image/jpeg": "JPEG", "image/png": "PNG", "image/webp": "WEBP"}
MAGIC = {
    "image/jpeg": re.compile(rb"\xff\xd8\xff"),
    "image/png": re.compile(rb"\x89PNG\r\n\x1a\n"),
    "image/webp": re.compile(rb"RIFF....WEBP", re.DOTALL),
}
LARGEST_FILE = 25_000_000
MOST_PIXELS = 60_000_000
JPEG_QUALITY = 88
_DIGEST = re.compile(r"[0-9a-f]{64}")


class Photos:
    """The photos of one record, in a folder of its own."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder

    def keep(self, content: bytes, media_type: str) -> str:
        """Clean a picture and keep it, durable before this returns; the digest is of what is kept."""
        return self.take_in(cleaned(content, media_type))

    def take_in(self, picture: bytes) -> str:
        """Keep a picture as it is, which was cleaned when it was first kept: an entry names its digest."""
        digest = hashlib.sha256(picture).hexdigest()
        path = self.path(digest)
        try:
            if not path.exists():
                write_durably(path, picture)
        except OSError as error:
            raise _refused(error) from error
        return digest

    def get(self, digest: str) -> bytes:
        """The picture with this digest, checked against it."""
        if not _DIGEST.fullmatch(digest):
            raise NotKeptError("photo", digest)
        try:
            picture = self.path(digest).read_bytes()
        except FileNotFoundError:
            raise NotKeptError("photo", digest) from None
        if hashlib.sha256(picture).hexdigest() != digest:
            raise NotKeptError("undamaged photo", digest)
        return picture

    def path(self, digest: str) -> Path:
        """Where a photo is kept."""
        return self.folder / digest[:2] / digest


def cleaned(content: bytes, media_type: str) -> bytes:
    """A picture written anew: upright by its EXIF, without EXIF, position, comments, hidden rest.

    Raises
    ------
    PhotoError
        If it is too large, of another type than stated, or no whole picture.
    """
    if len(content) > LARGEST_FILE:
        raise PhotoError(f"{len(content)} bytes are too many", f"send at most {LARGEST_FILE}")
    if media_type not in FORMATS:
        raise PhotoError(f"{media_type!r} is not taken", f"send one of {', '.join(FORMATS)}")
    if not MAGIC[media_type].match(content):
        raise PhotoError(f"its first bytes are not those of {media_type}", "save it again as JPEG or PNG")
    return _written_anew(content, FORMATS[media_type])


def _written_anew(content: bytes, picture_format: str) -> bytes:
    from PIL import Image, ImageOps

    try:
        with Image.open(io.BytesIO(content), formats=[picture_format]) as picture:
            if picture.width * picture.height > MOST_PIXELS:
                raise _too_large(picture.width, picture.height)
            upright = ImageOps.exif_transpose(picture)
    except (Image.DecompressionBombError, Image.DecompressionBombWarning):
        raise PhotoError(
            "it has too many pixels", f"send at most {MOST_PIXELS // 10**6} megapixels"
        ) from None
    except (
        OSError,
        ValueError,
        SyntaxError,
    ):  # what the decoders raise on damaged files, in words of their own
        raise PhotoError("it is no whole picture", "take or save it again") from None
    if upright.mode == "P":  # its transparency is kept among what is stripped
        upright = upright.convert("RGBA")
    upright.info.clear()
    out = io.BytesIO()
    upright.save(out, picture_format, quality=JPEG_QUALITY)
    return out.getvalue()


def _too_large(width: int, height: int) -> PhotoError:
    return PhotoError(
        f"{width} x {height} pixels are too many", f"send at most {MOST_PIXELS // 10**6} megapixels"
    )


def _refused(error: OSError) -> CannotWriteError:
    return cannot_write(error)
