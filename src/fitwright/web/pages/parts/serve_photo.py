"""A photo sent to whoever looks at a build: whole, or small for a list."""

from __future__ import annotations

import io
from functools import lru_cache
from typing import Final

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response

from fitwright.bench.photos import media_type_of
from fitwright.records.errors import NotKeptError
from fitwright.web.hands import Hands
from fitwright.web.pages.parts.pictures import digests_of
from fitwright.web.visit import NotThereError, visit_of

SMALL: Final = (480, 360)
"""Pixels within which a small picture lies."""
MOST_SMALL: Final = 256
"""So many small pictures are kept at hand."""
ENDINGS: Final = {"image/jpeg": "jpg", "image/png": "png", "image/webp": "webp"}


async def show(request: Request) -> Response:
    """Answer with a photo of a build."""
    _, hands, code, _ = await visit_of(request)
    digest, small = request.path_params["digest"], "small" in request.query_params
    content, media_type = await run_in_threadpool(_picture, hands, code, digest, small=small)
    headers = {
        "content-disposition": f'inline; filename="{digest[:12]}.{ENDINGS[media_type]}"',
        "cache-control": "private, max-age=31536000, immutable",
    }
    return Response(content, media_type=media_type, headers=headers)


def _picture(hands: Hands, code: str, digest: str, *, small: bool) -> tuple[bytes, str]:
    no_photo = NotThereError("No such photo in this build.", "Choose one from its list.")
    with hands.shop.held():
        if digest not in digests_of(hands.shop.bench(code)):
            raise no_photo
    try:
        content = hands.shop.photo(digest)
    except NotKeptError:
        raise no_photo from None
    media_type = media_type_of(content)
    return (_small(content), "image/jpeg") if small else (content, media_type)


@lru_cache(maxsize=MOST_SMALL)
def _small(content: bytes) -> bytes:
    from PIL import Image

    with Image.open(io.BytesIO(content), formats=["JPEG", "PNG", "WEBP"]) as picture:
        picture.draft("RGB", (2 * SMALL[0], 2 * SMALL[1]))
        picture.thumbnail(SMALL)
        shown = picture.convert("RGBA")
    paper = Image.new("RGBA", shown.size, "white")
    out = io.BytesIO()
    Image.alpha_composite(paper, shown).convert("RGB").save(out, "JPEG", quality=80)
    return out.getvalue()
