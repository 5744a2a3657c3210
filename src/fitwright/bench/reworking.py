"""Rework orders as a person types them: what is to be done to a part, and what to look at afterwards."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal, get_args

from fitwright.assess.assembly.feeds import feeds_of
from fitwright.bench.context import Bench
from fitwright.bench.errors import CannotEnterError, NoWordsError, UnknownNameError
from fitwright.bench.parts import Change, change_of, check_part
from fitwright.bench.shelf import next_code
from fitwright.bench.taking import typed
from fitwright.bench.work_taking import (
    WorkTaken,
    WorkTaking,
    check_correction,
    who_did,
    why,
    words_wanted,
    work_taken,
)
from fitwright.bench.work_words import work_words
from fitwright.records.kinds import ReworkChecked, ReworkOrder
from fitwright.units import parse_quantity, shop_unit
from fitwright.units.senses import DIMENSION_OF

Answer = Literal["holds", "put right", "not touched"]
ANSWERS: Final[tuple[Answer, ...]] = get_args(Answer)


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderTyped:
    """A rework order as it was typed; `target` is the size wanted, where one dimension is named."""

    part: str
    dimensions: tuple[str, ...] = ()
    words: str = ""
    change: Change = "rework"
    target: str = ""
    ordered_by: str = ""
    code: str = ""


def order_rework(bench: Bench, said: OrderTyped, taking: WorkTaking) -> WorkTaken:
    """A rework order, with the fits and dimensions that its dimensions feed now.

    Raises
    ------
    BenchError
        If a part, a dimension or a person is not there, nothing is named, or a target has no dimension.
    QuantityError
        If the target is no amount.
    """
    check_correction(bench, ReworkOrder, taking)
    check_part(bench, said.part)
    if not said.dimensions:
        raise NoWordsError("A rework order", "the dimensions that change")
    found = [bench.dimension(each) for each in said.dimensions]
    if said.target.strip() and len(found) > 1:
        raise CannotEnterError("A size wanted belongs to one dimension", "order each dimension on its own")
    body = ReworkOrder.model_validate(
        {
            "code": said.code.strip() or _next_code(bench),
            "part": said.part,
            "dimensions": tuple(each.id for each in found),
            "change": said.change,
            "words": words_wanted(said.words, f"An order to {_VERBS[said.change]}", "what is to be done"),
            "target": _target(said, DIMENSION_OF[found[0].sense], taking),
            "feeds": feeds_of(bench.sheet, said.dimensions),
            "ordered_by": who_did(bench, said.ordered_by, taking),
            **why(taking),
        }
    )
    return work_taken(bench, body, work_words(body, bench.sheet), taking)


_VERBS: Final = {"rework": "rework", "repair": "repair", "replacement": "replace"}


def rework_done(bench: Bench, order: str, taking: WorkTaking, *, words: str = "") -> WorkTaken:
    """The change of state that carries an order out, under the order's code.

    It retires the readings of the order's dimensions, like any rework.
    """
    found = order_named(bench, order)
    told = words.strip() or found.words
    body = change_of(bench, found.part, told, found.dimensions, change=found.change, code=found.code)
    return work_taken(bench, body, f"{found.change} {found.code} of {found.part}: {told}", taking)


def rework_checked(
    bench: Bench, order: str, item: str, answer: str, taking: WorkTaking, *, words: str = ""
) -> WorkTaken:
    """One thing that a reworked dimension feeds was looked at again."""
    found = order_named(bench, order)
    known = dict.fromkeys((*found.feeds, *feeds_of(bench.sheet, found.dimensions)))
    if item not in known:
        raise UnknownNameError(f"thing to look at after {found.code}", item, list(known))
    said = next((each for each in ANSWERS if each == answer), None)
    if said is None:
        raise UnknownNameError("answer", answer, list(ANSWERS))
    body = ReworkChecked(order=found.code, item=item, answer=said, words=words.strip() or None)
    return work_taken(bench, body, work_words(body, bench.sheet), taking)


def order_named(bench: Bench, code: str) -> ReworkOrder:
    """A rework order of this build by its code."""
    orders = bench.build.work.rework_orders
    if code not in orders:
        raise UnknownNameError("rework order", code, list(orders))
    return orders[code].body


def _next_code(bench: Bench) -> str:
    """A code that no order of this build has yet, one withdrawn included: R-1, R-2 and so on."""
    held = bench.build.ledger.recorded.values()
    return next_code("R-", (each.body.code for each in held if isinstance(each.body, ReworkOrder)))


def _target(said: OrderTyped, dimension: str, taking: WorkTaking) -> object:
    if not said.target.strip():
        return None
    unit = shop_unit(dimension, taking.family, 1.0)
    return typed(parse_quantity(said.target, default_unit=unit, dimension=dimension))
