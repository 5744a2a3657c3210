"""The forms of this page sent: asked what would follow, or written."""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import Response

from fitwright.web.entering.sending import looked_at, taken
from fitwright.web.pages.dossier.show import OF_DOSSIER


async def take(request: Request) -> Response:
    """Take a form of this page."""
    return await taken(request, OF_DOSSIER, request.path_params["do"])


async def look(request: Request) -> Response:
    """What would follow from a form as it is filled in now."""
    return await looked_at(request, OF_DOSSIER, request.path_params["do"])
