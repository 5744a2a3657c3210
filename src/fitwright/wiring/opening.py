"""A folder becomes a shop; a shop verified, backed up and restored by its folder."""

from __future__ import annotations

from pathlib import Path

from fitwright.store.backup import Manifest, back_up, restore
from fitwright.store.record import open_record
from fitwright.store.verify import Verification
from fitwright.wiring.shop import Clock, Shop, utc_now
from fitwright.wiring.verifying import verified


def open_shop(directory: Path, *, clock: Clock = utc_now, create: bool = True) -> Shop:
    """Open (or make) the shop that lives in a folder."""
    return Shop(open_record(directory, clock=clock, create=create), clock=clock)


def verify_shop(directory: Path) -> Verification:
    """Verify the record of a shop: every entry, the chain, the head, the photos, the typed texts."""
    record = open_record(directory, create=False)
    try:
        return verified(record)
    finally:
        record.close()


def back_up_shop(directory: Path, target: Path) -> Manifest:
    """Copy a shop, which may be in use, into a new folder with a manifest."""
    record = open_record(directory, create=False)
    try:
        return back_up(record, target)
    finally:
        record.close()


def restore_shop(backup: Path, target: Path) -> Manifest:
    """Bring a backup back into an empty folder, checked against its manifest."""
    return restore(backup, target)
