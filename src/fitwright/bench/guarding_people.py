"""Entries about people and their PINs: nobody becomes somebody else by an entry.

A person who has a PIN, or has signed something, is not renamed or taken out of the book, nobody
is entered who reads the same, and a PIN is not changed or taken back, without that PIN or somebody else's
who vouches.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from fitwright.bench.guarding_errors import CannotTakeAwayError, LooksLikeError, UnknownSignerError
from fitwright.bench.looking_alike import seen_as
from fitwright.bench.pin_proofs import PinProofs, name_of
from fitwright.records.entry import NewEntry
from fitwright.records.kinds import PinSet
from fitwright.records.projection import ShopState


def check_people(
    entry: NewEntry,
    before: ShopState,
    after: ShopState,
    proofs: PinProofs,
    has_signed: Callable[[str], bool],
) -> None:
    """Refuse an entry that makes somebody out of another, or a PIN, without that person.

    Raises
    ------
    GuardError
        With the sentence for whoever entered it.
    """
    for person, what in _taken_away(before, after):
        known = person in before.pins or has_signed(person)
        alone = len(before.people) == 1 and person not in before.pins
        if known and not alone and not proofs.proves(before, person):
            raise CannotTakeAwayError(person, name_of(before, person), what)
    for code, name, other in _taken_for(before, after):
        if (other in before.pins or has_signed(other)) and not proofs.proves(before, other):
            raise LooksLikeError(other, name_of(before, other), f"{name} ({code})")
    for person in _new_pins(before, after):
        _check_pin(entry, person, before, proofs)


def _taken_away(before: ShopState, after: ShopState) -> Iterator[tuple[str, str]]:
    for code, held in before.people.items():
        now = after.people.get(code)
        if now is None:
            yield code, f"take {held.body.name} out of the book"
        elif now.body.name.casefold() != held.body.name.casefold():
            yield code, f"make {now.body.name} of {held.body.name}"


def _taken_for(before: ShopState, after: ShopState) -> Iterator[tuple[str, str, str]]:
    """Everybody new or renamed who reads like another one: code, name, the other's code."""
    for code, held in after.people.items():
        was = before.people.get(code)
        if was is not None and was.body.name == held.body.name:
            continue
        seen = {seen_as(code), seen_as(held.body.name)}
        for other, theirs in before.people.items():
            if other != code and seen & {seen_as(other), seen_as(theirs.body.name)}:
                yield code, held.body.name, other


def _new_pins(before: ShopState, after: ShopState) -> Iterator[str]:
    """Everybody whose PIN would be another one, or none."""
    for person in dict.fromkeys((*before.pins, *after.pins)):
        was, now = before.pins.get(person), after.pins.get(person)
        if was is None or now is None or was.entry.id != now.entry.id:
            yield person


def _check_pin(entry: NewEntry, person: str, before: ShopState, proofs: PinProofs) -> None:
    if person not in before.people:
        raise UnknownSignerError(PinSet.kind, person, list(before.people))
    if person not in before.pins:
        return  # the first one: from now on it is this person's
    is_set = entry.kind == PinSet.kind
    vouched_by = entry.body.get("vouched_by") if is_set else None
    if is_set and vouched_by is not None:
        proven = proofs.vouches(before, person, str(vouched_by))
    else:
        proven = proofs.own(before, person) if is_set else proofs.proves(before, person)
    if not proven:
        what = f"{'change' if is_set else 'take back'} the PIN of {name_of(before, person)}"
        raise CannotTakeAwayError(person, name_of(before, person), what)
