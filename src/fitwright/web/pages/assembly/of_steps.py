"""The forms about a step: done, released, a witness invited, a consumable used; and about the whole build."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from fitwright.bench.consumables import ConsumableTyped, take_consumable
from fitwright.bench.loosenings import take_heat_cycle
from fitwright.bench.steps import step_done, step_released, witness_invited
from fitwright.bench.work_taking import WorkTaken, WorkTaking
from fitwright.data.cautions import cautions_of
from fitwright.model.slips import Question
from fitwright.model.step import Step
from fitwright.web.entering.controls import Asking, Control, hidden, one, options, select, text, words
from fitwright.web.entering.kinds import FormKind
from fitwright.web.pages.parts.of_decisions import BACK

ANSWERS: Final = {"invited": "Invited", "was present": "Was present", "did not come": "Did not come"}
"""What can be recorded of a witness."""
HEAT_CAUTIONS: Final = ("rotating_parts", "hot_oil", "cooling_system")
"""What can hurt somebody where an engine is run to heat and worked on afterwards."""


def _asked(asking: Asking) -> Step | None:
    """The step that a form names; one that the sheet does not have is refused when it is taken."""
    return asking.bench.sheet.steps.get(asking.get("step"))


def _caution_keys(asking: Asking) -> tuple[str, ...]:
    step = _asked(asking)
    return step.cautions if step is not None else ()


def _title(asking: Asking) -> str:
    step = _asked(asking)
    return f"{step.title}." if step is not None else ""


def _cautions(asking: Asking) -> str:
    """What can hurt somebody in this step, in one paragraph."""
    return " ".join(f"{each.title}: {each.words}" for each in cautions_of(_caution_keys(asking)))


def _done_controls(asking: Asking) -> tuple[Control, ...]:
    return (hidden("step", asking.get("step")), words(asking, "words", "In words", "May stay empty."))


def _done(asking: Asking, taking: WorkTaking) -> WorkTaken:
    return step_done(asking.bench, asking.get("step"), taking, words=asking.get("words"))


def _release_controls(asking: Asking) -> tuple[Control, ...]:
    return (hidden("step", asking.get("step")), *_looked_later(asking), words(asking, "words", "In words"))


def _looked_later(asking: Asking) -> Iterator[Control]:
    """A lone builder says whether he looked again later; among several somebody else looks."""
    if len(asking.bench.shop.people) < 2:
        yield Control("tick", "later", "I looked at it again later, not at once", asking.get("later"))


def _release(asking: Asking, taking: WorkTaking) -> WorkTaken:
    return step_released(
        asking.bench,
        asking.get("step"),
        taking,
        released_by=taking.person or "",
        later=bool(asking.get("later")),
        words=asking.get("words"),
    )


def _release_lead(asking: Asking) -> str:
    lone = " You are the only person of this shop: the record says so." if not _others(asking) else ""
    return f"{_title(asking)} Work goes on after this.{lone}".lstrip()


def _others(asking: Asking) -> bool:
    return len(asking.bench.shop.people) > 1


def _witness_controls(asking: Asking) -> tuple[Control, ...]:
    step = _asked(asking)
    invited = asking.get("invited") or (step.invited if step is not None else None) or ""
    return (
        hidden("step", asking.get("step")),
        Control("text", "invited", "Who", invited),
        one(asking, "answer", "What came of it", ANSWERS),
        words(asking, "words", "In words", "May stay empty."),
    )


def _witness(asking: Asking, taking: WorkTaking) -> WorkTaken:
    return witness_invited(
        asking.bench,
        asking.get("step"),
        taking,
        invited=asking.get("invited"),
        answer=asking.get("answer") or "invited",
        words=asking.get("words"),
    )


def _used_controls(asking: Asking) -> tuple[Control, ...]:
    step = _asked(asking)
    wanted = step.uses if step is not None else ()
    known = {each.id: each.title for each in asking.bench.sheet.consumables.values()}
    chosen = asking.get("consumable") or next(iter(wanted), "")
    here = {name: title for name, title in known.items() if name in wanted}
    others = {name: title for name, title in known.items() if name not in wanted}
    groups = (*options("In this step", here, {chosen}), *options("Others", others, {chosen}))
    hint = "Empty: now."
    return (
        hidden("step", asking.get("step")),
        select(asking, "consumable", "Which", groups),
        text(asking, "batch", "Batch", "As it stands on the tin."),
        text(asking, "expires", "Good until", "As printed: 2027-04, or a day."),
        text(asking, "mixed_at", "Mixed or opened at", "The clock of its pot life. May stay empty."),
        text(asking, "applied_at", "Put on at", hint),
        text(asking, "note", "Note", "May stay empty."),
    )


def _used(asking: Asking, taking: WorkTaking) -> WorkTaken | Question:
    typed = ConsumableTyped(
        consumable=asking.get("consumable"),
        step=asking.get("step"),
        batch=asking.get("batch"),
        expires=asking.get("expires"),
        mixed_at=asking.get("mixed_at"),
        applied_at=asking.get("applied_at"),
        note=asking.get("note"),
    )
    return take_consumable(asking.bench, typed, taking)


def _used_caution(asking: Asking) -> str:
    """Where it must not go."""
    found = asking.bench.sheet.consumables.get(asking.get("consumable"))
    return f"Not on {found.not_on}." if found is not None and found.not_on else ""


def _heat_controls(asking: Asking) -> tuple[Control, ...]:
    return (
        words(asking, "words", "What was done", "Run to full heat and cooled down, for how long."),
        text(asking, "taken_at", "When", "Empty: now."),
    )


def _heat(asking: Asking, taking: WorkTaking) -> WorkTaken:
    return take_heat_cycle(asking.bench, asking.get("words"), taking, taken_at=asking.get("taken_at"))


def _heat_cautions(_: Asking) -> str:
    """An engine that runs, and one that is hot."""
    return " ".join(f"{each.title}: {each.words}" for each in cautions_of(HEAT_CAUTIONS))


DONE: Final = FormKind(
    "done", "", "Done", "Done", _done_controls, lead=_title, caution=_cautions, suppose=None, take=_done
)
RELEASE: Final = FormKind(
    "release",
    "",
    "Released",
    "Release",
    _release_controls,
    lead=_release_lead,
    suppose=None,
    signs=True,
    take=_release,
)
WITNESS: Final = FormKind(
    "witness",
    "Invite a witness",
    "A witness",
    "Enter it",
    _witness_controls,
    lead=_title,
    suppose=None,
    take=_witness,
)
USED: Final = FormKind(
    "used",
    "Consumable used",
    "A consumable used",
    "Enter it",
    _used_controls,
    caution=_used_caution,
    suppose=None,
    take=_used,
)
HEAT: Final = FormKind(
    "heat",
    "Heat cycle",
    "The engine ran to heat and cooled",
    "Enter it",
    _heat_controls,
    lead=lambda _: "Whatever is tightened again after heat waits for this.",
    caution=_heat_cautions,
    suppose=None,
    take=_heat,
)
OF_STEPS: Final = {each.name: each for each in (DONE, RELEASE, WITNESS, USED, BACK)}
OF_BUILD: Final = {each.name: each for each in (USED, HEAT, BACK)}
