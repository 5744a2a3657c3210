"""An entry of the record, before and after it has been written."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True, slots=True)
class NewEntry:
    """An entry as a client makes it: the 128-bit id is the client's own (32 hex digits)."""

    id: str
    build: str | None
    kind: str
    body: Mapping[str, Any]
    person: str | None = None
    device: str | None = None
    client_time: str | None = None
    kind_version: int = 1


@dataclass(frozen=True, slots=True)
class Entry:
    """An entry as it stands in the record, with its place in the chain."""

    seq: int
    id: str
    build: str | None
    kind: str
    kind_version: int
    person: str | None
    device: str | None
    committed_at: str
    client_time: str | None
    body: Mapping[str, Any]
    previous_hash: str
    hash: str


def same_again(entry: Entry) -> NewEntry:
    """An entry as its client made it: sent again, it gets its first answer again."""
    return NewEntry(
        id=entry.id,
        build=entry.build,
        kind=entry.kind,
        body=entry.body,
        person=entry.person,
        device=entry.device,
        client_time=entry.client_time,
        kind_version=entry.kind_version,
    )


def as_if_written(new: NewEntry, seq: int, committed_at: str = "") -> Entry:
    """A new entry as it would stand in the record, without its place in the chain."""
    return Entry(
        seq=seq,
        id=new.id,
        build=new.build,
        kind=new.kind,
        kind_version=new.kind_version,
        person=new.person,
        device=new.device,
        committed_at=committed_at,
        client_time=new.client_time,
        body=new.body,
        previous_hash="",
        hash="",
    )


@dataclass(frozen=True, slots=True)
class Acknowledgement:
    """The answer to a write, given only after it is durable."""

    id: str
    seq: int
    hash: str
