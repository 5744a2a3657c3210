"""Who signed what, which dossiers went out before, and how anybody can verify this one."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC

from fitwright import __version__
from fitwright.assess.oil.versions import model_versions
from fitwright.dossier.head import Head
from fitwright.dossier.sections.photos import spaced
from fitwright.dossier.sections.teller import Teller, at_of, counted, day_of, when
from fitwright.dossier.tree import Block, Column, Facts, Section, Table, Words
from fitwright.records.entry import Entry
from fitwright.records.times import moment_of

MEANINGS = {
    "performed": "did the work",
    "checked": "looked at it",
    "released": "passes it on as it stands",
}
DEPTHS_CALLED = {"owner": "for the owner", "complete": "complete"}
LATE = 600.0
"""An entry kept so many seconds after it was made was kept later [s]."""
VERIFY_SAYS = "The document agrees with the record it was made from. That says nothing about the engine."


def signatures(teller: Teller) -> Section:
    """The chapter of signatures, each with its meaning and what it speaks for."""
    found = teller.known.state.work.signatures
    if not found:
        words = "Nobody has signed this build."
        return Section("signatures", "Signatures", (Words(words),))
    rows = tuple(
        (
            teller.person(body.signed_by),
            f"{body.meaning}: {MEANINGS[body.meaning]}",
            teller.about(body.subject) or body.subject,
            f"up to entry {body.seq} ({body.hash[:12]})",
            f"{when(at_of(entry))}{', looked again later' if body.later else ''}",
            body.words or "–",
        )
        for entry, body in found
    )
    columns = (
        Column("Who", 1.2),
        Column("Meaning", 1.5),
        Column("Of what", 1.3),
        Column("Speaks for", 1.6),
        Column("When, UTC", 1.3, mono=True),
        Column("Words", 1.5),
    )
    return Section("signatures", "Signatures", (Table("Signatures and what they mean", columns, rows),))


def history(teller: Teller) -> Section:
    """The chapter of revisions: of the sheet, and of this dossier."""
    state = teller.known.state
    rows = [
        (
            when(at_of(state.started.entry)),
            f"build started to sheet {_sheet(teller, state.started.body.sheet)}",
            teller.person(state.started.entry.person),
        )
        for _ in (state.started,)
        if state.started is not None
    ]
    for entry, revision in state.revisions:
        differences = f": {'; '.join(revision.differences)}" if revision.differences else ""
        rows.append(
            (
                when(at_of(entry)),
                f"sheet {_sheet(teller, revision.sheet)} taken over{differences}",
                teller.person(entry.person),
            )
        )
    for entry, written in state.work.dossiers:
        which = f"{DEPTHS_CALLED[written.depth]}, up to entry {written.seq}"
        words = f"dossier revision {written.revision} handed over ({which})"
        rows.append((when(at_of(entry)), words, teller.person(entry.person)))
    if teller.asked.revision is not None:
        replaces = "replaces all before it" if state.work.dossiers else "the first"
        rows.append(
            (when(teller.known.as_of), f"this dossier, revision {teller.asked.revision}; {replaces}", "–")
        )
    columns = (Column("When, UTC", 1.3, mono=True), Column("What", 5.0), Column("By", 1.2))
    return Section(
        "history", "Revisions", (Table("What went out, and to which sheet", columns, tuple(rows)),)
    )


def _sheet(teller: Teller, digest: str) -> str:
    sheet = teller.known.sheets.get(digest)
    if sheet is None:
        return digest[:12]
    return f"{sheet.engine.id} revision {sheet.engine.revision} ({digest[:12]})"


def verifying(teller: Teller, head: Head) -> Section:
    """The last chapter: what travels with the pages, and how it is held against them."""
    blocks: list[Block] = [
        Words(
            "This file carries the entries from which its pages were made, in full, and of all other entries "
            "of the shop only their digests. `fitwright verify FILE.pdf` works the chain out anew, judges "
            f"the entries again and holds every page against them. If it finds nothing it says: {VERIFY_SAYS}"
        ),
        Facts("From which state of the record", tuple(_facts(teller, head))),
        Words(
            "Whoever writes a whole new record can write a whole new document. Only what was kept elsewhere "
            "shows that: the head above on paper, another copy of this file, the shop's own record.",
            "small",
        ),
    ]
    return Section("verifying", "How to verify this document", tuple(blocks))


def _facts(teller: Teller, head: Head) -> Iterator[tuple[str, str]]:
    known = teller.known
    yield "Head of the record", f"entry {head.seq}, {spaced(head.hash)}"
    yield "Entries carried", f"{len(known.entries)} of {head.seq}; as of {when(known.as_of)} UTC"
    for digest, sheet in known.sheets.items():
        yield f"Sheet, revision {sheet.engine.revision}", spaced(digest)
    models = ", ".join(f"{name} {version}" for name, version in model_versions().items())
    yield "Computed by", f"fitwright {__version__}; {models}"
    yield "Times", f"in UTC, as the person's device said{_kept_later(teller)}"


def _kept_later(teller: Teller) -> str:
    """How many entries were kept more than ten minutes after they were made, and when the last was."""
    late = [entry for entry in teller.known.entries if _is_late(entry)]
    if not late:
        return ""
    count = counted(len(late), "entry was", "entries were")
    return f"; {count} kept more than ten minutes later, the last on {day_of(late[-1].committed_at)}"


def _is_late(entry: Entry) -> bool:
    if entry.client_time is None:
        return False
    made, kept = moment_of(entry.client_time), moment_of(entry.committed_at)
    if made.tzinfo is None:
        made = made.replace(tzinfo=UTC)
    return (kept - made).total_seconds() > LATE
