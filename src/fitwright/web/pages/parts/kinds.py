"""The forms of this page by their names, and what each makes of what it brings."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import NamedTuple

from fitwright.records.kinds import Body
from fitwright.web.pages.parts.controls import Asking, Control

Controls = Callable[[Asking], tuple[Control, ...]]
Bodies = Callable[[Asking], Sequence[Body]]


def nothing(_: Asking) -> str:
    """No words."""
    return ""


class FormKind(NamedTuple):
    """One form: how it is called, what it asks for, which entries it makes.

    `first` asks for what must be known before the rest can be asked; None where nothing must.
    `lead` says in a sentence what the form does, `caution` what can hurt or go wrong. `effects`
    says whether it can un-prove anything, `echo` what was typed in both units.
    """

    name: str
    label: str
    title: str
    button: str
    controls: Controls
    bodies: Bodies
    first: Controls | None = None
    is_ready: Callable[[Asking], bool] = lambda _: True
    lead: Callable[[Asking], str] = nothing
    caution: Callable[[Asking], str] = nothing
    echo: Callable[[Asking], str] = nothing
    effects: bool = True
    files: bool = False
