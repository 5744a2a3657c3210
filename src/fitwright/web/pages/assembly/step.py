"""The page of one step: what it asks for, what it hides, its photos, and Done, Release or Invite."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar, Final

from fitwright.assess.assembly.results import StepStanding
from fitwright.data.cautions import Caution, cautions_of
from fitwright.model.step import PointKind
from fitwright.records import kinds
from fitwright.records.kinds import Body
from fitwright.web.addresses import assembly_address, enter_assembly_address, parts_address
from fitwright.web.entering.asked import from_address
from fitwright.web.entering.entry_form import EntryForm, Said
from fitwright.web.entering.kinds import Forms
from fitwright.web.frame import Frame, frame_of
from fitwright.web.pages.assembly.conditions import (
    ConditionLine,
    HiddenLine,
    condition_lines,
    fits_to_fold,
    hidden_lines,
)
from fitwright.web.pages.assembly.of_steps import OF_STEPS
from fitwright.web.pages.assembly.opened import Opened, sentence
from fitwright.web.pages.assembly.show import SCRIPTS, STYLES, FormOffer
from fitwright.web.pages.assembly.steps import (
    ACTS,
    ChangeLine,
    StepLine,
    act_of,
    change_lines,
    step_line,
    who_releases,
)
from fitwright.web.pages.parts.happened import HistoryLine, history_line
from fitwright.web.pages.parts.pictures import PhotoLine, photo_lines
from fitwright.web.visit import Visit
from fitwright.web.writing import Sent


@dataclass(frozen=True, slots=True)
class WantedPhoto:
    """A photo that a step asks for: what it shows, where it is taken, those that were."""

    words: str
    address: str
    taken: tuple[PhotoLine, ...]


@dataclass(frozen=True, slots=True)
class StepContext:
    """The page of a step."""

    template: ClassVar[str] = "assembly/step.html"
    frame: Frame
    back: str
    stage: str
    line: StepLine
    note: str
    releases: str
    witness: str
    out_of_order: tuple[str, ...]
    cautions: tuple[Caution, ...]
    offers: tuple[FormOffer, ...]
    outcome: Said | None
    entry: EntryForm | None
    changes: tuple[ChangeLine, ...]
    begins: tuple[ConditionLine, ...]
    fits_held: tuple[ConditionLine, ...]
    ends: tuple[ConditionLine, ...]
    hides: tuple[HiddenLine, ...]
    photos: tuple[WantedPhoto, ...]
    happened: tuple[HistoryLine, ...]
    before: str
    after: str


def _asked(visit: Visit) -> Sent:
    """What an address says of its step; what can be done with the step unless it says otherwise."""
    asked, found = from_address(visit), Opened.of(visit).step(visit.named("step"))
    return Sent({"do": act_of(found), **asked.fields, "step": found.id}, asked.lists)


def step_page(visit: Visit, said: Said | None, form: EntryForm | None) -> StepContext:
    """The whole page, with a form open or what came of one."""
    with visit.hands.shop.held():
        opened = Opened.of(visit)
        return _context(opened, opened.step(visit.named("step")), said, form)


def _context(opened: Opened, step: StepStanding, said: Said | None, form: EntryForm | None) -> StepContext:
    code, family = opened.code, opened.family
    order = list(opened.standing.steps)
    at = order.index(step.id)
    begins = [each for each in step.conditions if each.kind.to_begin]
    held = fits_to_fold(begins)
    return StepContext(
        frame=frame_of(
            opened.hands,
            step.title,
            "Assembly",
            build=code,
            family=family,
            help_page="assembly",
            styles=(*STYLES, "parts.css", "photos.css"),
            scripts=SCRIPTS,
        ),
        back=assembly_address(code, family),
        stage=step.stage,
        line=step_line(opened, step, full=True),
        note=step.note or "",
        releases=sentence(who_releases(step)),
        witness=_witness_words(opened, step),
        out_of_order=step.out_of_order,
        cautions=tuple(cautions_of(step.cautions)),
        offers=tuple(_offers(opened, step, form)),
        outcome=said,
        entry=form,
        changes=change_lines(opened, step),
        begins=condition_lines(opened, step, (each for each in begins if each not in held)),
        fits_held=condition_lines(opened, step, held),
        ends=condition_lines(opened, step, (each for each in step.conditions if not each.kind.to_begin)),
        hides=hidden_lines(opened, step),
        photos=tuple(_photos(opened, step)),
        happened=_happened(opened, step),
        before=opened.step_address(order[at - 1]) if at else "",
        after=opened.step_address(order[at + 1]) if at + 1 < len(order) else "",
    )


def _witness_words(opened: Opened, step: StepStanding) -> str:
    """What is recorded of a witness."""
    found = step.witness
    return f"{found.invited}: {found.answer} ({opened.deed(found.deed)})" if found is not None else ""


def _offers(opened: Opened, step: StepStanding, form: EntryForm | None) -> Iterator[FormOffer]:
    shown = form.name if form is not None else ""
    names = [act_of(step)] if act_of(step) else []
    names += ["witness"] if step.point is PointKind.WITNESS else []
    names += ["used"] if opened.bench.sheet.consumables else []
    for name in names:
        label = ACTS.get(name) or OF_STEPS[name].label
        yield FormOffer(label, opened.step_address(step.id, do=name), name == shown)
    about = {"subject": step.id}
    yield FormOffer("Note", parts_address(opened.code, opened.family, do="note", **about), open=False)
    yield FormOffer("Photo", parts_address(opened.code, opened.family, do="photo", **about), open=False)


def _photos(opened: Opened, step: StepStanding) -> Iterator[WantedPhoto]:
    for wanted in step.photos:
        subject = f"{step.id}/{wanted.id}"
        address = parts_address(opened.code, opened.family, do="photo", subject=subject, caption=wanted.words)
        yield WantedPhoto(
            wanted.words, address, photo_lines(opened.bench, opened.family, frozenset({subject}))
        )
    others = photo_lines(opened.bench, opened.family, frozenset({step.id}))
    if others:
        yield WantedPhoto("Others", "", others)


def _happened(opened: Opened, step: StepStanding) -> tuple[HistoryLine, ...]:
    """What was recorded of this step, the last first."""
    lines = (
        history_line(opened.bench, opened.family, entry)
        for entry, body in reversed(opened.bench.build.ledger.recorded.values())
        if _is_about(body, step.id)
    )
    return tuple(lines)


def _is_about(body: Body, step: str) -> bool:
    of_step = (kinds.StepDone, kinds.StepReleased, kinds.WitnessInvited, kinds.ConsumableUsed)
    if isinstance(body, of_step):
        return body.step == step
    return isinstance(body, kinds.Note) and body.subject == step


OF_STEP: Final = Forms(
    "Assembly", OF_STEPS, assembly_address, enter_assembly_address, step_page, _asked, about="step"
)
"""The forms about one step."""
