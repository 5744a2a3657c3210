"""A gauge set: entered with what it shows at zero, and asked for its sign where that is too much."""

from __future__ import annotations

import uuid
from collections.abc import Mapping

from fitwright.bench.amounts import optional
from fitwright.bench.asking import KEEP, Answered, answer_entry, guess_named
from fitwright.bench.errors import UnknownNameError
from fitwright.bench.taking import typed
from fitwright.model.slips import Question, zero_question
from fitwright.records.entry import NewEntry
from fitwright.records.kinds import CheckBack, Instrument, Setting
from fitwright.records.projection import ShopState
from fitwright.units import Quantity, definition_of, parse_quantity
from fitwright.units.wording import SlipWording


def instrument_named(shop: ShopState, code: str) -> Instrument:
    """An instrument of the shop by its code."""
    held = shop.instruments.get(code)
    if held is None:
        raise UnknownNameError("instrument", code, list(shop.instruments))
    return held.body


def amount_of(instrument: Instrument, text: str) -> Quantity:
    """An amount as this instrument reads it, in its own unit where none is named."""
    dimension = definition_of(instrument.unit).dimension
    return parse_quantity(text, default_unit=instrument.unit, dimension=dimension)


def setting_from(
    shop: ShopState,
    code: str,
    instrument: str,
    *,
    size: str | None = None,
    against: str | None = None,
    uncertainty: str | None = None,
    master: str | None = None,
    master_setting: str | None = None,
    sitting: str | None = None,
) -> Setting:
    """A setting from what a person types; its zero is taken by `take_setting`.

    Raises
    ------
    BenchError
        If the gauge is not in the shop.
    QuantityError
        If an amount cannot be read.
    """
    gauge = instrument_named(shop, instrument)
    return Setting(
        code=code,
        instrument=instrument,
        standard_uncertainty=optional(uncertainty, gauge.unit) or 0.0,
        master=master,
        master_setting=master_setting,
        against=against,
        size=typed(amount_of(gauge, size)) if size is not None else None,
        sitting=sitting,
    )


def last_setting_of(shop: ShopState, instrument: str) -> str | None:
    """The code of the setting that a gauge was given last."""
    own = [held for held in shop.settings.values() if held.body.instrument == instrument]
    return max(own, key=lambda held: held.entry.seq).body.code if own else None


def check_back_from(
    shop: ShopState, setting: str, drift: str, *, sitting: str | None = None
) -> tuple[CheckBack, Quantity]:
    """A setting looked at again, and what the gauge then showed too much, as it was typed."""
    held = shop.settings.get(setting)
    if held is None:
        raise UnknownNameError("setting", setting, list(shop.settings)[-8:])
    shown = amount_of(instrument_named(shop, held.body.instrument), drift)
    return CheckBack(setting=setting, drift=typed(shown), sitting=sitting), shown


def take_setting(
    shop: ShopState,
    setting: Setting,
    *,
    zero: str | None = None,
    person: str | None = None,
    entry_id: str | None = None,
    answers: Mapping[str, str] | None = None,
) -> tuple[NewEntry, ...] | Question:
    """A setting with its zero as typed: the entries to append, or the question to ask first.

    `answers` holds the answer by the question's key: the label of a guess (which sign it is), or
    any other words to keep the zero as typed.
    """
    entry_id = entry_id or uuid.uuid4().hex
    instrument = instrument_named(shop, setting.instrument)
    if setting.master is not None:
        instrument_named(shop, setting.master)
    if setting.master_setting is not None and setting.master_setting not in shop.settings:
        raise UnknownNameError("setting", setting.master_setting, list(shop.settings)[-8:])
    if zero is None:
        return (_entry(setting, entry_id, person),)
    quantity = amount_of(instrument, zero)
    question = _question(instrument, quantity)
    if question is None:
        return (_entry(setting.model_copy(update={"zero": typed(quantity)}), entry_id, person),)
    answer = (answers or {}).get(question.key)
    if answer is None:
        return question
    asked = Answered(question, quantity.typed, answer)
    guess = guess_named(question, answer)
    if guess is not None:
        quantity = amount_of(instrument, guess.label)
    elif answer != KEEP:
        raise UnknownNameError("such answer", answer, [*(guess.label for guess in question.guesses), KEEP])
    kept = _entry(setting.model_copy(update={"zero": typed(quantity)}), entry_id, person)
    return kept, answer_entry(asked, build=None, entry_id=entry_id, person=person)


def _question(instrument: Instrument, quantity: Quantity) -> Question | None:
    if instrument.zero_limit is None:
        return None
    return zero_question(quantity.si, limit=instrument.zero_limit, wording=SlipWording(quantity))


def _entry(setting: Setting, entry_id: str, person: str | None) -> NewEntry:
    body = setting.model_dump(mode="json")
    return NewEntry(id=entry_id, build=None, kind=Setting.kind, body=body, person=person)
