"""Verify a dossier: a file, of this shop or another, held against the record that it was made from."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import PurePath
from typing import ClassVar, Final

from anyio import CapacityLimiter, to_thread
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import BaseRoute, Route

from fitwright.dossier.errors import DossierError
from fitwright.dossier.verify import DossierVerification, Finding
from fitwright.web.frame import Frame, frame_of
from fitwright.web.hands import Hands, hands_of
from fitwright.web.rendering import page
from fitwright.web.security import LARGEST_AT
from fitwright.web.writing import KEPT, OLD_PAGE, REFUSED, STALE, Sent, UnclearFormError, capital, sent

MAGIC: Final = b"%PDF-"
"""What a PDF begins with; some programs put a few bytes before it."""
LOOKED_THROUGH: Final = 1024
ONE_AT_A_TIME: Final = CapacityLimiter(1)
"""A file can be made so that it takes long; then others that are sent wait, and the bench does not."""


@dataclass(frozen=True, slots=True)
class FindingLine:
    """Something that does not agree, and where: an entry, a page."""

    where: str
    what: str


@dataclass(frozen=True, slots=True)
class Verified:
    """What came of it: the answer in a sentence, what does not agree, and what else is to be said."""

    state: str
    title: str
    findings: tuple[FindingLine, ...]
    sentences: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class VerifyContext:
    """The page that verifies a dossier."""

    template: ClassVar[str] = "verify.html"
    frame: Frame
    token: str
    largest: str
    verified: Verified | None


async def show(request: Request) -> Response:
    """Answer with the page."""
    return page(_context(hands_of(request), None))


async def take(request: Request) -> Response:
    """Verify the file that was sent; nothing of it is kept."""
    hands, form = hands_of(request), await sent(request, most_files=1)
    verified, status = await to_thread.run_sync(_verified, hands, form, limiter=ONE_AT_A_TIME)
    return page(_context(hands, verified), status=status)


def _verified(hands: Hands, form: Sent) -> tuple[Verified, int]:
    if not hands.token.matches(form.get("token")):
        return _refused(OLD_PAGE), STALE
    try:
        content = _pdf_in(form)
        found = hands.shop.verify_dossier(content, name=_name(form))
    except (DossierError, UnclearFormError) as error:
        return _refused(capital(str(error))), REFUSED
    return _told(found), KEPT


def _pdf_in(form: Sent) -> bytes:
    content = form.files.get("file", b"")
    if not content:
        raise UnclearFormError("No file was sent", "choose the PDF file of a dossier")
    if MAGIC not in content[:LOOKED_THROUGH]:
        raise UnclearFormError(f"The file {_name(form)} is no PDF", "choose the PDF file of a dossier")
    return content


def _name(form: Sent) -> str:
    return PurePath(form.names.get("file", "").replace("\\", "/")).name[:120] or "the file"


def _refused(words: str) -> Verified:
    return Verified("refused", words, (), ())


def _told(found: DossierVerification) -> Verified:
    first, *rest = found.told
    said = {str(each) for each in found.findings}
    return Verified(
        state="kept" if found.sound else "refused",
        title=first,
        findings=tuple(FindingLine(_where(each), str(each)) for each in found.findings),
        sentences=tuple(each for each in rest if each not in said),
    )


def _where(finding: Finding) -> str:
    places = (
        f"entry {finding.seq}" if finding.seq is not None else "",
        f"page {finding.page}" if finding.page is not None else "",
    )
    return ", ".join(each for each in places if each) or "the whole"


def _context(hands: Hands, verified: Verified | None) -> VerifyContext:
    return VerifyContext(
        frame=frame_of(
            hands, "Verify a dossier", "Verify", help_page="verify", live=False, styles=("new.css",)
        ),
        token=hands.token.value,
        largest=f"{LARGEST_AT['verify'] // 10**6} MB",
        verified=verified,
    )


ROUTES: list[BaseRoute] = [
    Route("/verify", show, name="verify"),
    Route("/verify", take, methods=["POST"]),
]
