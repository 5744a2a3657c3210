"""One entry of the shop: what it says, what became of it, and the form that takes it back."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from fitwright.records.kinds import Body, Withdrawal
from fitwright.records.projection import Recorded, ShopState
from fitwright.records.registry import SHOP_KINDS
from fitwright.web.frame import Frame
from fitwright.web.pages.choices import Choice
from fitwright.web.pages.shop.entering import Asking, EntryForm, FormOf, Made, Order, shop_route
from fitwright.web.pages.shop.facts import Fact, facts_of
from fitwright.web.pages.shop.history import state_of_entry
from fitwright.web.pages.shop.pins import proof_fields
from fitwright.web.pages.shop.ways import shop_frame, shop_ways
from fitwright.web.whose import when_written, who_wrote
from fitwright.web.writing import UnclearFormError

RESTS = {
    "instrument": "Without its entry the gauge is not in the shop, and what was read with it proves nothing; "
    "an older state, if there is one, counts again.",
    "setting": "Without its entry the gauge was not set so, and what was read in it proves nothing.",
    "blade set": "Without its entry the set is not on the shelf, and what was tried with it proves nothing; "
    "an older state, if there is one, counts again.",
    "person": "Without the entry nobody of that code is here; an older state, if there is one, counts again.",
    "PIN set": "Without it the PIN before counts again; with none, the person signs with a new one.",
    "check-back": "Without it the setting counts as if nobody had looked at it again.",
    "calibration": "Without it the calibration before counts again, if there is one.",
    "shop setting": "Without it the value before counts again.",
    "gauge study": "The study no longer counts; a repeatability that was taken over from it stays.",
    "withdrawal": "What it took back counts again.",
}
"""What follows when an entry of a kind is taken back."""


@dataclass(frozen=True, slots=True)
class EntryContext:
    """The page of one entry of the shop."""

    template: ClassVar[str] = "shop/entry.html"
    frame: Frame
    ways: tuple[Choice, ...]
    what: str
    code: str
    who: str
    when: str
    state: str
    facts: tuple[Fact, ...]
    form: EntryForm | None


def _entry(asking: Asking) -> EntryContext | None:
    shop = asking.hands.shop.state
    held = _held(shop, asking.code)
    if held is None:
        return None
    entry = held.entry
    facts = facts_of(held.body, shop)
    if isinstance(held.body, Withdrawal):
        target = shop.ledger.recorded.get(held.body.entry)
        said = f"entry {target.entry.seq}, {target.entry.kind}" if target is not None else held.body.entry
        facts = (Fact("takes back", said), *(each for each in facts if each.label == "reason"))
    return EntryContext(
        frame=shop_frame(asking.hands, f"Entry {entry.seq}"),
        ways=shop_ways(""),
        what=entry.kind,
        code=str(getattr(held.body, "code", "")),
        who=who_wrote(shop, entry),
        when=when_written(shop, entry),
        state=state_of_entry(shop, entry),
        facts=facts,
        form=_form(asking, held),
    )


def _held(shop: ShopState, seq: str) -> Recorded[Body] | None:
    """The entry of the shop with this number: of a thing of the shop, or a withdrawal of one."""
    for held in shop.ledger.recorded.values():
        if str(held.entry.seq) == seq:
            return held if held.entry.kind in SHOP_KINDS or isinstance(held.body, Withdrawal) else None
    return None


def _form(asking: Asking, held: Recorded[Body]) -> EntryForm | None:
    shop, entry = asking.hands.shop.state, held.entry
    withdrawn = shop.ledger.withdrawn_by(entry.id)
    posted = asking.posted is not None
    form = FormOf(asking, "take-back")
    reason = form.text("reason", "Why", hint="in a few words", required=True)
    proof = proof_fields(form, held.body)
    if withdrawn is not None:
        fields = [form.hidden("entry", withdrawn.id), reason, *proof]
        title, button = f"Bring entry {entry.seq} back", "Bring it back"
        intro = "It counts again from then on."
    else:
        fields = [form.hidden("entry", entry.id), reason, *proof]
        title, button = f"Take entry {entry.seq} back", "Take it back"
        intro = f"It stays visible, and can be brought back. {RESTS.get(entry.kind, '')}"
    return form.made(title, fields, intro=intro, button=button, is_open=not posted)


def _take_back(order: Order) -> Made:
    shop = order.hands.shop.state
    target = shop.ledger.recorded.get(order.sent.get("entry"))
    if target is None:
        raise UnclearFormError("The form names no entry of the shop", "open the page again")
    reason = order.wanted("reason", "The reason")
    body = Withdrawal(entry=target.entry.id, reason=reason)
    build = target.entry.build if isinstance(target.body, Withdrawal) else None
    entry = order.hands.shop.entry(body, build=build, person=order.person, entry_id=order.entry_id)
    what = "is brought back" if isinstance(target.body, Withdrawal) else "is taken back"
    return Made([entry], f"Entry {order.code} {what}: {reason}.")


ROUTES = [shop_route("/shop/entries/{code}", "entry", _entry, {"take-back": _take_back})]
