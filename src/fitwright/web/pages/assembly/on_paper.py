"""The order of work and a tightening group as sheets to print, with blank boxes to write in."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import ClassVar, Final

from markupsafe import Markup
from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response

from fitwright.bench.context import Bench
from fitwright.bench.entry_words import title_of
from fitwright.data.cautions import Caution, cautions_of
from fitwright.drawing.bolt_pattern import bolt_pattern
from fitwright.drawing.tightening_figures import TighteningReader
from fitwright.model.fastener import Pass, TighteningGroup, readable_names
from fitwright.model.sheet import Sheet
from fitwright.model.step import PointKind, Step
from fitwright.units.families import Family
from fitwright.web.addresses import assembly_address
from fitwright.web.frame import Frame, frame_of
from fitwright.web.hands import Hands
from fitwright.web.pages.assembly.group_facts import (
    Figure,
    cautions_here,
    facts_of,
    is_left_handed,
    warnings_of,
)
from fitwright.web.pages.assembly.opened import Opened
from fitwright.web.pages.bench_forms import PaperChoice, paper_of, papers
from fitwright.web.pages.choices import Choice
from fitwright.web.rendering import page
from fitwright.web.visit import NotThereError, Visit, visit_of

PRINTED: Final = 640.0
"""Width of a pattern on paper."""


@dataclass(frozen=True, slots=True)
class PaperStep:
    """A step with what it asks for, and the boxes to write in."""

    title: str
    point: str
    note: str
    begins: tuple[str, ...]
    asks: tuple[str, ...]
    hides: str
    cautions: tuple[Caution, ...]
    boxes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class PaperStage:
    """One stage as it is printed."""

    title: str
    foot: str
    steps: tuple[PaperStep, ...]


@dataclass(frozen=True, slots=True)
class OrderPaperContext:
    """The order of work as sheets, a stage each."""

    template: ClassVar[str] = "assembly/order_paper.html"
    frame: Frame
    back: str
    papers: tuple[PaperChoice, ...]
    stages_offered: tuple[Choice, ...]
    about: str
    stages: tuple[PaperStage, ...]


@dataclass(frozen=True, slots=True)
class PaperFastener:
    """A fastener as a row of boxes."""

    order: int
    name: str


@dataclass(frozen=True, slots=True)
class GroupPaperContext:
    """A tightening group as a sheet."""

    template: ClassVar[str] = "assembly/group_paper.html"
    frame: Frame
    back: str
    papers: tuple[PaperChoice, ...]
    title: str
    about: str
    foot: str
    facts: tuple[Figure, ...]
    left_hand: bool
    warnings: tuple[str, ...]
    cautions: tuple[Caution, ...]
    picture: Markup
    heads: tuple[Figure, ...]
    fasteners: tuple[PaperFastener, ...]


async def show_order(request: Request) -> Response:
    """Show the order of work as sheets to print."""
    return page(await run_in_threadpool(_order, await visit_of(request), paper_of(request)))


def _order(visit: Visit, paper: str) -> OrderPaperContext:
    request, hands, code, family = visit
    wanted = request.query_params.getlist("stage")
    with hands.shop.held():
        bench = hands.shop.bench(code)
        names = list(dict.fromkeys(each.stage for each in bench.sheet.steps.values()))
        shown = [name for name in names if not wanted or name in wanted]
        if not shown:
            problem = "There is no such stage, or no order of work to print."
            raise NotThereError(problem, "Go back to the page Assembly.")
        here = assembly_address(code, family, rest="/paper", stage=wanted[0] if len(wanted) == 1 else "")
        about, job = _about(hands, code, bench.sheet)
        return OrderPaperContext(
            frame=_frame(hands, code, family, "Order of work", paper),
            back=assembly_address(code, family),
            papers=papers(here, paper),
            stages_offered=tuple(_stages_offered(code, family, paper, names, wanted)),
            about=about,
            stages=tuple(_stage(bench, family, name, job) for name in shown),
        )


def _stages_offered(
    code: str, family: Family, paper: str, names: Iterable[str], wanted: list[str]
) -> Iterator[Choice]:
    yield Choice("all", assembly_address(code, family, rest="/paper", paper=paper), not wanted)
    for name in names:
        address = assembly_address(code, family, rest="/paper", stage=name, paper=paper)
        yield Choice(name, address, wanted == [name])


def _about(hands: Hands, code: str, sheet: Sheet) -> tuple[str, str]:
    """What stands below the title of a sheet, and at its foot."""
    started = hands.shop.builds()[code]
    job = f"job {started.job_number}" if started.job_number else f"build {code}"
    revision = f"sheet {sheet.engine.name}, revision {sheet.engine.revision}"
    return f"{started.title}; {revision}", f"{job}; {revision}"


def _frame(hands: Hands, code: str, family: Family, title: str, paper: str) -> Frame:
    return frame_of(
        hands,
        title,
        "Assembly",
        build=code,
        family=family,
        help_page="assembly",
        live=False,
        styles=(
            "oil_pictures.css",
            "bolt_pattern.css",
            "bench_forms.css",
            "assembly_paper.css",
            f"paper_{paper}.css",
        ),
        scripts=("bench_forms.js",),
    )


def _stage(bench: Bench, family: Family, name: str, job: str) -> PaperStage:
    steps = [each for each in bench.sheet.steps.values() if each.stage == name]
    return PaperStage(name, f"{name}; {job}", tuple(_step(bench, family, each) for each in steps))


def _step(bench: Bench, family: Family, step: Step) -> PaperStep:
    boxes = ["done by", "date, time"]
    boxes += ["released by"] if step.point is PointKind.HOLD else []
    boxes += (
        [f"witness{f' ({step.invited})' if step.invited else ''}"] if step.point is PointKind.WITNESS else []
    )
    return PaperStep(
        title=step.title,
        point=step.point.value if step.point is not None else "",
        note=step.note or "",
        begins=tuple(_begins(bench, step)),
        asks=tuple(_asks(bench, family, step)),
        hides=", ".join(title_of(bench, name) for name in step.hides),
        cautions=tuple(cautions_of(step.cautions)),
        boxes=tuple(boxes),
    )


def _begins(bench: Bench, step: Step) -> Iterator[str]:
    """What must be so before it is begun; a box each."""
    for name in step.after:
        other = bench.sheet.steps.get(name)
        held = other is not None and other.point is PointKind.HOLD
        yield f"{title_of(bench, name)} {'released' if held else 'done'}"
    yield from (f"{title_of(bench, name)} within" for name in step.fits)
    yield from (f"{title_of(bench, name)} tightened" for name in step.tightened)
    yield from (f"{title_of(bench, name)} cured" for name in step.cured)


def _asks(bench: Bench, family: Family, step: Step) -> Iterator[str]:
    """What it leaves behind; a box each."""
    reader = TighteningReader(family)
    for name in step.tightens:
        group = bench.sheet.tightening_groups.get(name)
        passes = "; ".join(map(reader.pass_words, group.passes)) if group is not None else ""
        yield f"{title_of(bench, name)}: {passes or 'value not stated'}"
    yield from (f"{title_of(bench, name)} yes / no" for name in step.eye_checks)
    yield from (f"new: {title_of(bench, name)}" for name in step.replaces)
    yield from (f"photo: {each.words}" for each in step.photos)
    yield from (f"{title_of(bench, name)}: batch, good until" for name in step.uses)


async def show_group(request: Request) -> Response:
    """Show a tightening group as a sheet to print."""
    return page(await run_in_threadpool(_group, await visit_of(request), paper_of(request)))


def _group(visit: Visit, paper: str) -> GroupPaperContext:
    _, hands, code, family = visit
    with hands.shop.held():
        opened = Opened.of(visit)
        group = opened.group_asked(visit.named("group"))
        about, job = _about(hands, code, opened.bench.sheet)
        names = readable_names(group)
        return GroupPaperContext(
            frame=_frame(hands, code, family, group.title, paper),
            back=opened.group_address(group.id),
            papers=papers(assembly_address(code, family, group=group.id, rest="/paper"), paper),
            title=group.title,
            about=about,
            foot=f"{group.title}; {job}",
            facts=facts_of(group, opened),
            left_hand=is_left_handed(group),
            warnings=warnings_of(group, opened),
            cautions=cautions_here(group, opened.bench.sheet),
            picture=Markup(bolt_pattern(group, width=PRINTED).svg),  # noqa: S704  (our own drawing)
            heads=tuple(_heads(opened.reader, group)),
            fasteners=tuple(
                PaperFastener(order, names[each.id]) for order, each in enumerate(group.fasteners, start=1)
            ),
        )


def _heads(reader: TighteningReader, group: TighteningGroup) -> Iterator[Figure]:
    """The columns of boxes: one for each pass, the lengths where stretch is read, marked, checked."""
    for number, asks in enumerate(group.passes or (Pass(),), start=1):
        if asks.stretch_low is not None or asks.stretch_high is not None:
            yield from (Figure("free", "length"), Figure("tightened", "length"))
        heat = ", after heat" if asks.after_heat else ""
        yield Figure(f"pass {number}", f"{reader.pass_words(asks)}{heat}")
    yield Figure("marked", "")
    yield Figure("checked", "")
