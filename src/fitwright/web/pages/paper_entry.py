"""What was written on paper typed in: a station's tables as a form, kept row by row, doubts in place."""

from __future__ import annotations

import uuid
from dataclasses import dataclass
from typing import ClassVar, Final

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import BaseRoute, Route

from fitwright.bench.context import Bench
from fitwright.bench.look_back import LookBack
from fitwright.bench.order import Stop
from fitwright.bench.paper import Noted, paper_groups
from fitwright.units.families import Family
from fitwright.web.addresses import forms_address, paper_address
from fitwright.web.frame import Frame, frame_of
from fitwright.web.hands import family_of, hands_of, is_known
from fitwright.web.pages.problem import no_build, problem_page
from fitwright.web.paper_head import HeadPart, head_part
from fitwright.web.paper_notes import noted_in, problem_note, question_note, raised_note
from fitwright.web.paper_tables import NotePart, PlaceTyped, TablePart, tables_of
from fitwright.web.paper_taking import Came, Paper, SaidPart, typed_in, with_photo
from fitwright.web.people import person_at, remember_person
from fitwright.web.rendering import page
from fitwright.web.writing import Sent, sent

MOST_FIELDS: Final = 4000
"""Every place of a large station: its boxes, digits printed in them, answers."""


@dataclass(frozen=True, slots=True)
class PaperContext:
    """A station's paper as a form."""

    template: ClassVar[str] = "paper.html"
    frame: Frame
    title: str
    action: str
    photo_action: str
    token: str
    entry_id: str
    keep: str
    nobody: bool
    said: SaidPart | None
    head: HeadPart
    tables: tuple[TablePart, ...]
    sheet: str


async def paper(request: Request) -> Response:
    """Show a station's paper as a form, or take what was typed into it."""
    hands, code = hands_of(request), request.path_params["build"]
    if not await is_known(hands, code):
        return no_build(request, code)
    station = request.path_params["station"]
    if station not in hands.shop.bench(code).sheet.stations:
        return problem_page(
            request, f'There is no station "{station[:60]}".', "Choose a station.", status=404
        )
    typist = person_at(request, hands.shop.state)
    own, family = Paper(hands, code, station, typist), family_of(request, code)
    if request.method == "GET":
        form = Sent(dict(request.query_params))
        came = Came(sitting=form.get("sitting"))
        return page(await run_in_threadpool(_context, own, family, form, came))
    form = await sent(request, most_files=1, most_fields=MOST_FIELDS)
    if request.url.path.endswith("/photos"):
        form, came = await run_in_threadpool(with_photo, own, form)
    else:
        came = await run_in_threadpool(typed_in, own, form)
    context = await run_in_threadpool(_context, own, family, form, came)
    answer = page(context, status=came.status)
    remember_person(answer, form.get("person") if form.get("person") in hands.shop.state.people else None)
    return answer


def _context(own: Paper, family: Family, form: Sent, came: Came) -> PaperContext:
    with own.hands.shop.held():
        bench = own.bench
        station = bench.sheet.stations[own.station]
        sitting = came.sitting if came.sitting in bench.build.sittings else ""
        groups = paper_groups(bench, own.station, bench.sitting(sitting) if sitting else bench.sitting(None))
        return PaperContext(
            frame=frame_of(
                own.hands,
                f"{station.title}, from paper",
                "Paper",
                build=own.code,
                family=family,
                help_page="paper",
                live=False,
                styles=("bench_forms.css",),
                scripts=("bench_forms.js",),
            ),
            title=f"{station.title}, from paper",
            action=paper_address(own.code, own.station, family),
            photo_action=paper_address(own.code, own.station, family, photo=True),
            token=own.hands.token.value,
            entry_id=uuid.uuid4().hex,
            keep=f"paper {own.code}",
            nobody=not bench.shop.people,
            said=came.said,
            head=head_part(bench, own.kinds(), form.fields, typist=own.typist, sitting=sitting),
            tables=tables_of(bench, groups, _typed(own, form, came, sitting), chosen=form.fields),
            sheet=forms_address(own.code, family, station=own.station),
        )


def _typed(own: Paper, form: Sent, came: Came, sitting: str) -> dict[Stop, PlaceTyped]:
    kept = own.kept(sitting) if sitting else {}
    raised = {_stop_of(own.bench, each): each for each in came.raised}
    found = {}
    for stop in own.order:
        noted = noted_in(form, stop)
        found[stop] = PlaceTyped(
            size=noted.size,
            blades=noted.blades,
            kept={what: words for (where, what), words in kept.items() if where == stop},
            note=_note(own.bench, noted, came, raised.get(stop)),
        )
    return found


def _stop_of(bench: Bench, asked: LookBack) -> Stop:
    record = bench.build.readings[asked.reading]
    return Stop(record.dimension or "", record.place)


def _note(bench: Bench, noted: Noted, came: Came, raised: LookBack | None) -> NotePart | None:
    """What has to be said of a place, if anything has."""
    stop = noted.stop
    if stop in came.questions:
        return question_note(bench, noted, came.questions[stop])
    if raised is not None:
        return raised_note(bench, stop, raised)
    return problem_note(bench, stop, came.problems[stop]) if stop in came.problems else None


ROUTES: Final[list[BaseRoute]] = [
    Route("/builds/{build}/paper/{station}", paper, methods=["GET", "POST"], name="paper"),
    Route("/builds/{build}/paper/{station}/photos", paper, methods=["POST"], name="paper_photo"),
]
