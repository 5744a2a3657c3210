"""A whole build taken in from a file that another shop wrote: held against this shop first."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import BaseRoute, Route

from fitwright.bench.errors import BenchError
from fitwright.formats.carrying import Arrival, arrival, build_in
from fitwright.formats.errors import FormatError
from fitwright.formats.sheet.files import text_of
from fitwright.records.errors import CannotWriteError, RecordError
from fitwright.web.addresses import engine_address, record_address
from fitwright.web.frame import Frame
from fitwright.web.hands import Hands, hands_of
from fitwright.web.pages.record.importing import upload_of
from fitwright.web.pages.record.listing import record_frame
from fitwright.web.rendering import page
from fitwright.web.uploads import Upload
from fitwright.web.writing import KEPT, NOT_KEPT, REFUSED, STALE, Sent, capital, sent


@dataclass(frozen=True, slots=True)
class ArrivalSaid:
    """What came of it, with the way to the build once it is here."""

    state: str
    words: str
    address: str


@dataclass(frozen=True, slots=True)
class Arriving:
    """A build that waits to be taken in."""

    file: str
    build: str
    entries: int
    already: int


@dataclass(frozen=True, slots=True)
class ArrivalContext:
    """The page on which a build is taken in."""

    template: ClassVar[str] = "record_arrival.html"
    frame: Frame
    record: str
    token: str
    upload: str
    arriving: Arriving | None
    outcome: ArrivalSaid | None


async def show(request: Request) -> Response:
    """Answer with the page that takes a build."""
    return page(await run_in_threadpool(_context, hands_of(request)))


async def take(request: Request) -> Response:
    """Hold a file against this shop, or take the build in."""
    form = await sent(request, most_files=1)
    return await run_in_threadpool(_taken, hands_of(request), form)


def _taken(hands: Hands, form: Sent) -> Response:
    upload = upload_of(hands, form)
    if upload is None:
        return _refused(hands, "No file was chosen, or it has waited too long: choose it again.", REFUSED)
    try:
        arriving = _arrival(hands, upload)
        if form.get("do") != "take":
            shown = Arriving(upload.name, arriving.build, len(arriving.new), arriving.already)
            return page(_context(hands, key=hands.uploads.keep(upload), arriving=shown))
        if not hands.token.matches(form.get("token")):
            words = "This page is from an earlier run of the bench; nothing was taken. Choose the file again."
            return _refused(hands, words, STALE)
        hands.shop.take_in(arriving)
    except CannotWriteError as error:
        return _refused(hands, capital(str(error)), NOT_KEPT)
    except (BenchError, FormatError, RecordError) as error:
        return _refused(hands, str(error).splitlines()[0], REFUSED)
    hands.uploads.drop(form.get("upload"))
    return page(_context(hands, said=_kept(arriving)), status=KEPT)


def _kept(arriving: Arrival) -> ArrivalSaid:
    here = f", {arriving.already} were here already" if arriving.already else ""
    words = f"{arriving.build}: {len(arriving.new)} entries taken in{here}."
    return ArrivalSaid("kept", words, engine_address(arriving.build))


def _arrival(hands: Hands, upload: Upload) -> Arrival:
    found = build_in(text_of(upload.content, file=upload.name), file=upload.name)
    return arrival(found, hands.shop.record)


def _refused(hands: Hands, words: str, status: int) -> Response:
    return page(_context(hands, said=ArrivalSaid("refused", words, "")), status=status)


def _context(
    hands: Hands, *, key: str = "", arriving: Arriving | None = None, said: ArrivalSaid | None = None
) -> ArrivalContext:
    return ArrivalContext(
        frame=record_frame(hands, "Take a build in", None),
        record=record_address(None),
        token=hands.token.value,
        upload=key,
        arriving=arriving,
        outcome=said,
    )


ROUTES: list[BaseRoute] = [
    Route("/shop/record/import", show, name="import a build"),
    Route("/shop/record/import", take, methods=["POST"]),
]
