"""The demo shop: the example engines with their records, written as a shop of one's own would be."""

from __future__ import annotations

import uuid
from collections.abc import Mapping
from pathlib import Path
from typing import Final

from fitwright.bench.signing import DOSSIER, Meaning
from fitwright.examples import EXAMPLES, photo_files, record_entries, sheet_text
from fitwright.formats.carrying import Arrival
from fitwright.records.entry import NewEntry
from fitwright.records.kinds import Signature
from fitwright.wiring import Shop, open_shop

SIGNED: Final[Mapping[str, tuple[tuple[str, Meaning, str], ...]]] = {
    "corrie-five": (
        ("builder", "performed", "Built as recorded."),
        ("foreman", "checked", "Open points read, none against handing over."),
    )
}
"""Who signs which build, with which meaning and words; nobody has released it."""


class FolderNotEmptyError(Exception):
    """The folder for the demo shop already has something in it."""

    def __init__(self, folder: Path) -> None:
        """Say which folder, and what to do."""
        super().__init__(f"{folder} is not empty: name a new folder for the demo shop.")


def prepare_demo(folder: Path) -> list[str]:
    """Write the demo shop into a new folder; returns the codes of its builds.

    Nobody there has a PIN yet: whoever signs first as one of its people sets one.
    """
    if folder.exists() and any(folder.iterdir()):
        raise FolderNotEmptyError(folder)
    shop = open_shop(folder)
    try:
        seen: set[str] = set()
        for name in EXAMPLES:
            _take_in(shop, name, seen)
            _sign(shop, name)
        return list(shop.builds())
    finally:
        shop.close()


def _take_in(shop: Shop, name: str, seen: set[str]) -> None:
    text = sheet_text(name)
    for picture in photo_files(name).values():
        shop.record.photos.take_in(picture)
    entries = [NewEntry(**entry) for entry in record_entries(name)]
    new = tuple(entry for entry in entries if entry.id not in seen)
    # Another shop's builds: what counts of their assembly follows from the record.
    shop.take_in(Arrival(name, new, already=len(entries) - len(new), sheets={name: text}))
    seen.update(entry.id for entry in entries)


def _sign(shop: Shop, name: str) -> None:
    """A signature speaks for the record in which it stands: it is made here, not carried by the example."""
    for person, meaning, words in SIGNED.get(name, ()):
        head = shop.record.head()
        if head is None:
            return
        body = Signature(
            subject=DOSSIER, meaning=meaning, signed_by=person, seq=head.seq, hash=head.hash, words=words
        )
        entry_id = uuid.uuid5(uuid.UUID(hex=head.id), f"{person}/{meaning}").hex
        entry = shop.entry(body, build=name, person=person, entry_id=entry_id)
        shop.take_in(Arrival(name, (entry,), already=0, sheets={}))
