"""The forms of the page sent: a pressure that was read, the oil that the build is filled with."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response

from fitwright.model.slips import Question
from fitwright.records.entry import NewEntry
from fitwright.web.hands import Hands, family_of, hands_of, is_known
from fitwright.web.pages.oil.entering import EMPTY, FormState, oil_entries, reading_entries
from fitwright.web.pages.oil.show import Said, oil_page
from fitwright.web.pages.problem import no_build
from fitwright.web.people import remember_person
from fitwright.web.writing import NOT_KEPT, Came, Kept, Refused, Sent, sent, written

READING, FILLED = "The reading", "The oil"


async def take_reading(request: Request) -> Response:
    """Take a pressure that was read."""
    hands, code = hands_of(request), request.path_params["build"]
    if not await is_known(hands, code):
        return no_build(request, code)
    form, family = await sent(request), family_of(request, code)
    return await _answered(
        request, hands, code, form, READING, lambda: reading_entries(hands, code, family, form)
    )


async def take_oil(request: Request) -> Response:
    """Take the oil that the build is filled with."""
    hands, code = hands_of(request), request.path_params["build"]
    if not await is_known(hands, code):
        return no_build(request, code)
    form = await sent(request)
    return await _answered(request, hands, code, form, FILLED, lambda: oil_entries(hands, code, form))


async def _answered(
    request: Request,
    hands: Hands,
    code: str,
    form: Sent,
    what: str,
    make: Callable[[], Sequence[NewEntry] | Question],
) -> Response:
    came = await run_in_threadpool(written, hands, form, make)
    answer = await run_in_threadpool(_page, request, hands, code, form, what, came)
    remember_person(answer, form.get("person") if isinstance(came, Kept) else None)
    return answer


def _page(request: Request, hands: Hands, code: str, form: Sent, what: str, came: Came) -> Response:
    state = _state(form, came)
    return oil_page(
        request,
        hands,
        code,
        family_of(request, code),
        outcome=_said(what, came),
        reading=state if what == READING else EMPTY,
        filled=state if what == FILLED else EMPTY,
        status=came.status if isinstance(came, (Kept, Refused)) else 200,
    )


def _state(form: Sent, came: Came) -> FormState:
    """What stands in the form again: nothing after it was kept."""
    if isinstance(came, Kept):
        return EMPTY
    fields = dict(form.fields)
    if isinstance(came, Refused) and came.reused:
        fields.pop("entry_id", None)
    return FormState(fields, came if isinstance(came, Question) else None)


def _said(what: str, came: Came) -> Said:
    if isinstance(came, Kept):
        return Said("kept", f"{what} is kept.", came.words)
    if isinstance(came, Question):
        return Said("question", "A question first.", "It stands in the form; what you typed is there.")
    return Said("refused", "Not kept." if came.status == NOT_KEPT else "Not taken.", came.words)
