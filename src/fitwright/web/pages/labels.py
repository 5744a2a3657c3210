"""Labels for parts: position, job, and the part's code in words and as a QR code."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import islice
from typing import ClassVar, Final
from urllib.parse import urlencode

from markupsafe import Markup
from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import BaseRoute, Route

from fitwright.bench.context import Bench
from fitwright.bench.parts import spare_parts
from fitwright.drawing.qr import qr_drawing
from fitwright.units.families import Family
from fitwright.web.addresses import labels_address
from fitwright.web.frame import Frame, frame_of
from fitwright.web.hands import Hands, family_of, hands_of, is_known
from fitwright.web.numbers import whole_number
from fitwright.web.pages.bench_forms import PaperChoice, paper_of, papers
from fitwright.web.pages.problem import no_build
from fitwright.web.rendering import page

ON_A_SHEET: Final = {"a4": 24, "letter": 30}
"""Labels on one sheet: 3 by 8 of 70 x 37 mm, 3 by 10 of 2 5/8 x 1 inch."""
SIZES: Final = {"a4": "24 labels of 70 x 37 mm", "letter": "30 labels of 2 5/8 x 1 inch"}
SHELF: Final = "shelf"
"""The group of parts that sit in no position."""


@dataclass(frozen=True, slots=True)
class GroupChoice:
    """Parts whose positions begin alike."""

    value: str
    label: str
    chosen: bool


@dataclass(frozen=True, slots=True)
class LabelPart:
    """One label; an empty one is left out at the beginning of a sheet that is partly used."""

    title: str
    code: str
    serial: str
    job: str
    drawing: Markup


@dataclass(frozen=True, slots=True)
class LabelSheet:
    """One sheet of labels."""

    blanks: tuple[int, ...]
    labels: tuple[LabelPart, ...]


@dataclass(frozen=True, slots=True)
class LabelsContext:
    """The labels of a build."""

    template: ClassVar[str] = "labels.html"
    frame: Frame
    action: str
    family: Family
    papers: tuple[PaperChoice, ...]
    groups: tuple[GroupChoice, ...]
    start: int
    most: int
    says: str
    sheets: tuple[LabelSheet, ...]


async def show(request: Request) -> Response:
    """Show the labels that the address asks for."""
    hands, code = hands_of(request), request.path_params["build"]
    if not await is_known(hands, code):
        return no_build(request, code)
    family, paper = family_of(request, code), paper_of(request)
    wanted = frozenset(request.query_params.getlist("group"))
    start = _start(request.query_params.get("start", ""), ON_A_SHEET[paper])
    return page(await run_in_threadpool(_context, hands, code, family, paper, wanted, start))


def _context(
    hands: Hands, code: str, family: Family, paper: str, wanted: frozenset[str], start: int
) -> LabelsContext:
    with hands.shop.held():
        bench = hands.shop.bench(code)
        started = hands.shop.builds()[code]
        job = f"job {started.job_number}" if started.job_number else f"build {code}"
        known = tuple(_groups(bench))
        chosen = wanted & {value for value, _ in known}
        labels = list(_labels(bench, code, job, chosen or {value for value, _ in known}))
        frame = frame_of(
            hands,
            "Labels",
            "Paper",
            build=code,
            family=family,
            help_page="paper",
            live=False,
            styles=("bench_forms.css", f"labels_{paper}.css"),
            scripts=("bench_forms.js",),
        )
    here = labels_address(code, family, **({"start": str(start)} if start > 1 else {}))
    if chosen:
        here = f"{here}&{urlencode([('group', each) for each in sorted(chosen)])}"
    return LabelsContext(
        frame=frame,
        action=labels_address(code, family).partition("?")[0],
        family=family,
        papers=papers(here, paper),
        groups=tuple(GroupChoice(value, label, value in chosen) for value, label in known),
        start=start,
        most=ON_A_SHEET[paper],
        says=f"{len(labels)} labels; a sheet has {SIZES[paper]}",
        sheets=tuple(_filled(labels, ON_A_SHEET[paper], start)),
    )


def _start(text: str, most: int) -> int:
    """The first label to print on; the first of the sheet unless the address says otherwise."""
    number = whole_number(text)
    return number if number is not None and 1 <= number <= most else 1


def _groups(bench: Bench) -> Iterator[tuple[str, str]]:
    """The beginnings of the positions, with the words of their first position's title."""
    beginnings = dict.fromkeys(position.partition(".")[0] for position in bench.sheet.parts)
    yield from ((each, each.replace("_", " ")) for each in beginnings)
    if spare_parts(bench):
        yield SHELF, "on the shelf"


def _labels(bench: Bench, build: str, job: str, groups: frozenset[str] | set[str]) -> Iterator[LabelPart]:
    for position, place in bench.sheet.parts.items():
        code = bench.build.occupant(position)
        if code is not None and position.partition(".")[0] in groups:
            yield _label(bench, build, job, code, place.title)
    if SHELF in groups:
        for code in spare_parts(bench):
            yield _label(bench, build, job, code, bench.build.parts[code].body.title)


def _label(bench: Bench, build: str, job: str, code: str, title: str) -> LabelPart:
    held = bench.build.parts.get(code)
    drawing = qr_drawing(f"{build}/{code}", f"QR code of part {code} of {build}")
    serial = held.body.serial if held is not None else None
    return LabelPart(title, code, serial or "", job, Markup(drawing))  # noqa: S704  (our own drawing)


def _filled(labels: list[LabelPart], size: int, start: int) -> Iterator[LabelSheet]:
    """Sheets filled with labels, the first one from a label on."""
    left, blanks = iter(labels), start - 1
    while here := tuple(islice(left, size - blanks)):
        yield LabelSheet(tuple(range(blanks)), here)
        blanks = 0


ROUTES: Final[list[BaseRoute]] = [Route("/builds/{build}/labels", show, name="labels")]
