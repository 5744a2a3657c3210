"""A build carried out: its readings as CSV or XLSX, the whole of it as JSON."""

from __future__ import annotations

import re
import tempfile
from pathlib import Path
from typing import Final, Literal

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import BaseRoute, Route

from fitwright.assess.results import State
from fitwright.formats.carrying import carried
from fitwright.formats.readings.exporting import rows_of
from fitwright.formats.readings.files import write_table
from fitwright.formats.readings.xlsx_file import write_xlsx
from fitwright.formats.subjects import Told, subjects_of
from fitwright.units.families import Family
from fitwright.web.hands import Hands, family_of, hands_of, is_known, state_of
from fitwright.web.pages.problem import no_build

Ending = Literal[".csv", ".xlsx"]
MEDIA_TYPES: Final = {
    ".csv": "text/csv; charset=utf-8",
    ".xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
    ".json": "application/json",
}


async def readings_csv(request: Request) -> Response:
    """The readings that count, as CSV."""
    return await _readings(request, ".csv")


async def readings_xlsx(request: Request) -> Response:
    """The readings that count, as a workbook."""
    return await _readings(request, ".xlsx")


async def whole(request: Request) -> Response:
    """The whole build as JSON; as a set-up, without what was read, if asked."""
    hands, code = hands_of(request), request.path_params["build"]
    if not await is_known(hands, code):
        return no_build(request, code)
    readings = request.query_params.get("readings") != "no"
    found = await run_in_threadpool(_carried, hands, code, readings=readings)
    return _file(found.encode(), code if readings else f"{code}-set-up", ".json")


async def subjects_xlsx(request: Request) -> Response:
    """The whole build as a workbook, a sheet for each subject."""
    hands, code = hands_of(request), request.path_params["build"]
    if not await is_known(hands, code):
        return no_build(request, code)
    content = await run_in_threadpool(_workbook, hands, code, family_of(request, code), state_of(request))
    return _file(content, code, ".xlsx")


def _workbook(hands: Hands, code: str, family: Family, state: State) -> bytes:
    with tempfile.TemporaryDirectory(prefix="fitwright-") as folder:
        path = Path(folder) / "build.xlsx"
        with hands.shop.held():
            bench = hands.shop.bench(code)
            told = Told(bench, hands.shop.assessment(code), hands.shop.assembly(code), family)
            more = [(each.name, (each.columns, *each.rows)) for each in subjects_of(told)]
            rows = list(rows_of(bench, state))
        write_xlsx(rows, path, more)
        return path.read_bytes()


async def _readings(request: Request, ending: Ending) -> Response:
    hands, code = hands_of(request), request.path_params["build"]
    if not await is_known(hands, code):
        return no_build(request, code)
    delimiter = ";" if request.query_params.get("separated") == "semicolons" else ","
    state = state_of(request)
    content = await run_in_threadpool(_table, hands, code, state, ending, delimiter)
    return _file(content, f"{code}-readings-{state.value}", ending)


def _table(hands: Hands, code: str, state: State, ending: Ending, delimiter: str) -> bytes:
    with tempfile.TemporaryDirectory(prefix="fitwright-") as folder:
        path = Path(folder) / "readings"
        with hands.shop.held():
            rows = list(rows_of(hands.shop.bench(code), state))
        write_table(rows, path, ending=ending, delimiter=delimiter)
        return path.read_bytes()


def _carried(hands: Hands, code: str, *, readings: bool) -> str:
    return carried(hands.shop.record, code, readings=readings).text


def _file(content: bytes, name: str, ending: str) -> Response:
    plain = re.sub(r"[^A-Za-z0-9_-]+", "-", name).strip("-") or "build"
    headers = {
        "content-disposition": f'attachment; filename="{plain}{ending}"',
        "cache-control": "no-store",
    }
    return Response(content, media_type=MEDIA_TYPES[ending], headers=headers)


ROUTES: list[BaseRoute] = [
    Route("/builds/{build}/record/readings.csv", readings_csv),
    Route("/builds/{build}/record/readings.xlsx", readings_xlsx),
    Route("/builds/{build}/record/build.xlsx", subjects_xlsx),
    Route("/builds/{build}/record/build.json", whole),
]
