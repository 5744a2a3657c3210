"""A record verified, every typed amount read again by the parser of this program."""

from __future__ import annotations

from fitwright.store.record import SqliteRecord
from fitwright.store.verify import Verification, verify
from fitwright.units import parse_quantity


def verified(record: SqliteRecord) -> Verification:
    """Every entry, the chain, the head, the photos, the typed texts."""
    return verify(record, reparse=lambda text, unit: parse_quantity(text, default_unit=unit).si)
