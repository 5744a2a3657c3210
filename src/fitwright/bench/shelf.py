"""Things of the shop as a person enters them: people, instruments with their calibrations, decision rules.

Each function makes the body of an entry from plain texts; a number without a unit is in the unit that the
thing itself reads in. Settings are in `settings`, blades in `blade_sets`, gauge studies in `studies`.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from fitwright.bench.amounts import amount, optional
from fitwright.bench.context import near
from fitwright.bench.errors import CannotEnterError, UnknownNameError
from fitwright.bench.settings import instrument_named
from fitwright.data.usual_gauges import usual_instrument
from fitwright.model.instruments import INSTRUMENT_KINDS
from fitwright.records.kinds import Calibration, Instrument, Person, ShopSetting
from fitwright.records.projection import ShopState
from fitwright.units import definition_of


def person_from(
    name: str,
    *,
    code: str = "",
    role: str | None = None,
    drag: str = "0.003 mm",
    drag_uncertainty: str = "0.002 mm",
) -> Person:
    """Somebody who measures, types, decides or signs; without a code, one made of the name."""
    if not name.strip():
        raise CannotEnterError("Nobody is named", "type a name, such as Builder")
    return Person(
        code=code or plain_code(name),
        name=name,
        role=role or None,
        drag=amount(drag, "mm"),
        drag_uncertainty=amount(drag_uncertainty, "mm"),
    )


def plain_code(name: str) -> str:
    """A short code made of a name: `Second builder` gives `second-builder`."""
    return re.sub(r"[^\w]+", "-", name.casefold()).strip("-")[:40] or "somebody"


def next_code(letter: str, taken: Iterable[str], digits: int = 0) -> str:
    """The code after the highest one that begins so and goes on with a number: M5 after M4, S-014."""
    numbers = [int(found[1]) for code in taken if (found := re.fullmatch(rf"{re.escape(letter)}(\d+)", code))]
    return f"{letter}{max(numbers, default=0) + 1:0{digits}d}"


def instrument_from(
    code: str,
    title: str,
    *,
    type_: str,
    resolution: str,
    unit: str = "mm",
    repeatability: str | None = None,
    uncertainty: str | None = None,
    transfer: str | None = None,
    comparison: bool = False,
    range_low: str | None = None,
    range_high: str | None = None,
    zero_limit: str | None = None,
    typical: bool = False,
    note: str | None = None,
) -> Instrument:
    """An instrument, or its newer state. Without a repeatability, its division stands for it.

    Raises
    ------
    BenchError
        If it is of no kind that the sheets know, has no title, or its range is upside down.
    QuantityError
        If an amount cannot be read.
    """
    if type_ not in INSTRUMENT_KINDS:
        known = near(type_, INSTRUMENT_KINDS) or INSTRUMENT_KINDS
        raise UnknownNameError("kind of instrument", type_, known)
    if not title.strip():
        raise CannotEnterError("The instrument has no title", "say what it is: Micrometer 50 to 75 mm")
    division = amount(resolution, unit)
    low, high = optional(range_low, unit), optional(range_high, unit)
    if low is not None and high is not None and low > high:
        raise CannotEnterError(f"Its range goes from {range_low} to {range_high}", "exchange the two")
    return Instrument(
        code=code,
        title=title,
        type=type_,
        unit=unit,
        resolution=division,
        repeatability=division if repeatability is None else amount(repeatability, unit),
        calibration_uncertainty=optional(uncertainty, unit) or 0.0,
        transfer_uncertainty=optional(transfer, unit) or 0.0,
        comparison=comparison,
        range_low=low,
        range_high=high,
        zero_limit=optional(zero_limit, unit),
        typical=typical,
        note=note,
    )


def calibration_from(
    shop: ShopState,
    instrument: str,
    *,
    uncertainty: str | None = None,
    correction: str | None = None,
    degrees_of_freedom: float | None = None,
    date: str | None = None,
    certificate: str | None = None,
    never: bool = False,
    code: str | None = None,
) -> Calibration:
    """A calibration of an instrument, or that it never had one: then its typical uncertainty stands."""
    gauge = instrument_named(shop, instrument)
    if uncertainty is None and not never:
        raise CannotEnterError("Its uncertainty is missing", "say it, or that it was never calibrated")
    taken = [held.body.code for held in shop.all_calibrations.get(instrument, [])]
    stated = optional(uncertainty, gauge.unit)
    return Calibration(
        code=code or next_code(f"C-{instrument}-", taken),
        instrument=instrument,
        standard_uncertainty=typical_uncertainty(gauge) if stated is None else stated,
        degrees_of_freedom=degrees_of_freedom,
        correction=optional(correction, gauge.unit) or 0.0,
        date=date,
        certificate=certificate,
        never=never,
    )


def typical_uncertainty(gauge: Instrument) -> float:
    """What counts for a gauge never calibrated: its own figure, else what is usual for its kind [SI]."""
    usual = usual_instrument(gauge.type)
    if gauge.calibration_uncertainty or usual is None:
        return gauge.calibration_uncertainty
    if definition_of(usual.unit).dimension != definition_of(gauge.unit).dimension:
        return 0.0
    return amount(usual.uncertainty, usual.unit)


def rule_from(limit_class: str, probability: str) -> ShopSetting:
    """The decision rule of a class of limits: how probable `within` must be before it counts as proven."""
    try:
        inside = 0.5 < float(probability) < 1.0
    except ValueError:
        inside = False
    if not inside:
        wrong = f'"{probability}" is no probability for a rule'
        raise CannotEnterError(wrong, "say one between 0.5 and 1, such as 0.95")
    return ShopSetting.model_validate({"name": f"decision rule {limit_class}", "value": probability})


def shop_setting_from(name: str, value: str) -> ShopSetting:
    """The shop's name, its units or its time zone."""
    if not value.strip():
        raise CannotEnterError(f"No {name} was typed", "type it, or leave the old one")
    if name == "time zone":
        try:
            ZoneInfo(value)
        except (ZoneInfoNotFoundError, ValueError):
            wrong = f'"{value[:60]}" is no time zone'
            raise CannotEnterError(wrong, "name one as Europe/London or UTC") from None
    return ShopSetting.model_validate({"name": name, "value": value})
