"""The page Measure at a station, whole or only its parts."""

from __future__ import annotations

import uuid
from dataclasses import dataclass
from typing import ClassVar

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import HTMLResponse, Response

from fitwright.web.frame import Frame, frame_of
from fitwright.web.hands import hands_of, is_known
from fitwright.web.pages.measure.asked import AskedPart
from fitwright.web.pages.measure.here import Here, here_of, remember_device
from fitwright.web.pages.measure.parts import NOTHING_SAID, MeasureParts, SaidPart, measure_parts
from fitwright.web.pages.problem import no_build, problem_page
from fitwright.web.rendering import page


@dataclass(frozen=True, slots=True)
class MeasureContext:
    """The page Measure; `whole` is false where only its parts replace those on screen."""

    template: ClassVar[str] = "measure/measure.html"
    frame: Frame
    whole: bool
    title: str
    caution: str | None
    action: str
    echo: str
    token: str
    entry_id: str
    build: str
    seq: int
    parts: MeasureParts


async def show(request: Request) -> Response:
    """Answer with the page Measure at a station."""
    hands, code = hands_of(request), request.path_params["build"]
    if not await is_known(hands, code):
        return no_build(request, code)
    here = await run_in_threadpool(here_of, request, hands, code, request.query_params)
    if here is None:
        station = request.path_params["station"]
        problem = f'This engine has no station "{station[:60]}".'
        return problem_page(request, problem, "Choose one of its stations.", status=404)
    answer = await run_in_threadpool(measure_page, request, here)
    remember_device(answer, here)
    return answer


def measure_page(
    request: Request,
    here: Here,
    *,
    said: SaidPart = NOTHING_SAID,
    asked: AskedPart | None = None,
    about: str = "",
    wrong: str = "",
    unit: str | None = None,
    status: int = 200,
) -> HTMLResponse:
    """The page at a place; to a page in use, only its parts."""
    hands = here.hands
    asked_unit = request.query_params.get("unit", "") if unit is None else unit
    with hands.shop.held():
        context = MeasureContext(
            frame=frame_of(
                hands,
                here.station.title,
                "Measure",
                build=here.code,
                family=here.family,
                help_page="measure",
                styles=("place.css", "measure.css"),
                scripts=("measure.js",),
            ),
            whole="hx-request" not in request.headers,
            title=here.station.title,
            caution=here.station.caution,
            action=f"/builds/{here.code}/measure/{here.station.id}?units={here.family}",
            echo=f"/builds/{here.code}/measure/{here.station.id}/echo",
            token=hands.token.value,
            entry_id=uuid.uuid4().hex,
            build=here.code,
            seq=hands.shop.position,
            parts=measure_parts(here, unit=asked_unit, said=said, asked=asked, about=about, wrong=wrong),
        )
    return page(context, status=status)
