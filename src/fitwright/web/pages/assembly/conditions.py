"""What a step asks for and what it hides, line by line, each with the way to see to it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from markupsafe import Markup

from fitwright.assess.assembly.results import Condition, ConditionKind, Hidden, StepStanding
from fitwright.drawing.step_marks import condition_mark
from fitwright.web.pages.assembly.opened import Opened
from fitwright.web.pages.assembly.timers import Timer, timer

KINDS = {
    ConditionKind.AFTER: "Step before",
    ConditionKind.FIT: "Fit",
    ConditionKind.TIGHTENED: "Tightened before",
    ConditionKind.CURED: "Cured",
    ConditionKind.TIGHTENS: "Tightening",
    ConditionKind.EYE_CHECK: "Eye check",
    ConditionKind.REPLACED: "New part",
    ConditionKind.PHOTO: "Photo",
    ConditionKind.USED: "Consumable",
}
"""What each kind of condition is called on a page."""

MOST_FITS = 8
"""So many fits that hold are listed open; more are folded."""


@dataclass(frozen=True, slots=True)
class ConditionLine:
    """One condition; `holds` as a word for who cannot see the mark."""

    mark: Markup
    holds: str
    kind: str
    title: str
    words: str
    under: str
    address: str
    timer: Timer | None


@dataclass(frozen=True, slots=True)
class HiddenLine:
    """Something that nobody sees again after a step, and what of it is open."""

    mark: Markup
    title: str
    words: str
    open: bool
    address: str


def condition_lines(
    opened: Opened, step: StepStanding, wanted: Iterable[Condition]
) -> tuple[ConditionLine, ...]:
    """Conditions of a step as lines."""
    return tuple(_line(opened, step, each) for each in wanted)


def fits_to_fold(conditions: Iterable[Condition]) -> list[Condition]:
    """The fits that hold and need no more words, where they are so many that they would hide all else."""
    held = [each for each in conditions if each.kind is ConditionKind.FIT and each.holds and not each.under]
    return held if len(held) > MOST_FITS else []


def _line(opened: Opened, step: StepStanding, found: Condition) -> ConditionLine:
    return ConditionLine(
        mark=Markup(condition_mark(holds=found.holds)),  # noqa: S704  (our own drawing)
        holds="holds" if found.holds else "not yet",
        kind=KINDS[found.kind],
        title=found.title,
        words=found.words,
        under=f"under {found.under}" if found.under else "",
        address=opened.address(found.kind, found.subject, step.id),
        timer=timer(opened.now, found.until, opened.moment(found.until)),
    )


def hidden_lines(opened: Opened, step: StepStanding) -> tuple[HiddenLine, ...]:
    """What a step hides, what is not in order first."""
    return tuple(_hidden(opened, each) for each in sorted(step.hides, key=lambda each: not each.open))


def _hidden(opened: Opened, found: Hidden) -> HiddenLine:
    mark = Markup(condition_mark(holds=not found.open))  # noqa: S704  (our own drawing)
    return HiddenLine(mark, found.title, found.words, found.open, _hidden_address(opened, found))


def _hidden_address(opened: Opened, found: Hidden) -> str:
    if found.subject in opened.standing.groups:
        return opened.group_address(found.subject)
    if found.subject in opened.bench.sheet.parts:
        return opened.address(ConditionKind.REPLACED, found.subject, "")
    return opened.fit_address(found.subject)
