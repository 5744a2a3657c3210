"""What an entry of the shop says, as lines of label and words; and what one state changed in the last."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import singledispatch

from fitwright.records import kinds
from fitwright.records.kinds import Body
from fitwright.records.projection import ShopState
from fitwright.web.pages.shop.amounts import MASTER_STEP, exact, small, typed_words


@dataclass(frozen=True, slots=True)
class Fact:
    """One thing that is said of something."""

    label: str
    words: str


def facts_of(body: Body, shop: ShopState) -> tuple[Fact, ...]:
    """What an entry says, without its code."""
    found = [Fact(label, words) for label, words in _facts(body, shop) if words]
    return tuple(found + ([Fact("reason", body.reason)] if body.reason else []))


def changes(before: Body, after: Body, shop: ShopState) -> str:
    """What a later state says otherwise than the one before, in one line."""
    old = {each.label: each.words for each in facts_of(before, shop)}
    new = {each.label: each.words for each in facts_of(after, shop)}
    parts = [
        f"{label} {words}" + (f", was {old[label]}" if label in old else "")
        for label, words in new.items()
        if old.get(label) != words and label != "reason"
    ]
    parts += [f"no {label}, was {words}" for label, words in old.items() if label not in new | {"reason": ""}]
    return "; ".join(parts) or "said again, with nothing changed"


@singledispatch
def _facts(body: Body, shop: ShopState) -> Iterator[tuple[str, str]]:
    """What an entry of some other kind says: its fields as they are."""
    del shop
    for name, value in body.model_dump(mode="json", exclude={"supersedes", "reason", *body.secret}).items():
        yield name.replace("_", " "), "" if value is None else str(value)


@_facts.register
def _(body: kinds.Person, shop: ShopState) -> Iterator[tuple[str, str]]:
    del shop
    yield "name", body.name
    yield "role", body.role or ""
    yield "drag", f"calls a blade dragging at {small(body.drag, 'mm')} over it"
    yield "drag known to", small(body.drag_uncertainty, "mm")


@_facts.register
def _(body: kinds.Instrument, shop: ShopState) -> Iterator[tuple[str, str]]:
    del shop
    yield "title", body.title
    yield "kind", body.type
    yield "reads", body.unit
    yield "division", small(body.resolution, body.unit)
    freedom = body.repeatability_degrees_of_freedom
    behind = f", from {freedom:.3g} degrees of freedom" if freedom is not None else ""
    yield "repeatability", small(body.repeatability, body.unit) + behind
    yield "uncertainty without a calibration", _or_none(body.calibration_uncertainty, body.unit)
    yield "each setting adds", _or_none(body.transfer_uncertainty, body.unit)
    yield "set against a master", "yes" if body.comparison else ""
    ends = (body.range_low, body.range_high)
    low, high = ("" if end is None else f"{exact(end, body.unit)} {body.unit}" for end in ends)
    yield "range", f"{low} to {high}" if low and high else (f"from {low}" if low else high and f"to {high}")
    yield "zero", "" if body.zero_limit is None else f"off by {small(body.zero_limit, body.unit)} at most"
    yield "figures", "typical ones, not this gauge's own" if body.typical else ""
    yield "note", body.note or ""


def _or_none(value: float, unit: str) -> str:
    return small(value, unit) if value else ""


@_facts.register
def _(body: kinds.Calibration, shop: ShopState) -> Iterator[tuple[str, str]]:
    held = shop.instruments.get(body.instrument)
    unit = held.body.unit if held is not None else "mm"
    yield "of", body.instrument
    yield "date", body.date or ""
    yield "certificate", body.certificate or ""
    said = "never calibrated: a typical figure, " if body.never else ""
    yield "uncertainty", f"{said}{small(body.standard_uncertainty, unit)}"
    yield "degrees of freedom", "" if body.degrees_of_freedom is None else f"{body.degrees_of_freedom:.3g}"
    yield "added to each reading", _or_none(body.correction, unit)


@_facts.register
def _(body: kinds.Setting, shop: ShopState) -> Iterator[tuple[str, str]]:
    held = shop.instruments.get(body.instrument)
    unit = held.body.unit if held is not None else "mm"
    yield "gauge", body.instrument
    yield "set to", typed_words(body.size, MASTER_STEP) if body.size is not None else ""
    yield "against", body.against or ""
    yield "in the gauge", body.master or ""
    yield "that stood in", body.master_setting or ""
    yield "zero", f"shows {typed_words(body.zero)} where it should show nothing" if body.zero else ""
    yield "uncertainty of what it was set on", _or_none(body.standard_uncertainty, unit)
    yield "sitting", body.sitting or ""


@_facts.register
def _(body: kinds.CheckBack, shop: ShopState) -> Iterator[tuple[str, str]]:
    del shop
    yield "of setting", body.setting
    yield "drift", shown_words(body.drift)
    yield "sitting", body.sitting or ""


@_facts.register
def _(body: kinds.BladeSet, shop: ShopState) -> Iterator[tuple[str, str]]:
    del shop
    yield "title", body.title
    yield "what they are", "plug gauges" if body.plugs else "feeler blades"
    for blade in body.blades:
        state = "" if blade.available else ", missing or worn out"
        how = "measured" if blade.measured else "as marked"
        uncertainty = f"u {small(blade.standard_uncertainty, 'mm')}"
        yield f"blade {blade.marking}", f"{small(blade.thickness, 'mm')} {how}, {uncertainty}{state}"


@_facts.register
def _(body: kinds.GaugeStudy, shop: ShopState) -> Iterator[tuple[str, str]]:
    del shop
    yield "gauge", body.instrument
    yield "people", ", ".join(dict.fromkeys(each.person for each in body.readings))
    yield "parts", ", ".join(dict.fromkeys(each.part for each in body.readings))
    yield "readings", f"{len(body.readings)}: {' '.join(each.indication.typed for each in body.readings)}"
    yield "to judge a band of", typed_words(body.limit_band) if body.limit_band is not None else ""
    yield "note", body.note or ""


@_facts.register
def _(body: kinds.ShopSetting, shop: ShopState) -> Iterator[tuple[str, str]]:
    del shop
    yield body.name, body.value


def shown_words(drift: kinds.Typed) -> str:
    """What a gauge showed on its master when it was looked at again."""
    return f"shows {typed_words(drift)} too much" if drift.si else "shows the same"


def setting_words(body: kinds.Setting) -> str:
    """What a gauge was set to, on what, and what it showed at nothing."""
    parts = []
    if body.size is not None:
        parts.append(f"set to {typed_words(body.size, MASTER_STEP)}")
    if body.master is not None:
        stood = f" ({body.master_setting})" if body.master_setting else ""
        parts.append(f"in {body.master}{stood}")
    if body.against and not (body.master and body.against == f"in {body.master}"):
        parts.append(f"{'on ' if body.master is None else ''}{body.against}")
    if body.zero is not None:
        parts.append(f"zero {body.zero.typed}")
    return ", ".join(parts) or "on its own standard"
