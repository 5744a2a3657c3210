"""The marks of the six states of a step; each stands beside its words, and none is told by colour alone."""

from __future__ import annotations

from types import MappingProxyType
from typing import Final

from fitwright.assess.assembly.results import StepState
from fitwright.drawing.svg import circle, line, path, text

_PARTS: Final = MappingProxyType(
    {
        StepState.CAN_BE_DONE: path("M3 12h15M12 5.5l7 6.5l-7 6.5", "mark"),
        StepState.WAITS_FOR: line(4, 12, 18, 12, "mark"),
        StepState.HELD: path("M5 4v17M19 4v17M5 11.5h14", "mark"),
        StepState.DONE: path("M2 12l7 8l14 -18", "mark"),
        StepState.RELEASED: path("M2 10l7 8l14 -17", "mark") + line(3, 22.4, 21, 22.4, "mark"),
        StepState.CHANGED_SINCE: text(12, 21, "?", "mark-question"),
    }
)
"""An arrow, a dash, a gate that is shut, a tick, a tick underlined, a question mark."""


def step_mark(state: StepState) -> str:
    """The mark of a state, for a line of text."""
    return _icon(_PARTS[state])


def condition_mark(*, holds: bool) -> str:
    """A tick where a condition holds, an empty ring where it does not yet."""
    return _icon(_PARTS[StepState.DONE] if holds else circle(12, 12, 7.5, "mark"))


def _icon(parts: str) -> str:
    head = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 24 24" class="mark-icon" aria-hidden="true">'
    return f"{head}{parts}</svg>"
