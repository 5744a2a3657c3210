"""A build started: from an example, from a sheet, or from a few questions about the engine."""

from __future__ import annotations

import uuid
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import ClassVar, Final

from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import BaseRoute, Route

from fitwright.examples import EXAMPLES, ExamplesError, sheet_text
from fitwright.formats.errors import FormatError
from fitwright.formats.sheet import read_sheet
from fitwright.formats.sheet.files import text_of
from fitwright.model.sheet import Sheet
from fitwright.records.entry import NewEntry
from fitwright.records.kinds import BuildStarted
from fitwright.starter.errors import AnswerError
from fitwright.starter.questions import QUESTIONS
from fitwright.starter.sheet import write_sheet
from fitwright.web.about_build import AboutBuild, about_build, faulted, started_from
from fitwright.web.addresses import engine_address
from fitwright.web.frame import Frame, frame_of
from fitwright.web.hands import Hands, hands_of
from fitwright.web.people import PersonOption, people_to_choose, person_at, person_in, remember_person
from fitwright.web.questions import Preview, QuestionGroup, answered, groups, preview_of
from fitwright.web.rendering import page
from fitwright.web.sheet_text import Findings, counts_of, looked_at
from fitwright.web.writing import KEPT, REFUSED, Kept, Refused, Sent, capital, sent, written

WAYS: Final[Mapping[str, tuple[str, str]]] = {
    "example": ("An example", "A fictional engine with its whole sheet, to try things on."),
    "sheet": ("A sheet", "A file that you have, or its text."),
    "questions": ("A few questions", "A sheet made from your answers, with rules of thumb to be replaced."),
}
TEXT: Final = "text"
SCRIPTS: Final = {"sheet": ("sheet.js", "starting.js"), "questions": ("new.js", "starting.js")}
STYLES: Final = {"sheet": ("sheet.css",), "questions": ("section.css",)}


@dataclass(frozen=True, slots=True)
class WayToStart:
    """One of the ways to a sheet."""

    title: str
    words: str
    address: str
    chosen: bool


@dataclass(frozen=True, slots=True)
class ExampleOption:
    """An example to choose."""

    name: str
    title: str
    counts: str
    chosen: bool


@dataclass(frozen=True, slots=True)
class NewBuildContext:
    """The page on which a build is started; without a way, the ways to choose from."""

    template: ClassVar[str] = "new_build.html"
    frame: Frame
    way: str
    ways_to_start: tuple[WayToStart, ...]
    token: str
    entry_id: str
    told: AboutBuild
    everybody: tuple[PersonOption, ...]
    examples: tuple[ExampleOption, ...]
    question_groups: tuple[QuestionGroup, ...]
    preview: Preview | None
    draft: str
    found: Findings | None
    refused: str


async def show(request: Request) -> Response:
    """Answer with the ways to start a build, or with the form of one."""
    hands, way = hands_of(request), _way_of(request)
    form = Sent(dict(request.query_params) if way == "example" else {})
    return page(await run_in_threadpool(_context, hands, way, form, _who(request, hands)))


async def take(request: Request) -> Response:
    """Take the form of a way: looked at, or a build started."""
    hands, way = hands_of(request), _way_of(request)
    form = await sent(request, most_files=1, as_typed=(TEXT,))
    who = form.get("person") or _who(request, hands)
    if form.get("do") != "start":
        return page(await run_in_threadpool(_context, hands, way, _with_file(form), who))
    return await run_in_threadpool(_start, request, hands, way, form)


def _way_of(request: Request) -> str:
    way = str(request.path_params.get("way", ""))
    if way and way not in WAYS:
        raise HTTPException(404)
    return way


def _who(request: Request, hands: Hands) -> str | None:
    return person_at(request, hands.shop.state)


def _with_file(form: Sent) -> Sent:
    """The form with the text of the file that it brings, if it brings one."""
    content = form.files.get("file", b"")
    return replace(form, fields={**form.fields, TEXT: text_of(content, file="the file")}) if content else form


