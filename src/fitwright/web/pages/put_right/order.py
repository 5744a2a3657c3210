"""The page of one rework order: what is to be done, before and after, and what it feeds."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar, Final

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response

from fitwright.assess.assembly.results import ReworkedDimension, ReworkItem, ReworkStanding
from fitwright.assess.results import State
from fitwright.assess.words import BEFORE_METAL
from fitwright.bench.context import Bench
from fitwright.data.cautions import Caution, cautions_of
from fitwright.units import both_units, format_with_uncertainty
from fitwright.units.families import Family, shop_unit
from fitwright.units.senses import DIMENSION_OF
from fitwright.web.addresses import (
    fit_address,
    measure_address,
    order_address,
    put_right_address,
)
from fitwright.web.entering.asked import asking_of, from_address
from fitwright.web.entering.controls import Asking
from fitwright.web.entering.entry_form import EntryForm, Said
from fitwright.web.entering.opening import opened
from fitwright.web.frame import Frame
from fitwright.web.hands import Hands
from fitwright.web.pages.parts.happened import HistoryLine, history_line
from fitwright.web.pages.put_right.of_reworks import CHECKED, DONE, order_named
from fitwright.web.pages.put_right.show import OF_PUT_RIGHT, put_right_frame
from fitwright.web.rendering import page
from fitwright.web.visit import NotThereError, Visit, visit_of
from fitwright.web.writing import Sent

CAUTIONS: Final = ("dust_and_fume", "solvents")
"""What can hurt somebody where metal is worked and washed."""


@dataclass(frozen=True, slots=True)
class SizeLine:
    """A size before and after the work; where it is measured again."""

    title: str
    before: str
    after: str
    measure: str


@dataclass(frozen=True, slots=True)
class FedLine:
    """Something that a reworked size feeds: how it stands, and what was said of it."""

    title: str
    address: str
    words: str
    answer: str
    open: bool


@dataclass(frozen=True, slots=True)
class OrderContext:
    """The page of one rework order."""

    template: ClassVar[str] = "put_right/order.html"
    frame: Frame
    code: str
    heading: str
    words: str
    standing: str
    target: str
    before_metal: str
    cautions: tuple[Caution, ...]
    sizes: tuple[SizeLine, ...]
    fed: tuple[FedLine, ...]
    done: str
    check: str
    outcome: Said | None
    entry: EntryForm | None
    happened: tuple[HistoryLine, ...]
    printed: str
    back: str


async def show(request: Request) -> Response:
    """Answer with the page of an order."""
    return page(await run_in_threadpool(_opened, await visit_of(request)))


def _opened(visit: Visit) -> OrderContext:
    with visit.hands.shop.held():
        asked = from_address(visit)
        fields = {**asked.fields, "order": visit.named("order")}
        asking = asking_of(visit, Sent(fields, asked.lists))
        order = order_there(asking)
        return _context(visit.hands, asking, order, opened(visit, OF_PUT_RIGHT, asking))


def order_there(asking: Asking) -> ReworkStanding:
    """The order that an address names.

    Raises
    ------
    NotThereError
        If the build has no such order.
    """
    found = order_named(asking)
    if found is None:
        raise NotThereError("No such rework order in this build.", "Choose one on the page Put right.")
    return found


def _context(hands: Hands, asking: Asking, order: ReworkStanding, form: EntryForm | None) -> OrderContext:
    code, family = asking.code, asking.family
    carried_out = order.carried_out is not None
    cuts = not carried_out and order.change != "replacement"
    here = order_address(code, order.code, family)
    return OrderContext(
        frame=put_right_frame(hands, f"{order.code} {order.part_title}", code, family, parts=True),
        code=order.code,
        heading=f"{order.part_title}: {order.change}",
        words=order.order_words,
        standing=order.words,
        target=target_words(asking.bench, order, family),
        before_metal=BEFORE_METAL if cuts else "",
        cautions=tuple(cautions_of(CAUTIONS)) if cuts else (),
        sizes=tuple(_size(asking, each) for each in order.dimensions),
        fed=tuple(_fed(asking, each) for each in order.items),
        done="" if carried_out else f"{here}&do={DONE.name}",
        check=f"{here}&do={CHECKED.name}" if order.items else "",
        outcome=None,
        entry=form,
        happened=tuple(_happened(asking, order)),
        printed=order_address(code, order.code, family, printed=True),
        back=put_right_address(code, family),
    )


def target_words(bench: Bench, order: ReworkStanding, family: Family) -> str:
    """The size wanted, in both units; nothing where none was said."""
    if order.target is None or not order.dimensions:
        return ""
    dimension = bench.sheet.dimensions.get(order.dimensions[0].dimension)
    sense = DIMENSION_OF[dimension.sense] if dimension is not None else "length"
    return both_units(order.target, sense, prefer=family, resolution=1e-6 if sense == "length" else None)


def _size(asking: Asking, each: ReworkedDimension) -> SizeLine:
    dimension = asking.bench.sheet.dimensions.get(each.dimension)
    station = dimension.station if dimension is not None else None
    measure = (
        measure_address(
            asking.code,
            asking.family,
            station=station,
            dimension=dimension.id,
            place=dimension.places[0].id,
        )
        if dimension is not None and station is not None
        else ""
    )
    after = size_words(asking.bench, each.dimension, each.after, each.after_uncertainty, asking.family)
    before = size_words(asking.bench, each.dimension, each.before, each.before_uncertainty, asking.family)
    return SizeLine(
        title=each.title,
        before=before or "not read",
        after=after if each.read_again and after else "not read since",
        measure=measure,
    )


def size_words(
    bench: Bench, name: str, value: float | None, uncertainty: float | None, family: Family
) -> str:
    """A size with its uncertainty, as one reads it; nothing where it is not known."""
    dimension = bench.sheet.dimensions.get(name)
    if value is None or dimension is None:
        return ""
    sense = DIMENSION_OF[dimension.sense]
    if not uncertainty:
        return both_units(value, sense, prefer=family)
    shown = format_with_uncertainty(value, uncertainty, shop_unit(sense, family, value), dimension=sense)
    return f"{shown.value} {shown.unit} (u {shown.uncertainty})"


def _fed(asking: Asking, item: ReworkItem) -> FedLine:
    judged = item.item in asking.judge.subjects
    checked = item.checked
    who = asking.bench.shop.people.get(checked.person or "") if checked is not None else None
    said = f"{item.answer}{f', {who.body.name}' if who is not None else ''}" if item.answer else ""
    return FedLine(
        title=item.title,
        address=fit_address(asking.code, item.item, State.CURRENT, asking.family) if judged else "",
        words=item.verdict_words,
        answer=said or ("to look at" if item.open else "settled by what was read"),
        open=item.open,
    )


def _happened(asking: Asking, order: ReworkStanding) -> Iterator[HistoryLine]:
    """The order, the change that carried it out, and what was looked at, in order."""
    ledger = asking.bench.build.ledger
    mine = {order.ordered.entry}
    if order.carried_out is not None:
        mine.add(order.carried_out.entry)
    mine |= {each.entry.id for each in asking.bench.build.work.rework_checks.get(order.code, [])}
    for held in sorted((ledger.recorded[each] for each in mine), key=lambda each: each.entry.seq):
        yield history_line(asking.bench, asking.family, held.entry)
