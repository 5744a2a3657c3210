"""What was typed into a page: a number without a unit is in the unit that stands beside its field.

A command refuses such a number, because nobody would know what was meant; a page says it beside the
field and answers in both kinds of units. With units added, the inputs are those of any other way in.
"""

from __future__ import annotations

from collections.abc import Mapping

from fitwright.sums.crossed import Crossed, cells_of, unit_of
from fitwright.sums.declaration import Sum
from fitwright.sums.forms import Amount, Form, Group, Named, Several
from fitwright.sums.raw import items_in, plain
from fitwright.units import QuantityError, echo, parse_quantity
from fitwright.units.families import Family


def with_units(asked: Sum, inputs: Mapping[str, object], family: Family) -> dict[str, object]:
    """The inputs of a sum, every bare number with the unit of its field.

    >>> from fitwright.sums.registry import sum_named
    >>> with_units(sum_named("blades"), {"lower_limit": "1.5", "upper_limit": "0.1 mm"}, "inch")
    {'lower_limit': '1.5 thou', 'upper_limit': '0.1 mm'}
    """
    forms = {each.key: each.form for each in asked.inputs}
    return {key: typed(forms[key], raw, family) for key, raw in inputs.items()}


def typed(form: Form, raw: object, family: Family) -> object:
    """What was typed into one field, every bare number with the unit of the field.

    >>> typed(Amount("temperature"), "110", "mm")
    '110 degC'
    """
    match form, raw:
        case Several(), str():
            found: object = [typed(form.form, each, family) for each in items_in(raw)]
        case Several(), list():
            found = [typed(form.form, each, family) for each in raw]
        case Group(), dict():
            found = {
                each.key: typed(each.form, raw[each.key], family) for each in form.inputs if each.key in raw
            }
        case Group(), str() if form.alone:
            found = typed(next(each.form for each in form.inputs if each.key == form.alone), raw, family)
        case Named(), str() if plain(raw) not in form.names:
            found = _amount(form.amount, raw, family)
        case Amount(), str():
            found = _amount(form, raw, family)
        case Crossed(), str():
            found = _table(form, raw, family)
        case _:
            found = raw
    return found


def _amount(form: Amount, text: str, family: Family) -> str:
    """The text with its unit; one that cannot be read stays as it is, and reading it says what is wrong."""
    unit = form.typed_unit(family)
    try:
        parse_quantity(text, dimension=form.dimension)
    except QuantityError as error:
        fraction_of_an_inch = error.key == "fraction" and unit == "in"
        if (error.key == "no_unit" and unit != "1") or fraction_of_an_inch:
            return f"{text.strip()} {unit}"
    return text


def _table(form: Crossed, text: str, family: Family) -> str:
    """The table with a unit in its first cell, which every bare number of it is in."""
    cells = cells_of(text)
    if cells and not unit_of(cells[0]):
        cells[0][:1] = [form.indication.typed_unit(family)]
    return "\n".join(";".join(line) for line in cells)


def echo_of(form: Form, raw: object) -> str:
    """An amount as it is taken, in both kinds of units; nothing for what is no amount.

    >>> echo_of(Amount("length"), "2.2 thou")
    '2.2 thou (0.056 mm)'
    """
    amount = form.amount if isinstance(form, Named) else form
    if not isinstance(amount, Amount) or not isinstance(raw, str):
        return ""
    try:
        quantity = parse_quantity(raw, dimension=amount.dimension)
    except QuantityError:
        return ""
    return "" if amount.dimension == "ratio" else echo(quantity)
