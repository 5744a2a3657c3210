"""Readings taken into a build from a table: checked whole and shown first, then taken in."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import PurePath
from typing import ClassVar, Final, NamedTuple

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import BaseRoute, Route

from fitwright.bench.errors import BenchError
from fitwright.formats.errors import FormatError
from fitwright.formats.readings.columns import ACCEPTED
from fitwright.formats.readings.deciding import (
    Decided,
    coming,
    count,
    left_out,
    outside_sittings_words,
    stands_in_the_way,
    taken_in_words,
)
from fitwright.formats.readings.files import table_in
from fitwright.formats.readings.importing import Answer, Checked, Import
from fitwright.formats.readings.problems import TableProblemsError
from fitwright.records.kinds import Reading
from fitwright.web.addresses import record_address
from fitwright.web.frame import Frame
from fitwright.web.hands import Hands, hands_of, is_known
from fitwright.web.pages.problem import no_build
from fitwright.web.pages.record.filters import FilterOption, sitting_options
from fitwright.web.pages.record.listing import record_frame
from fitwright.web.people import PersonOption, people_to_choose, person_at, person_in, remember_person
from fitwright.web.rendering import page
from fitwright.web.uploads import Upload
from fitwright.web.writing import KEPT, REFUSED, Refused, Sent, UnclearFormError, sent, written

MOST_SHOWN: Final = 200
"""So many problems, and so many questions, are listed."""
STOPPED: Final = (
    "Nothing was taken in: say below what is to become of the rows that cannot be, and answer the questions."
)


@dataclass(frozen=True, slots=True)
class RowLine:
    """Something about a row: a problem with what would be right, or a question."""

    row: int
    column: str
    words: str


@dataclass(frozen=True, slots=True)
class ImportFound:
    """What checking a table found, and what would be taken in by what was decided."""

    file: str
    rows: str
    already: int
    problems: tuple[RowLine, ...]
    more_problems: int
    bad_rows: int
    questions: tuple[RowLine, ...]
    more_questions: int
    asked_rows: int
    outside: str


@dataclass(frozen=True, slots=True)
class ImportSaid:
    """What came of it."""

    state: str
    words: str


@dataclass(frozen=True, slots=True)
class ColumnWords:
    """A column of a table, and what it accepts."""

    name: str
    words: str


@dataclass(frozen=True, slots=True)
class ImportContext:
    """The page on which readings are taken in."""

    template: ClassVar[str] = "record_import.html"
    frame: Frame
    record: str
    token: str
    upload: str
    workbook_sheet: str
    answered: str
    only_good: bool
    sittings: tuple[FilterOption, ...]
    everybody: tuple[PersonOption, ...]
    checked: ImportFound | None
    outcome: ImportSaid | None
    columns: tuple[ColumnWords, ...]


class Asking(NamedTuple):
    """What a form asks of a build."""

    request: Request
    hands: Hands
    code: str
    form: Sent


async def show(request: Request) -> Response:
    """Answer with the page that takes a table."""
    hands, code = hands_of(request), request.path_params["build"]
    if not await is_known(hands, code):
        return no_build(request, code)
    return page(await run_in_threadpool(_context, Asking(request, hands, code, Sent({}))))


async def take(request: Request) -> Response:
    """Check a table, or take it in."""
    hands, code = hands_of(request), request.path_params["build"]
    if not await is_known(hands, code):
        return no_build(request, code)
    form = await sent(request, most_files=1)
    return await run_in_threadpool(_taken, Asking(request, hands, code, form))


def _taken(asking: Asking) -> Response:
    hands, form = asking.hands, asking.form
    upload = upload_of(hands, form)
    if upload is None:
        said = ImportSaid("refused", "No file was chosen, or it has waited too long: choose it again.")
        return page(_context(asking, said=said), status=REFUSED)
    key = hands.uploads.keep(upload)
    try:
        ready = _ready(asking, upload)
        found = ready.check()
    except TableProblemsError as error:
        shown = Checked(problems=list(error.problems), bad_rows={each.row for each in error.problems})
        context = _context(asking, key=key, checked=_found(upload, shown, Decided()))
        return page(context, status=REFUSED)
    except (BenchError, FormatError, UnclearFormError) as error:
        said = ImportSaid("refused", str(error))
        return page(_context(asking, said=said), status=REFUSED)
    decided = _decided(form)
    if form.get("do") != "take" or stands_in_the_way(found, decided):
        wanted = form.get("do") == "take"
        stopped = ImportSaid("refused", STOPPED) if wanted else None
        context = _context(asking, key=key, checked=_found(upload, found, decided), said=stopped)
        return page(context, status=REFUSED if wanted else KEPT)
    return _take_in(asking, key, ready, found)


def _take_in(asking: Asking, key: str, ready: Import, found: Checked) -> Response:
    """Batch by batch; what was kept before a refusal stays, and the same file goes on from there."""
    hands, form = asking.hands, asking.form
    decided, taken = _decided(form), 0
    for batch in ready.batches(leave_out=left_out(found, decided)):
        came = written(hands, form, lambda entries=batch: entries)  # type: ignore[misc]
        if isinstance(came, Refused):
            kept = f"{count(taken, 'reading')} kept before. " if taken else ""
            said = ImportSaid("refused", f"{kept}{came.words} The same file goes on where it stopped.")
            return page(_context(asking, key=key, said=said), status=came.status)
        taken += sum(entry.kind == Reading.kind for entry in batch)
    name = upload_name(hands, key)
    hands.uploads.drop(key)
    words = f"{taken_in_words(taken, found, decided, name)} {outside_sittings_words(found)}".strip()
    said = ImportSaid("kept", words)
    answer = page(_context(asking._replace(form=Sent({})), said=said), status=KEPT)
    remember_person(answer, form.get("person") or None)
    return answer


def upload_of(hands: Hands, form: Sent) -> Upload | None:
    """The file that a form brings, or that one before it brought."""
    content = form.files.get("file", b"")
    if content:
        return Upload(PurePath(form.names.get("file", "").replace("\\", "/")).name[:120] or "file", content)
    return hands.uploads.get(form.get("upload"))


def upload_name(hands: Hands, key: str) -> str:
    """What a file that waits is called."""
    held = hands.uploads.get(key)
    return held.name if held is not None else "the file"


def _ready(asking: Asking, upload: Upload) -> Import:
    hands, form = asking.hands, asking.form
    with hands.shop.held():
        bench = hands.shop.bench(asking.code)
        person = person_in(form, hands.shop.state)
    table = table_in(upload.content, file=upload.name, sheet=form.get("workbook_sheet") or None)
    return Import(bench, table, sitting=form.get("sitting") or None, person=person)


def _decided(form: Sent) -> Decided:
    answers: dict[str, Answer] = {"keep": "keep", "leave-out": "leave-out"}
    return Decided(answers.get(form.get("answer")), only_good=form.get("only_good") == "yes")


def _found(upload: Upload, found: Checked, decided: Decided) -> ImportFound:
    problems = [
        RowLine(each.row, each.column, f"{each.what}{f'; {each.accepted}' if each.accepted else ''}")
        for each in found.problems
    ]
    questions = [RowLine(each.row, each.dimension, each.question.text) for each in found.questions]
    return ImportFound(
        file=upload.name,
        rows=count(coming(found, decided), "row"),
        already=found.already,
        problems=tuple(problems[:MOST_SHOWN]),
        more_problems=max(0, len(problems) - MOST_SHOWN),
        bad_rows=len(found.bad_rows),
        questions=tuple(questions[:MOST_SHOWN]),
        more_questions=max(0, len(questions) - MOST_SHOWN),
        asked_rows=len(found.asked_rows),
        outside=outside_sittings_words(found),
    )


def _context(
    asking: Asking, *, key: str = "", checked: ImportFound | None = None, said: ImportSaid | None = None
) -> ImportContext:
    request, hands, code, form = asking
    with hands.shop.held():
        bench = hands.shop.bench(code)
        who = form.get("person") or person_at(request, hands.shop.state)
        return ImportContext(
            frame=record_frame(hands, "Take readings in", code),
            record=record_address(code),
            token=hands.token.value,
            upload=key,
            workbook_sheet=form.get("workbook_sheet"),
            answered=form.get("answer"),
            only_good=form.get("only_good") == "yes",
            sittings=sitting_options(bench, form.get("sitting")),
            everybody=people_to_choose(hands.shop.state, who),
            checked=checked,
            outcome=said,
            columns=tuple(ColumnWords(name, words) for name, words in ACCEPTED.items()),
        )


ROUTES: list[BaseRoute] = [
    Route("/builds/{build}/record/import", show, name="import"),
    Route("/builds/{build}/record/import", take, methods=["POST"]),
]
