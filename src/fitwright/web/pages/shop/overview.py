"""The shop in short: what it has, what somebody should look after, the last entries; where one begins."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import ClassVar, Final

from fitwright.assess.rules import rules_of
from fitwright.assess.setting_chains import SettingChains
from fitwright.records.projection import ShopState
from fitwright.web.frame import Frame
from fitwright.web.hands import Hands
from fitwright.web.pages.choices import Choice
from fitwright.web.pages.shop.entering import Asking, Link, shop_route
from fitwright.web.pages.shop.history import HistoryLine, recent
from fitwright.web.pages.shop.instruments import attention_of
from fitwright.web.pages.shop.settings import looked_at
from fitwright.web.pages.shop.ways import list_address, shop_frame, shop_ways, thing_address

MOST_RECENT, MOST_NAMED = 12, 6
STEPS: Final = (
    ("people", "Enter who measures", "A reading is somebody's: begin with yourself."),
    (
        "instruments",
        "Enter the gauges",
        "Typical figures are offered for each kind; your own certificate is better.",
    ),
    ("blades", "Enter the blade sets", "Blade by blade, as they are stamped."),
)


@dataclass(frozen=True, slots=True)
class StepPart:
    """One of the first steps of an empty shop."""

    label: str
    address: str
    words: str
    done: bool


@dataclass(frozen=True, slots=True)
class PartOfShop:
    """One part of the shop in short: how much there is, and what needs looking after."""

    title: str
    address: str
    words: str
    trouble: str = ""
    named: tuple[Link, ...] = ()
    is_grave: bool = False


@dataclass(frozen=True, slots=True)
class OverviewContext:
    """The page Shop."""

    template: ClassVar[str] = "shop/overview.html"
    frame: Frame
    ways: tuple[Choice, ...]
    name: str
    steps: tuple[StepPart, ...]
    parts: tuple[PartOfShop, ...]
    recent: tuple[HistoryLine, ...]


def _overview(asking: Asking) -> OverviewContext:
    shop = asking.hands.shop.state
    return OverviewContext(
        frame=shop_frame(asking.hands, "Shop"),
        ways=shop_ways("In short"),
        name=shop.shop_setting("name") or "",
        steps=tuple(_steps(shop)),
        parts=tuple(_parts(asking.hands)),
        recent=recent(shop, MOST_RECENT),
    )


def _steps(shop: ShopState) -> Iterator[StepPart]:
    """What to do first, until all of it is done."""
    done = {"people": shop.people, "instruments": shop.instruments, "blades": shop.blade_sets}
    if all(done.values()):
        return
    for part, label, words in STEPS:
        yield StepPart(label, list_address(part), words, bool(done[part]))


def _parts(hands: Hands) -> Iterator[PartOfShop]:
    shop = hands.shop.state
    chains, rules = SettingChains(shop), rules_of(shop)
    yield PartOfShop("People", list_address("people"), _names(shop))
    yield _instruments(chains)
    yield _settings(chains)
    yield _blades(shop)
    sources = {
        (each.title, each.edition)
        for code in hands.shop.builds()
        for each in hands.shop.bench(code).sheet.sources.values()
    }
    builds = len(hands.shop.builds())
    yield PartOfShop(
        "Sources of limits",
        list_address("sources"),
        f"{len(sources)} in the sheets of {builds} builds",
    )
    yield PartOfShop("Gauge studies", list_address("studies"), f"{len(shop.studies)} entered")
    words = f"critical limits proven from {rules.critical.within:g}, normal ones from {rules.normal.within:g}"
    yield PartOfShop("Rules", list_address("rules"), words)


def _names(shop: ShopState) -> str:
    return ", ".join(held.body.name for held in shop.people.values()) or "nobody yet"


def _instruments(chains: SettingChains) -> PartOfShop:
    today = datetime.now(UTC).date()
    bodies = [held.body for held in chains.shop.instruments.values()]
    open_ones = [each for each in bodies if attention_of(each, chains.calibration(each), today)]
    trouble = f"{len(open_ones)} with an old calibration or none" if open_ones else ""
    named = tuple(Link(each.code, thing_address("instruments", each.code)) for each in open_ones[:MOST_NAMED])
    return PartOfShop(
        "Instruments", list_address("instruments"), f"{len(bodies)} on the shelf", trouble, named
    )


def _settings(chains: SettingChains) -> PartOfShop:
    bodies = [held.body for held in chains.shop.settings.values()]
    drifted = [each for each in bodies if looked_at(chains, each)[1]]
    backs = sum(bool(chains.shop.check_backs.get(each.code)) for each in bodies)
    trouble = f"{len(drifted)} found drifted: what was read in them proves nothing" if drifted else ""
    named = tuple(Link(each.code, thing_address("settings", each.code)) for each in drifted[:MOST_NAMED])
    words = f"{len(bodies)} entered, {backs} looked at again"
    return PartOfShop("Settings", list_address("settings"), words, trouble, named, is_grave=True)


def _blades(shop: ShopState) -> PartOfShop:
    bodies = [held.body for held in shop.blade_sets.values()]
    blades = sum(len(each.blades) for each in bodies)
    missing = sum(not blade.available for each in bodies for blade in each.blades)
    trouble = f"{missing} blades missing or worn out" if missing else ""
    return PartOfShop("Blades", list_address("blades"), f"{blades} blades in {len(bodies)} sets", trouble)


ROUTES = [shop_route("/shop", "shop", _overview, {})]
