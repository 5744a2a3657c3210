"""The chain worked out again from the entries carried and the digests of all others."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from fitwright.dossier.data import DossierData
from fitwright.dossier.verify.findings import Finding
from fitwright.records.chain import GENESIS, digest_of, hash_of
from fitwright.records.entry import Entry


def called(entry: Entry) -> str:
    """An entry by number, kind and the beginning of its id."""
    return f"entry {entry.seq} ({entry.kind}, {entry.id[:8]})"


def chain_findings(data: DossierData) -> Iterator[Finding]:
    """Every entry that does not agree with the chain, and whether the chain leads to the head."""
    yield from _order(data)
    yield from _carried(data)
    yield from _digests(data)
    yield from _head(data)


def _order(data: DossierData) -> Iterator[Finding]:
    before = 0
    for entry in data.entries:
        if entry.seq == before:
            yield Finding(f"{called(entry)} is there twice", seq=entry.seq)
        elif entry.seq < before:
            yield Finding(f"{called(entry)} stands out of order, behind entry {before}", seq=entry.seq)
        before = entry.seq
    for name, count in Counter(entry.id for entry in data.entries).items():
        if count > 1:
            yield Finding(f"{count} entries have the same id {name[:8]}")


def _carried(data: DossierData) -> Iterator[Finding]:
    there, told = {entry.seq for entry in data.entries}, set(data.carried)
    for seq in sorted(told - there):
        yield Finding(f"entry {seq} is named as carried and is missing: it was taken out", seq=seq)
    for entry in data.entries:
        if entry.seq not in told:
            yield Finding(
                f"{called(entry)} is not among those named as carried: it was put in", seq=entry.seq
            )


def _digests(data: DossierData) -> Iterator[Finding]:
    for entry in data.entries:
        if not 1 <= entry.seq <= len(data.digests):
            yield Finding(
                f"{called(entry)} lies outside the record, which ends at {len(data.digests)}", seq=entry.seq
            )
        elif _own(entry) != data.digests[entry.seq - 1]:
            what = "does not agree with its digest in the chain: something in it was changed"
            yield Finding(f"{called(entry)} {what}", seq=entry.seq)


def _own(entry: Entry) -> str | None:
    try:
        return digest_of(entry)
    except (TypeError, ValueError):  # changed into something that JSON cannot carry
        return None


def _head(data: DossierData) -> Iterator[Finding]:
    if len(data.digests) != data.head.seq:
        words = f"the head is entry {data.head.seq}, and there are {len(data.digests)} digests"
        yield Finding(f"{words}: some were taken out or put in")
    last = next((entry for entry in data.entries if entry.seq == data.head.seq), None)
    if last is not None and last.id != data.head.id:
        yield Finding(f"the head is told as {data.head.id[:8]}, and is {called(last)}", seq=last.seq)
    head = GENESIS
    for digest in data.digests:
        head = hash_of(head, digest)
    if head != data.head.hash:
        words = f"the digests of the {len(data.digests)} entries lead to the head {head[:12]}"
        yield Finding(f"{words}, not to {data.head.hash[:12]}: one was changed, or their order")
