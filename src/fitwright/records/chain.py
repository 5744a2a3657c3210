"""The hash chain: each entry protects its content and everything that was written before it.

`digest = SHA-256(RFC 8785 form of {seq, id, build, kind, kind_version, person, device, committed_at,
client_time, body})`; `hash = SHA-256(previous_hash then digest)`, 32 + 32 bytes. So the head can be
recomputed from digests alone, without showing one customer's entries to another. Hashes and digests
are 64 hex digits; the first entry follows on from 64 zeros.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from fitwright.records.canonical import canonical_text
from fitwright.records.entry import Acknowledgement, Entry, NewEntry
from fitwright.records.errors import ShorterThanAnchorError

GENESIS = "0" * 64
_envelope = json.JSONEncoder(ensure_ascii=False, separators=(",", ":"), sort_keys=True).encode


def form_of(entry: Entry, body_text: str | None = None) -> str:
    """The RFC 8785 form of an entry; `body_text` is its body as stored, where it is at hand.

    `body` sorts before all other names and they hold only text, whole numbers and null, so the RFC 8785
    form is the stored body text followed by the standard encoder's sorted output (tested to agree).
    """
    text = canonical_text(entry.body) if body_text is None else body_text
    rest = _envelope(
        {
            "build": entry.build,
            "client_time": entry.client_time,
            "committed_at": entry.committed_at,
            "device": entry.device,
            "id": entry.id,
            "kind": entry.kind,
            "kind_version": entry.kind_version,
            "person": entry.person,
            "seq": entry.seq,
        }
    )
    return f'{{"body":{text},{rest[1:]}'


def digest_of(entry: Entry, body_text: str | None = None) -> str:
    """The digest of an entry; `body_text` is its body as stored, where it is at hand."""
    form = form_of(entry, body_text)
    return hashlib.sha256(form.encode("utf-8", errors="surrogatepass")).hexdigest()


def hash_of(previous_hash: str, digest: str) -> str:
    """The hash of an entry, from the hash before it and its own digest.

    Raises
    ------
    ValueError
        If one of the two is not hexadecimal.
    """
    return hashlib.sha256(bytes.fromhex(previous_hash) + bytes.fromhex(digest)).hexdigest()


def sealed(new: NewEntry, *, seq: int, committed_at: str, previous_hash: str, body_text: str) -> Entry:
    """A new entry with its place in the chain."""
    entry = Entry(
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
        previous_hash=previous_hash,
        hash="",
    )
    own = hash_of(previous_hash, digest_of(entry, body_text))
    return _with_hash(entry, own)


def _with_hash(entry: Entry, own: str) -> Entry:
    return Entry(**{name: getattr(entry, name) for name in Entry.__slots__} | {"hash": own})


@dataclass(frozen=True, slots=True)
class Link:
    """One entry as stored: itself, and its body's text byte for byte where the store has it."""

    entry: Entry
    body_text: str | None = None


@dataclass(frozen=True, slots=True)
class Fault:
    """One entry that does not agree with the chain, and how."""

    seq: int
    id: str
    kind: str
    what: str

    def __str__(self) -> str:
        return f"entry {self.seq} ({self.kind}, {self.id}): {self.what}"


@dataclass(frozen=True, slots=True)
class ChainReport:
    """What following a chain found: how many entries, every fault in order, the last entry."""

    entries: int
    faults: tuple[Fault, ...]
    head: Acknowledgement | None

    @property
    def first(self) -> Fault | None:
        """The first fault, if any."""
        return self.faults[0] if self.faults else None

    @property
    def sound(self) -> bool:
        """Whether every entry agrees with the chain."""
        return not self.faults


def verified(
    links: Iterable[Link | Entry], *, previous_hash: str = GENESIS, first_seq: int = 1
) -> ChainReport:
    """Follow a chain and report each entry that does not agree, and only those.

    A changed value disagrees with its own hash; an entry that was replaced together with its hash
    shows at the one after it; a deleted one shows as a gap. A lost tail shows only against an anchor.
    """
    faults: list[Fault] = []
    before, mended, expected_seq = previous_hash, previous_hash, first_seq
    count, head = 0, None
    for link in links:
        entry, text = (link, None) if isinstance(link, Entry) else (link.entry, link.body_text)
        own = _own_hash(entry, text)
        what = _fault(entry, own, expected_seq, (before, mended))
        if what:
            faults.append(Fault(entry.seq, entry.id, entry.kind, what))
        before, mended, expected_seq = entry.hash, own or entry.hash, entry.seq + 1
        count, head = count + 1, Acknowledgement(entry.id, entry.seq, entry.hash)
    return ChainReport(count, tuple(faults), head)


def _own_hash(entry: Entry, text: str | None) -> str | None:
    try:
        return hash_of(entry.previous_hash, digest_of(entry, text))
    except (TypeError, ValueError):  # changed into something that is no hash, no text, no JSON
        return None


def _fault(entry: Entry, own: str | None, expected_seq: int, before: Sequence[str]) -> str | None:
    if own != entry.hash:
        return "a stored value of this entry was changed: it does not agree with its hash"
    if entry.seq > expected_seq:
        missing = entry.seq - expected_seq
        return f"{missing} {'entry is' if missing == 1 else 'entries are'} missing before it"
    if entry.seq < expected_seq:
        return f"it stands where entry {expected_seq} should stand"
    if entry.previous_hash not in before:
        return "it does not follow on from the entry before it: one of the two was replaced"
    return None


def check_anchor(
    anchor: Acknowledgement, *, where: str, head: Acknowledgement | None, at_anchor: Entry | None
) -> None:
    """Hold a history against an anchor kept elsewhere (a device, a head file, a dossier, a backup).

    `at_anchor` is the entry that the history has at the anchor's `seq`.

    Raises
    ------
    ShorterThanAnchorError
        If the history ends before the anchor, or has another entry there.
    """
    seq = 0 if head is None else head.seq
    if seq < anchor.seq or at_anchor is None or at_anchor.hash != anchor.hash:
        raise ShorterThanAnchorError(anchor=where, anchor_seq=anchor.seq, seq=seq)
