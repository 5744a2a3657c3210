"""The demo shop: the example engines with their records, written as a shop of one's own would be."""

from __future__ import annotations

from pathlib import Path

from fitwright.examples import EXAMPLES, record_entries, sheet_text
from fitwright.formats.carrying import Arrival
from fitwright.records.entry import NewEntry
from fitwright.wiring import open_shop


class FolderNotEmptyError(Exception):
    """The folder for the demo shop already has something in it."""

    def __init__(self, folder: Path) -> None:
        """Say which folder, and what to do."""
        super().__init__(f"{folder} is not empty: name a new folder for the demo shop.")


def prepare_demo(folder: Path) -> list[str]:
    """Write the demo shop into a new folder; returns the codes of its builds."""
    if folder.exists() and any(folder.iterdir()):
        raise FolderNotEmptyError(folder)
    shop = open_shop(folder)
    try:
        seen: set[str] = set()
        for name in EXAMPLES:
            text = sheet_text(name)
            entries = [NewEntry(**entry) for entry in record_entries(name)]
            new = tuple(entry for entry in entries if entry.id not in seen)
            # Another shop's builds: what counts of their assembly follows from the record.
            shop.take_in(Arrival(name, new, already=len(entries) - len(new), sheets={name: text}))
            seen.update(entry.id for entry in entries)
        return list(shop.builds())
    finally:
        shop.close()
