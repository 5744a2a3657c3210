"""A dossier handed over: made as the next revision, and entered in the record."""

from __future__ import annotations

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response

from fitwright.dossier.asked import DEPTHS, PAPERS
from fitwright.dossier.errors import DossierError
from fitwright.dossier.making import Dossier
from fitwright.records.errors import CannotWriteError, RecordError
from fitwright.records.ids import is_entry_id
from fitwright.web.addresses import dossier_address
from fitwright.web.entering.effects import NO_EFFECTS
from fitwright.web.entering.entry_form import Said
from fitwright.web.entering.sending import filled, shown
from fitwright.web.pages.dossier.revisions import HAND_OVER
from fitwright.web.pages.dossier.show import OF_DOSSIER
from fitwright.web.people import person_in, remember_person
from fitwright.web.visit import Visit, visit_of
from fitwright.web.writing import (
    KEPT,
    NOT_KEPT,
    OLD_PAGE,
    REFUSED,
    STALE,
    Refused,
    Sent,
    UnclearFormError,
    capital,
    sent,
)


async def take(request: Request) -> Response:
    """Hand a dossier over."""
    visit = await visit_of(request)
    return await run_in_threadpool(_taken, visit, await sent(request))


def _taken(visit: Visit, form: Sent) -> Response:
    came = _handed(visit, form)
    if isinstance(came, Refused):
        said = Said("refused", "Not handed over", came.words, NO_EFFECTS, None, "", "", "")
        again = filled(visit, OF_DOSSIER, HAND_OVER, form)
        return shown(visit, OF_DOSSIER, said, again, status=came.status)
    address = dossier_address(
        visit.code,
        visit.family,
        "/file",
        depth=came.asked.depth,
        paper=came.asked.paper,
        revision=str(came.revision),
    )
    said = Said(
        state="kept",
        title=f"Handed over as revision {came.revision}.",
        words=f"It shows the record up to entry {came.head.seq}; digest of its data {came.data_digest}.",
        effects=NO_EFFECTS,
        undo=None,
        again=address,
        again_label=f"Download it, {came.pages} pages",
        close=dossier_address(visit.code, visit.family),
    )
    answer = shown(visit, OF_DOSSIER, said, None, status=KEPT)
    remember_person(answer, form.get("person") or None)
    return answer


def _handed(visit: Visit, form: Sent) -> Dossier | Refused:
    if not visit.hands.token.matches(form.get("token")):
        return Refused(STALE, OLD_PAGE)
    try:
        return _hand_over(visit, form)
    except CannotWriteError as error:
        return Refused(NOT_KEPT, capital(str(error)))
    except (DossierError, RecordError, UnclearFormError) as error:
        return Refused(REFUSED, capital(str(error)))


def _hand_over(visit: Visit, form: Sent) -> Dossier:
    _, hands, code, family = visit
    if not is_entry_id(form.get("entry_id")):
        raise UnclearFormError("The form has lost its number", "open it anew and fill it in again")
    depth = next((each for each in DEPTHS if each == form.get("depth")), None)
    paper = next((each for each in PAPERS if each == form.get("paper")), None)
    if depth is None or paper is None:
        raise UnclearFormError("Depth or paper is not chosen", "choose both")
    person = person_in(form, hands.shop.state)
    if person is None:
        raise UnclearFormError("Nobody is picked", "say who hands it over")
    return hands.shop.hand_over(
        code, depth, paper, units=family, person=person, entry_id=form.get("entry_id")
    )
