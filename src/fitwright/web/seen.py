"""Up to which entry a browser has seen each build: a cookie, renewed by every page of a build."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Mapping
from typing import Final
from urllib.parse import unquote

from starlette.datastructures import MutableHeaders
from starlette.requests import Request
from starlette.types import ASGIApp, Message, Receive, Scope, Send

COOKIE: Final = "seen"
MOST: Final = 150
"""So many builds are remembered, those seen last: a cookie has 4 kB."""
KEPT_FOR: Final = 400 * 24 * 3600
_OF_BUILD: Final = re.compile(r"/builds/([^/]+)(?:/(.*))?")
_NOT_SEEN: Final = frozenset({"line", "sheet.toml"})
"""What follows a build's address where nobody has looked at anything."""
_PAIR: Final = re.compile(r"([0-9a-f]{8})\.(\d{1,12})")


def seen_by(request: Request) -> Mapping[str, int]:
    """Up to which entry the browser has seen builds, by the mark of their code."""
    return {found[1]: int(found[2]) for found in _PAIR.finditer(request.cookies.get(COOKIE, ""))}


def mark_of(code: str) -> str:
    """What stands for a build in the cookie: codes may be long, and may hold anything."""
    return hashlib.sha256(code.encode()).hexdigest()[:8]


class Seen:
    """Middleware: notes in the cookie which build a page was of, and what was written until then."""

    def __init__(self, app: ASGIApp) -> None:
        self.app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass on; add the cookie to a page of a build."""
        found = _OF_BUILD.fullmatch(scope["path"]) if scope["type"] == "http" else None
        if found is None or found[2] in _NOT_SEEN:
            await self.app(scope, receive, send)
            return
        code = unquote(found[1])

        async def noting(message: Message) -> None:
            if message["type"] == "http.response.start" and message["status"] == 200:
                headers = MutableHeaders(scope=message)
                if headers.get("content-type", "").startswith("text/html"):
                    _note(Request(scope), headers, code)
            await send(message)

        await self.app(scope, receive, noting)


def _note(request: Request, headers: MutableHeaders, code: str) -> None:
    shop = request.app.state.hands.shop
    if code not in shop.builds():
        return
    known = {mark: seq for mark, seq in seen_by(request).items() if mark != mark_of(code)}
    pairs = [*known.items(), (mark_of(code), shop.position)][-MOST:]
    value = "_".join(f"{mark}.{seq}" for mark, seq in pairs)
    headers.append("set-cookie", f"{COOKIE}={value}; Max-Age={KEPT_FOR}; Path=/; HttpOnly; SameSite=lax")
