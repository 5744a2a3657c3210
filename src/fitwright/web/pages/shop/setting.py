"""One setting: the chain of gauges behind it, what rests on it, a look at it again."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar, Final

from fitwright.assess.resting import in_setting, resting_on, touched_by_drift
from fitwright.assess.results import FitVerdict, State
from fitwright.assess.setting_chains import Gauge, SettingChains
from fitwright.bench.settings import check_back_from
from fitwright.records.kinds import CheckBack, Setting
from fitwright.units import echo
from fitwright.web.addresses import fit_address
from fitwright.web.frame import Frame
from fitwright.web.hands import Hands
from fitwright.web.own_units import family_of_build
from fitwright.web.pages.choices import Choice
from fitwright.web.pages.shop.amounts import gauge_words
from fitwright.web.pages.shop.entering import Asking, EntryForm, FormOf, Link, Made, Order, shop_route
from fitwright.web.pages.shop.facts import setting_words
from fitwright.web.pages.shop.history import HistoryLine, history_of
from fitwright.web.pages.shop.settings import looked_at
from fitwright.web.pages.shop.ways import list_address, shop_frame, shop_ways, thing_address
from fitwright.web.writing import capital

MOST_FITS: Final = 60


@dataclass(frozen=True, slots=True)
class ChainStep:
    """One gauge of the chain behind a setting, and how it was set."""

    gauge: str
    code: str
    words: str
    looked: str
    drifted: bool
    address: str


@dataclass(frozen=True, slots=True)
class BuildResting:
    """What rests on a setting in one build."""

    title: str
    words: str
    fits: tuple[Link, ...]
    unproved: tuple[Link, ...]
    judged_still: tuple[Link, ...]


@dataclass(frozen=True, slots=True)
class SettingContext:
    """The page of one setting."""

    template: ClassVar[str] = "shop/setting.html"
    frame: Frame
    ways: tuple[Choice, ...]
    gauge: Link
    chain: tuple[ChainStep, ...]
    looked: str
    drifted: bool
    builds: tuple[BuildResting, ...]
    form: EntryForm
    again: str
    history: tuple[HistoryLine, ...]


def _setting(asking: Asking) -> SettingContext | None:
    shop = asking.hands.shop.state
    held = shop.settings.get(asking.code)
    if held is None:
        return None
    body, chains = held.body, SettingChains(shop)
    looked, drifted = looked_at(chains, body)
    gauge = shop.instruments.get(body.instrument)
    title = gauge_words(gauge.body) if gauge is not None else body.instrument
    return SettingContext(
        frame=shop_frame(asking.hands, body.code),
        ways=shop_ways("Settings"),
        gauge=Link(title, thing_address("instruments", body.instrument)),
        chain=tuple(_chain(chains, body)),
        looked=capital(looked),
        drifted=drifted,
        builds=tuple(_builds(asking.hands, body.code)),
        form=_form(asking, gauge.body.unit if gauge is not None else "mm"),
        again=list_address("settings", gauge=body.instrument),
        history=_history(asking, body.code),
    )


def _chain(chains: SettingChains, body: Setting) -> Iterator[ChainStep]:
    instrument = chains.instrument(body.instrument)
    if instrument is None:
        return
    for each in chains.settings_behind(Gauge(instrument, body, None)):
        own = chains.instrument(each.instrument)
        looked, drifted = looked_at(chains, each)
        yield ChainStep(
            gauge=gauge_words(own) if own is not None else each.instrument,
            code=each.code,
            words=setting_words(each),
            looked=looked,
            drifted=drifted,
            address=thing_address("settings", each.code),
        )


def _builds(hands: Hands, code: str) -> Iterator[BuildResting]:
    for build, started in hands.shop.builds().items():
        verdicts = hands.shop.assessment(build).verdicts
        found = resting_on(hands.shop.assessor(build).judge, verdicts, in_setting(code))
        sittings = [
            held.body.code
            for held in hands.shop.bench(build).build.sittings.values()
            if code in held.body.settings.values()
        ]
        if not found.readings and not sittings:
            continue
        every = dict.fromkeys([*sittings, *found.sittings])
        words = f"{found.readings} readings" + (f" in sittings {', '.join(every)}" if every else "")
        drifted = touched_by_drift(verdicts, code)
        yield BuildResting(
            title=started.title,
            words=words,
            fits=_links(hands, build, found.fits),
            unproved=_links(hands, build, drifted.unproved),
            judged_still=_links(hands, build, drifted.judged_still),
        )


def _links(hands: Hands, build: str, fits: tuple[FitVerdict, ...]) -> tuple[Link, ...]:
    family = family_of_build(hands, build)
    return tuple(
        Link(each.name, fit_address(build, each.id, State.CURRENT, family)) for each in fits[:MOST_FITS]
    )


def _history(asking: Asking, code: str) -> tuple[HistoryLine, ...]:
    shop = asking.hands.shop.state
    found = [*history_of(shop, Setting.kind, code), *history_of(shop, CheckBack.kind, code)]
    return tuple(sorted(found, key=lambda line: -line.seq))


def _form(asking: Asking, unit: str) -> EntryForm:
    form = FormOf(asking, "check-back")
    return form.made(
        "Look at it again",
        [
            form.amount(
                "drift",
                "Shows too much by",
                unit=unit,
                hint=f"on the same master, with its sign, in {unit}; 0 where it shows the same",
                required=True,
            )
        ],
        intro="Readings in a setting that moved by more than looking twice explains prove nothing any more, "
        "and their fits say so.",
        button="Enter what it shows",
        is_open=True,
    )


def _check_back(order: Order) -> Made:
    shop = order.hands.shop.state
    body, shown = check_back_from(shop, order.code, order.wanted("drift", "What the gauge shows too much"))
    entry = order.hands.shop.entry(body, person=order.person, entry_id=order.entry_id)

    def links() -> tuple[Link, ...]:
        found = (link for each in _builds(order.hands, order.code) for link in each.unproved)
        return tuple(Link(f"{link.label}, unproven now", link.address) for link in found)

    return Made([entry], f"{order.code} looked at again, {echo(shown)} too much.", links)


ROUTES = [shop_route("/shop/settings/{code:path}", "setting", _setting, {"check-back": _check_back})]
