"""What a line would be read as, before it is taken: the size in both units."""

from __future__ import annotations

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from fitwright.bench.errors import BenchError
from fitwright.bench.keypad import Because, BladeDid, Entered, On, TakeBack, ToStation, read_line
from fitwright.bench.order import Stop
from fitwright.bench.short_entries import AtPlace, BladeTyped, read_entry
from fitwright.units import UnitsError
from fitwright.units import echo as in_both_units
from fitwright.web.hands import hands_of, is_known
from fitwright.web.pages.measure.blades import may_be_tried, proposed_blades
from fitwright.web.pages.measure.here import Here, here_of
from fitwright.web.pages.problem import no_build


async def echo(request: Request) -> Response:
    """Answer with the words for a line; empty while it is no whole line yet."""
    hands, code = hands_of(request), request.path_params["build"]
    if not await is_known(hands, code):
        return no_build(request, code)
    asked = request.query_params
    here = await run_in_threadpool(here_of, request, hands, code, asked)
    words = ""
    if here is not None and here.stop is not None:
        words = await run_in_threadpool(_words, here, here.stop, asked.get("text", ""), asked.get("unit", ""))
    return JSONResponse({"words": words})


def _words(here: Here, stop: Stop, text: str, unit: str) -> str:
    with here.hands.shop.held():
        at = here.at(stop)
        match read_line(text, by_blades=may_be_tried(at.dimension)):
            case None:
                return ""
            case BladeDid(blades, answer):
                return f"{blades.replace('+', ' with ') or proposed_blades(here, stop.dimension)} {answer}"
            case Entered(entered):
                return _size(at, entered, unit)
            case command:
                return _command(command)


def _command(line: On | ToStation | TakeBack | Because) -> str:
    match line:
        case On(number):
            return f"to place {number}" if number is not None else "on, without a reading"
        case ToStation(number):
            return f"to station {number}" if number is not None else "to the next station"
        case TakeBack(instead):
            return f"instead of the last reading: {instead}" if instead else "take the last entry back"
        case Because():
            return "not measured, because ..."


def _size(at: AtPlace, text: str, unit: str) -> str:
    try:
        entry = read_entry(text, at, unit=unit)
    except (BenchError, UnitsError):
        return ""  # not typed to its end yet; taken as it is, it is refused with its reason
    if isinstance(entry, BladeTyped):
        return f"{entry.blades} {entry.answer}"
    return in_both_units(entry.quantity, at.resolution)
