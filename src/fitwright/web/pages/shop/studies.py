"""Gauge studies: listed with their result, a new one entered on a grid of people, parts and repeats."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar, Final

from fitwright.bench.shelf import next_code
from fitwright.bench.studies import study_from
from fitwright.records.kinds import GaugeStudy, Instrument
from fitwright.records.projection import ShopState
from fitwright.units import definition_of
from fitwright.web.frame import Frame
from fitwright.web.numbers import whole_number
from fitwright.web.pages.choices import Choice
from fitwright.web.pages.shop.amounts import gauge_words
from fitwright.web.pages.shop.entering import Asking, EntryForm, FormOf, Link, Made, Order, Pick, shop_route
from fitwright.web.pages.shop.study_result import result_of
from fitwright.web.pages.shop.ways import shop_frame, shop_ways, thing_address
from fitwright.web.whose import when_written

SIZES: Final = {"people": (2, 2, 4), "parts": (5, 2, 10), "repeats": (2, 2, 3)}
"""How many of each a study usually has, has at least, and has at most on this page."""


@dataclass(frozen=True, slots=True)
class StudyLine:
    """One study in a line."""

    code: str
    address: str
    gauge: str
    words: str
    verdict: str
    when: str


@dataclass(frozen=True, slots=True)
class Cell:
    """One reading of the grid."""

    name: str
    label: str
    value: str


@dataclass(frozen=True, slots=True)
class GridRow:
    """One part as every person read it."""

    part: str
    part_name: str
    cells: tuple[tuple[Cell, ...], ...]


@dataclass(frozen=True, slots=True)
class Grid:
    """The grid of a new study: names of people along the top, parts down the side."""

    people: tuple[Cell, ...]
    rows: tuple[GridRow, ...]
    repeats: int


@dataclass(frozen=True, slots=True)
class SizeField:
    """How many of something the grid has."""

    name: str
    label: str
    picks: tuple[Pick, ...]


@dataclass(frozen=True, slots=True)
class StudiesContext:
    """The page Gauge studies."""

    template: ClassVar[str] = "shop/studies.html"
    frame: Frame
    ways: tuple[Choice, ...]
    studies: tuple[StudyLine, ...]
    gauges: tuple[Pick, ...]
    sizes: tuple[SizeField, ...]
    grid: Grid | None
    form: EntryForm | None


def _studies(asking: Asking) -> StudiesContext:
    shop = asking.hands.shop.state
    gauge = _gauge(asking)
    grid = _grid(asking) if gauge is not None else None
    return StudiesContext(
        frame=shop_frame(asking.hands, "Gauge studies"),
        ways=shop_ways("Studies"),
        studies=tuple(_line(shop, held.body, when_written(shop, held.entry)) for held in _newest(shop)),
        gauges=tuple(
            Pick(each.code, gauge_words(each), gauge is not None and each.code == gauge.code)
            for each in _of_lengths(shop)
        ),
        sizes=tuple(_sizes(asking)),
        grid=grid,
        form=_form(asking, gauge) if gauge is not None else None,
    )


def _newest(shop: ShopState) -> list:  # type: ignore[type-arg]
    return sorted(shop.studies.values(), key=lambda held: -held.entry.seq)


def _line(shop: ShopState, body: GaugeStudy, when: str) -> StudyLine:
    held = shop.instruments.get(body.instrument)
    found = result_of(body)
    return StudyLine(
        code=body.code,
        address=thing_address("studies", body.code),
        gauge=gauge_words(held.body) if held is not None else body.instrument,
        words=found.size,
        verdict=found.verdict,
        when=when,
    )


def _of_lengths(shop: ShopState) -> Iterator[Instrument]:
    for held in shop.instruments.values():
        if definition_of(held.body.unit).dimension == "length":
            yield held.body


def _asked(asking: Asking, name: str) -> str:
    """What the address asks for, or the form that was sent."""
    typed = asking.typed("study")
    return typed.get(name) if typed is not None else asking.query.get(name, "")


def _gauge(asking: Asking) -> Instrument | None:
    held = asking.hands.shop.state.instruments.get(_asked(asking, "gauge"))
    return held.body if held is not None else None


def _size(asking: Asking, name: str) -> int:
    usual, least, most = SIZES[name]
    number = whole_number(_asked(asking, name))
    return min(max(number, least), most) if number is not None else usual


def _sizes(asking: Asking) -> Iterator[SizeField]:
    for name, (_, least, most) in SIZES.items():
        chosen = _size(asking, name)
        picks = (Pick(str(each), str(each), each == chosen) for each in range(least, most + 1))
        yield SizeField(name, name.capitalize(), tuple(picks))


def _grid(asking: Asking) -> Grid:
    people, parts, repeats = (_size(asking, name) for name in SIZES)
    typed = asking.typed("study")

    def value(name: str, default: str = "") -> str:
        return default if typed is None else typed.get(name)

    names = [held.body.name for held in asking.hands.shop.state.people.values()]
    heads = tuple(
        Cell(f"person-{index}", f"Person {index + 1}", value(f"person-{index}", _name(names, index)))
        for index in range(people)
    )
    rows = tuple(
        GridRow(
            part=value(f"part-{row}", str(row + 1)),
            part_name=f"part-{row}",
            cells=tuple(
                tuple(
                    Cell(
                        f"r-{person}-{row}-{repeat}",
                        f"Person {person + 1}, part {row + 1}, reading {repeat + 1}",
                        value(f"r-{person}-{row}-{repeat}"),
                    )
                    for repeat in range(repeats)
                )
                for person in range(people)
            ),
        )
        for row in range(parts)
    )
    return Grid(heads, rows, repeats)


def _name(names: list[str], index: int) -> str:
    return names[index] if index < len(names) else f"Person {index + 1}"


def _form(asking: Asking, gauge: Instrument) -> EntryForm:
    form = FormOf(asking, "study")
    shop = asking.hands.shop.state
    return form.made(
        f"Study {gauge_words(gauge)}",
        [
            form.hidden("gauge", gauge.code),
            *(form.hidden(name, str(_size(asking, name))) for name in SIZES),
            form.text("code", "Code of the study", next_code("GS-", shop.studies), required=True),
            form.amount(
                "limit_band",
                "It is to judge a band of",
                unit=gauge.unit,
                hint="how far apart the limits are; 0.020 mm for 0.045 to 0.065 mm",
            ),
            form.text("note", "Note", hint="how the parts were held, how warm it was"),
        ],
        intro=f"Every person reads every part as often as the others, and does not see what was read before. "
        f"A number without a unit is in {gauge.unit}.",
        button="Enter the study",
        is_open=True,
    )


def _enter(order: Order) -> Made:
    sent = order.sent
    counts = [whole_number(sent.get(name)) or 0 for name in SIZES]
    people, parts, repeats = (min(count, SIZES[name][2]) for name, count in zip(SIZES, counts, strict=True))
    readings = [
        (sent.get(f"person-{person}"), sent.get(f"part-{part}"), text)
        for person in range(people)
        for part in range(parts)
        for repeat in range(repeats)
        if (text := sent.get(f"r-{person}-{part}-{repeat}"))
    ]
    body = study_from(
        order.hands.shop.state,
        order.free_code(order.hands.shop.state.studies, "A study"),
        order.wanted("gauge", "The gauge"),
        readings,
        limit_band=order.optional("limit_band"),
        note=order.optional("note"),
    )
    entry = order.hands.shop.entry(body, person=order.person, entry_id=order.entry_id)
    found = result_of(body)
    link = Link(f"Open {body.code}, take its repeatability over", thing_address("studies", body.code))
    return Made([entry], f"{body.code}: {found.verdict}", lambda: (link,))


ROUTES = [shop_route("/shop/studies", "studies", _studies, {"study": _enter})]
