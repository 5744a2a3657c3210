"""Where a form is signed: whether a PIN is asked for, and of whom; for `pin.html`."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from fitwright.bench.pins import needs_pin
from fitwright.records.projection import ShopState

PIN_FIELDS: Final = ("pin", "pin_new", "pin_again")
"""Fields that are never shown again, never kept and never part of what names an entry."""


@dataclass(frozen=True, slots=True)
class PinPart:
    """Whether a PIN is asked for, and the names of those who have none yet; `first` for who is picked."""

    asked: bool
    without: tuple[str, ...] = ()
    first: bool = False


NO_PIN: Final = PinPart(asked=False)


def pin_part(shop: ShopState, person: str | None = None) -> PinPart:
    """A PIN is asked for once a second person exists, or once one was set."""
    if not any(needs_pin(shop, code) for code in shop.people):
        return NO_PIN
    without = (held.body.name for code, held in shop.people.items() if code not in shop.pins)
    first = person in shop.people and person not in shop.pins
    return PinPart(asked=True, without=tuple(without), first=first)
