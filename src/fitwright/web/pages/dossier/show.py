"""The page Dossier: the document as it stands, signing, handing over, files to take away."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar, Final

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response

from fitwright.dossier.asked import DEPTHS, Depth
from fitwright.units.families import Family
from fitwright.web.addresses import dossier_address, enter_dossier_address, record_address
from fitwright.web.dossier_work import Wanted
from fitwright.web.entering.asked import asking_of, from_address
from fitwright.web.entering.entry_form import EntryForm, Said
from fitwright.web.entering.kinds import FormKind, Forms
from fitwright.web.entering.offers import OfferRow, offered
from fitwright.web.entering.opening import opened
from fitwright.web.frame import Frame, frame_of
from fitwright.web.hands import Hands
from fitwright.web.pages.choices import UNIT_LABELS, Choice
from fitwright.web.pages.dossier.document import DocumentShown, document_shown
from fitwright.web.pages.dossier.papers import DEPTH_WORDS, PaperLine, paper_lines
from fitwright.web.pages.dossier.revisions import HAND_OVER, HandedLine, handed_lines
from fitwright.web.pages.dossier.signing import SIGN, SignatureLine, signature_lines
from fitwright.web.pages.parts.of_decisions import BACK
from fitwright.web.rendering import page
from fitwright.web.visit import Visit, visit_of

WAIT: Final = 0.4
"""So long [s] the page waits for its document; then it says that it is getting ready."""
OFFERED: Final[dict[str, tuple[FormKind, ...]]] = {"Sign and hand over": (SIGN, HAND_OVER)}
FORMS: Final[dict[str, FormKind]] = {each.name: each for each in (SIGN, HAND_OVER, BACK)}


@dataclass(frozen=True, slots=True)
class DossierContext:
    """The page Dossier; `document` is None while it is getting ready."""

    template: ClassVar[str] = "dossier/dossier.html"
    frame: Frame
    offered: tuple[OfferRow, ...]
    outcome: Said | None
    entry: EntryForm | None
    depths: tuple[Choice, ...]
    units: tuple[Choice, ...]
    document: DocumentShown | None
    wrong: str
    fresh: str
    head: str
    papers: tuple[PaperLine, ...]
    getting_ready: bool
    signatures: tuple[SignatureLine, ...]
    handed: tuple[HandedLine, ...]
    export: str


async def show(request: Request) -> Response:
    """Answer with the page Dossier."""
    return await run_in_threadpool(_shown, await visit_of(request))


def _shown(visit: Visit) -> Response:
    with visit.hands.shop.held():  # not any longer: the document is made meanwhile
        form = opened(visit, OF_DOSSIER, asking_of(visit, from_address(visit)))
    return page(dossier_page(visit, None, form))


def dossier_page(visit: Visit, said: Said | None, form: EntryForm | None) -> DossierContext:
    """The whole page, with a form open or what came of one; the document as far as it is ready."""
    _, hands, code, family = visit
    depth = _depth(visit.request)
    making = hands.dossiers.ask(hands.shop, Wanted(code, depth, None, family), wait=WAIT)
    with hands.shop.held():
        asking = asking_of(visit, from_address(visit))
        papers = paper_lines(hands, code, family)
        head = hands.shop.record.head()
        return DossierContext(
            frame=_frame(hands, code, family),
            offered=offered(asking, OF_DOSSIER, OFFERED, form),
            outcome=said,
            entry=form,
            depths=tuple(
                Choice(label, dossier_address(code, family, depth=each), each == depth)
                for each, label in DEPTH_WORDS.items()
            ),
            units=tuple(
                Choice(label, dossier_address(code, each, depth=depth), each == family)
                for each, label in UNIT_LABELS.items()
            ),
            document=document_shown(making.document) if making.document is not None else None,
            wrong=making.wrong,
            fresh=dossier_address(code, family, depth=depth),
            head=f"entry {head.seq}, {head.hash}" if head is not None else "",
            papers=papers,
            getting_ready=any(each.state == "getting ready" for each in papers),
            signatures=signature_lines(hands, code),
            handed=handed_lines(hands, code, family),
            export=record_address(code),
        )


def _depth(request: Request) -> Depth:
    asked = request.query_params.get("depth")
    return next((each for each in DEPTHS if each == asked), "owner")


def _frame(hands: Hands, code: str, family: Family) -> Frame:
    return frame_of(
        hands,
        "Dossier",
        "Dossier",
        build=code,
        family=family,
        help_page="dossier",
        styles=(
            "entering.css",
            "fit.css",
            "oil_pictures.css",
            "bolt_pattern.css",
            "photos.css",
            "dossier.css",
        ),
        scripts=("entering.js",),
    )


OF_DOSSIER: Final = Forms("Dossier", FORMS, dossier_address, enter_dossier_address, dossier_page)
"""The forms of this page."""
