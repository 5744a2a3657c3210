"""Photos as they are printed: as they are kept where they are small, else as smaller copies."""

from __future__ import annotations

import hashlib
import io
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from fitwright.records.errors import RecordError

if TYPE_CHECKING:
    from PIL import Image

LARGEST_KEPT: Final = 700_000
"""A JPEG of so many bytes goes in as it is kept, so that its digest in the record proves it."""
LONGEST_EDGE: Final = 1400
"""A copy has so many pixels along its longer edge: some 300 to the inch as printed."""
QUALITY: Final = 80
_JPEG: Final = b"\xff\xd8\xff"


@dataclass(frozen=True, slots=True)
class Printed:
    """Pictures by the digest that the record names them with; `shown` are the digests of what is printed."""

    pictures: Mapping[str, bytes]

    @property
    def shown(self) -> dict[str, str]:
        """Digest in the record -> digest of the picture as printed; the same where it is printed as kept."""
        return {name: hashlib.sha256(each).hexdigest() for name, each in self.pictures.items()}


def printed(digests: Iterable[str], fetch: Callable[[str], bytes]) -> Printed:
    """The pictures to print; one that is not kept any more is left out, and the page says so."""
    found: dict[str, bytes] = {}
    for digest in dict.fromkeys(digests):
        try:
            picture = as_printed(fetch(digest))
        except RecordError:
            continue
        if picture is not None:
            found[digest] = picture
    return Printed(found)


def as_printed(kept: bytes) -> bytes | None:
    """A picture as it is printed, the same picture as the same bytes; None where it is no whole picture."""
    if kept.startswith(_JPEG) and len(kept) <= LARGEST_KEPT:
        return kept
    from PIL import Image

    try:
        with Image.open(io.BytesIO(kept), formats=["JPEG", "PNG", "WEBP"]) as picture:
            picture.draft("RGB", (LONGEST_EDGE, LONGEST_EDGE))
            picture.thumbnail((LONGEST_EDGE, LONGEST_EDGE), Image.Resampling.BOX, reducing_gap=2.0)
            plain = _on_white(picture)
    except (OSError, ValueError, SyntaxError, Image.DecompressionBombError):
        return None
    out = io.BytesIO()
    plain.save(out, "JPEG", quality=QUALITY)
    return out.getvalue()


def _on_white(picture: Image.Image) -> Image.Image:
    from PIL import Image

    if picture.mode not in ("RGBA", "LA", "PA"):
        return picture.convert("RGB")
    whole = picture.convert("RGBA")
    ground = Image.new("RGBA", whole.size, "white")
    return Image.alpha_composite(ground, whole).convert("RGB")
