"""A dossier held against the record of a shop: its head in this chain, and nothing left out."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from hashlib import sha256
from typing import Final

from fitwright.dossier.data import DossierData, data_digest
from fitwright.dossier.pictures import as_printed
from fitwright.dossier.resting import carried_entries
from fitwright.dossier.verify.chain import called
from fitwright.dossier.verify.findings import Finding
from fitwright.records.chain import digest_of
from fitwright.records.entry import Entry
from fitwright.records.errors import RecordError
from fitwright.records.kinds import DossierWritten

ANOTHER_SHOP: Final = (
    "It is of another shop: its record begins otherwise than this shop's, which can say nothing about it."
)


@dataclass(frozen=True, slots=True)
class ShopRecord:
    """The record of a shop as far as it is asked here: its entries in order, and its photos."""

    entries: Callable[[], Iterable[Entry]]
    photo: Callable[[str], bytes]


@dataclass(frozen=True, slots=True)
class Against:
    """What a shop's record says of a dossier."""

    known: bool
    findings: tuple[Finding, ...]
    notes: tuple[str, ...]


def held_against(data: DossierData, text: str, shop: ShopRecord) -> Against:
    """Hold the data of a dossier against a record that may have gone on since."""
    entries = list(shop.entries())
    if not _same_shop(data, entries):
        return Against(known=False, findings=(), notes=(ANOTHER_SHOP,))
    at_head = next((entry for entry in entries if entry.seq == data.head.seq), None)
    if at_head is None or at_head.hash != data.head.hash:
        there = "ends before it" if at_head is None else "has another entry there"
        words = f"its head, entry {data.head.seq}, is no part of this shop's record, which {there}"
        return Against(known=False, findings=(Finding(words),), notes=())
    then = [entry for entry in entries if entry.seq <= data.head.seq]
    findings = (
        *_head(data, at_head),
        *_left_out(data, then),
        *_photos(data, shop),
        *_revision(data, entries),
    )
    return Against(known=True, findings=findings, notes=tuple(_notes(data, text, entries)))


def _same_shop(data: DossierData, entries: list[Entry]) -> bool:
    """Whether both records begin with the same entry: every shop's first one is its own."""
    return bool(entries) and bool(data.digests) and digest_of(entries[0]) == data.digests[0]


def _head(data: DossierData, at_head: Entry) -> Iterator[Finding]:
    if at_head.id != data.head.id:
        yield Finding(f"its head is told as {data.head.id[:8]}, and is {called(at_head)}", seq=at_head.seq)


def _revision(data: DossierData, entries: Iterable[Entry]) -> Iterator[Finding]:
    """A number that no entry gives was never handed over."""
    asked = data.asked
    if asked.revision is not None and not any(
        entry.kind == DossierWritten.kind
        and entry.build == asked.build
        and entry.body.get("revision") == asked.revision
        for entry in entries
    ):
        yield Finding(f"it calls itself revision {asked.revision}, and this shop never handed that over")


def _left_out(data: DossierData, then: Iterable[Entry]) -> Iterator[Finding]:
    wanted = carried_entries(then, data.asked.build)
    there = {entry.seq for entry in data.entries}
    for entry in wanted:
        if entry.seq not in there:
            yield Finding(f"{called(entry)} of this shop's record is left out", seq=entry.seq)


def _photos(data: DossierData, shop: ShopRecord) -> Iterator[Finding]:
    for digest, shown in data.photos.items():
        if digest == shown:
            continue
        try:
            copy = as_printed(shop.photo(digest))
        except RecordError:
            yield Finding(f"photo {digest[:12]} is not kept in this shop any more")
            continue
        if copy is None or sha256(copy).hexdigest() != shown:
            yield Finding(f"the copy of photo {digest[:12]} is not the one that this shop's photo gives here")


def _notes(data: DossierData, text: str, entries: list[Entry]) -> Iterator[str]:
    since = entries[-1].seq - data.head.seq
    yield (
        "Its head is part of this shop's record, which has not gone on since."
        if not since
        else f"Its head is part of this shop's record, which has gone on by {since} entries since."
    )
    digest = data_digest(text)
    handed = [
        entry for entry in entries if entry.kind == DossierWritten.kind and entry.build == data.asked.build
    ]
    mine = next((entry for entry in handed if entry.body.get("data_digest") == digest), None)
    if mine is not None:
        yield f"Handed over as revision {mine.body['revision']}, entry {mine.seq} of this shop's record."
    elif data.asked.revision is not None:
        yield f"This shop's record does not say that revision {data.asked.revision} went out like this."
    later = [entry for entry in handed if mine is not None and entry.seq > mine.seq]
    if later:
        yield f"Revision {later[-1].body['revision']} has replaced it since."
