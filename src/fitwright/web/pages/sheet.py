"""Sheet: the text of a build's sheet, checked as one types; changed by a form; taken over on purpose."""

from __future__ import annotations

import uuid
from collections.abc import Sequence
from dataclasses import dataclass
from typing import ClassVar, Final

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import BaseRoute, Route

from fitwright.bench.context import Bench
from fitwright.bench.revising import NothingToTakeOverError, revision_taken_over
from fitwright.formats.errors import FormatError
from fitwright.formats.sheet import SheetProblemsError, read_sheet
from fitwright.formats.sheet.diff import differences
from fitwright.records.entry import NewEntry, same_again
from fitwright.records.projection import Recorded
from fitwright.web.addresses import adopt_address, record_address, sheet_address
from fitwright.web.frame import Frame, frame_of
from fitwright.web.hands import Hands, family_of, hands_of, is_known
from fitwright.web.pages.problem import no_build
from fitwright.web.people import PersonOption, people_to_choose, person_at, person_in, remember_person
from fitwright.web.rendering import page
from fitwright.web.sheet_change import ChangeForm, change_form, changed
from fitwright.web.sheet_looked import Looked, look
from fitwright.web.writing import KEPT, REFUSED, Kept, Refused, Sent, UnclearFormError, capital, sent, written

TEXT: Final = "text"


@dataclass(frozen=True, slots=True)
class SheetSaid:
    """What came of a form, in words; `state` is kept or refused."""

    state: str
    words: str


@dataclass(frozen=True, slots=True)
class SheetContext:
    """The page Sheet; `own` is the digest of the text that the build has, `line` the one just changed."""

    template: ClassVar[str] = "sheet.html"
    frame: Frame
    name: str
    pinned: str
    pinned_address: str
    own: str
    download: str
    adopt: str
    token: str
    entry_id: str
    draft: str
    outcome: SheetSaid | None
    line: int
    looking: Looked
    change: ChangeForm | None
    everybody: tuple[PersonOption, ...]
    reason: str


@dataclass(frozen=True, slots=True)
class LookContext:
    """What looking at a text found, for a page in use."""

    template: ClassVar[str] = "sheet_look.html"
    fresh: Looked


async def show(request: Request) -> Response:
    """Answer with the page Sheet."""
    hands, code = hands_of(request), request.path_params["build"]
    if not await is_known(hands, code):
        return no_build(request, code)
    return page(await run_in_threadpool(_page, request, hands, code, Sent({})))


async def take(request: Request) -> Response:
    """Take a text: looked at, changed by the form, or taken over."""
    hands, code = hands_of(request), request.path_params["build"]
    if not await is_known(hands, code):
        return no_build(request, code)
    form = await sent(request, most_fields=400, as_typed=(TEXT,))
    if form.get("do") == "look" and "hx-request" in request.headers:
        return page(await run_in_threadpool(_looked, hands, code, form))
    return await run_in_threadpool(_taken, request, hands, code, form)


async def download(request: Request) -> Response:
    """The text of the sheet that a build has, as a file."""
    hands, code = hands_of(request), request.path_params["build"]
    if not await is_known(hands, code):
        return no_build(request, code)
    sheet, text = await run_in_threadpool(_own, hands, code)
    name = "".join(each if each.isalnum() or each in "-_" else "-" for each in sheet.sheet.engine.id)
    headers = {"content-disposition": f'attachment; filename="{name}.toml"', "cache-control": "no-store"}
    return Response(text, media_type="application/toml; charset=utf-8", headers=headers)


def _own(hands: Hands, code: str) -> tuple[Bench, str]:
    with hands.shop.held():
        bench = hands.shop.bench(code)
        return bench, hands.shop.record.sheet_text(bench.sheet.digest)


def _looked(hands: Hands, code: str, form: Sent) -> LookContext:
    with hands.shop.held():
        bench = hands.shop.bench(code)
    return LookContext(look(bench, form.get(TEXT)))


def _taken(request: Request, hands: Hands, code: str, form: Sent) -> Response:
    do = form.get("do")
    if do.startswith("change:"):
        return _changed(request, hands, code, form)
    if do != "take-over":
        return page(_page(request, hands, code, form))
    came = written(hands, form, lambda: _take_over(hands, code, form))
    if isinstance(came, Kept):
        return _taken_over(request, hands, code, form, came)
    assert isinstance(came, Refused)  # noqa: S101  (nothing is asked here)
    again = Sent({**form.fields, "entry_id": ""}) if came.reused else form
    said = SheetSaid("refused", came.words)
    return page(_page(request, hands, code, again, said=said), status=came.status)


