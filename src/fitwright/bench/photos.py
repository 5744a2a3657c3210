"""Photos: which files are pictures that can be kept, and what a photo can be about."""

from __future__ import annotations

import re

from fitwright.bench.context import Bench, near
from fitwright.bench.errors import NoPhotoError, UnknownNameError
from fitwright.bench.parts import known_parts
from fitwright.bench.statements import eye_checks_of
from fitwright.records.kinds import Photo

FIRST_BYTES = {
    "image/jpeg": re.compile(rb"\xff\xd8\xff"),
    "image/png": re.compile(rb"\x89PNG\r\n\x1a\n"),
    "image/webp": re.compile(rb"RIFF....WEBP", re.DOTALL),
}
"""How a picture of each type begins; the name of a file says nothing."""
NOTEBOOK_PAGE = "notebook page"
"""Begins what a photo of a notebook page is about; its number or words follow."""


def media_type_of(content: bytes, name: str = "This file") -> str:
    """The type of a picture, by its first bytes.

    Raises
    ------
    NoPhotoError
        If it is no JPEG, PNG or WebP picture.
    """
    for media_type, begins in FIRST_BYTES.items():
        if begins.match(content):
            return media_type
    raise NoPhotoError(name)


def photo_of(
    digest: str, media_type: str, *, caption: str | None = None, subject: str | None = None
) -> Photo:
    """A photo that is kept, with what it shows and what it is about."""
    return Photo(digest=digest, media_type=media_type, caption=caption or None, subject=subject or None)


def things_of(bench: Bench) -> tuple[str, ...]:
    """Everything of a build that a note or a photo can be about, by its id or code."""
    sheet = bench.sheet
    return tuple(
        dict.fromkeys(
            (
                *sheet.stations,
                *sheet.fits,
                *known_parts(bench),
                *sheet.dimensions,
                *eye_checks_of(bench),
                *bench.build.sittings,
                *sheet.steps,
                *(f"{step.id}/{photo.id}" for step in sheet.steps.values() for photo in step.photos),
                *sheet.tightening_groups,
            )
        )
    )


def about(bench: Bench, subject: str) -> str | None:
    """What a note or a photo is about; nothing where it is about the whole build.

    Raises
    ------
    UnknownNameError
        If it is neither anything of this build nor a notebook page.
    """
    if not subject or subject.startswith(NOTEBOOK_PAGE):
        return subject or None
    known = things_of(bench)
    if subject not in known:
        raise UnknownNameError("station, fit, part, sitting or step", subject, near(subject, known))
    return subject
