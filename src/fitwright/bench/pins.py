"""PINs: who needs one, how one is set, and how long somebody waits after wrong ones."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Final

from fitwright.bench.errors import CannotEnterError
from fitwright.bench.pin_hash import BLOCK_SIZE, COST, PARALLEL, hardened
from fitwright.bench.sittings import person_named
from fitwright.records.kinds import PinSet
from fitwright.records.projection import ShopState

SHORTEST, LONGEST = 4, 12
FREE_TRIES: Final = 3
"""So many wrong PINs are slips of a finger; from then on each makes the wait longer."""
FIRST_WAIT: Final = 2.0
"""The first wait [s]; each further wrong PIN doubles it."""
LONGEST_WAIT: Final = 900.0
"""No wait is longer [s]: somebody else's tries must not keep a person from signing for a day."""


def needs_pin(shop: ShopState, person: str) -> bool:
    """Whether it takes a PIN to sign as this person: once there is a second one, or once one was set."""
    return len(shop.people) > 1 or has_pin(shop, person)


def has_pin(shop: ShopState, person: str) -> bool:
    """Whether a person has set a PIN."""
    return person in shop.pins


def pin_set(
    shop: ShopState, person: str, pin: str, *, again: str, salt: bytes, vouched_by: str | None = None
) -> PinSet:
    """A PIN as it is kept; `again` is it typed a second time, `salt` so many bytes by chance.

    Raises
    ------
    BenchError
        If nobody is called so, the PIN is none, or the two are not the same.
    """
    who = person_named(shop, person)
    check_pin(pin)
    if again != pin:
        raise CannotEnterError("Both PINs are not the same", "type the new one twice")
    return PinSet(
        person=who,
        salt=salt.hex(),
        hardened=hardened(pin, salt),
        cost=COST,
        block_size=BLOCK_SIZE,
        parallel=PARALLEL,
        vouched_by=person_named(shop, vouched_by) if vouched_by else None,
    )


def check_pin(pin: str) -> None:
    """Refuse what is no PIN."""
    if re.fullmatch(rf"[0-9]{{{SHORTEST},{LONGEST}}}", pin) is None:
        raise CannotEnterError("That is no PIN", f"type {SHORTEST} to {LONGEST} digits")


class WrongTries:
    """Wrong PINs of each person since the last right one, and how long the next try has to wait.

    `clock` counts seconds and never goes back; what was counted is forgotten when the program ends.
    """

    def __init__(self, clock: Callable[[], float]) -> None:
        self._clock = clock
        self._wrong: dict[str, int] = {}
        self._free_at: dict[str, float] = {}

    def wait(self, person: str) -> float:
        """How long a person still has to wait [s]; zero where a PIN may be tried now."""
        return max(0.0, self._free_at.get(person, 0.0) - self._clock())

    def wrong(self, person: str) -> float:
        """One more wrong PIN; how long the next try has to wait [s]."""
        count = self._wrong[person] = self._wrong.get(person, 0) + 1
        wait = 0.0 if count < FREE_TRIES else min(LONGEST_WAIT, FIRST_WAIT * 2.0 ** (count - FREE_TRIES))
        self._free_at[person] = self._clock() + wait
        return wait

    def right(self, person: str) -> None:
        """A right PIN: what was wrong before is forgotten."""
        self._wrong.pop(person, None)
        self._free_at.pop(person, None)
