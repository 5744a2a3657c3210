"""What a figure would do before it is recorded: read back in both units, its preload, beside the sheet's."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, ClassVar

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response

from fitwright.assess.assembly.results import Side
from fitwright.bench.errors import BenchError
from fitwright.bench.tightening_amounts import Gauges, amounts_asked
from fitwright.bench.wrenches import gauge_of
from fitwright.model.fastener import TighteningGroup
from fitwright.units import Quantity, UnitsError, parse_quantity
from fitwright.units import echo as in_both_units
from fitwright.web.addresses import put_right_address
from fitwright.web.entering.asked import from_address
from fitwright.web.numbers import whole_number
from fitwright.web.pages.assembly.group_facts import PreloadPart, preload_part
from fitwright.web.pages.assembly.opened import Opened
from fitwright.web.pages.assembly.tighten import amounts_in
from fitwright.web.rendering import page
from fitwright.web.visit import Visit, visit_of
from fitwright.web.writing import Sent

if TYPE_CHECKING:
    from fitwright.assess.assembly.torque_effect import TorqueEffect

BESIDE = {
    Side.BELOW: "Below the sheet's value.",
    Side.ABOVE: "Above the sheet's value.",
    Side.OTHERWISE: "Not as the sheet says.",
}


@dataclass(frozen=True, slots=True)
class EffectContext:
    """The words beside a number field; `permit` the way to a permission where one is wanted."""

    template: ClassVar[str] = "assembly/effect.html"
    echo: str
    beside: str
    preload: PreloadPart | None
    words: tuple[str, ...]
    caution: str
    permit: str


NOTHING = EffectContext("", "", None, (), "", "")


async def show(request: Request) -> Response:
    """Answer with what a figure would do; empty while it is no whole figure yet."""
    return page(await run_in_threadpool(_context, await visit_of(request)))


def _context(visit: Visit) -> EffectContext:
    form = from_address(visit)
    number = whole_number(form.get("number")) or 1
    with visit.hands.shop.held():
        opened = Opened.of(visit)
        group = opened.group_asked(visit.named("group"))
        try:
            read = _read(opened, group, number, form)
        except (BenchError, UnitsError):
            return NOTHING  # not typed to its end yet; taken as it is, it is refused with its reason
        if not read:
            return NOTHING
        echo = "; ".join(in_both_units(each) for each in read.values())
        found = _effect(opened, group, number, form, read)
        context = replace(NOTHING, echo=echo)
        return context if found is None else _told(opened, group, form, context, found)


def _read(opened: Opened, group: TighteningGroup, number: int, form: Sent) -> dict[str, Quantity]:
    """The amounts typed, in the units in which they count."""
    wrench = gauge_of(opened.bench, form.get("wrench"), "torque", "a torque wrench")
    asked = {each.name: each for each in amounts_asked(group, number, opened.family, Gauges(wrench))}
    texts = {name: text for name, text in amounts_in(form).items() if text}
    return {
        name: parse_quantity(text, default_unit=asked[name].unit, dimension=asked[name].dimension)
        for name, text in texts.items()
    }


def _effect(
    opened: Opened, group: TighteningGroup, number: int, form: Sent, read: dict[str, Quantity]
) -> TorqueEffect | None:
    from fitwright.assess.assembly.torque_effect import torque_effect  # loads the physics of fasteners

    amounts = {name: each.si for name, each in read.items()}
    stretch = amounts.get("stretch")
    if "tightened_length" in amounts:
        if "free_length" not in amounts:
            return None
        stretch = amounts["tightened_length"] - amounts["free_length"]
    return torque_effect(
        opened.bench.sheet,
        group,
        torque=amounts.get("torque"),
        angle=amounts.get("angle"),
        stretch=stretch,
        lubricant=form.get("lubricant") or None,
        number=number,
        peak=form.get("read") == "peak",
    )


def _told(
    opened: Opened, group: TighteningGroup, form: Sent, context: EffectContext, found: TorqueEffect
) -> EffectContext:
    subject = f"{group.id}/{form.get('at')}"
    permit = put_right_address(opened.code, opened.family, do="permit", subject=subject)
    preload = preload_part(opened, found.preload) if found.preload is not None else None
    if preload is not None and found.side is not None:
        preload = replace(preload, uses=(), yields=False)  # the sentences below say it
    return replace(
        context,
        beside=BESIDE[found.side] if found.side is not None else "",
        preload=preload,
        words=found.words if found.side is not None else (),
        caution=found.caution if found.side is Side.ABOVE else "",
        permit=permit if found.wants_permission else "",
    )
