"""How a fit came to be what it is: its value over the entries, drawn against its limits."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar

from markupsafe import Markup
from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import BaseRoute, Route

from fitwright.assess.history import Moment, history_of
from fitwright.assess.results import State
from fitwright.drawing.figures import Reader
from fitwright.drawing.history import history_picture
from fitwright.drawing.marks import mark_drawing
from fitwright.records.projection import ShopState
from fitwright.web.addresses import fit_address, record_address
from fitwright.web.frame import Frame, frame_of
from fitwright.web.hands import Hands, View, family_of, hands_of, is_known
from fitwright.web.pages.problem import no_build, problem_page
from fitwright.web.rendering import page
from fitwright.web.whose import at_the_shop


@dataclass(frozen=True, slots=True)
class MomentPart:
    """One moment: when, what happened, and the verdict that followed."""

    when: str
    what: str
    changed: bool
    words: str
    value: str
    mark: Markup
    seq: int
    entry: str


@dataclass(frozen=True, slots=True)
class HistoryContext:
    """The history of a fit; `whole` is false where it goes into the page of the fit."""

    template: ClassVar[str] = "fit_history.html"
    frame: Frame
    whole: bool
    back: str
    picture: Markup
    moments: tuple[MomentPart, ...]


async def show(request: Request) -> Response:
    """Answer with the history of one fit."""
    hands, code = hands_of(request), request.path_params["build"]
    if not await is_known(hands, code):
        return no_build(request, code)
    subject = request.path_params["subject"]
    if subject not in hands.shop.assessor(code).judge.subjects:
        problem = f'{code} has no fit or dimension "{subject}".'
        return problem_page(request, problem, "Choose one of the fits of the build.", status=404)
    view = View(code, State.CURRENT, family_of(request, code))
    whole = "hx-request" not in request.headers
    return page(await run_in_threadpool(_context, hands, view, subject, whole=whole))


def _context(hands: Hands, view: View, subject: str, *, whole: bool) -> HistoryContext:
    with hands.shop.held():
        judge = hands.shop.assessor(view.code).judge
        moments, reader = history_of(judge, subject), Reader(view.family)
        title = f"{judge.subjects[subject].title}, history"
        drawn = history_picture(moments, reader) if moments else ""
        return HistoryContext(
            frame=frame_of(
                hands,
                title,
                "Fits",
                build=view.code,
                family=view.family,
                help_page="fit",
                live=False,
                styles=("fit.css",),
            ),
            whole=whole,
            back=fit_address(view.code, subject, view.state, view.family),
            picture=Markup(drawn),  # noqa: S704
            moments=tuple(_parts(hands.shop.state, view, moments, reader)),
        )


def _parts(shop: ShopState, view: View, moments: tuple[Moment, ...], reader: Reader) -> Iterator[MomentPart]:
    for each in moments:
        yield MomentPart(
            when=at_the_shop(shop, each.at),
            what=each.words,
            changed=each.changed,
            words=each.verdict.words,
            value=reader.value(each.verdict),
            mark=Markup(mark_drawing(each.verdict.verdict)),  # noqa: S704
            seq=each.seq,
            entry=record_address(view.code, entry=each.seq),
        )


ROUTES: list[BaseRoute] = [
    Route("/builds/{build}/fits/{subject}/history", show, name="fit history"),
]
