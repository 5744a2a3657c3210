"""A page with the form open that its address asks for."""

from __future__ import annotations

from collections.abc import Awaitable, Callable

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response

from fitwright.web.entering.asked import asking_of
from fitwright.web.entering.controls import Asking
from fitwright.web.entering.effects import NO_EFFECTS
from fitwright.web.entering.entry_form import EntryForm, form_of
from fitwright.web.entering.kinds import Forms
from fitwright.web.entering.supposing import supposed
from fitwright.web.people import people_to_choose, person_at
from fitwright.web.rendering import page
from fitwright.web.visit import Visit, visit_of

Endpoint = Callable[[Request], Awaitable[Response]]
"""Answers a request at a route."""


def showing(forms: Forms) -> Endpoint:
    """Answers with the whole page of some forms, all of it as it stands at one moment."""

    async def show(request: Request) -> Response:
        return await run_in_threadpool(_shown, await visit_of(request), forms)

    return show


def _shown(visit: Visit, forms: Forms) -> Response:
    with visit.hands.shop.held():
        form = opened(visit, forms, asking_of(visit, forms.asked(visit)))
        return page(forms.whole(visit, None, form))


def opened(visit: Visit, forms: Forms, asking: Asking) -> EntryForm | None:
    """The form that an address opens; inside `held`."""
    kind = forms.kinds.get(asking.get("do"))
    if kind is None:
        return None
    ready = kind.first is None or kind.is_ready(asking)
    effects = supposed(visit.hands, kind, asking) if ready else NO_EFFECTS
    shop = asking.bench.shop
    people = people_to_choose(shop, person_at(visit.request, shop))
    return form_of(visit.hands, forms.at(visit), kind, asking, people, effects=effects)
