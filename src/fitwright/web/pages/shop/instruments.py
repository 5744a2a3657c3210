"""Instruments of the shop: listed with their calibration and what they can prove; a new one entered."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, date, datetime
from typing import ClassVar, Final

from fitwright.assess.proving import alone
from fitwright.assess.rules import rules_of
from fitwright.assess.setting_chains import SettingChains
from fitwright.bench.shelf import instrument_from, next_code
from fitwright.data.usual_gauges import UsualInstrument, usual_instrument
from fitwright.model.instruments import INSTRUMENT_KINDS
from fitwright.records.kinds import Calibration, Instrument
from fitwright.records.projection import ShopState
from fitwright.units import Family
from fitwright.web.frame import Frame
from fitwright.web.own_units import family_of_shop
from fitwright.web.pages.choices import Choice
from fitwright.web.pages.shop.amounts import band_words, small
from fitwright.web.pages.shop.entering import (
    Asking,
    EntryForm,
    Field,
    FormOf,
    Link,
    Made,
    Order,
    Pick,
    shop_route,
)
from fitwright.web.pages.shop.ways import list_address, shop_frame, shop_ways, thing_address

OLD: Final = 366
"""A calibration of more than so many days ago is said to be so old; how long it holds the shop decides."""
ON_THE_SHELF_ELSEWHERE: Final = ("feeler blades", "plug gauge")
"""Kinds that are entered as sets of blades."""


@dataclass(frozen=True, slots=True)
class InstrumentLine:
    """An instrument in one line; `attention` is what somebody should look after."""

    code: str
    title: str
    address: str
    reads: str
    calibration: str
    attention: str
    proves: str


@dataclass(frozen=True, slots=True)
class KindPart:
    """The instruments of one kind."""

    kind: str
    instruments: tuple[InstrumentLine, ...]


@dataclass(frozen=True, slots=True)
class InstrumentsContext:
    """The page Instruments: those there are, and the way to a new one."""

    template: ClassVar[str] = "shop/instruments.html"
    frame: Frame
    ways: tuple[Choice, ...]
    kinds: tuple[KindPart, ...]
    rule: str
    choose_kind: tuple[Pick, ...]
    choose_units: tuple[Pick, ...]
    form: EntryForm | None


def _instruments(asking: Asking) -> InstrumentsContext:
    shop = asking.hands.shop.state
    kind, family = _asked_for(asking)
    return InstrumentsContext(
        frame=shop_frame(asking.hands, "Instruments"),
        ways=shop_ways("Instruments"),
        kinds=tuple(_kinds(shop)),
        rule=f"{rules_of(shop).normal.within:g}",
        choose_kind=tuple(Pick(each, each, each == kind) for each in _enterable()),
        choose_units=tuple(
            Pick(each, label, each == family) for each, label in (("mm", "metric"), ("inch", "inch"))
        ),
        form=_new_form(asking, kind, family) if kind else None,
    )


def _enterable() -> Iterator[str]:
    return (each for each in INSTRUMENT_KINDS if each not in ON_THE_SHELF_ELSEWHERE)


def _asked_for(asking: Asking) -> tuple[str, Family]:
    """The kind and the units of a new instrument: of the address, or of the form that was sent."""
    posted = asking.posted  # once one is kept, the form for the next of its kind says so
    sent = posted.sent if posted is not None and posted.form == "instrument" else None
    kind = sent.get("type") if sent is not None else asking.query.get("kind", "")
    wanted = asking.query.get("units") or family_of_shop(asking.hands)
    return (kind if kind in INSTRUMENT_KINDS else ""), ("inch" if wanted == "inch" else "mm")


def _kinds(shop: ShopState) -> Iterator[KindPart]:
    chains, today = SettingChains(shop), datetime.now(UTC).date()
    for kind in INSTRUMENT_KINDS:
        own = [held.body for held in shop.instruments.values() if held.body.type == kind]
        if own:
            yield KindPart(kind, tuple(_line(chains, each, today) for each in own))


def _line(chains: SettingChains, instrument: Instrument, today: date) -> InstrumentLine:
    calibration = chains.calibration(instrument)
    band = alone(chains, instrument).narrowest_band(rules_of(chains.shop).normal)
    return InstrumentLine(
        code=instrument.code,
        title=instrument.title,
        address=thing_address("instruments", instrument.code),
        reads=reads_words(instrument),
        calibration=calibration_words(instrument, calibration),
        attention=attention_of(instrument, calibration, today),
        proves=f"proves a band of {band_words(band, instrument.unit)} and wider",
    )


def reads_words(instrument: Instrument) -> str:
    """What an instrument reads to, and from where to where."""
    ends = (instrument.range_low, instrument.range_high)
    low, high = ("" if end is None else small(end, instrument.unit).partition(" (")[0] for end in ends)
    reach = f", {low} to {high}" if low and high else ""
    return f"to {small(instrument.resolution, instrument.unit)}{reach}"


def calibration_words(instrument: Instrument, calibration: Calibration | None) -> str:
    """When and by what an instrument was calibrated; where it was not, which figure stands instead."""
    unit = instrument.unit
    if calibration is None:
        if not instrument.calibration_uncertainty:
            return "no calibration recorded, and none counted"
        kind = "a typical" if instrument.typical else "a stated"
        return f"no calibration recorded: {kind} {small(instrument.calibration_uncertainty, unit)} counts"
    if calibration.never:
        return f"never calibrated: a typical {small(calibration.standard_uncertainty, unit)} counts"
    facts = [calibration.date or "", calibration.certificate or ""]
    said = ", ".join(each for each in facts if each) or "no date and no certificate"
    return f"{said}, to {small(calibration.standard_uncertainty, unit)}"


def attention_of(instrument: Instrument, calibration: Calibration | None, today: date) -> str:
    """What somebody should look after: old, undated or no calibration at all."""
    if calibration is None:
        none = not instrument.comparison and not instrument.calibration_uncertainty
        return "no calibration counts" if none else ""
    if calibration.never:
        return "never calibrated"
    if not calibration.date:
        return "calibrated, nobody said when"
    try:
        days = (today - date.fromisoformat(calibration.date[:10])).days
    except ValueError:
        return ""
    if days > OLD:
        years = days / 365.25
        return f"calibrated {years:.1f} years ago"
    return ""


def _new_form(asking: Asking, kind: str, family: Family) -> EntryForm:
    usual = usual_instrument(kind, family)
    codes = asking.hands.shop.state.instruments
    letter = usual.letter if usual is not None else "X"
    form = FormOf(asking, "instrument")
    reach = "2 to 3 in" if family == "inch" else "50 to 75 mm"
    typed = asking.typed("instrument")
    unit = typed.get("unit") if typed is not None else (usual.unit if usual is not None else "mm")
    return form.made(
        f"Enter a new {kind}",
        [
            form.hidden("type", kind),
            form.text("code", "Code on the shelf", next_code(letter, codes), required=True),
            form.text("title", "What it is", "", hint=f"as {kind} {reach}", required=True),
            *instrument_fields(form, usual, unit),
        ],
        intro="The figures offered are typical ones of shop practice. "
        "Put in what your gauge's certificate or a study of it says, and untick the box."
        if usual is not None
        else "",
        more_title="Range, zero, note",
        more=more_fields(form, usual, unit),
        button="Enter it",
        is_open=True,
    )


def instrument_fields(form: FormOf, usual: UsualInstrument | None, unit: str) -> list[Field]:
    """The fields of what an instrument reads and adds, filled with what is usual."""

    def of(name: str) -> str:
        return getattr(usual, name) if usual is not None else ""

    compared = bool(usual and usual.comparison)
    return [
        form.text("unit", "Reads in", unit, hint="mm, in, thou, bar, N m, ...", required=True),
        form.amount("resolution", "One division", of("resolution"), unit=unit, required=True),
        form.amount(
            "repeatability",
            "Repeatability",
            of("repeatability"),
            unit=unit,
            hint="spread of one reading (one standard deviation); empty: its division",
        ),
        form.amount(
            "uncertainty",
            "Uncertainty without a calibration",
            of("uncertainty"),
            unit=unit,
            hint="standard uncertainty; counts where no calibration is recorded",
        ),
        form.tick("comparison", "It is set against a master before it reads", ticked=compared),
        form.amount(
            "transfer",
            "Each setting adds",
            of("transfer"),
            unit=unit,
            hint="for a gauge that is set against a master",
        ),
        form.tick("typical", "These are typical figures, not this gauge's own", ticked=usual is not None),
    ]


def more_fields(form: FormOf, usual: UsualInstrument | None, unit: str) -> list[Field]:
    """The fields that few ask for."""
    return [
        form.amount("range_low", "Smallest reading", "", unit=unit),
        form.amount("range_high", "Largest reading", "", unit=unit),
        form.amount(
            "zero_limit",
            "Its zero may be off by",
            usual.zero_limit if usual is not None else "",
            unit=unit,
            hint="beyond it, a setting's zero is asked for its sign",
        ),
        form.text("note", "Note", usual.note if usual is not None else ""),
    ]


def instrument_of(order: Order, code: str, kind: str) -> Instrument:
    """The instrument that a form describes."""
    return instrument_from(
        code,
        order.sent.get("title"),
        type_=kind,
        unit=order.wanted("unit", "The unit that it reads in"),
        resolution=order.wanted("resolution", "The division"),
        repeatability=order.optional("repeatability"),
        uncertainty=order.optional("uncertainty"),
        transfer=order.optional("transfer"),
        comparison=bool(order.sent.get("comparison")),
        range_low=order.optional("range_low"),
        range_high=order.optional("range_high"),
        zero_limit=order.optional("zero_limit"),
        typical=bool(order.sent.get("typical")),
        note=order.optional("note"),
    )


def _enter(order: Order) -> Made:
    code = order.free_code(order.hands.shop.state.instruments, "An instrument")
    body = instrument_of(order, code, order.sent.get("type"))
    entry = order.hands.shop.entry(body, person=order.person, entry_id=order.entry_id)
    words = f"{body.code}, {body.title}, reads {reads_words(body)}."
    links = (
        Link(f"Open {body.code}, calibrate it", thing_address("instruments", body.code)),
        Link("Enter another", list_address("instruments")),
    )
    return Made([entry], words, lambda: links)


ROUTES = [shop_route("/shop/instruments", "instruments", _instruments, {"instrument": _enter})]
