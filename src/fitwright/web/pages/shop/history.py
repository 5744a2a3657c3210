"""The entries about one thing of the shop, the newest first: each state, who said it, what became of it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from fitwright.records.entry import Entry
from fitwright.records.kinds import Body, CheckBack, Person, Setting, ShopSetting, Withdrawal
from fitwright.records.projection import Recorded, ShopState
from fitwright.records.registry import SHOP_KINDS
from fitwright.web.pages.shop.facts import changes, facts_of, setting_words, shown_words
from fitwright.web.pages.shop.ways import entry_address
from fitwright.web.whose import when_written, who_wrote


@dataclass(frozen=True, slots=True)
class HistoryLine:
    """One entry: what it said, who and when, whether it counts; its page takes it back."""

    seq: int
    what: str
    words: str
    who: str
    when: str
    state: str
    address: str


def history_of(shop: ShopState, kind: str, code: str) -> tuple[HistoryLine, ...]:
    """The states of a thing, the newest first, each with what it changed in the one before."""
    own = [held for held in shop.ledger.in_order() if held.entry.kind == kind and _code_of(held.body) == code]
    return tuple(reversed(list(_lines(shop, own))))


def recent(shop: ShopState, most: int) -> tuple[HistoryLine, ...]:
    """The last entries of the shop, whatever they are about, the newest first."""
    every = sorted(shop.ledger.recorded.values(), key=lambda held: -held.entry.seq)
    own = [held for held in every if held.entry.kind in SHOP_KINDS or isinstance(held.body, Withdrawal)]
    return tuple(_line(shop, held, _summary(shop, held)) for held in own[:most])


def _lines(shop: ShopState, own: Iterable[Recorded[Body]]) -> Iterator[HistoryLine]:
    before: Body | None = None
    for held in own:
        if before is None:
            words = "; ".join(f"{each.label} {each.words}" for each in facts_of(held.body, shop))
        else:
            words = changes(before, held.body, shop)
        yield _line(shop, held, words)
        if shop.ledger.effective(held.entry.id):
            before = held.body


def _line(shop: ShopState, held: Recorded[Body], words: str) -> HistoryLine:
    entry = held.entry
    reason = held.body.reason
    why = f" ({reason})" if reason else ""
    return HistoryLine(
        seq=entry.seq,
        what=entry.kind,
        words=words + why,
        who=who_wrote(shop, entry),
        when=when_written(shop, entry),
        state=state_of_entry(shop, entry),
        address=entry_address(entry.seq),
    )


def _code_of(body: Body) -> str:
    """Which thing an entry is about: for check-backs their setting, for a rule its name."""
    if isinstance(body, CheckBack):
        return body.setting
    return body.name if isinstance(body, ShopSetting) else str(getattr(body, "code", ""))


def _summary(shop: ShopState, held: Recorded[Body]) -> str:
    body = held.body
    if isinstance(body, Withdrawal):
        target = shop.ledger.recorded.get(body.entry)
        return f"takes back entry {target.entry.seq}, {target.entry.kind}" if target is not None else ""
    if isinstance(body, Person):
        return f"{body.name} ({body.code})"
    if isinstance(body, Setting):
        return f"{body.code}: {body.instrument} {setting_words(body)}"
    if isinstance(body, CheckBack):
        return f"{body.setting} {shown_words(body.drift)}"
    first = [f"{each.label} {each.words}" for each in facts_of(body, shop)[:3]]
    return ": ".join(each for each in (_code_of(body), ", ".join(first)) if each)


def state_of_entry(shop: ShopState, entry: Entry) -> str:
    """What became of an entry: it counts, or by which entry it does not."""
    withdrawn = shop.ledger.withdrawn_by(entry.id)
    if withdrawn is not None:
        reason = withdrawn.body.get("reason")
        return f"taken back by entry {withdrawn.seq}" + (f": {reason}" if reason else "")
    superseded = shop.ledger.superseded_by(entry.id)
    return f"corrected by entry {superseded.seq}" if superseded is not None else ""
