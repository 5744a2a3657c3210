"""What happened to a build and to each thing of it: entries in words, by whom and when, with the way back."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from fitwright.bench.context import Bench
from fitwright.bench.entry_words import entry_words
from fitwright.records import kinds
from fitwright.records.entry import Entry
from fitwright.records.kinds import Body
from fitwright.units.families import Family
from fitwright.web.addresses import parts_address, record_address

SHOWN = (
    kinds.Part,
    kinds.Fitting,
    kinds.TakingOut,
    kinds.State,
    kinds.StatedSize,
    kinds.EyeCheck,
    kinds.NotMeasured,
    kinds.NotInThisJob,
    kinds.LimitAdopted,
    kinds.Choice,
    kinds.Note,
    kinds.Photo,
)
"""The kinds of entry that this page makes."""


@dataclass(frozen=True, slots=True)
class HistoryLine:
    """One entry; `standing` says what became of it, `back` is where it is taken or brought back."""

    seq: int
    words: str
    who: str
    when: str
    standing: str
    back: str
    back_label: str
    record: str


def history_line(bench: Bench, family: Family, entry: Entry) -> HistoryLine:
    """An entry as a line."""
    code, ledger = bench.build.build, bench.build.ledger
    withdrawn, superseded = ledger.withdrawn_by(entry.id), ledger.superseded_by(entry.id)
    label = "" if superseded is not None else "Bring back" if withdrawn is not None else "Take back"
    return HistoryLine(
        seq=entry.seq,
        words=entry_words(bench, entry),
        who=_name(bench, entry.person),
        when=when_of(entry),
        standing=_standing(bench, withdrawn, superseded),
        back=parts_address(code, family, do="back", entry=entry.id) if label else "",
        back_label=label,
        record=record_address(code, entry=entry.seq),
    )


def when_of(entry: Entry) -> str:
    """When somebody entered it, as the device said, else as the record does; in UTC."""
    moment = entry.client_time or entry.committed_at
    return f"{moment[:10]} {moment[11:16]} UTC" if moment.endswith(("Z", "+00:00")) else moment


def history(
    bench: Bench, family: Family, wanted: Callable[[Body], bool], *, most: int = 0
) -> tuple[HistoryLine, ...]:
    """The entries of this page's kinds that are wanted, the last first; at most so many."""
    found = (
        entry
        for entry, body in reversed(bench.build.ledger.recorded.values())
        if isinstance(body, SHOWN) and wanted(body)
    )
    lines = (history_line(bench, family, entry) for entry in found)
    return tuple(_first(lines, most) if most else lines)


def concerns(names: frozenset[str]) -> Callable[[Body], bool]:
    """Whether an entry is about one of some things, by position, part, size, fit or subject."""

    def about(body: Body) -> bool:
        said = {
            getattr(body, each, None)
            for each in ("part", "position", "code", "subject", "dimension", "check")
        }
        members = getattr(body, "members", None)
        return bool(names & {each for each in said if each}) or bool(
            members and names & set(members.values())
        )

    return about


def _first(lines: Iterator[HistoryLine], most: int) -> Iterator[HistoryLine]:
    for _, line in zip(range(most), lines, strict=False):
        yield line


def _standing(bench: Bench, withdrawn: Entry | None, superseded: Entry | None) -> str:
    if superseded is not None:
        return f"replaced by entry {superseded.seq}"
    if withdrawn is None:
        return ""
    reason = withdrawn.body.get("reason")
    because = f": {reason}" if reason else ""
    return f"taken back by entry {withdrawn.seq}, {_name(bench, withdrawn.person)}{because}"


def _name(bench: Bench, person: str | None) -> str:
    held = bench.shop.people.get(person or "")
    return held.body.name if held is not None else person or "nobody named"
