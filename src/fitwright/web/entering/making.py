"""The entries that a form makes of what it brings; the same form sent twice makes the same."""

from __future__ import annotations

import uuid
from collections.abc import Sequence
from dataclasses import replace
from hashlib import sha256
from typing import Final

from fitwright.bench.together import ids_from, written_together
from fitwright.bench.work_taking import WorkTaking
from fitwright.model.slips import Question
from fitwright.records.entry import Entry, NewEntry
from fitwright.records.kinds import Body, Withdrawal
from fitwright.web.entering.controls import Asking
from fitwright.web.entering.kinds import FormKind
from fitwright.web.forms import answers_in
from fitwright.web.hands import Hands
from fitwright.web.pins import PIN_FIELDS

OWN: Final = ("token", "entry_id", "look", "person", *PIN_FIELDS)
"""Fields of every form that say nothing of what is entered."""


def entries_of(hands: Hands, kind: FormKind, asking: Asking, person: str | None) -> list[NewEntry] | Question:
    """The entries of a form; or what is asked about it first."""
    if kind.take is None:
        return _of_bodies(hands, asking, kind.bodies(asking) if kind.bodies is not None else (), person)
    taking = WorkTaking(
        family=asking.family,
        person=person,
        device=hands.device,
        entry_id=entry_id_of(asking),
        answers=answers_in(asking.form.fields),
    )
    made = kind.take(asking, taking)
    return made if isinstance(made, Question) else list(made.entries)


def made_before(asking: Asking) -> tuple[Entry, ...]:
    """The entries that this same form made already."""
    return written_together(asking.bench.build.ledger, entry_id_of(asking))


def _of_bodies(hands: Hands, asking: Asking, bodies: Sequence[Body], person: str | None) -> list[NewEntry]:
    """Entries with their ids from what the form says: the same form sent twice counts once."""
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
