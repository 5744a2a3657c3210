"""One instrument: what is said of it, its calibrations and settings, and what it can prove."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import ClassVar, Final

from fitwright.assess.proving import Partner, alone, partners
from fitwright.assess.resting import resting_on, with_instrument
from fitwright.assess.rules import rules_of
from fitwright.assess.setting_chains import SettingChains
from fitwright.bench.shelf import calibration_from, typical_uncertainty
from fitwright.records.kinds import Calibration, Instrument
from fitwright.units import definition_of
from fitwright.web.frame import Frame
from fitwright.web.pages.choices import Choice
from fitwright.web.pages.shop.amounts import as_typed, band_words, small
from fitwright.web.pages.shop.entering import Asking, EntryForm, FormOf, Link, Made, Order, shop_route
from fitwright.web.pages.shop.facts import Fact, facts_of
from fitwright.web.pages.shop.history import HistoryLine, history_of
from fitwright.web.pages.shop.instruments import (
    attention_of,
    calibration_words,
    instrument_of,
)
from fitwright.web.pages.shop.provable import FitProof, proofs_of, proven_words
from fitwright.web.pages.shop.ways import list_address, shop_frame, shop_ways, thing_address

MOST_SETTINGS: Final = 5


@dataclass(frozen=True, slots=True)
class InstrumentContext:
    """The page of one instrument."""

    template: ClassVar[str] = "shop/instrument.html"
    frame: Frame
    ways: tuple[Choice, ...]
    title: str
    kind: str
    facts: tuple[Fact, ...]
    calibration: str
    attention: str
    powers: tuple[str, ...]
    rule: str
    proofs: tuple[FitProof, ...]
    judged: str
    settings: tuple[Link, ...]
    set_again: str
    study: str
    rests: str
    forms: tuple[EntryForm, ...]
    history: tuple[HistoryLine, ...]


def _instrument(asking: Asking) -> InstrumentContext | None:
    shop = asking.hands.shop.state
    held = shop.instruments.get(asking.code)
    if held is None:
        return None
    body = held.body
    chains = SettingChains(shop)
    calibration = chains.calibration(body)
    proofs = proofs_of(asking.hands, body)
    return InstrumentContext(
        frame=shop_frame(asking.hands, body.code),
        ways=shop_ways("Instruments"),
        title=body.title,
        kind=body.type,
        facts=tuple(each for each in facts_of(body, shop) if each.label not in ("title", "kind")),
        calibration=calibration_words(body, calibration),
        attention=attention_of(body, calibration, datetime.now(UTC).date()),
        powers=tuple(_powers(chains, body)),
        rule=f"{rules_of(shop).normal.within:g}",
        proofs=proofs,
        judged=_judged(proofs, is_any=bool(asking.hands.shop.builds())),
        settings=tuple(_settings(chains, body)),
        set_again=list_address("settings", gauge=body.code),
        study=list_address("studies", gauge=body.code) if _reads_lengths(body) else "",
        rests=_rests(asking, body),
        forms=(_calibrate_form(asking, body), _change_form(asking, body)),
        history=_history(asking, body),
    )


def _reads_lengths(body: Instrument) -> bool:
    return definition_of(body.unit).dimension == "length"


def _powers(chains: SettingChains, body: Instrument) -> Iterator[str]:
    """What it proves in general, in words."""
    rules = rules_of(chains.shop)
    found = alone(chains, body)
    band = found.narrowest_band(rules.normal)
    yield f"Alone, read once, it proves a band of {band_words(band, body.unit)} and wider"
    if rules.critical != rules.normal:
        band = found.narrowest_band(rules.critical)
        yield f"For critical limits a band of {band_words(band, body.unit)} and wider"
    if body.comparison and chains.last_setting(body) is None:
        yield "It was never set, so nothing is known of a master yet: set it first"
    yield from (_pair_words(body, each, chains) for each in partners(chains, body))


def _pair_words(body: Instrument, pair: Partner, chains: SettingChains) -> str:
    rule = rules_of(chains.shop).normal
    shared, apart = (band_words(each.narrowest_band(rule), body.unit) for each in (pair.shared, pair.apart))
    return (
        f"A clearance between {pair.gauge} and {pair.master}, in which it was set: a band of {shared} "
        f"and wider, because they share the error of {pair.master}; "
        f"with another gauge like {pair.master}, {apart}"
    )


def _judged(proofs: tuple[FitProof, ...], *, is_any: bool) -> str:
    if not is_any:
        return "No build is started yet, so there are no fits to hold it against."
    if not proofs:
        return "No fit with limits in any build is read with a gauge of this kind and reach."
    return proven_words(proofs, "that it takes part in")


def _settings(chains: SettingChains, body: Instrument) -> Iterator[Link]:
    own = [held for held in chains.shop.settings.values() if held.body.instrument == body.code]
    for held in sorted(own, key=lambda each: -each.entry.seq)[:MOST_SETTINGS]:
        size = f" at {held.body.size.typed}" if held.body.size is not None else ""
        against = held.body.against or (f"in {held.body.master}" if held.body.master else "on its standard")
        yield Link(f"{held.body.code}: {against}{size}", thing_address("settings", held.body.code))


def _rests(asking: Asking, body: Instrument) -> str:
    shop = asking.hands.shop
    parts = []
    for code, started in shop.builds().items():
        found = resting_on(
            shop.assessor(code).judge, shop.assessment(code).verdicts, with_instrument(body.code)
        )
        if found.readings:
            parts.append(f"{found.readings} readings and {len(found.fits)} fits of {started.title}")
    return " and ".join(parts)


def _history(asking: Asking, body: Instrument) -> tuple[HistoryLine, ...]:
    shop = asking.hands.shop.state
    codes = {
        held.body.code
        for held in shop.ledger.recorded.values()
        if isinstance(held.body, Calibration) and held.body.instrument == body.code
    }
    found = [*history_of(shop, Instrument.kind, body.code)]
    found += [line for code in codes for line in history_of(shop, Calibration.kind, code)]
    return tuple(sorted(found, key=lambda line: -line.seq))


def _calibrate_form(asking: Asking, body: Instrument) -> EntryForm:
    form = FormOf(asking, "calibration")
    typical = small(typical_uncertainty(body), body.unit)
    return form.made(
        "Calibrate it",
        [
            form.date("date", "Day of the calibration"),
            form.text("certificate", "Certificate"),
            form.amount(
                "uncertainty",
                "Standard uncertainty",
                unit=body.unit,
                hint="half of an expanded uncertainty U with k = 2",
            ),
            form.tick(
                "never",
                "It was never calibrated",
                hint=f"then a typical uncertainty of {typical} counts, or the one typed, and is labelled so",
            ),
        ],
        more_title="Correction, degrees of freedom",
        more=[
            form.amount(
                "correction", "Added to each reading", unit=body.unit, hint="with its sign; else nothing"
            ),
            form.text("degrees_of_freedom", "Degrees of freedom", hint="where the certificate says them"),
        ],
        button="Enter the calibration",
    )


def _change_form(asking: Asking, body: Instrument) -> EntryForm:
    form = FormOf(asking, "change")
    unit, amounts = body.unit, {}
    for name in ("resolution", "repeatability", "calibration_uncertainty", "transfer_uncertainty"):
        amounts[name] = as_typed(getattr(body, name), unit)
    for name in ("range_low", "range_high", "zero_limit"):
        amounts[name] = as_typed(getattr(body, name), unit)
    return form.made(
        "Change what is said of it",
        [
            form.text("title", "What it is", body.title, required=True),
            form.hidden("unit", unit),
            form.amount("resolution", "One division", amounts["resolution"], unit=unit, required=True),
            form.amount("repeatability", "Repeatability", amounts["repeatability"], unit=unit),
            form.amount(
                "uncertainty",
                "Uncertainty without a calibration",
                amounts["calibration_uncertainty"],
                unit=unit,
            ),
            form.tick("comparison", "It is set against a master before it reads", ticked=body.comparison),
            form.amount("transfer", "Each setting adds", amounts["transfer_uncertainty"], unit=unit),
            form.tick("typical", "These are typical figures, not this gauge's own", ticked=body.typical),
            form.text("reason", "Why", hint="in a few words: reground, certificate found, mistyped"),
        ],
        intro="Every reading ever taken with it counts with the new figures from then on; "
        "the old ones stay in its history.",
        more_title="Range, zero, note",
        more=[
            form.amount("range_low", "Smallest reading", amounts["range_low"], unit=unit),
            form.amount("range_high", "Largest reading", amounts["range_high"], unit=unit),
            form.amount("zero_limit", "Its zero may be off by", amounts["zero_limit"], unit=unit),
            form.text("note", "Note", body.note or ""),
        ],
        button="Change it",
    )


def _calibrate(order: Order) -> Made:
    shop = order.hands.shop.state
    freedom = order.optional("degrees_of_freedom")
    body = calibration_from(
        shop,
        order.code,
        uncertainty=order.optional("uncertainty"),
        correction=order.optional("correction"),
        degrees_of_freedom=float(freedom) if freedom is not None else None,
        date=order.optional("date"),
        certificate=order.optional("certificate"),
        never=bool(order.sent.get("never")),
    )
    body = body.model_copy(update={"code": order.code_given(lambda: body.code)})
    entry = order.hands.shop.entry(body, person=order.person, entry_id=order.entry_id)
    unit = shop.instruments[order.code].body.unit
    how = "never calibrated, a typical" if body.never else "calibrated to"
    return Made([entry], f"{order.code} is {how} {small(body.standard_uncertainty, unit)}.")


def _change(order: Order) -> Made:
    held = order.hands.shop.state.instruments.get(order.code)
    kind = held.body.type if held is not None else ""
    body = instrument_of(order, order.code, kind)
    if held is not None and body.repeatability == held.body.repeatability:
        kept = {"repeatability_degrees_of_freedom": held.body.repeatability_degrees_of_freedom}
        body = body.model_copy(update=kept)
    body = body.model_copy(update={"reason": order.optional("reason")})
    entry = order.hands.shop.entry(body, person=order.person, entry_id=order.entry_id)
    return Made([entry], f"{body.code} now reads to {small(body.resolution, body.unit)}.")


ROUTES = [
    shop_route(
        "/shop/instruments/{code:path}",
        "instrument",
        _instrument,
        {"calibration": _calibrate, "change": _change},
    )
]
