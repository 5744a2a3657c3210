"""A PIN hardened and held against what was kept of it: scrypt (RFC 7914), compared in constant time."""

from __future__ import annotations

import hashlib
import hmac
from dataclasses import dataclass
from typing import Final

from fitwright.records.kinds import PinSet

COST: Final = 2**15
BLOCK_SIZE: Final = 8
PARALLEL: Final = 1
LENGTH: Final = 32
SALT_BYTES: Final = 16


@dataclass(frozen=True, slots=True)
class Hardness:
    """What scrypt is run with: its memory is 128 times `cost` times `block_size` bytes."""

    cost: int = COST
    block_size: int = BLOCK_SIZE
    parallel: int = PARALLEL


def hardened(pin: str, salt: bytes, hardness: Hardness | None = None) -> str:
    """What is kept of a PIN, as hex digits.

    Examples
    --------
    >>> hardened("1234", bytes(16)) == hardened("1234", bytes(16))
    True
    >>> hardened("1234", bytes(16)) == hardened("1234", bytes([1] * 16))
    False
    """
    how = hardness or Hardness()
    return hashlib.scrypt(
        pin.encode(),
        salt=salt,
        n=how.cost,
        r=how.block_size,
        p=how.parallel,
        maxmem=256 * how.cost * how.block_size * how.parallel + 2**20,
        dklen=LENGTH,
    ).hex()


def fits(pin: str, kept: PinSet) -> bool:
    """Whether a PIN is the one that was set; a record that holds no such thing fits none."""
    how = Hardness(kept.cost, kept.block_size, kept.parallel)
    try:
        found = hardened(pin, bytes.fromhex(kept.salt), how)
    except ValueError:
        return False
    return hmac.compare_digest(found, kept.hardened.casefold())
