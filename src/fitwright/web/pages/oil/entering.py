"""The two forms of the page: a pressure read at the first start, and the oil that the build has."""

from __future__ import annotations

import uuid
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from fitwright.assess.oil.filling import Filling, filling_of
from fitwright.bench.context import Bench
from fitwright.bench.first_start import PressureTaking, PressureTyped, asked_for, take_pressure
from fitwright.bench.first_start_view import CAUTIONS, last_zero_of, pressure_gauges
from fitwright.bench.oil_choice import DATA_SHEET, GRADE_ONLY, OilTyped, choose_oil
from fitwright.bench.plausible import Asked as AmountAsked
from fitwright.bench.work_taking import EntryTaking
from fitwright.model.slips import Question
from fitwright.records.entry import NewEntry
from fitwright.records.ids import is_entry_id
from fitwright.records.kinds import PressureReading
from fitwright.units.families import Family
from fitwright.units.spellings import definition_of
from fitwright.web.addresses import oil_address
from fitwright.web.forms import EARLIER, Answered, Asked, Option, answers_in, asked_of
from fitwright.web.hands import Hands
from fitwright.web.people import PersonOption, people_to_choose, person_in
from fitwright.web.writing import Sent, UnclearFormError

READING: Final = "reading"
OIL: Final = "oil"


@dataclass(frozen=True, slots=True)
class AmountField:
    """A field for an amount, with the unit that counts where none is typed."""

    name: str
    label: str
    unit: str
    value: str
    needed: bool


@dataclass(frozen=True, slots=True)
class ReadingForm:
    """The form for a pressure; `corrects` is the entry that it stands in for."""

    action: str
    token: str
    entry_id: str
    cautions: tuple[str, ...]
    fields: tuple[AmountField, ...]
    gauges: tuple[Option, ...]
    last_zero: str
    step: str
    corrects: str
    corrected: str
    reason: str
    question: Asked | None
    earlier: tuple[Answered, ...]
    people: tuple[PersonOption, ...]


@dataclass(frozen=True, slots=True)
class OilForm:
    """The form for the oil that the build is filled with."""

    action: str
    token: str
    entry_id: str
    now: str
    oils: tuple[Option, ...]
    grade: str
    title: str
    fields: tuple[AmountField, ...]
    source: str
    grade_only: str
    question: Asked | None
    earlier: tuple[Answered, ...]
    people: tuple[PersonOption, ...]
    open: bool


@dataclass(frozen=True, slots=True)
class FormState:
    """What a form brought, with the question about it that is open."""

    fields: Mapping[str, str]
    question: Question | None = None

    def get(self, name: str) -> str:
        """A field as typed."""
        return self.fields.get(name, "")


EMPTY: Final = FormState({})


def reading_form(
    hands: Hands, bench: Bench, code: str, family: Family, typed: FormState, person: str | None
) -> ReadingForm:
    """The form for a pressure, filled with what was typed, or with the reading that is corrected."""
    typed = typed if typed.fields else FormState(_going_on(bench))
    gauge = bench.shop.instruments.get(typed.get("instrument"))
    corrects = typed.get("supersedes")
    held = bench.build.ledger.recorded.get(corrects) if corrects else None
    before = held.body if held is not None and isinstance(held.body, PressureReading) else None
    texts = _texts(before) | dict(typed.fields) if before is not None else typed.fields
    zero = last_zero_of(bench, gauge.body.code) if gauge is not None else None
    asked = asked_for(family, gauge.body if gauge is not None else None)
    return ReadingForm(
        action=oil_address(code, family, "/readings", anchor="first-start"),
        token=hands.token.value,
        entry_id=typed.get("entry_id") or uuid.uuid4().hex,
        cautions=CAUTIONS,
        fields=tuple(_fields(asked, texts)),
        gauges=_gauges(bench, texts.get("instrument", "")),
        last_zero=zero.typed if zero is not None else "",
        step=texts.get("step", ""),
        corrects=corrects if before is not None else "",
        corrected=held.entry.id[:8] if before is not None and held is not None else "",
        reason=typed.get("reason"),
        question=asked_of(typed.question),
        earlier=_earlier(typed),
        people=people_to_choose(bench.shop, typed.get("person") or person),
    )


def _going_on(bench: Bench) -> dict[str, str]:
    """What stays from the reading entered last: its gauge."""
    last = bench.build.pressure_readings[-1].body if bench.build.pressure_readings else None
    return {"instrument": last.instrument} if last is not None and last.instrument else {}


