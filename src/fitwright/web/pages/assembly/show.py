"""The page Assembly: what can be done now, what is held, what changed since, then all steps by stage."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar, Final

from fitwright.assess.assembly.results import Standing, StepState
from fitwright.data.cautions import Caution, cautions_of
from fitwright.units.families import Family
from fitwright.web.addresses import assembly_address, enter_assembly_address, sheet_address
from fitwright.web.entering.entry_form import EntryForm, Said
from fitwright.web.entering.kinds import Forms
from fitwright.web.frame import Frame, frame_of
from fitwright.web.pages.assembly.of_steps import OF_BUILD
from fitwright.web.pages.assembly.opened import Opened
from fitwright.web.pages.assembly.steps import FrontCard, StagePart, StepLine, cards, follows, stages_of
from fitwright.web.pages.assembly.surroundings import (
    ConsumablePart,
    GroupLine,
    MoveLine,
    OneTimeLine,
    consumable_parts,
    group_lines,
    move_lines,
    one_time_lines,
)
from fitwright.web.pages.parts.of_decisions import BACK
from fitwright.web.people import person_at
from fitwright.web.visit import Visit

STYLES: Final = ("entering.css", "assembly.css")
SCRIPTS: Final = ("entering.js", "assembly.js")


@dataclass(frozen=True, slots=True)
class FormOffer:
    """A form that can be opened."""

    label: str
    address: str
    open: bool


@dataclass(frozen=True, slots=True)
class LeftOut:
    """A step or group that is not in this job, and why."""

    title: str
    why: str


@dataclass(frozen=True, slots=True)
class AssemblyContext:
    """The page Assembly."""

    template: ClassVar[str] = "assembly/assembly.html"
    frame: Frame
    summary: str
    sheet: str
    paper: str
    offers: tuple[FormOffer, ...]
    outcome: Said | None
    entry: EntryForm | None
    begun: bool
    has_steps: bool
    now: tuple[FrontCard, ...]
    held: tuple[FrontCard, ...]
    changed: tuple[FrontCard, ...]
    followed: tuple[StepLine, ...]
    cautions: tuple[Caution, ...]
    stages: tuple[StagePart, ...]
    groups: tuple[GroupLine, ...]
    consumables: tuple[ConsumablePart, ...]
    not_new: tuple[OneTimeLine, ...]
    new: tuple[OneTimeLine, ...]
    moves: tuple[MoveLine, ...]
    left_out: tuple[LeftOut, ...]


def assembly_page(visit: Visit, said: Said | None, form: EntryForm | None) -> AssemblyContext:
    """The whole page, with a form open or what came of one."""
    with visit.hands.shop.held():
        opened = Opened.of(visit)
        person = person_at(visit.request, opened.bench.shop)
        return _context(opened, person, said, form)


def _context(
    opened: Opened, person: str | None, said: Said | None, form: EntryForm | None
) -> AssemblyContext:
    code, family, standing = opened.code, opened.family, opened.standing
    return AssemblyContext(
        frame=frame_of(
            opened.hands,
            "Assembly",
            "Assembly",
            build=code,
            family=family,
            help_page="assembly",
            styles=STYLES,
            scripts=SCRIPTS,
        ),
        summary=summary_of(standing),
        sheet=sheet_address(code),
        paper=assembly_address(code, family, rest="/paper"),
        offers=tuple(_offers(code, family, form)),
        outcome=said,
        entry=form,
        begun=is_begun(standing),
        has_steps=bool(standing.steps),
        now=cards(opened, StepState.CAN_BE_DONE, person),
        held=cards(opened, StepState.HELD, person),
        changed=cards(opened, StepState.CHANGED_SINCE, person),
        followed=follows(opened),
        cautions=_cautions(standing),
        stages=stages_of(opened),
        groups=group_lines(opened),
        consumables=consumable_parts(opened),
        not_new=one_time_lines(opened, new=False),
        new=one_time_lines(opened, new=True),
        moves=move_lines(opened),
        left_out=_left_out(opened),
    )


def _offers(code: str, family: Family, form: EntryForm | None) -> Iterator[FormOffer]:
    for name, kind in OF_BUILD.items():
        if name != BACK.name:
            address = assembly_address(code, family, do=name)
            yield FormOffer(kind.label, address, form is not None and form.name == name)


def _cautions(standing: Standing) -> tuple[Caution, ...]:
    """What can hurt somebody in the steps in front, each once."""
    front = (StepState.CAN_BE_DONE, StepState.HELD, StepState.CHANGED_SINCE)
    keys = (key for each in standing.steps.values() if each.state in front for key in each.cautions)
    return tuple(cautions_of(keys))


def summary_of(standing: Standing) -> str:
    """How far the order of work has come, in one line."""
    done = standing.count(StepState.DONE) + standing.count(StepState.RELEASED)
    said = [f"{done} of {len(standing.steps)} steps done"]
    counted = (
        (StepState.CAN_BE_DONE, "can be done now"),
        (StepState.HELD, "held"),
        (StepState.CHANGED_SINCE, "changed since"),
        (StepState.WAITS_FOR, "waiting"),
    )
    said += [f"{standing.count(state)} {words}" for state, words in counted if standing.count(state)]
    return f"{', '.join(said)}." if standing.steps else ""


def is_begun(standing: Standing) -> bool:
    """Whether any step or tightening was recorded."""
    done = any(each.done or each.released for each in standing.steps.values())
    return done or any(each.started for each in standing.groups.values())


def _left_out(opened: Opened) -> tuple[LeftOut, ...]:
    sheet = opened.bench.sheet
    titles = {each.id: each.title for each in sheet.steps.values()}
    titles |= {each.id: each.title for each in sheet.tightening_groups.values()}
    left_out = opened.standing.not_in_this_job
    return tuple(LeftOut(titles.get(name, name), why) for name, why in left_out.items())


OF_ASSEMBLY: Final = Forms("Assembly", OF_BUILD, assembly_address, enter_assembly_address, assembly_page)
"""The forms about the assembly as a whole."""
