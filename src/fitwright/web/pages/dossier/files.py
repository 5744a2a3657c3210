"""A dossier sent as a file, as soon as it is ready; until then a page that says so and asks again."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import ClassVar, Final

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response

from fitwright.dossier.asked import DEPTHS, PAPERS
from fitwright.dossier.making import Dossier
from fitwright.web.addresses import dossier_address
from fitwright.web.dossier_work import Making, Wanted
from fitwright.web.frame import Frame, frame_of
from fitwright.web.hands import Hands
from fitwright.web.numbers import whole_number
from fitwright.web.pages.dossier.papers import DEPTH_WORDS
from fitwright.web.pages.problem import problem_page
from fitwright.web.rendering import page
from fitwright.web.visit import visit_of

WAIT: Final = 0.8
"""So long [s] it is waited for before it is said that it is getting ready."""
AGAIN: Final = "1"
"""After so many seconds a browser asks again."""


@dataclass(frozen=True, slots=True)
class NoticeContext:
    """The page in place of a file: it is being made, or is not what it was."""

    template: ClassVar[str] = "dossier/notice.html"
    frame: Frame
    words: str
    anyway: str
    back: str


async def show(request: Request) -> Response:
    """Answer with the file, or with the page that says that it is getting ready."""
    _, hands, code, family = await visit_of(request)
    asked = request.query_params
    wanted = Wanted(
        build=code,
        depth=next((each for each in DEPTHS if each == asked.get("depth")), "owner"),
        paper=next((each for each in PAPERS if each == asked.get("paper")), "A4"),
        units=family,
        revision=whole_number(asked.get("revision", "")),
    )
    making = await run_in_threadpool(hands.dossiers.ask, hands.shop, wanted, wait=WAIT)
    return _answer(request, hands, wanted, making)


def _answer(request: Request, hands: Hands, wanted: Wanted, making: Making) -> Response:
    if making.state == "failed":
        return problem_page(request, making.wrong, "Go back to the page Dossier.", status=503)
    if making.dossier is None:
        words = (
            f"The dossier {DEPTH_WORDS[wanted.depth]}, {wanted.paper}, is being made. It comes by itself "
            "when it is ready; other pages go on meanwhile."
        )
        answer = page(_notice(hands, wanted, "Getting ready", words), status=202)
        answer.headers["refresh"] = AGAIN
        return answer
    if _differs(hands, wanted, making.dossier) and request.query_params.get("anyway") != "yes":
        words = (
            f"Revision {wanted.revision} made anew is not the one that was handed over: the program has "
            "become another one since, so that its data have another digest. The document is the file that "
            "was handed over; verify that one."
        )
        anyway = f"{request.url.path}?{request.url.query}&anyway=yes"
        return page(_notice(hands, wanted, "Not as it was handed over", words, anyway))
    return pdf_file(making.dossier)


def _differs(hands: Hands, wanted: Wanted, made: Dossier) -> bool:
    """Whether a revision made anew has other data than the one that was handed over."""
    if wanted.revision is None:
        return False
    found = hands.shop.bench(wanted.build).build.work.dossiers
    handed = [each.body.data_digest for each in found if each.body.revision == wanted.revision]
    return made.data_digest not in handed


def _notice(hands: Hands, wanted: Wanted, title: str, words: str, anyway: str = "") -> NoticeContext:
    return NoticeContext(
        frame=frame_of(
            hands,
            title,
            "Dossier",
            build=wanted.build,
            family=wanted.units,
            help_page="dossier",
            live=False,
        ),
        words=words,
        anyway=anyway,
        back=dossier_address(wanted.build, wanted.units),
    )


def pdf_file(dossier: Dossier) -> Response:
    """The file, to be kept and not shown inside a page; its name is plain."""
    name = re.sub(r"[^A-Za-z0-9_.-]+", "-", dossier.file_name).strip("-.") or "dossier.pdf"
    headers = {"content-disposition": f'attachment; filename="{name}"', "cache-control": "no-store"}
    return Response(dossier.pdf, media_type="application/pdf", headers=headers)
