"""An entry in a line: when, who, what, and what became of it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from fitwright.bench.context import Bench
from fitwright.bench.told import told
from fitwright.records.entry import Entry
from fitwright.records.errors import RecordError
from fitwright.records.registry import body_of
from fitwright.records.search import Standing
from fitwright.web.addresses import record_address
from fitwright.web.hands import Hands
from fitwright.web.whose import at_the_shop, who_wrote


@dataclass(frozen=True, slots=True)
class RecordLine:
    """One entry; `fate` says why it does not count, and is empty where it does."""

    seq: int
    address: str
    when: str
    who: str
    kind: str
    build: str
    words: str
    reason: str
    fate: str


def lines(hands: Hands, found: Iterable[Standing], of_build: str | None) -> tuple[RecordLine, ...]:
    """The lines of entries, as the page of a build or of the whole shop shows them."""
    return tuple(_line(hands, each, of_build) for each in found)


def fate_of(standing: Standing) -> str:
    """What became of an entry that does not count any more, with its reason."""
    for word, by in (("taken back", standing.withdrawn_by), ("superseded", standing.superseded_by)):
        if by is not None:
            reason = by.body.get("reason")
            return f"{word} by entry {by.seq}{f': {reason}' if reason else ''}"
    return ""


def words_of(entry: Entry, bench: Bench | None) -> str:
    """What an entry says; one that this program cannot read says so."""
    try:
        return told(body_of(entry.kind, entry.kind_version, entry.body), bench)
    except RecordError as error:
        return f"cannot be read here: {error}"


def bench_of(hands: Hands, build: str | None) -> Bench | None:
    """The bench of a build that the shop has."""
    return hands.shop.bench(build) if build is not None and build in hands.shop.builds() else None


def _line(hands: Hands, standing: Standing, of_build: str | None) -> RecordLine:
    entry, shop = standing.entry, hands.shop.state
    return RecordLine(
        seq=entry.seq,
        address=record_address(of_build, entry=entry.seq),
        when=at_the_shop(shop, entry.committed_at),
        who=who_wrote(shop, entry),
        kind=entry.kind,
        build=entry.build or "" if of_build is None else "",
        words=words_of(entry, bench_of(hands, entry.build)),
        reason=str(entry.body.get("reason") or ""),
        fate=fate_of(standing),
    )
