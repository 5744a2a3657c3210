"""The forms of this page sent: asked what they would do, or written."""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import Response

from fitwright.web.entering.sending import looked_at, taken
from fitwright.web.pages.parts.show import OF_PARTS


async def take(request: Request) -> Response:
    """Take a form of this page."""
    return await taken(request, OF_PARTS, request.path_params["do"])


async def take_photo(request: Request) -> Response:
    """Take a photo; its address may bring a large file."""
    return await taken(request, OF_PARTS, "photo")


async def look(request: Request) -> Response:
    """What a form would un-prove as it is filled in now."""
    return await looked_at(request, OF_PARTS, request.path_params["do"])
