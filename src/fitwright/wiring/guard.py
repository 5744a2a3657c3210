"""Entries held against the record before they are written, with nobody writing in between; PINs set."""

from __future__ import annotations

import secrets
import time
from collections.abc import Callable, Mapping, Sequence
from typing import TYPE_CHECKING, Final

from fitwright.bench.guarding import Known, concerns
from fitwright.bench.pin_hash import SALT_BYTES
from fitwright.bench.pin_proofs import PinProofs
from fitwright.bench.pins import WrongTries, pin_set
from fitwright.model.sheet import Sheet
from fitwright.records.entry import Acknowledgement, Entry, NewEntry
from fitwright.records.errors import MeanwhileError
from fitwright.records.kinds import PinSet
from fitwright.records.projection import BuildState, ShopState
from fitwright.records.registry import SIGNED_KINDS
from fitwright.records.search import Search
from fitwright.wiring.gate import Gate

if TYPE_CHECKING:
    from fitwright.assess.assembly.results import Standing
    from fitwright.wiring.shop import Shop


Check = Callable[[Sequence[NewEntry], Known, PinProofs], None]
TRIES: Final = 50
"""So often entries are held against the record anew where another program writes at the same moment."""


class Guard:
    """Writes entries into the record of a shop; guarded ones only after they were held against it.

    What was found is still so when it is written: the gate keeps other threads out meanwhile, and where
    another program wrote in between, the record says so and the entries are held against it again.
    """

    def __init__(self, shop: Shop) -> None:
        self._shop, self._gate, self._tries = shop, Gate(), WrongTries(time.monotonic)

    def append(
        self, entries: Sequence[NewEntry], since: int | None, pins: Mapping[str, str], check: Check
    ) -> list[Acknowledgement]:
        """Write entries durably.

        Raises
        ------
        GuardError, RecordError
            If they are not taken; nothing was stored.
        """
        if concerns(entries, self._shop.record.entry):
            return self._held_against(entries, since, pins, check)
        with self._gate.among_others():
            return self._shop.record.append(entries, since=since)

    def _held_against(
        self, entries: Sequence[NewEntry], since: int | None, pins: Mapping[str, str], check: Check
    ) -> list[Acknowledgement]:
        proofs = PinProofs(pins, self._tries, self._shop.clock())
        known, tries = _KnownToShop(self._shop), TRIES
        # The lock first: whoever holds it may write ordinary entries, and must find the gate open.
        with self._shop.held(), self._gate.alone():
            while True:
                check(entries, known, proofs)
                try:
                    return self._shop.record.append(entries, since=since, upon=self._shop.position)
                except MeanwhileError:
                    tries -= 1
                    if not tries:
                        raise
                self._shop.catch_up()


class _KnownToShop:
    """What a shop knows before it writes; asked only while nobody else writes."""

    def __init__(self, shop: Shop) -> None:
        self._shop = shop

    @property
    def shop(self) -> ShopState:
        """The shop as it stands."""
        return self._shop.state

    def build(self, code: str) -> BuildState | None:
        """A build as it stands; None where there is none of that code."""
        return self._shop.bench(code).build if code in self._shop.builds() else None

    def sheet(self, code: str) -> Sheet:
        """The sheet of a build."""
        return self._shop.bench(code).sheet

    def standing(self, code: str, entries: Sequence[NewEntry]) -> Standing:
        """How the assembly of a build would stand with these entries written."""
        return self._shop.assembly_supposing(code, entries)

    def entry(self, entry_id: str) -> Entry | None:
        """An entry by its id."""
        return self._shop.record.entry(entry_id)

    def hash_at(self, seq: int) -> str | None:
        """The hash of the entry with this number; None where there is none."""
        found = self._shop.record.entry_at(seq)
        return found.hash if found is not None else None

    def has_signed(self, person: str) -> bool:
        """Whether this person released, permitted or signed anything."""
        found = self._shop.record.search(Search(kinds=tuple(SIGNED_KINDS), names=(person,), limit=1))
        return bool(found)


def pin_of(
    shop: ShopState, person: str, pin: str, *, again: str | None = None, vouched_by: str | None = None
) -> PinSet:
    """A PIN as it is kept, with a salt by chance; `again` is it typed a second time, where it was."""
    salt = secrets.token_bytes(SALT_BYTES)
    return pin_set(shop, person, pin, again=pin if again is None else again, salt=salt, vouched_by=vouched_by)
