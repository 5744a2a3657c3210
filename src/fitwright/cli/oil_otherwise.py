"""What is otherwise than measured, in words."""

from __future__ import annotations

from collections.abc import Iterator

from fitwright.assess.oil.amounts import amounts_of
from fitwright.assess.oil.desk import OilDesk
from fitwright.assess.oil.what_if import WhatIf
from fitwright.cli.report import in_rows
from fitwright.units.display import MINUS
from fitwright.units.families import Family, shop_unit
from fitwright.units.rounding import difference_in_unit
from fitwright.units.spellings import definition_of


def what_if_words(desk: OilDesk, what_if: WhatIf, family: Family) -> Iterator[str]:
    """What a what-if changes, one thing after the other."""
    if what_if.oil:
        yield desk.case.sheet.oils[what_if.oil].title
    for group, change in what_if.clearance_changes.items():
        yield f"{group} {_signed(amount_words(change, 'length', family))}"
    yield from in_rows(_sizes(desk, what_if, family))
    if what_if.shim:
        yield f"relief spring shimmed by {amount_words(what_if.shim, 'length', family)}"
    if what_if.seat_leak_lift:
        yield f"relief seat held open by {amount_words(what_if.seat_leak_lift, 'length', family)}"
    if what_if.pump_speed_factor != 1.0:
        yield f"pump {what_if.pump_speed_factor:g} times as fast"
    if what_if.fuel_share:
        yield f"{100.0 * what_if.fuel_share:g} % of fuel in the oil, by mass"
    if what_if.misalignment:
        yield f"journals tilted by {amount_words(what_if.misalignment, 'length', family)} from end to end"
    if what_if.temperature_change:
        warmer = amount_words(what_if.temperature_change, "temperature_difference", family)
        yield f"all oil temperatures {_signed(warmer)}"


def _sizes(desk: OilDesk, what_if: WhatIf, family: Family) -> Iterator[str]:
    amounts = amounts_of(desk.case.posed) if desk.case.posed is not None else {}
    for name, value in what_if.sizes.items():
        each = amounts[name]
        yield f"{each.part}: {each.size} {amount_words(value, each.dimension, family)}"


def amount_words(value: float, dimension: str, family: Family) -> str:
    """An amount, without zeros behind it.

    >>> amount_words(2e-5, "length", "mm"), amount_words(-2.54e-5, "length", "inch")
    ('0.02 mm', '−1 thou')
    """
    unit = shop_unit(dimension, family, value)
    number = f"{float(difference_in_unit(value, unit, dimension)):.4g}".replace("-", MINUS)
    shown = definition_of(unit, dimension).shown
    return number if dimension == "ratio" else f"{number} {shown}"


def _signed(text: str) -> str:
    return text if text.startswith(MINUS) else f"+{text}"
