"""Who may ask, and what a page may load: host check, origin and token on every write, strict policy, size."""

from __future__ import annotations

import hmac
import re
import secrets
from urllib.parse import urlsplit

from starlette.datastructures import Headers, MutableHeaders
from starlette.exceptions import HTTPException
from starlette.responses import PlainTextResponse
from starlette.types import ASGIApp, Message, Receive, Scope, Send

LOOPBACK = frozenset({"127.0.0.1", "localhost", "[::1]"})
POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; font-src 'self'; "
    "connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
)
LARGEST_FORM = 64 * 1024
"""Bytes that a form may have."""
LARGEST_AT = {"photos": 26_000_000, "sheet": 2_000_000, "import": 40_000_000, "verify": 64_000_000}
"""Where the last word of an address is one of these, a form may be larger: it brings a file or a sheet."""
HEADERS = {
    "content-security-policy": POLICY,
    "x-content-type-options": "nosniff",
    "referrer-policy": "same-origin",
    "cross-origin-opener-policy": "same-origin",
}
_HOST = re.compile(r"(\[[0-9a-f:.]+\]|[^\[\]:@/]+)(?::\d{1,5})?")
_SAFE = frozenset({"GET", "HEAD", "OPTIONS"})


def largest_at(path: str) -> int:
    """How many bytes a form may have that is sent to an address."""
    return LARGEST_AT.get(path.rpartition("/")[2], LARGEST_FORM)


class Token:
    """A secret of this server's run: every form carries it, and no other site knows it."""

    def __init__(self) -> None:
        self.value = secrets.token_urlsafe(24)

    def matches(self, given: str) -> bool:
        """Whether a form carries the token."""
        return hmac.compare_digest(given.encode(), self.value.encode())


class Guard:
    """Middleware: refuses foreign hosts and origins and large forms; sets every answer's headers."""

    def __init__(self, app: ASGIApp, *, hosts: frozenset[str] = LOOPBACK) -> None:
        self.app, self.hosts = app, hosts

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Check, then pass on."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        refusal = self._refusal(scope)
        if refusal is not None:
            await refusal(scope, receive, _with_headers(send))
            return
        await self.app(scope, _limited(receive, largest_at(scope["path"])), _with_headers(send))

    def _refusal(self, scope: Scope) -> PlainTextResponse | None:
        headers = Headers(scope=scope)
        host = headers.get("host", "")
        if _name_of(host) not in self.hosts:
            return PlainTextResponse(
                f"This bench answers only to this machine's own name, not to {host[:80]!r}. "
                "Open it as http://127.0.0.1 with the port that `fitwright serve` printed.",
                status_code=421,
            )
        origin = headers.get("origin")
        if scope["method"] not in _SAFE and origin is not None and not _is_from(origin, host):
            return PlainTextResponse("This entry came from another site and was not taken.", status_code=403)
        return None


def _name_of(host: str) -> str:
    """The name in a host header, whatever its case; nothing where it is none."""
    found = _HOST.fullmatch(host.lower())
    return found[1] if found is not None else ""


def _is_from(origin: str, host: str) -> bool:
    try:
        return urlsplit(origin).netloc == host
    except ValueError:  # no address at all
        return False


def _limited(receive: Receive, largest: int) -> Receive:
    """The request, as long as it is no larger than may be; counted, whatever it says of itself."""
    received = 0

    async def wrapped() -> Message:
        nonlocal received
        message = await receive()
        received += len(message.get("body", b""))
        if received > largest:
            raise HTTPException(413)
        return message

    return wrapped


def _with_headers(send: Send) -> Send:
    async def wrapped(message: Message) -> None:
        if message["type"] == "http.response.start":
            headers = MutableHeaders(scope=message)
            for name, value in HEADERS.items():
                headers[name] = value
        await send(message)

    return wrapped
