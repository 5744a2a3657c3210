"""A form as it stands: its controls, what it would do, and what came of sending it."""

from __future__ import annotations

import uuid
from collections.abc import Sequence
from dataclasses import dataclass, replace
from hashlib import sha256
from typing import ClassVar

from fitwright.bench.together import ids_from
from fitwright.records.entry import NewEntry
from fitwright.records.kinds import Body, Withdrawal
from fitwright.web.entering.controls import Asking, Control
from fitwright.web.entering.effects import NO_EFFECTS, Effects
from fitwright.web.entering.kinds import FormKind, Forms
from fitwright.web.hands import Hands
from fitwright.web.people import PersonOption

OWN = ("token", "entry_id", "look", "person")
"""Fields of every form that say nothing of what is entered."""


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
    button: str
    ask: str
    effects: Effects
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
        button=kind.button,
        ask=kind.ask,
        effects=effects,
        close=forms.address(asking.code, asking.family),
    )


def entries_of(hands: Hands, asking: Asking, bodies: Sequence[Body], person: str | None) -> list[NewEntry]:
    """The entries of a form, their ids from what it says: the same form sent twice counts once."""
    ledger = asking.bench.build.ledger
    entries = []
    for entry_id, body in zip(ids_from(entry_id_of(asking)), bodies, strict=False):
        target = ledger.recorded.get(body.entry) if isinstance(body, Withdrawal) else None
        build = target.entry.build if target is not None else asking.code
        entry = hands.shop.entry(body, build=build, person=person, entry_id=entry_id)
        entries.append(replace(entry, device=hands.device))
    return entries


def entry_id_of(asking: Asking) -> str:
    """The id of the first entry that a form makes: it follows from the form and all that it says."""
    said = sorted((name, each) for name, each in asking.form.lists.items() if name not in OWN)
    photo = [(name, sha256(content).hexdigest()) for name, content in asking.form.files.items()]
    return uuid.uuid5(uuid.UUID(hex=asking.get("entry_id")), repr((said, photo))).hex
