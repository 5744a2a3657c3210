"""Notes, and photos taken up from a file or a tablet's camera, listed with what they are about."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from fitwright.bench.context import Bench
from fitwright.bench.entry_words import title_of
from fitwright.bench.photos import about, media_type_of, photo_of
from fitwright.records import kinds
from fitwright.records.kinds import Body
from fitwright.units.families import Family
from fitwright.web.addresses import photo_address
from fitwright.web.entering.controls import Asking, Control, text
from fitwright.web.entering.kinds import FormKind
from fitwright.web.pages.parts.happened import HistoryLine, history_line
from fitwright.web.pages.parts.of_sayings import about_control
from fitwright.web.writing import UnclearFormError


@dataclass(frozen=True, slots=True)
class PhotoLine:
    """A photo: the small picture, the way to the whole one, what it shows and is about."""

    address: str
    small: str
    shows: str
    about: str
    line: HistoryLine


@dataclass(frozen=True, slots=True)
class NoteLine:
    """A note in full, and what it is about."""

    on: str
    text: str
    line: HistoryLine


def note_lines(bench: Bench, family: Family) -> tuple[NoteLine, ...]:
    """The notes of a build, the last first."""
    return tuple(
        NoteLine(
            title_of(bench, body.subject) if body.subject else "",
            body.text,
            history_line(bench, family, entry),
        )
        for entry, body in reversed(bench.build.ledger.recorded.values())
        if isinstance(body, kinds.Note)
    )


def photo_lines(bench: Bench, family: Family, wanted: frozenset[str] | None = None) -> tuple[PhotoLine, ...]:
    """The photos of a build, the last first; of those that are about `wanted` only, where that is given."""
    return tuple(_lines(bench, family, wanted))


def _lines(bench: Bench, family: Family, wanted: frozenset[str] | None) -> Iterator[PhotoLine]:
    for entry, body in reversed(bench.build.ledger.recorded.values()):
        if not isinstance(body, kinds.Photo) or (wanted is not None and body.subject not in wanted):
            continue
        code = bench.build.build
        shows = body.caption or "no words"
        about = title_of(bench, body.subject) if body.subject else ""
        yield PhotoLine(
            address=photo_address(code, body.digest),
            small=photo_address(code, body.digest, small=True),
            shows=shows,
            about=about if about != shows else "",
            line=history_line(bench, family, entry),
        )


def digests_of(bench: Bench) -> frozenset[str]:
    """The photos that this build names: only these are shown at its address."""
    return frozenset(_digests(bench))


def _digests(bench: Bench) -> Iterator[str]:
    for _, body in bench.build.ledger.recorded.values():
        match body:
            case kinds.Photo():
                yield body.digest
            case kinds.EyeCheck(photo=str(digest)) | kinds.Reading(page_photo=str(digest)):
                yield digest


def _controls(asking: Asking) -> tuple[Control, ...]:
    return (
        Control(
            "file", "photo", "Photo", hint="JPEG, PNG or WebP. Its position and camera data are not kept."
        ),
        text(asking, "caption", "What it shows"),
        about_control(asking),
    )


def _photo(asking: Asking) -> Sequence[Body]:
    """The entry for a photo that was sent, once its file is durable."""
    content = asking.form.files.get("photo", b"")
    if not content:
        raise UnclearFormError("No photo was sent", "take one or choose a file")
    subject = about(asking.bench, asking.get("subject"))
    media_type = media_type_of(content)
    digest = asking.keep(content, media_type)
    return (photo_of(digest, media_type, caption=asking.get("caption"), subject=subject),)


PHOTO = FormKind("photo", "Photo", "A photo", "Keep it", _controls, _photo, suppose=None, files=True)