def _take_over(hands: Hands, code: str, form: Sent) -> Sequence[NewEntry]:
    text, bench = form.get(TEXT), hands.shop.bench(code)
    person = person_in(form, hands.shop.state)
    try:
        new = read_sheet(text, name="the text")
    except SheetProblemsError as error:
        count = len(error.problems)
        what = "There is a problem" if count == 1 else f"There are {count} problems"
        raise UnclearFormError(f"{what} in the text", "mend it first, line by line") from error
    before = hands.shop.record.entry(form.get("entry_id"))
    if before is not None and before.body.get("sheet") == new.digest:
        return [same_again(before)]
    found = differences(bench.sheet, new)
    if not found:
        raise NothingToTakeOverError(code)
    body = revision_taken_over(bench, new, found, reason=form.get("reason") or None)
    hands.shop.record.keep_sheet(text)
    return [hands.shop.entry(body, build=code, person=person, entry_id=form.get("entry_id") or None)]


def _taken_over(request: Request, hands: Hands, code: str, form: Sent, came: Kept) -> Response:
    with hands.shop.held():
        revision = hands.shop.bench(code).sheet.engine.revision
        absent = len(hands.shop.assessment(code).not_on_sheet)
    words = f"{came.words} The build is now at revision {revision}."
    if absent:
        things = "1 thing recorded is" if absent == 1 else f"{absent} things recorded are"
        words += f" {things} in no verdict any more; they are listed at the foot of Fits."
    answer = page(_page(request, hands, code, Sent({}), said=SheetSaid("kept", words)), status=KEPT)
    remember_person(answer, form.get("person") or None)
    return answer


def _changed(request: Request, hands: Hands, code: str, form: Sent) -> Response:
    """The text with a change written into it: nothing is recorded by that."""
    try:
        text = changed(form.get(TEXT), form)
    except (FormatError, UnclearFormError) as error:
        said = SheetSaid("refused", f"The text is as it was. {capital(_why(error))}")
        return page(_page(request, hands, code, form, said=said), status=REFUSED)
    now = Sent({**form.fields, TEXT: text})
    said = SheetSaid(
        "kept", "Written into the text; the build keeps its revision until this one is taken over."
    )
    return page(_page(request, hands, code, now, said=said))


def _why(error: FormatError | UnclearFormError) -> str:
    """Why a change was not written: of several problems the first, which the others may follow from."""
    if not isinstance(error, SheetProblemsError):
        return str(error)
    first = error.problems[0]
    return f"{first.place}: {first.what}{f'; {first.accepted}' if first.accepted else ''}."


def _page(
    request: Request, hands: Hands, code: str, form: Sent, *, said: SheetSaid | None = None
) -> SheetContext:
    bench, own = _own(hands, code)
    text = form.fields.get(TEXT, own)
    looked = look(bench, text)
    key = form.get("subject")
    sheet = read_sheet(text) if looked.findings.counts else None
    who = form.get("person") or person_at(request, hands.shop.state)
    return SheetContext(
        frame=_frame(hands, code),
        name=bench.sheet.engine.name,
        pinned=_pinned(bench),
        pinned_address=record_address(code, entry=_pinning(bench).entry.seq),
        own=bench.sheet.digest,
        download=f"{sheet_address(code)}.toml",
        adopt=adopt_address(code, "", family_of(request, code)),
        token=hands.token.value,
        entry_id=form.get("entry_id") or uuid.uuid4().hex,
        draft=text,
        outcome=said,
        line=text.count("\n", 0, text.index(f'"{key}"')) + 1 if key and f'"{key}"' in text else 0,
        looking=looked,
        change=change_form(text, key, sheet) if sheet is not None else None,
        everybody=people_to_choose(hands.shop.state, who),
        reason=form.get("reason"),
    )


def _frame(hands: Hands, code: str) -> Frame:
    return frame_of(
        hands,
        "Sheet",
        "Sheet",
        build=code,
        help_page="sheet",
        live=False,
        styles=("new.css", "sheet.css", "section.css"),
        scripts=("sheet.js",),
    )


def _pinning(bench: Bench) -> Recorded:  # type: ignore[type-arg]  # either kind of entry names a sheet
    """The entry by which the build has the sheet that it has."""
    found = bench.build.revisions[-1] if bench.build.revisions else bench.build.started
    assert found is not None  # noqa: S101  (a build has begun)
    return found


def _pinned(bench: Bench) -> str:
    entry, engine = _pinning(bench).entry, bench.sheet.engine
    by = bench.shop.people.get(entry.person or "")
    who = by.body.name if by is not None else "somebody"
    did = "took it over" if bench.build.revisions else "started the build"
    return f"revision {engine.revision} since {entry.committed_at[:10]}, when {who} {did}"


ROUTES: list[BaseRoute] = [
    Route("/builds/{build}/sheet", show, name="sheet"),
    Route("/builds/{build}/sheet", take, methods=["POST"]),
    Route("/builds/{build}/sheet.toml", download),
]
