"""Which entries of a record a dossier carries in full: its build's, and of the shop what they rest on."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import Final

from fitwright.bench.carrying import rested_on
from fitwright.records.entry import Entry
from fitwright.records.kinds import BladeSet, Calibration, Instrument, PinSet, ShopSetting
from fitwright.records.registry import SHOP_KINDS

_OF_EVERY_BUILD: Final = frozenset(noun.kind for noun in (Instrument, Calibration, BladeSet, ShopSetting))
"""What is on the shelf says which reading would settle a fit, whether the build used it or not."""


def carried_entries(entries: Iterable[Entry], build: str) -> tuple[Entry, ...]:
    """The entries that a dossier of a build carries, in order; never a PIN.

    What was filed under another build but counts for the whole shop is taken along where this build names it.
    """
    everything = [entry for entry in entries if entry.kind != PinSet.kind]
    unfiled = [replace(entry, build=None) if _is_of_shop(entry, build) else entry for entry in everything]
    wanted = {entry.id for entry in rested_on(unfiled, build)}
    return tuple(entry for entry in everything if entry.id in wanted or _is_on_shelf(entry))


def _is_of_shop(entry: Entry, build: str) -> bool:
    return entry.build != build and entry.kind in SHOP_KINDS


def _is_on_shelf(entry: Entry) -> bool:
    return entry.build is None and entry.kind in _OF_EVERY_BUILD
