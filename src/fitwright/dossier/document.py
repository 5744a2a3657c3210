"""The whole document: its chapters in order, for one reader, in one depth."""

from __future__ import annotations

from collections.abc import Iterator

from fitwright.dossier.asked import Asked
from fitwright.dossier.cover import cover, title_of
from fitwright.dossier.head import Head
from fitwright.dossier.known import Known
from fitwright.dossier.sections.care import care
from fitwright.dossier.sections.engine import engine
from fitwright.dossier.sections.fits import fits
from fitwright.dossier.sections.history import history, signatures, verifying
from fitwright.dossier.sections.instruments import decision_rule, instruments
from fitwright.dossier.sections.oil import first_start, oil
from fitwright.dossier.sections.open_points import open_points, points_of
from fitwright.dossier.sections.photos import photos
from fitwright.dossier.sections.put_right import put_right
from fitwright.dossier.sections.readings import decisions, readings
from fitwright.dossier.sections.teller import Teller
from fitwright.dossier.sections.tightenings import tightenings
from fitwright.dossier.sections.work import work
from fitwright.dossier.tree import Document, Section


def document_of(known: Known, asked: Asked, head: Head) -> Document:
    """The document of a build; the same entries, wishes and head give the same document."""
    teller = Teller(known, asked)
    standing = f"revision {asked.revision}" if asked.revision is not None else "draft"
    return Document(
        title=title_of(teller),
        build=known.build,
        depth=asked.depth,
        paper=asked.paper,
        units=asked.units,
        draft=asked.draft,
        revision=asked.revision,
        as_of=known.as_of,
        foot=f"fitwright, build {known.build}, {standing}, record up to {head.short}",
        cover=cover(teller, head),
        open_points=points_of(teller),
        sections=tuple(each for each in _sections(teller, head) if each is not None),
    )


def _sections(teller: Teller, head: Head) -> Iterator[Section | None]:
    yield open_points(teller)
    yield engine(teller)
    yield fits(teller)
    yield put_right(teller)
    yield tightenings(teller)
    yield work(teller)
    yield oil(teller)
    yield first_start(teller)
    yield care(teller)
    yield photos(teller)
    yield instruments(teller)
    yield decision_rule(teller)
    yield readings(teller)
    yield decisions(teller)
    yield signatures(teller)
    yield history(teller)
    yield verifying(teller, head)
