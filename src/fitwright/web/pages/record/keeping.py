"""The record looked after: verified, and a backup of all of it carried away."""

from __future__ import annotations

import shutil
import tempfile
import zipfile
from dataclasses import dataclass
from pathlib import Path
from typing import ClassVar

from starlette.background import BackgroundTask
from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import FileResponse, Response
from starlette.routing import BaseRoute, Route

from fitwright.records.errors import RecordError
from fitwright.web.addresses import record_address
from fitwright.web.frame import Frame
from fitwright.web.hands import Hands, hands_of
from fitwright.web.pages.record.listing import record_frame
from fitwright.web.rendering import page
from fitwright.web.writing import NOT_KEPT, STALE, capital, sent


@dataclass(frozen=True, slots=True)
class VerifyFound:
    """What verifying found, sentence by sentence."""

    sound: bool
    sentences: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class KeepingContext:
    """The page on which the record is looked after."""

    template: ClassVar[str] = "record_keeping.html"
    frame: Frame
    record: str
    token: str
    entries: int
    head: str
    verified: VerifyFound | None
    refused: str


async def show(request: Request) -> Response:
    """Answer with the page; verified, where that is asked."""
    hands = hands_of(request)
    asked = request.query_params.get("verify") == "yes"
    return page(await run_in_threadpool(_context, hands, verify=asked))


async def take(request: Request) -> Response:
    """A backup of the shop as one file."""
    hands, form = hands_of(request), await sent(request)
    if not hands.token.matches(form.get("token")):
        words = "This page is from an earlier run of the bench: ask for the backup again."
        return page(await run_in_threadpool(_context, hands, refused=words), status=STALE)
    return await run_in_threadpool(_backup, hands)


def _backup(hands: Hands) -> Response:
    """The backup made beside the shop's own files, packed, and gone from here once it is sent."""
    folder = Path(tempfile.mkdtemp(prefix="fitwright-backup-"))
    try:
        made = hands.shop.back_up(folder / "backup")
        packed = _packed(folder / "backup", folder / "backup.zip")
    except (OSError, RecordError) as error:
        shutil.rmtree(folder, ignore_errors=True)
        return page(_context(hands, refused=f"No backup was made: {capital(str(error))}"), status=NOT_KEPT)
    name = f"fitwright-backup-{made.entries}-entries.zip"
    return FileResponse(
        packed,
        media_type="application/zip",
        filename=name,
        headers={"cache-control": "no-store"},
        background=BackgroundTask(shutil.rmtree, folder, ignore_errors=True),
    )


def _packed(folder: Path, target: Path) -> Path:
    with zipfile.ZipFile(target, "w", zipfile.ZIP_DEFLATED, compresslevel=3) as archive:
        for path in sorted(folder.rglob("*")):
            if path.is_file():
                archive.write(path, path.relative_to(folder).as_posix())
    return target


def _context(hands: Hands, *, verify: bool = False, refused: str = "") -> KeepingContext:
    found = hands.shop.verify() if verify else None
    head = hands.shop.record.head()
    return KeepingContext(
        frame=record_frame(hands, "Look after the record", None),
        record=record_address(None),
        token=hands.token.value,
        entries=head.seq if head is not None else 0,
        head=head.hash if head is not None else "",
        verified=VerifyFound(found.sound, found.told) if found is not None else None,
        refused=refused,
    )


ROUTES: list[BaseRoute] = [
    Route("/shop/record/keeping", show, name="keeping"),
    Route("/shop/record/keeping", take, methods=["POST"]),
]
