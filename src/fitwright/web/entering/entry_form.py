"""A form as it stands: its controls, what it would do, and what came of sending it."""

from __future__ import annotations

import uuid
from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar

from fitwright.model.slips import Question
from fitwright.web.entering.controls import Asking, Control
from fitwright.web.entering.effects import NO_EFFECTS, Effects
from fitwright.web.entering.kinds import FormKind, Forms
from fitwright.web.forms import EARLIER, Answered, Asked, answers_in, asked_of
from fitwright.web.hands import Hands
from fitwright.web.people import PersonOption
from fitwright.web.pins import NO_PIN, PinPart, pin_part


@dataclass(frozen=True, slots=True)
class EntryForm:
    """A form; `first` where it only asks what must be known before the rest."""

    name: str
    title: str
    lead: str
    caution: str
    first: bool
    address: str
    effects_address: str
    token: str
    entry_id: str
    units: str
    files: bool
    controls: tuple[Control, ...]
    people: tuple[PersonOption, ...]
    pin: PinPart
    button: str
    ask: str
    effects: Effects
    question: Asked | None
    earlier: tuple[Answered, ...]
    close: str


@dataclass(frozen=True, slots=True)
class UndoForm:
    """The one touch that takes back what was just written."""

    address: str
    token: str
    entry_id: str
    entry: str
    person: str


@dataclass(frozen=True, slots=True)
class Said:
    """What came of sending a form."""

    state: str
    title: str
    words: str
    effects: Effects
    undo: UndoForm | None
    again: str
    again_label: str
    close: str


@dataclass(frozen=True, slots=True)
class EntryContext:
    """The form with what came of it, by itself: for a page that shows the rest already."""

    template: ClassVar[str] = "entering/entry.html"
    outcome: Said | None
    entry: EntryForm | None


@dataclass(frozen=True, slots=True)
class EffectsContext:
    """What a form would do, by itself."""

    template: ClassVar[str] = "entering/effects_alone.html"
    supposed: Effects


def form_of(
    hands: Hands,
    forms: Forms,
    kind: FormKind,
    asking: Asking,
    people: tuple[PersonOption, ...],
    *,
    effects: Effects = NO_EFFECTS,
    question: Question | None = None,
) -> EntryForm:
    """A form, filled with what is known; or only its first question."""
    ready = kind.first is None or kind.is_ready(asking)
    controls = kind.controls(asking) if ready or kind.first is None else kind.first(asking)
    return EntryForm(
        name=kind.name,
        title=kind.title,
        lead=kind.lead(asking),
        caution=kind.caution(asking),
        first=not ready,
        address=forms.enter(asking.code, asking.family, kind.name)
        if ready
        else forms.address(asking.code, asking.family).partition("?")[0],
        effects_address=forms.enter(asking.code, asking.family, kind.name, effects=True)
        if ready and kind.suppose is not None
        else "",
        token=hands.token.value,
        entry_id=asking.get("entry_id") or uuid.uuid4().hex,
        units=asking.family,
        files=kind.files,
        controls=controls,
        people=people,
        pin=_pin(asking, kind, people) if ready else NO_PIN,
        button=kind.button,
        ask=kind.ask,
        effects=effects,
        question=asked_of(question),
        earlier=tuple(_earlier(asking, question)) if question is not None else (),
        close=forms.address(asking.code, asking.family),
    )


def _pin(asking: Asking, kind: FormKind, people: tuple[PersonOption, ...]) -> PinPart:
    if not kind.is_signed(asking):
        return NO_PIN
    return pin_part(asking.bench.shop, next((each.code for each in people if each.chosen), None))


def _earlier(asking: Asking, question: Question) -> Iterator[Answered]:
    """The answers given so far, but not to the question that is asked now."""
    for key, words in answers_in(asking.form.fields).items():
        if key != question.key:
            yield Answered(EARLIER + key, words)
