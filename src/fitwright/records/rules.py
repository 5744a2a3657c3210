"""What a new entry may refer to: the checks that need the entries before it."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Protocol

from fitwright.records.entry import Entry, NewEntry
from fitwright.records.errors import BodyError
from fitwright.records.kinds import (
    Body,
    BuildStarted,
    Choice,
    Concession,
    DeviationPermit,
    Reading,
    ReadingsMoved,
    RevisionTakenOver,
    ReworkChecked,
    ReworkOrder,
    Withdrawal,
)
from fitwright.records.projection.ledger import Ledger
from fitwright.records.registry import SHOP_KINDS, body_of


class Earlier(Protocol):
    """The entries before a new one, as far as references to them are checked."""

    def entry(self, entry_id: str) -> Entry | None:
        """An earlier entry by its id."""
        ...

    def naming(self, entry_id: str) -> Iterable[Entry]:
        """The earlier withdrawals and corrections of an entry."""
        ...

    def started(self, build: str) -> Entry | None:
        """The entry that started a build, withdrawn or not."""
        ...

    def has_sheet(self, digest: str) -> bool:
        """Whether the text of a sheet is kept."""
        ...

    def coded(self, build: str | None, kind: str, code: str) -> bool:
        """Whether a build has an entry of a kind under a code, withdrawn or not."""
        ...


def check_references(new: NewEntry, body: Body, earlier: Earlier) -> None:
    """Check what a new entry withdraws, corrects, moves, chooses, looks at again or starts, and its sheet.

    Raises
    ------
    BodyError
        If it names an entry that is not there, of another build, of another kind than it must be,
        withdraws what is withdrawn already, starts a build again, or names a sheet that is not kept.
    """
    if body.supersedes is not None:
        _check_correction(new, body, _named(new, "supersedes", body.supersedes, earlier))
    match body:
        case Withdrawal():
            _check_withdrawal(new, _named(new, "entry", body.entry, earlier), earlier)
        case ReadingsMoved():
            for index, move in enumerate(body.moves):
                field = f"moves.{index}.entry"
                _check_kind(new, field, _named(new, field, move.entry, earlier), Reading.kind)
        case BuildStarted():
            _check_start(new, body, earlier)
            _check_sheet(new, body.sheet, earlier)
        case RevisionTakenOver():
            _check_sheet(new, body.sheet, earlier)
        case Choice():
            for entry_id in (*body.entries, *body.instead_of):
                _named(new, "entries", entry_id, earlier)
        case ReworkChecked():
            _check_order(new, body, earlier)


def _named(new: NewEntry, field: str, entry_id: str, earlier: Earlier) -> Entry:
    target = earlier.entry(entry_id)
    if target is None:
        raise BodyError(new.kind, field, f"there is no entry {entry_id}", "name an entry of this record")
    if target.build != new.build and target.kind not in SHOP_KINDS:
        theirs = "no build" if target.build is None else f"build {target.build}"
        wrong = f"entry {target.seq} ({target.kind}) belongs to {theirs}"
        raise BodyError(new.kind, field, wrong, "make this entry there")
    return target


def _check_kind(new: NewEntry, field: str, target: Entry, kind: str) -> None:
    if target.kind != kind:
        wrong = f"entry {target.seq} is a {target.kind}, not a {kind}"
        raise BodyError(new.kind, field, wrong, f"name a {kind}")


def _check_order(new: NewEntry, body: ReworkChecked, earlier: Earlier) -> None:
    if not earlier.coded(new.build, ReworkOrder.kind, body.order):
        raise BodyError(
            new.kind, "order", f"there is no rework order {body.order} in {new.build}", "name one of its own"
        )


def _check_correction(new: NewEntry, body: Body, target: Entry) -> None:
    _check_kind(new, "supersedes", target, new.kind)
    if not body.corrected:
        wrong = f"a {new.kind} is not corrected: what rests on it would not know"
        raise BodyError(new.kind, "supersedes", wrong, "withdraw it, and enter it anew")
    if isinstance(body, Concession | DeviationPermit | ReworkOrder):
        _check_same(new, target)
    if isinstance(body, BuildStarted | RevisionTakenOver) and body.sheet != target.body.get("sheet"):
        wrong = f"entry {target.seq} names another sheet, and what was done rests on it"
        raise BodyError(new.kind, "sheet", wrong, "take the other sheet over as a revision")
    if not (body.reason or "").strip():
        raise BodyError(new.kind, "reason", "a correction needs its reason", "say why in a few words")


def _check_same(new: NewEntry, target: Entry) -> None:
    """A correction of a permission or an order is about the same thing, and of the same person."""
    for field in ("code", "subject", "granted_by", "part"):
        was, now = target.body.get(field), new.body.get(field)
        if was != now:
            raise BodyError(
                new.kind, field, f"entry {target.seq} says {was}, this one {now}", "enter a new one"
            )


def _check_withdrawal(new: NewEntry, target: Entry, earlier: Earlier) -> None:
    withdrawal = history_of(target, earlier.naming).withdrawn_by(target.id)
    if withdrawal is not None:
        wrong = f"entry {target.seq} ({target.kind}) was withdrawn already, by entry {withdrawal.seq}"
        raise BodyError(new.kind, "entry", wrong, "withdraw that withdrawal to bring it back")


def _check_start(new: NewEntry, body: BuildStarted, earlier: Earlier) -> None:
    """A second start would put another sheet under the readings of the first."""
    first = earlier.started(body.code)
    if first is not None and body.supersedes is None:
        wrong = f"build {body.code} was started already, by entry {first.seq}"
        raise BodyError(new.kind, "code", wrong, "give the new one another name")


def _check_sheet(new: NewEntry, digest: str, earlier: Earlier) -> None:
    """A build whose sheet is not there cannot be shown at all."""
    if not earlier.has_sheet(digest):
        wrong = f"the record holds no sheet with digest {digest[:64]}"
        raise BodyError(new.kind, "sheet", wrong, "keep the sheet first")


def history_of(target: Entry, naming: Callable[[str], Iterable[Entry]]) -> Ledger:
    """A ledger of an entry and everything that bears on whether it counts."""
    found = {target.id: target}
    open_ids = [target.id]
    while open_ids:
        for entry in naming(open_ids.pop()):
            if entry.id not in found:
                found[entry.id] = entry
                open_ids.append(entry.id)
    ledger = Ledger()
    for entry in sorted(found.values(), key=lambda entry: entry.seq):
        ledger.add(entry, body_of(entry.kind, entry.kind_version, entry.body))
    ledger.settle()
    return ledger
