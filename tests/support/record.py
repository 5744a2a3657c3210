"""Make entries for tests: new ones with little typing, and chains of them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from itertools import count
from typing import Any

from fitwright.records.chain import GENESIS, sealed
from fitwright.records.entry import Entry, NewEntry
from fitwright.records.registry import checked

AT = "2031-05-04T09:30:00.000000Z"
_numbers = count(1)


def numbered_id(number: int) -> str:
    """An entry id that can be told apart at a glance."""
    return f"{number:032x}"


def new(kind: str, build: str | None = "b1", entry_id: str | None = None, **body: Any) -> NewEntry:
    """A new entry with a fresh id."""
    return NewEntry(
        id=entry_id or numbered_id(next(_numbers)), build=build, kind=kind, body=body, person="builder"
    )


def typed(si: float, text: str = "", unit: str = "mm", decimals: int = 3) -> dict[str, Any]:
    """A typed amount."""
    return {"typed": text or f"{si * 1000:.3f}", "unit": unit, "decimals": decimals, "si": si}


def reading(
    part: str = "main.1.housing",
    *,
    feature: str = "bore",
    place: str = "front 0",
    si: float = 0.0559,
    build: str | None = "b1",
    entry_id: str | None = None,
    **more: Any,
) -> NewEntry:
    """A value read on one part that sits in the position of the same name."""
    body: Mapping[str, Any] = {
        "dimension": f"{part}.{feature}",
        "feature": feature,
        "place": place,
        "members": {part: part},
        "observation": {"type": "value", "value": typed(si), "instrument": "bore-gauge"},
        "sitting": "S1",
    } | more
    return new("reading", build, entry_id, **body)


class Before:
    """The entries before a new one, and the sheets kept, as the rules ask for them."""

    def __init__(self, entries: Iterable[Entry] = (), sheets: Iterable[str] = ()) -> None:
        self.entries = {entry.id: entry for entry in entries}
        self.sheets = set(sheets)

    def entry(self, entry_id: str) -> Entry | None:
        """An entry by its id."""
        return self.entries.get(entry_id)

    def naming(self, entry_id: str) -> list[Entry]:
        """The withdrawals and corrections of an entry."""
        return [entry for entry in self.entries.values() if entry_id in _named_by(entry)]

    def started(self, build: str) -> Entry | None:
        """The entry that started a build."""
        of_build = (entry for entry in self.entries.values() if entry.build == build)
        return next((entry for entry in of_build if entry.kind == "build started"), None)

    def has_sheet(self, digest: str) -> bool:
        """Whether a sheet is kept."""
        return digest in self.sheets

    def coded(self, build: str | None, kind: str, code: str) -> bool:
        """Whether a build has an entry of a kind under a code."""
        of_kind = (each for each in self.entries.values() if (each.build, each.kind) == (build, kind))
        return any(each.body.get("code") == code for each in of_kind)


def _named_by(entry: Entry) -> tuple[str | None, str | None]:
    return entry.body.get("supersedes"), entry.body["entry"] if entry.kind == "withdrawal" else None


def sealed_chain(
    news: Iterable[NewEntry], *, previous_hash: str = GENESIS, first_seq: int = 1
) -> list[Entry]:
    """The entries that a store would make of these, checked and chained."""
    chain: list[Entry] = []
    for seq, entry in enumerate(news, start=first_seq):
        _, text = checked(entry)
        chain.append(sealed(entry, seq=seq, committed_at=AT, previous_hash=previous_hash, body_text=text))
        previous_hash = chain[-1].hash
    return chain