def _start(request: Request, hands: Hands, way: str, form: Sent) -> Response:
    """The build started, and the way to it; or the form again with what is wrong."""
    who = form.get("person") or None
    try:
        form = _with_file(form)
        text = _sheet_of(way, form)
        sheet = read_sheet(text, name="the sheet")
    except AnswerError as error:
        return page(_context(hands, way, form, who, wrong=error), status=REFUSED)
    except (FormatError, ExamplesError) as error:
        words = "" if way == "sheet" and form.get(TEXT) else capital(str(error))
        return page(_context(hands, way, form, who, refused=words), status=REFUSED)
    before = hands.shop.record.entry(form.get("entry_id")) if form.get("entry_id") else None
    if before is not None and before.kind == BuildStarted.kind and before.build is not None:
        return _gone_to(request, before.build, who)  # the same form again, after an answer that was lost
    started: list[BuildStarted] = []

    def make() -> Sequence[NewEntry]:
        person = person_in(form, hands.shop.state)
        body = started_from(form, sheet, hands.shop.builds())
        hands.shop.record.keep_sheet(text)
        started.append(body)
        entry_id = form.get("entry_id") or None
        return [hands.shop.entry(body, build=body.code, person=person, entry_id=entry_id)]

    came = written(hands, form, make)
    if isinstance(came, Kept):
        return _gone_to(request, started[-1].code, who)
    assert isinstance(came, Refused)  # noqa: S101  (nothing is asked here)
    again = replace(form, fields={**form.fields, "entry_id": ""}) if came.reused else form
    return page(_context(hands, way, again, who, refused=came.words), status=came.status)


def _gone_to(request: Request, code: str, who: str | None) -> Response:
    """On to the page of the build."""
    address = engine_address(code)
    if "hx-request" in request.headers:
        answer = Response(status_code=KEPT, headers={"hx-redirect": address})
    else:
        answer = RedirectResponse(address, status_code=303)
    remember_person(answer, who)
    return answer


def _sheet_of(way: str, form: Sent) -> str:
    if way == "example":
        return sheet_text(form.get("example"))
    return form.get(TEXT) if way == "sheet" else write_sheet(answered(_answers(form)))


def _answers(form: Sent) -> dict[str, str]:
    return {question.name: form.get(question.name) for question in QUESTIONS}


def _context(
    hands: Hands,
    way: str,
    form: Sent,
    who: str | None,
    *,
    wrong: AnswerError | None = None,
    refused: str = "",
) -> NewBuildContext:
    asking, from_text = way == "questions", way == "sheet"
    text = form.get(TEXT)
    sheet, findings = looked_at(text) if from_text and text.strip() else (None, None)
    preview, made = preview_of(_answers(form)) if asking else (None, None)
    with hands.shop.held():
        about = _about(hands, form, sheet or made)
        return NewBuildContext(
            frame=_frame(hands, way),
            way=way,
            ways_to_start=tuple(_way(each, way) for each in WAYS),
            token=hands.token.value,
            entry_id=form.get("entry_id") or uuid.uuid4().hex,
            told=about,
            everybody=people_to_choose(hands.shop.state, who),
            examples=_examples(form.get("example")) if way == "example" else (),
            question_groups=groups(_answers(form), wrong) if asking else (),
            preview=preview,
            draft=text,
            found=findings,
            refused="" if about.wrong else refused,
        )


def _about(hands: Hands, form: Sent, sheet: Sheet | None) -> AboutBuild:
    """What was typed of the build; once it was sent, with what is wrong in it."""
    about = about_build(form)
    if form.get("do") != "start":
        return about
    any_sheet = sheet or read_sheet(sheet_text(next(iter(EXAMPLES))))
    return faulted(about, form, any_sheet, hands.shop.builds())


def _frame(hands: Hands, way: str) -> Frame:
    return frame_of(
        hands,
        "Start a build",
        "Builds",
        help_page="start-a-build",
        live=False,
        styles=("new.css", *STYLES.get(way, ())),
        scripts=SCRIPTS.get(way, ()),
    )


def _way(each: str, chosen: str) -> WayToStart:
    title, words = WAYS[each]
    return WayToStart(title, words, f"/builds/new/{each}", each == chosen)


def _examples(chosen: str) -> tuple[ExampleOption, ...]:
    chosen = chosen if chosen in EXAMPLES else next(iter(EXAMPLES))
    return tuple(
        ExampleOption(name, each.title, counts_of(read_sheet(sheet_text(name))), name == chosen)
        for name, each in EXAMPLES.items()
    )


ROUTES: list[BaseRoute] = [
    Route("/builds/new", show, name="new build"),
    Route("/builds/new/{way}", show),
    Route("/builds/new/{way}", take, methods=["POST"]),
]
