"""Steps as the page Assembly lists them: those in front first, then all of them by stage."""

from __future__ import annotations

import uuid
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from markupsafe import Markup

from fitwright.assess.assembly.results import Change, ConditionKind, StepStanding, StepState
from fitwright.data.cautions import cautions_of
from fitwright.drawing.step_marks import step_mark
from fitwright.model.step import PointKind
from fitwright.web.addresses import enter_assembly_address, record_address
from fitwright.web.pages.assembly.conditions import ConditionLine, condition_lines
from fitwright.web.pages.assembly.opened import Opened, sentence

GONE_PAST: Final = frozenset({StepState.DONE, StepState.RELEASED})


@dataclass(frozen=True, slots=True)
class StepLine:
    """A step in a list: its mark, state and who did it."""

    mark: Markup
    title: str
    address: str
    point: str
    state: str
    words: str
    by: str


@dataclass(frozen=True, slots=True)
class StagePart:
    """A stage with its steps, and how many of them are done."""

    title: str
    anchor: str
    count: str
    lines: tuple[StepLine, ...]


@dataclass(frozen=True, slots=True)
class ChangeLine:
    """What happened after a step was done, and the entry that did it."""

    words: str
    entry: int
    address: str


@dataclass(frozen=True, slots=True)
class TapForm:
    """What one touch sends: that a step was done, by whoever is picked at this browser."""

    action: str
    token: str
    entry_id: str
    step: str
    person: str
    name: str


@dataclass(frozen=True, slots=True)
class FrontCard:
    """A step that somebody sees to now: it can be done, is held, or changed since."""

    line: StepLine
    missing: tuple[ConditionLine, ...]
    changes: tuple[ChangeLine, ...]
    tap: TapForm | None
    do: str
    do_address: str
    releases: str
    cautions: str


def step_line(opened: Opened, step: StepStanding, *, full: bool = False) -> StepLine:
    """A step as a line; with all that is to be said on its own page."""
    deed = step.released or step.done
    return StepLine(
        mark=Markup(step_mark(step.state)),  # noqa: S704  (our own drawing)
        title=step.title,
        address=opened.step_address(step.id),
        point=step.point.value if step.point is not None else "",
        state=step.state.value,
        words=words_of(opened, step, full=full),
        by=opened.deed(deed, with_kept=full) if deed is not None else "",
    )


def words_of(opened: Opened, step: StepStanding, *, full: bool = True) -> str:
    """What is to be said of a step beyond its state and who did it.

    In a list (not `full`) a step that waits names the step in the way and its state only.
    """
    cause = step.waits_for
    if cause is not None and cause.step != step.id and not full:
        before = opened.standing.steps.get(cause.step)
        return f"{cause.title}, {before.state.value}" if before is not None else cause.title
    words = step.words.removeprefix(step.state.value).strip(" ,;:.")
    if step.state in GONE_PAST:
        words = words.removeprefix("by ")
        deed = step.released or step.done
        words = words.removeprefix(opened.name_of(deed.person) if deed is not None else "")
    return words.strip(" ,;:.")


def stages_of(opened: Opened) -> tuple[StagePart, ...]:
    """All steps by stage, in the order of the sheet."""
    return tuple(
        StagePart(
            title=title,
            anchor=f"stage-{number}",
            count=f"{sum(each.state in GONE_PAST for each in steps)} of {len(steps)} done",
            lines=tuple(step_line(opened, each) for each in steps),
        )
        for number, (title, steps) in enumerate(opened.standing.stages.items(), start=1)
    )


def cards(opened: Opened, state: StepState, person: str | None) -> tuple[FrontCard, ...]:
    """The steps in a state, each with what is missing and what can be done about it.

    What changed only because a step before it did is not among them: see `follows`.
    """
    steps = (each for each in opened.standing.steps.values() if each.state is state)
    return tuple(card(opened, each, person) for each in steps if not _follows(each))


def follows(opened: Opened) -> tuple[StepLine, ...]:
    """The steps that changed only because one before them did, and come back with it."""
    return tuple(step_line(opened, each) for each in opened.standing.steps.values() if _follows(each))


def _follows(step: StepStanding) -> bool:
    before = [each.kind is ConditionKind.AFTER for each in step.changes]
    return step.state is StepState.CHANGED_SINCE and all(before) and bool(before)


def card(opened: Opened, step: StepStanding, person: str | None) -> FrontCard:
    """A step in front of somebody."""
    do = act_of(step)
    return FrontCard(
        line=step_line(opened, step, full=True),
        missing=condition_lines(opened, step, step.missing),
        changes=tuple(_changes(opened, step)),
        tap=_tap(opened, step, person) if do == "done" and person is not None else None,
        do=ACTS.get(do, ""),
        do_address=opened.step_address(step.id, do=do) if do else "",
        releases=sentence(who_releases(step)),
        cautions=", ".join(each.title for each in cautions_of(step.cautions)),
    )


def _tap(opened: Opened, step: StepStanding, person: str) -> TapForm:
    return TapForm(
        action=enter_assembly_address(opened.code, opened.family, "done", step=step.id),
        token=opened.hands.token.value,
        entry_id=uuid.uuid4().hex,
        step=step.id,
        person=person,
        name=opened.name_of(person),
    )


ACTS: Final = {"done": "Done", "release": "Release"}
"""What can be done about a step, as its button says."""


def act_of(step: StepStanding) -> str:
    """The form that a step asks for: done, release, or neither yet."""
    if step.may_be_released and step.state is not StepState.RELEASED:
        return "release"
    return "done" if step.may_be_done and step.state not in GONE_PAST else ""


def who_releases(step: StepStanding) -> str:
    """Who must look at a point: the person invited, or anybody by name."""
    if step.point is None:
        return ""
    who = step.invited or "a named person"
    if step.point is PointKind.HOLD:
        return f"{who} must release it before work goes on"
    return f"{who} is to be invited; the work goes on"


def _changes(opened: Opened, step: StepStanding) -> Iterator[ChangeLine]:
    for each in step.changes:
        yield _change(opened, each)


def _change(opened: Opened, found: Change) -> ChangeLine:
    address = record_address(opened.code, entry=found.seq) if found.seq is not None else ""
    return ChangeLine(found.words, found.seq or 0, address)


def change_lines(opened: Opened, step: StepStanding) -> tuple[ChangeLine, ...]:
    """What changed after a step was done or released."""
    return tuple(_changes(opened, step))
