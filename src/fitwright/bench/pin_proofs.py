"""PINs that came with entries, each tried once: whether whoever signs is that person."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import datetime, timedelta
from typing import Final

from fitwright.bench.guarding_errors import (
    NewcomerVouchesError,
    NoPinYetError,
    PinWaitError,
    PinWantedError,
    WrongPinError,
)
from fitwright.bench.pin_hash import fits
from fitwright.bench.pins import WrongTries, needs_pin
from fitwright.records.entry import Entry
from fitwright.records.kinds import Person, PinSet
from fitwright.records.projection import ShopState
from fitwright.records.times import moment_of

NEWCOMER: Final = timedelta(days=7)
"""So long after a first PIN somebody vouches for those who were there before."""


class PinProofs:
    """The PINs of one write; a wrong one is counted against its person at once."""

    def __init__(self, pins: Mapping[str, str], tries: WrongTries, now: datetime) -> None:
        self._pins, self._tries, self._now = dict(pins), tries, now
        self._right: set[tuple[str, str]] = set()

    def require(self, shop: ShopState, person: str) -> None:
        """Refuse a signature of this person without the right PIN, where it takes one.

        Raises
        ------
        PinError
            If none was set, none or a wrong one was typed, or the wait after wrong ones is not over.
        """
        if not needs_pin(shop, person):
            return
        name = name_of(shop, person)
        if person not in shop.pins:
            raise NoPinYetError(person, name)
        if not self._pins.get(person):
            raise PinWantedError(person, name)
        self._try(shop, person)

    def proves(self, shop: ShopState, person: str) -> bool:
        """Whether this person typed the right PIN, or somebody else who vouches with a right one.

        Raises
        ------
        PinError
            If a PIN was typed that is wrong, or too early.
        """
        others = (other for other in shop.pins if other != person and self._may_vouch(shop, other, person))
        return any(self._typed_by(shop, person)) or any(
            found for other in others for found in self._typed_by(shop, other)
        )

    def vouches(self, shop: ShopState, person: str, other: str | None) -> bool:
        """Whether the other person named typed a right PIN for this one.

        Raises
        ------
        PinError
            As in `proves`; or if the other one came into the book only after this one's PIN was set.
        """
        if other in (None, person) or not any(self._typed_by(shop, str(other))):
            return False
        if not self._may_vouch(shop, str(other), person):
            raise NewcomerVouchesError(str(other), name_of(shop, str(other)), NEWCOMER.days)
        return True

    def _may_vouch(self, shop: ShopState, other: str, person: str) -> bool:
        """Whoever could enter a person could else vouch as that one, and sign as anybody."""
        held = shop.pins.get(person)
        if held is None:
            return True
        entries = [each.entry for each in shop.ledger.recorded.values()]
        came = min(each.seq for each in entries if _is_of(each, Person.kind, "code", other))
        if came < held.entry.seq:
            return True
        since = min(each.committed_at for each in entries if _is_of(each, PinSet.kind, "person", other))
        return self._now - moment_of(since) >= NEWCOMER

    def own(self, shop: ShopState, person: str) -> bool:
        """Whether this person typed the right PIN."""
        return any(self._typed_by(shop, person))

    def _typed_by(self, shop: ShopState, person: str) -> Iterator[bool]:
        if person in shop.pins and self._pins.get(person):
            self._try(shop, person)
            yield True

    def _try(self, shop: ShopState, person: str) -> None:
        """Try the PIN that came for a person who has one; each only once."""
        held = shop.pins[person]
        if (person, held.entry.id) in self._right:
            return
        wait = self._tries.wait(person)
        if wait > 0.0:
            raise PinWaitError(person, name_of(shop, person), wait)
        if not fits(self._pins[person], held.body):
            raise WrongPinError(person, name_of(shop, person), self._tries.wrong(person))
        self._tries.right(person)
        self._right.add((person, held.entry.id))


def _is_of(entry: Entry, kind: str, field: str, person: str) -> bool:
    return entry.kind == kind and entry.body.get(field) == person


def name_of(shop: ShopState, person: str) -> str:
    """What a person is called; the code where nobody has it."""
    held = shop.people.get(person)
    return held.body.name if held is not None else person
