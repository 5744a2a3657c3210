"""Walking an order of work: which steps can be done in turn when nothing but their order holds them back."""

from __future__ import annotations

from fitwright.model.sheet import Sheet
from fitwright.model.step import PointKind, Step


def walked(sheet: Sheet, *, released: bool = True) -> list[str]:
    """The steps that come to be done, in turn; without releases nothing goes past a hold point."""
    done: list[str] = []
    passed: set[str] = set()
    tightened: set[str] = set()
    while True:
        step = next(
            (each for each in sheet.steps.values() if each.id not in done and _may(each, passed, tightened)),
            None,
        )
        if step is None:
            return done
        done.append(step.id)
        tightened.update(step.tightens)
        if step.point is not PointKind.HOLD or released:
            passed.add(step.id)


def _may(step: Step, passed: set[str], tightened: set[str]) -> bool:
    return passed.issuperset(step.after) and tightened.issuperset(step.tightened)


def held_before(sheet: Sheet, step: str) -> set[str]:
    """The hold points that must be released before a step can be done."""
    found: set[str] = set()
    left = list(sheet.steps[step].after)
    while left:
        before = sheet.steps[left.pop()]
        if before.point is PointKind.HOLD:
            found.add(before.id)
        left += before.after
    return found
