"""Small pictures for tests."""

from __future__ import annotations

import io
from typing import Any

from PIL import Image


def picture(picture_format: str = "PNG", size: tuple[int, int] = (8, 4), **options: Any) -> bytes:
    """A picture whose left half is dark and whose right half is light."""
    image = Image.new("RGB", size, (240, 240, 240))
    image.paste((20, 20, 20), (0, 0, size[0] // 2, size[1]))
    out = io.BytesIO()
    image.save(out, picture_format, **options)
    return out.getvalue()
