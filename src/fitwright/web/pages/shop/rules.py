"""How this shop decides and shows: decision rules, name, units, time zone."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar, Final

from fitwright.bench.shelf import rule_from, shop_setting_from
from fitwright.records.kinds import ShopSetting
from fitwright.records.projection import ShopState
from fitwright.web.frame import Frame
from fitwright.web.pages.choices import Choice
from fitwright.web.pages.shop.entering import Asking, EntryForm, FormOf, Made, Order, shop_route
from fitwright.web.pages.shop.history import HistoryLine, history_of
from fitwright.web.pages.shop.ways import shop_frame, shop_ways
from fitwright.web.writing import UnclearFormError

USUAL_RULE: Final = "0.95"
CLASSES: Final = ("critical", "normal")
SHOWN: Final = {"name": "", "units": "mm", "time zone": "UTC"}
"""Habits of the shop, with what holds where nobody has set one."""


@dataclass(frozen=True, slots=True)
class RuleLine:
    """One rule or habit of the shop, and whether somebody set it."""

    title: str
    value: str
    words: str


@dataclass(frozen=True, slots=True)
class RulesContext:
    """The page Rules of the shop."""

    template: ClassVar[str] = "shop/rules.html"
    frame: Frame
    ways: tuple[Choice, ...]
    rules: tuple[RuleLine, ...]
    forms: tuple[EntryForm, ...]
    history: tuple[HistoryLine, ...]


def _rules(asking: Asking) -> RulesContext:
    shop = asking.hands.shop.state
    names = [*(f"decision rule {each}" for each in CLASSES), *SHOWN]
    history = [line for name in names for line in history_of(shop, ShopSetting.kind, name)]
    return RulesContext(
        frame=shop_frame(asking.hands, "Rules"),
        ways=shop_ways("Rules"),
        rules=tuple(_line(shop, name) for name in names),
        forms=(_rule_form(asking), _shown_form(asking)),
        history=tuple(sorted(history, key=lambda line: -line.seq)),
    )


def _line(shop: ShopState, name: str) -> RuleLine:
    value = shop.shop_setting(name)
    if name.startswith("decision rule"):
        kind = name.removeprefix("decision rule ")
        said = value or USUAL_RULE
        words = "a bound counts as proven from this probability on"
        return RuleLine(f"{kind} limits", said, words if value else f"{words}; usual, nobody has set it")
    if name == "units":
        return RuleLine("units", value or "mm", "in which the pages of the shop read first")
    if name == "time zone":
        return RuleLine(
            "time zone", value or "UTC", "in which days and times of the shop's entries are shown"
        )
    return RuleLine(
        "name of the shop", value or "none", "" if value else "it stands on nothing until it is set"
    )


def _rule_form(asking: Asking) -> EntryForm:
    form = FormOf(asking, "rule")
    shop = asking.hands.shop.state
    return form.made(
        "State a decision rule",
        [
            form.pick(
                "limit_class",
                "For limits that are",
                [("critical", "critical: much hangs on them"), ("normal", "normal")],
                "critical",
            ),
            form.text(
                "probability",
                "Proven from a probability of",
                shop.shop_setting("decision rule critical") or USUAL_RULE,
                hint="between 0.5 and 1; usually 0.95. The higher, the more stays unproven.",
                required=True,
            ),
        ],
        intro="It holds for every build of this shop, at once: what was within may become unproven.",
        button="State it",
    )


def _shown_form(asking: Asking) -> EntryForm:
    form = FormOf(asking, "shown")
    shop = asking.hands.shop.state
    return form.made(
        "Name, units and time zone",
        [
            form.text("name", "Name of the shop", shop.shop_setting("name") or ""),
            form.pick("units", "Units", [("mm", "mm"), ("inch", "inch")], shop.shop_setting("units") or "mm"),
            form.text(
                "time-zone",
                "Time zone",
                shop.shop_setting("time zone") or "",
                hint="as Europe/London, or UTC",
            ),
        ],
        button="Change",
    )


def _rule(order: Order) -> Made:
    body = rule_from(order.sent.get("limit_class"), order.sent.get("probability"))
    words = f"{order.sent.get('limit_class')} limits are proven from {body.value} on."
    return Made([order.hands.shop.entry(body, person=order.person, entry_id=order.entry_id)], words)


def _shown(order: Order) -> Made:
    """One entry for each that changed; those left as they were make none."""
    shop = order.hands.shop.state
    ids = {name: order.further_id(index) for index, name in enumerate(SHOWN)}
    typed = {name: order.sent.get(name.replace(" ", "-")) for name in SHOWN}
    bodies = [
        shop_setting_from(name, typed[name])
        for name, usual in SHOWN.items()
        if typed[name]
        and (typed[name] != (shop.shop_setting(name) or usual) or ids[name] in shop.ledger.recorded)
    ]
    if not bodies:
        raise UnclearFormError("Nothing was changed", "all stands so already")
    entries = [order.hands.shop.entry(body, person=order.person, entry_id=ids[body.name]) for body in bodies]
    return Made(entries, "; ".join(f"{body.name} is {body.value}" for body in bodies) + ".")


ROUTES = [shop_route("/shop/rules", "rules", _rules, {"rule": _rule, "shown": _shown})]
