"""A sitting begun, or gone on in a new one that is like it but for one thing."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from fitwright.bench.sittings import begin_sitting, changed_sitting, sitting_from
from fitwright.records.entry import NewEntry
from fitwright.records.kinds import Sitting
from fitwright.web.hands import hands_of, is_known
from fitwright.web.pages.measure.here import Here, here_of, remember_device
from fitwright.web.pages.measure.place import address_of
from fitwright.web.pages.measure.show import measure_page
from fitwright.web.pages.problem import no_build, problem_page
from fitwright.web.people import remember_person
from fitwright.web.writing import Refused, Sent, sent, written


async def change(request: Request) -> Response:
    """Begin a sitting, or go on in a new one with what the form says changed."""
    hands, code = hands_of(request), request.path_params["build"]
    if not await is_known(hands, code):
        return no_build(request, code)
    form = await sent(request)
    here = await run_in_threadpool(here_of, request, hands, code, form.fields)
    if here is None:
        return problem_page(request, "No such station in this build.", "Choose a station.", status=404)
    made: list[Sitting] = []
    came = await run_in_threadpool(written, hands, form, lambda: _made(here, form, made))
    if isinstance(came, Refused):
        return await run_in_threadpool(measure_page, request, here, wrong=came.words, status=came.status)
    now = replace(here, sitting=made[-1].code)
    if "hx-request" in request.headers:
        answer: Response = await run_in_threadpool(measure_page, request, now)
    else:
        stop = now.stop
        address = address_of(now, stop, now.family) if stop is not None else request.url.path
        answer = RedirectResponse(address, status_code=303)
    remember_device(answer, now)
    remember_person(answer, now.person)
    return answer


def _made(here: Here, form: Sent, made: list[Sitting]) -> list[NewEntry]:
    bench, before = here.bench, here.held
    said = {name: form.get(name) for name in ("measured_by", "typed_by", "temperature") if form.get(name)}
    named = {
        "instruments": _named(form, "gauge:"),
        "settings": _named(form, "setting:"),
        "part_temperatures": _named(form, "part:", empty=before is not None),
    }
    lies = {name: form.get(name) for name in ("attitude", "crank") if name in form.fields}
    changes: dict[str, Any] = {**said, **named, **lies}
    sitting = sitting_from(bench, **changes) if before is None else changed_sitting(bench, before, **changes)
    already = bench.build.ledger.recorded.get(form.get("entry_id"))
    if already is not None and isinstance(already.body, Sitting):  # the same form again: the same code
        sitting = sitting.model_copy(update={"code": already.body.code})
    made.append(sitting)
    entry = begin_sitting(bench, sitting, entry_id=form.get("entry_id") or None)
    return [replace(entry, device=here.device)]


def _named(form: Sent, prefix: str, *, empty: bool = False) -> dict[str, str]:
    return {
        name.removeprefix(prefix): text
        for name, text in form.fields.items()
        if name.startswith(prefix) and (text or empty)
    }
