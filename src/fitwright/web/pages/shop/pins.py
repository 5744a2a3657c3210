"""PINs of people: set, changed, forgotten with somebody who vouches; nothing of them is ever shown."""

from __future__ import annotations

from collections.abc import Iterator

from fitwright.bench.pins import has_pin, needs_pin
from fitwright.records.entry import same_again
from fitwright.records.kinds import Body, Person, PinSet, Withdrawal
from fitwright.records.projection import ShopState
from fitwright.web.pages.shop.entering import Asking, EntryForm, Field, FormOf, Made, Order
from fitwright.web.whose import when_written
from fitwright.web.writing import UnclearFormError

WHY = (
    "Releasing a hold point, granting a concession, permitting a deviation and signing a dossier ask for it, "
    "so that nobody signs in another's name. A reading needs none."
)
LONE = "As long as nobody else is in the shop and no PIN was set, none is asked for."
FORGOTTEN = "Somebody else of the shop, who has a PIN, was there and vouches; the record names who."


def pin_words(shop: ShopState, code: str) -> str:
    """Whether somebody has a PIN, since when, and who vouched for it."""
    held = shop.pins.get(code)
    if held is None:
        return "none yet" if needs_pin(shop, code) else f"none; {LONE[0].lower()}{LONE[1:]}"
    vouched = shop.people.get(held.body.vouched_by or "")
    by = f", vouched for by {vouched.body.name}" if vouched is not None else ""
    return f"set {when_written(shop, held.entry)}, entry {held.entry.seq}{by}"


def pin_forms(asking: Asking, code: str) -> tuple[EntryForm, ...]:
    """The forms about the PIN of a person, as far as they make sense."""
    return tuple(_forms(asking, code))


def _forms(asking: Asking, code: str) -> Iterator[EntryForm]:
    shop = asking.hands.shop.state
    form = FormOf(asking, "pin")
    if not has_pin(shop, code):
        yield form.made("Set a PIN", _new(form), intro=WHY, button="Set it", person=False)
        return
    fields = [form.hidden("signer", code), form.pin("pin", "The PIN until now"), *_new(form)]
    yield form.made("Change the PIN", fields, intro=WHY, button="Change it", person=False)
    others = [(each, shop.people[each].body.name) for each in shop.pins if each != code]
    form = FormOf(asking, "forgotten")
    if others:
        vouching = [form.pick("signer", "Who vouches", others), form.pin("pin", "The PIN of whoever vouches")]
        fields = [*vouching, *_new(form)]
        yield form.made("The PIN is forgotten", fields, intro=FORGOTTEN, button="Set a new one", person=False)


def _new(form: FormOf) -> list[Field]:
    return [
        form.pin("pin_new", "New PIN", hint="4 to 12 digits"),
        form.pin("pin_again", "The same again"),
    ]


def set_pin(order: Order) -> Made:
    """A first PIN, or another one with the one until now."""
    return _made(order, None)


def set_forgotten(order: Order) -> Made:
    """A new PIN with somebody who vouches."""
    voucher = order.wanted("signer", "Who vouches")
    if voucher not in order.hands.shop.state.people or voucher == order.code:
        raise UnclearFormError("Somebody else has to vouch", "choose who was there")
    return _made(order, voucher)


def _made(order: Order, vouched_by: str | None) -> Made:
    shop = order.hands.shop.state
    if order.code not in shop.people:
        raise UnclearFormError("Nobody of that code is in the shop", "open the page People")
    words = f"The PIN of {shop.people[order.code].body.name} is set. Nobody can read it here."
    if order.is_sent_again:
        return Made([same_again(shop.ledger.recorded[order.entry_id or ""].entry)], words)
    entry = order.hands.shop.pin_entry(
        order.code,
        order.wanted("pin_new", "The new PIN"),
        again=order.sent.get("pin_again"),
        vouched_by=vouched_by,
        entry_id=order.entry_id,
    )
    return Made([entry], words)


def proof_fields(form: FormOf, body: Body | None) -> list[Field]:
    """Whose PIN proves that a person may be renamed, or an entry about one taken back; none where none is."""
    shop = form.asking.hands.shop.state
    if not shop.pins or not _is_about_people(shop, body):
        return []
    who = [(each, shop.people[each].body.name) for each in shop.pins if each in shop.people]
    own = getattr(body, "person", None) or getattr(body, "code", "")
    return [
        form.pick("signer", "Whose PIN", who, own if own in shop.pins else ""),
        form.pin("pin", "PIN", hint="where it would make somebody out of another, or take a PIN back"),
    ]


def _is_about_people(shop: ShopState, body: Body | None) -> bool:
    if isinstance(body, Withdrawal):
        target = shop.ledger.recorded.get(body.entry)
        return target is not None and _is_about_people(shop, target.body)
    return isinstance(body, Person | PinSet)
