"""A build, and what is said about it."""

from __future__ import annotations

from typing import ClassVar

from fitwright.records.fields import BuildCode, Code
from fitwright.records.kinds.body import Body, Typed


class BuildStarted(Body):
    """A build to a sheet, with its job number, engine number and the owner's words."""

    kind: ClassVar[str] = "build started"
    code: BuildCode
    title: str
    sheet: str
    job_number: str | None = None
    engine_number: str | None = None
    owner_words: str | None = None
    duty: str | None = None


class RevisionTakenOver(Body):
    """A later revision of the sheet, taken over on purpose."""

    kind: ClassVar[str] = "revision taken over"
    sheet: str
    previous_sheet: str
    differences: tuple[str, ...] = ()


class QuestionAnswered(Body):
    """A question that was asked about an entry, and what the person answered."""

    kind: ClassVar[str] = "question answered"
    question: str
    text: str
    answer: str
    dimension: str | None = None
    typed: str | None = None
    entry: str | None = None


class LimitAdopted(Body):
    """A named person adopts a limit for a fit, with a reason; bounds may be stated anew."""

    kind: ClassVar[str] = "limit adopted"
    subject: str
    source: str
    lower: Typed | None = None
    upper: Typed | None = None
    adopted_by: Code


class NotInThisJob(Body):
    """Whatever begins with `subject` is no part of this job."""

    kind: ClassVar[str] = "not in this job"
    subject: str


class Note(Body):
    """Words about anything; a note changes no digit."""

    kind: ClassVar[str] = "note"
    subject: str | None = None
    text: str


class Photo(Body):
    """A photo, kept as a file named by its digest."""

    kind: ClassVar[str] = "photo"
    digest: str
    media_type: str
    caption: str | None = None
    subject: str | None = None


class Withdrawal(Body):
    """An entry taken back; it stays visible. Undo is such an entry, and may itself be withdrawn."""

    kind: ClassVar[str] = "withdrawal"
    entry: str