def _texts(body: PressureReading) -> dict[str, str]:
    """A reading as it was typed."""
    amounts = {
        "speed": body.angular_speed,
        "temperature": body.oil_temperature,
        "gauge": body.gauge_reading,
        "zero": body.zero,
        "seconds": body.seconds_to_pressure,
    }
    found = {name: each.typed for name, each in amounts.items() if each is not None}
    return found | {"instrument": body.instrument or "", "step": body.step or ""}


def _fields(asked: Sequence[AmountAsked], texts: Mapping[str, str]) -> Iterator[AmountField]:
    for each in asked:
        unit = definition_of(each.unit, each.dimension).shown
        yield AmountField(each.name, each.label, unit, texts.get(each.name, ""), each.needed)


def _gauges(bench: Bench, chosen: str) -> tuple[Option, ...]:
    return tuple(
        Option(each.code, f"{each.title} ({each.code}), reads {each.unit}", each.code == chosen, each.unit)
        for each in pressure_gauges(bench)
    )


def _earlier(typed: FormState) -> tuple[Answered, ...]:
    return tuple(Answered(EARLIER + key, words) for key, words in answers_in(typed.fields).items())


def reading_entries(hands: Hands, code: str, family: Family, form: Sent) -> Sequence[NewEntry] | Question:
    """The entries that the form for a pressure makes, or what is asked first."""
    bench = hands.shop.bench(code)
    typed = PressureTyped(
        speed=form.get("speed"),
        temperature=form.get("temperature"),
        gauge=form.get("gauge"),
        zero=form.get("zero"),
        seconds=form.get("seconds"),
        instrument=form.get("instrument"),
        step=form.get("step"),
    )
    taking = PressureTaking(
        family=family,
        person=person_in(form, bench.shop),
        device=hands.device,
        entry_id=_entry_id(form),
        answers=answers_in(form.fields),
        supersedes=form.get("supersedes") or None,
        reason=form.get("reason") or None,
    )
    found = take_pressure(bench, typed, taking)
    return found if isinstance(found, Question) else found.entries


def oil_entries(hands: Hands, code: str, form: Sent) -> Sequence[NewEntry] | Question:
    """The entries that the form for an oil makes, or what is asked first."""
    bench = hands.shop.bench(code)
    chosen = OilTyped(
        oil=form.get("oil"),
        grade=form.get("grade"),
        title=form.get("title"),
        source=form.get("source"),
        **{each.name: form.get(each.name) for each in DATA_SHEET},
    )
    taking = EntryTaking(
        person=person_in(form, bench.shop),
        device=hands.device,
        entry_id=_entry_id(form),
        answers=answers_in(form.fields),
    )
    found = choose_oil(bench, chosen, taking)
    return found if isinstance(found, Question) else found.entries


def _entry_id(form: Sent) -> str:
    if not is_entry_id(form.get("entry_id")):
        raise UnclearFormError("The form has lost its number", "open the page anew and fill it in again")
    return form.get("entry_id")


def oil_form(
    hands: Hands, bench: Bench, code: str, family: Family, typed: FormState, person: str | None
) -> OilForm:
    """The form for the oil, with the oil that counts now."""
    filling = filling_of(bench.sheet, bench.build)
    now = filling.oil.id if filling.oil is not None else ""
    chosen = typed.get("oil")
    return OilForm(
        action=oil_address(code, family, "/filled", anchor="filled"),
        token=hands.token.value,
        entry_id=typed.get("entry_id") or uuid.uuid4().hex,
        now=filling_words(filling),
        oils=tuple(
            Option(each.id, f"{each.title}{', now' if each.id == now else ''}", each.id == chosen)
            for each in bench.sheet.oils.values()
        ),
        grade=typed.get("grade"),
        title=typed.get("title"),
        fields=tuple(_fields(DATA_SHEET, typed.fields)),
        source=typed.get("source"),
        grade_only=GRADE_ONLY,
        question=asked_of(typed.question),
        earlier=_earlier(typed),
        people=people_to_choose(bench.shop, typed.get("person") or person),
        open=bool(typed.fields) or filling.oil is None,
    )


def filling_words(filling: Filling) -> str:
    """Which oil counts, and who says so."""
    if filling.oil is None:
        return f"{filling.problem[:1].upper()}{filling.problem[1:]}."
    if filling.chosen is None:
        return f"{filling.oil.title}, as the sheet plans it; nobody has said which oil is in it."
    return f"{filling.oil.title}, entry {filling.chosen.entry.seq}."
