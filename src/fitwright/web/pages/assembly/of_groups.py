"""The forms about a tightening group besides tightening it: loosened, looked at again, an engine heated."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

from fitwright.bench.loosenings import (
    CheckTyped,
    LooseningTyped,
    loosening_amounts,
    take_check,
    take_loosening,
)
from fitwright.bench.new_sets import NewSetTyped, take_new_set
from fitwright.bench.work_taking import WorkTaken, WorkTaking, group_named
from fitwright.data.cautions import cautions_of
from fitwright.model.fastener import readable_names
from fitwright.model.slips import Question
from fitwright.units import definition_of
from fitwright.web.entering.controls import Asking, Control, amount, hidden, one, options, text, words
from fitwright.web.entering.kinds import FormKind
from fitwright.web.pages.assembly.group_facts import OVER_TIGHTENING
from fitwright.web.pages.assembly.of_steps import HEAT
from fitwright.web.pages.parts.of_decisions import BACK

CHECKS: Final = {
    "marked": "Marked: a line across head and seat",
    "checked": "Checked by a second person",
    "stands as it is": "Stands as it is, with words",
}
"""What somebody does who looks again."""


def _ticks(asking: Asking, label: str, chosen: Iterable[str] | None = None) -> Control:
    """The fasteners of the group to tick; all of them, unless some are."""
    group = group_named(asking.bench, asking.get("group"))
    called = readable_names(group)
    names = {each.id: f"{order}: {called[each.id]}" for order, each in enumerate(group.fasteners, start=1)}
    ticked = asking.ticked("fasteners") or tuple(names if chosen is None else chosen)
    return Control(
        "ticks", "fasteners", label, groups=tuple(options("In the order of tightening", names, ticked))
    )


def _named(asking: Asking) -> str:
    return " ".join(asking.ticked("fasteners"))


def _loosen_controls(asking: Asking) -> tuple[Control, ...]:
    asked = loosening_amounts(asking.family)
    units = {each.name: definition_of(each.unit, each.dimension).shown for each in asked}
    own = "Of one fastener by itself. May stay empty."
    return (
        hidden("group", asking.get("group")),
        _ticks(asking, "Which were loosened"),
        text(asking, "because", "Why"),
        amount(asking, "breakaway_torque", "Torque it took", units["breakaway_torque"], "May stay empty."),
        amount(asking, "length_after", "Free length afterwards", units["length_after"], own),
    )


def _loosen(asking: Asking, taking: WorkTaking) -> WorkTaken | Question:
    typed = LooseningTyped(
        group=asking.get("group"),
        fasteners=_named(asking),
        because=asking.get("because"),
        breakaway_torque=asking.get("breakaway_torque"),
        length_after=asking.get("length_after"),
    )
    return take_loosening(asking.bench, typed, taking)


def _check_controls(asking: Asking) -> tuple[Control, ...]:
    return (
        hidden("group", asking.get("group")),
        _ticks(asking, "Which were looked at"),
        one(asking, "check", "What was done", CHECKS),
        words(asking, "words", "In words", "Wanted where something stands as it is."),
    )


def _check(asking: Asking, taking: WorkTaking) -> WorkTaken | Question:
    typed = CheckTyped(
        group=asking.get("group"),
        fasteners=_named(asking),
        check=asking.get("check"),
        words=asking.get("words"),
    )
    return take_check(asking.bench, typed, taking)


def _new_set_controls(asking: Asking) -> tuple[Control, ...]:
    return (
        hidden("group", asking.get("group")),
        _ticks(asking, "Which are new"),
        text(
            asking,
            "stem",
            "What the set is called",
            "RB2 makes RB2-1, RB2-2 and so on, in the order of tightening.",
        ),
        text(asking, "origin", "Where it comes from", "Supplier, packet, batch. May stay empty."),
        words(asking, "words", "In words", "Why they replace those that sat there. May stay empty."),
    )


def _new_set(asking: Asking, taking: WorkTaking) -> WorkTaken:
    typed = NewSetTyped(
        group=asking.get("group"),
        fasteners=_named(asking),
        stem=asking.get("stem"),
        origin=asking.get("origin"),
        words=asking.get("words"),
    )
    return take_new_set(asking.bench, typed, taking)


def _over_tightening(_: Asking) -> str:
    return " ".join(each.words for each in cautions_of((OVER_TIGHTENING,)))


LOOSEN: Final = FormKind(
    "loosen",
    "Loosened",
    "Loosened",
    "Enter it",
    _loosen_controls,
    lead=lambda _: "What was tightened before counts no longer. The torque it took is evidence.",
    caution=_over_tightening,
    suppose=None,
    take=_loosen,
)
CHECK: Final = FormKind(
    "check",
    "Marked or checked",
    "Looked at again",
    "Enter it",
    _check_controls,
    suppose=None,
    take=_check,
)
NEW_SET: Final = FormKind(
    "new-set",
    "New set",
    "A new set of fasteners",
    "These are in",
    _new_set_controls,
    lead=lambda _: (
        "Each is a part of its own, in its position. The one that sat there is out, with its tightening."
    ),
    caution=_over_tightening,
    promise="Here it will say what it un-proves and which tightenings count no longer, before it is written.",
    take=_new_set,
)
OF_GROUPS: Final = {each.name: each for each in (CHECK, LOOSEN, NEW_SET, HEAT, BACK)}
