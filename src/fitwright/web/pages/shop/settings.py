"""Settings of the shop's gauges, the newest first: what each was set against; a new one entered."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar, Final

from fitwright.assess.setting_chains import Gauge, SettingChains
from fitwright.bench.settings import last_setting_of, setting_from, take_setting
from fitwright.bench.shelf import next_code
from fitwright.model.slips import Question
from fitwright.records.kinds import Setting
from fitwright.records.projection import Recorded, ShopState
from fitwright.web.frame import Frame
from fitwright.web.pages.choices import Choice
from fitwright.web.pages.shop.amounts import gauge_words, typed_words
from fitwright.web.pages.shop.entering import Asking, EntryForm, FormOf, Link, Made, Order, shop_route
from fitwright.web.pages.shop.facts import setting_words
from fitwright.web.pages.shop.ways import list_address, shop_frame, shop_ways, thing_address
from fitwright.web.whose import when_written, who_wrote

MOST_SHOWN: Final = 30
LAST: Final = "last"


@dataclass(frozen=True, slots=True)
class SettingLine:
    """One setting in a line; `drifted` says that it proves nothing any more."""

    code: str
    gauge: str
    address: str
    words: str
    looked: str
    drifted: bool
    used: str
    when: str
    who: str


@dataclass(frozen=True, slots=True)
class SettingsContext:
    """The page Settings."""

    template: ClassVar[str] = "shop/settings.html"
    frame: Frame
    ways: tuple[Choice, ...]
    gauges: tuple[Choice, ...]
    settings: tuple[SettingLine, ...]
    more: Link | None
    has_instruments: bool
    form: EntryForm | None


def _settings(asking: Asking) -> SettingsContext:
    shop = asking.hands.shop.state
    gauge = asking.query.get("gauge", "")
    own = [held for held in shop.settings.values() if gauge in ("", held.body.instrument)]
    own.sort(key=lambda held: -held.entry.seq)
    shown = own if asking.query.get("all") else own[:MOST_SHOWN]
    used = _sittings(asking)
    chains = SettingChains(shop)
    return SettingsContext(
        frame=shop_frame(asking.hands, "Settings"),
        ways=shop_ways("Settings"),
        gauges=tuple(_gauges(shop, gauge)),
        settings=tuple(_line(chains, held, used) for held in shown),
        more=_more(gauge, len(own)) if len(shown) < len(own) else None,
        has_instruments=bool(shop.instruments),
        form=_form(asking, gauge) if shop.instruments else None,
    )


def _more(gauge: str, number: int) -> Link:
    asked = {"all": "yes"} | ({"gauge": gauge} if gauge else {})
    return Link(f"All {number} settings", list_address("settings", **asked))


def _gauges(shop: ShopState, chosen: str) -> Iterator[Choice]:
    """The gauges that were ever set, to look at one alone."""
    codes = dict.fromkeys(held.body.instrument for held in shop.settings.values())
    if len(codes) > 1:
        yield Choice("all", list_address("settings"), not chosen)
        for code in sorted(codes):
            yield Choice(code, list_address("settings", gauge=code), code == chosen)


def _sittings(asking: Asking) -> dict[str, list[str]]:
    """Which sittings of which builds name each setting."""
    found: dict[str, list[str]] = {}
    for code, started in asking.hands.shop.builds().items():
        for held in asking.hands.shop.bench(code).build.sittings.values():
            for setting in held.body.settings.values():
                found.setdefault(setting, []).append(f"{held.body.code} of {started.title}")
    return found


def _line(chains: SettingChains, held: Recorded[Setting], used: dict[str, list[str]]) -> SettingLine:
    body, shop = held.body, chains.shop
    gauge = shop.instruments.get(body.instrument)
    title = gauge_words(gauge.body) if gauge is not None else f"{body.instrument}, not in the shop"
    looked, drifted = looked_at(chains, body)
    sittings = used.get(body.code, [])
    return SettingLine(
        code=body.code,
        gauge=title,
        address=thing_address("settings", body.code),
        words=setting_words(body),
        looked=looked,
        drifted=drifted,
        used=f"used in {', '.join(sittings[:2])}"
        + (f" and {len(sittings) - 2} more" if len(sittings) > 2 else "")
        if sittings
        else "in no sitting",
        when=when_written(shop, held.entry),
        who=who_wrote(shop, held.entry),
    )


def looked_at(chains: SettingChains, body: Setting) -> tuple[str, bool]:
    """What the last look at a setting found, and whether it drifted."""
    backs = chains.shop.check_backs.get(body.code, [])
    instrument = chains.instrument(body.instrument)
    drift = chains.drifted(Gauge(instrument, body, None)) if instrument is not None else None
    if drift is not None:
        of = "" if drift.body.setting == body.code else f"its master's setting {drift.body.setting} "
        return f"{of}drifted: shows {typed_words(drift.body.drift)} too much", True
    if not backs:
        return "not looked at again", False
    last = backs[-1].body.drift
    if not last.si:
        return "looked at again, it shows the same", False
    return (
        f"looked at again, it shows {typed_words(last)} too much: no more than looking twice explains",
        False,
    )


def _form(asking: Asking, gauge: str) -> EntryForm:
    shop = asking.hands.shop.state
    form = FormOf(asking, "setting")
    gauges = [(held.body.code, gauge_words(held.body)) for held in shop.instruments.values()]
    compared = next((held.body.code for held in shop.instruments.values() if held.body.comparison), "")
    chosen = gauge if gauge in shop.instruments else compared
    typed = asking.typed("setting")
    named = shop.instruments.get(typed.get("instrument") if typed is not None else chosen)
    unit = named.body.unit if named is not None else ""
    hint = f"in the gauge's own unit, {unit}, unless you type another" if unit else "in the gauge's own unit"
    last = [(LAST, "the last one it was given"), ("", "none")]
    settings = sorted(shop.settings.values(), key=lambda held: -held.entry.seq)[:MOST_SHOWN]
    stood = [(held.body.code, f"{held.body.code} of {held.body.instrument}") for held in settings]
    return form.made(
        "Set a gauge",
        [
            form.pick("instrument", "Gauge", gauges, chosen),
            form.text("code", "Code of the setting", next_code("S-", shop.settings, 3), required=True),
            form.amount("size", "Set to the size", unit=unit, hint=f"of a comparison gauge; {hint}"),
            form.pick(
                "master",
                "Set in another gauge",
                [("", "none: on a ring, rod or block"), *gauges],
                hint="their errors cancel where the same micrometer reads the shaft",
            ),
            form.pick("master_setting", "That gauge stood in", [*last, *stood], LAST),
            form.text("against", "Or on", hint="50 mm rod, ring 60 mm, anvils closed"),
            form.amount(
                "uncertainty",
                "Uncertainty of the ring or rod",
                unit=unit,
                hint="standard uncertainty; empty: none of its own",
            ),
            form.amount(
                "zero",
                "Shows at zero",
                unit=unit,
                hint="what it shows where it should show nothing, with its sign; taken off each reading",
            ),
        ],
        button="Enter the setting",
        is_open=bool(gauge) or not shop.settings,
    )


def _set(order: Order) -> Made | Question:
    shop = order.hands.shop.state
    master, stood = order.optional("master"), order.optional("master_setting")
    if master is None:
        stood = None
    elif stood == LAST:
        stood = last_setting_of(shop, master)
    code = order.free_code(shop.settings, "A setting")
    body = setting_from(
        shop,
        code,
        order.wanted("instrument", "The gauge"),
        size=order.optional("size"),
        against=order.optional("against"),
        uncertainty=order.optional("uncertainty"),
        master=master,
        master_setting=stood,
    )
    found = take_setting(
        shop,
        body,
        zero=order.optional("zero"),
        person=order.person,
        entry_id=order.entry_id,
        answers=order.answers,
    )
    if isinstance(found, Question):
        return found
    kept = Setting.model_validate(found[0].body, strict=False)
    link = Link(f"Open {code}, look at it again later", thing_address("settings", code))
    return Made(found, f"{code} of {body.instrument}: {setting_words(kept)}.", lambda: (link,))


ROUTES = [shop_route("/shop/settings", "settings", _settings, {"setting": _set})]
