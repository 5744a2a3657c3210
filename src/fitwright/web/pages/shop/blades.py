"""Sets of blades and plugs on the shelf, each drawn as a row; a new one entered."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar, Final

from fitwright.bench.blade_sets import MARKED_UNITS, blade_set_from, markings_in
from fitwright.bench.shelf import next_code
from fitwright.data.usual_gauges import usual_blade_sets
from fitwright.records.kinds import BladeSet
from fitwright.units import shop_unit
from fitwright.web.frame import Frame
from fitwright.web.own_units import family_of_shop
from fitwright.web.pages.choices import Choice
from fitwright.web.pages.shop.amounts import family_of_unit, in_unit_shown, usual_in
from fitwright.web.pages.shop.blade_row import BladeKey, blade_row, set_words
from fitwright.web.pages.shop.entering import Asking, EntryForm, FormOf, Link, Made, Order, shop_route
from fitwright.web.pages.shop.ways import list_address, shop_frame, shop_ways, thing_address

STAMPED: Final = (
    "Always enter the blades stamped on the actual set: sets of one name differ from seller to seller."
)


@dataclass(frozen=True, slots=True)
class BladeSetPart:
    """A set with its row of blades."""

    code: str
    title: str
    words: str
    address: str
    row: tuple[BladeKey, ...]


@dataclass(frozen=True, slots=True)
class BladesContext:
    """The page Blades."""

    template: ClassVar[str] = "shop/blades.html"
    frame: Frame
    ways: tuple[Choice, ...]
    sets: tuple[BladeSetPart, ...]
    lists: tuple[Choice, ...]
    form: EntryForm


def _blades(asking: Asking) -> BladesContext:
    shop = asking.hands.shop.state
    chosen = asking.query.get("list", "")
    lists = [Choice("an empty list", list_address("blades"), not chosen)]
    lists += [
        Choice(each.title, list_address("blades", list=name) + "#form-blades", name == chosen)
        for name, each in usual_blade_sets().items()
    ]
    return BladesContext(
        frame=shop_frame(asking.hands, "Blades"),
        ways=shop_ways("Blades"),
        sets=tuple(_part(held.body) for held in shop.blade_sets.values()),
        lists=tuple(lists),
        form=_form(asking, chosen),
    )


def _part(body: BladeSet) -> BladeSetPart:
    address = thing_address("blades", body.code)
    return BladeSetPart(body.code, body.title, set_words(body), address, blade_row(body))


def _form(asking: Asking, chosen: str) -> EntryForm:
    shop = asking.hands.shop.state
    usual = usual_blade_sets().get(chosen)
    form = FormOf(asking, "blades")
    family = family_of_shop(asking.hands)
    unit = usual.unit if usual is not None else shop_unit("length", family, 1.0)
    plain, measured = (usual_in(family_of_unit(unit), each) for each in ("0.003 mm", "0.001 mm"))
    return form.made(
        "Enter a set",
        [
            form.text("code", "Code on the shelf", next_code("F", shop.blade_sets), required=True),
            form.text("title", "What it is", usual.title if usual is not None else "", required=True),
            form.pick(
                "unit",
                "Marked in",
                [(each, each) for each in MARKED_UNITS],
                unit,
            ),
            form.words(
                "blades",
                "Blades, as they are marked",
                " ".join(usual.blades) if usual is not None else "",
                hint="a space between them; one that was measured as 0.05=0.0512",
            ),
            form.tick("plugs", "They are plug gauges"),
            form.hidden("unit_shown", unit),
        ],
        intro=STAMPED,
        more_title="Uncertainty of the blades, missing ones",
        more=[
            form.text("missing", "Missing or worn out", hint="markings, a space between them"),
            form.amount(
                "uncertainty",
                "Of a blade as marked",
                plain,
                unit=unit,
                hint=f"standard uncertainty; {plain} is a typical one",
            ),
            form.amount(
                "measured_uncertainty",
                "Of a blade that was measured",
                measured,
                unit=unit,
                hint=f"standard uncertainty; {measured} is a typical one",
            ),
        ],
        button="Enter the set",
        is_open=bool(chosen) or not shop.blade_sets,
    )


def _enter(order: Order) -> Made:
    code = order.free_code(order.hands.shop.state.blade_sets, "A blade set")
    shown = order.sent.get("unit_shown")
    body = blade_set_from(
        code,
        order.wanted("title", "What it is"),
        markings_in(order.sent.get("blades")),
        unit=order.sent.get("unit") or "mm",
        uncertainty=in_unit_shown(order.optional("uncertainty"), shown) or "0.003 mm",
        measured_uncertainty=in_unit_shown(order.optional("measured_uncertainty"), shown) or "0.001 mm",
        missing=markings_in(order.sent.get("missing")),
        plugs=bool(order.sent.get("plugs")),
    )
    entry = order.hands.shop.entry(body, person=order.person, entry_id=order.entry_id)
    link = Link(f"Open {code}, measure its blades", thing_address("blades", code))
    return Made([entry], f"{code}, {body.title}: {set_words(body)}.", lambda: (link,))


ROUTES = [shop_route("/shop/blades", "blades", _blades, {"blades": _enter})]
