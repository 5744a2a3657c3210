"""What can be asked on the page: units, an operating point of one's own, sliders."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from fitwright.units.families import shop_unit
from fitwright.units.rounding import in_unit
from fitwright.web.addresses import oil_address
from fitwright.web.pages.choices import UNIT_LABELS, Choice
from fitwright.web.pages.oil.asked import CHOSEN, MOVED, OilQuestion, point_texts
from fitwright.web.pages.oil.moving import OilOption, SliderField, slider_field


@dataclass(frozen=True, slots=True)
class Hidden:
    """A field of a form that is not shown."""

    name: str
    value: str


@dataclass(frozen=True, slots=True)
class PointForm:
    """Speed and oil temperature of an operating point of one's own; its limits in the reader's units."""

    action: str
    hidden: tuple[Hidden, ...]
    speed: str
    top_speed: str
    temperature: str
    coldest: str
    hottest: str
    unit: str
    chosen: bool


@dataclass(frozen=True, slots=True)
class WhatIfForm:
    """What may be moved; `answer` is where a part of the page asks while it is moved."""

    action: str
    answer: str
    hidden: tuple[Hidden, ...]
    oils: tuple[OilOption, ...]
    sliders: tuple[SliderField, ...]
    folded: tuple[SliderField, ...]
    open: bool


def unit_choices(question: OilQuestion) -> tuple[Choice, ...]:
    """The same in millimetres or inches."""
    return tuple(
        Choice(label, question.address(family=each), each == question.family)
        for each, label in UNIT_LABELS.items()
    )


def what_if_form(question: OilQuestion) -> WhatIfForm:
    """The sliders as they stand."""
    desk, family = question.desk, question.family
    texts = question.texts or {}
    fields = [(each, slider_field(each, question.moved, texts, family, MOVED)) for each in desk.sliders]
    return WhatIfForm(
        action=oil_address(question.code, family).partition("?")[0],
        answer=oil_address(question.code, family, "/answer").partition("?")[0],
        hidden=tuple(_hidden(question, keeps_moved=False)),
        oils=tuple(_oils(question)),
        sliders=tuple(field for each, field in fields if not each.folded),
        folded=tuple(field for each, field in fields if each.folded),
        open=any(field.moved for each, field in fields if each.folded),
    )


def _oils(question: OilQuestion) -> Iterator[OilOption]:
    filled = question.desk.case.filling.oil
    now = filled.title if filled is not None else "none"
    yield OilOption("", f"as filled: {now}", not question.moved.oil)
    for each in question.desk.case.sheet.oils.values():
        if filled is None or each.id != filled.id:
            yield OilOption(each.id, each.title, question.moved.oil == each.id)


def _hidden(question: OilQuestion, *, keeps_moved: bool, keeps_point: bool = True) -> Iterator[Hidden]:
    asked = question.asked()
    yield Hidden("units", question.family)
    for name, value in asked.items():
        if name.startswith(MOVED) and not keeps_moved:
            continue
        if name in {"at", "speed", "temperature"} and not keeps_point:
            continue
        yield Hidden(name, value)


def point_form(question: OilQuestion) -> PointForm:
    """Speed and oil temperature of one's own, as they stand."""
    family, circuit = question.family, question.desk.circuit
    assert circuit is not None  # noqa: S101 - there is a prediction
    own = question.own_point
    unit = shop_unit("temperature", family)
    texts = point_texts(own, family) if own is not None else {}
    warmest = max(each.si for each in circuit.oil_temperatures)
    temperature = f"{in_unit(warmest, unit, 'temperature'):.0f}"
    top = f"{in_unit(circuit.top_speed.si, 'rpm', 'angular_speed'):.0f}"
    idle = f"{in_unit(circuit.idle_speed.si, 'rpm', 'angular_speed'):.0f}"
    return PointForm(
        action=oil_address(question.code, family).partition("?")[0],
        hidden=(*_hidden(question, keeps_moved=True, keeps_point=False), Hidden("at", CHOSEN)),
        speed=texts.get("speed", idle),
        top_speed=top,
        temperature=texts.get("temperature", temperature),
        coldest="-20" if family == "mm" else "0",
        hottest="150" if family == "mm" else "300",
        unit="°C" if family == "mm" else "°F",
        chosen=own is not None,
    )
