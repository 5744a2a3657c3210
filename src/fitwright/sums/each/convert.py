"""Any amount in another unit, or in the units of both kinds of shop."""

from __future__ import annotations

from fitwright.sums.declaration import Figure, Found, Output, PutIn, Step, Sum
from fitwright.sums.errors import InputError
from fitwright.sums.forms import AnyAmount, Choice, Given, Input, Words
from fitwright.sums.raw import quantity
from fitwright.sums.shown import converted_text
from fitwright.units import DIMENSIONS, Quantity, UnknownUnitError, definition_of, shop_unit, units_of
from fitwright.units.families import Family
from fitwright.units.rounding import in_unit
from fitwright.units.table import UnitDefinition


def _compute(given: Given) -> Found:
    amount, wanted = _amount(given), given["to"]
    target = None if wanted is None else _unit(wanted, amount.dimension)
    converted = None if target is None else _figure(amount, target.name)
    return Found(
        {
            "amount_in_si": Figure(amount.si, amount.si_unit, amount.dimension),
            "converted": converted,
            "in_millimetre_shop": _in_shop(amount, "mm"),
            "in_inch_shop": _in_shop(amount, "inch"),
            "dimension": amount.dimension,
        },
        (_to_si(amount), *(() if target is None else (_from_si(amount, target),))),
    )


def _amount(given: Given) -> Quantity:
    written, dimension, wanted = given["amount"], given["dimension"], given["to"]
    if isinstance(written, str):
        amount = quantity(written, "amount", dimension)
        if dimension is None and wanted is not None:
            amount = _as_wanted(amount, wanted)
        return amount
    if dimension is None:
        raise InputError(
            "amount", f'{written:g} is a number without a unit; write "{written:g} mm", or its dimension'
        )
    return quantity(f"{written!r} {DIMENSIONS[dimension].si_unit}", "amount", dimension)


def _as_wanted(amount: Quantity, wanted: str) -> Quantity:
    """The amount in the dimension of the unit wanted, where its own unit is used in two (`lb`, `degC`)."""
    if _known(wanted, amount.dimension):
        return amount
    for dimension in DIMENSIONS:
        if _known(wanted, dimension):
            try:
                return quantity(amount.typed, "amount", dimension)
            except InputError:
                continue
    return amount


def _known(unit: str, dimension: str) -> bool:
    try:
        return bool(definition_of(unit, dimension))
    except UnknownUnitError:
        return False


def _unit(wanted: str, dimension: str) -> UnitDefinition:
    try:
        return definition_of(wanted, dimension)
    except UnknownUnitError:
        units = ", ".join(units_of(dimension))
        raise InputError("to", f'"{wanted}" is no unit of {_words(dimension)}; there is {units}') from None


def _figure(amount: Quantity, unit: str) -> Figure:
    return Figure(float(in_unit(amount.si, unit, amount.dimension)), unit, amount.dimension)


def _in_shop(amount: Quantity, family: Family) -> Figure:
    return _figure(amount, shop_unit(amount.dimension, family, amount.si))


def _to_si(amount: Quantity) -> Step:
    definition = definition_of(amount.unit, amount.dimension)
    zero = f" + {float(definition.offset):.10g}" if definition.offset else ""
    return Step(
        "Into SI",
        f"number × {float(definition.factor):.10g} {amount.si_unit} per {definition.shown}{zero}",
        (PutIn("amount", amount.typed.strip(), None, "given"),),
        PutIn("amount in SI", amount.si, amount.dimension),
        "units are exact by definition",
    )


def _from_si(amount: Quantity, target: UnitDefinition) -> Step:
    zero = f"(amount − {float(target.offset):.10g})" if target.offset else "amount"
    number = converted_text(in_unit(amount.si, target.name, amount.dimension))
    return Step(
        f"Into {target.shown}",
        f"{zero} / ({float(target.factor):.10g} {amount.si_unit} per {target.shown})",
        (PutIn("amount", amount.si, amount.dimension, "step before"),),
        PutIn("converted", f"{number} {target.shown}"),
    )


def _words(dimension: str) -> str:
    return dimension.replace("_", " ")


SUM = Sum(
    name="convert",
    words=("units", "thou", "inches", "millimetres", "foot pounds", "bar", "psi"),
    title="Convert an amount",
    text="Any amount in another unit, and in the units of a millimetre shop and of an inch shop.",
    inputs=(
        Input("amount", AnyAmount(), "the amount with its unit, such as 2.5 thou or 90 ft-lb", required=True),
        Input("to", Words(20), "the unit wanted; without it only those of both kinds of shop", usual=True),
        Input(
            "dimension",
            Choice(tuple(DIMENSIONS)),
            "what it is an amount of, for a bare number in SI or a unit used in two (lb, degC, oz in)",
        ),
    ),
    outputs=(
        Output("amount_in_si", "the amount in its SI unit"),
        Output("converted", "the amount in the unit wanted; null where none was named", leads=True),
        Output("in_millimetre_shop", "the amount as a millimetre shop reads it", leads=True),
        Output("in_inch_shop", "the amount as an inch shop reads it", leads=True),
        Output("dimension", "what it is an amount of"),
    ),
    compute=_compute,
    source="jcgm200_2012",
    example={"amount": "2.5 thou", "to": "mm"},
)
