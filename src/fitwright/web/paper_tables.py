"""A station as tables of boxes: the same on a printed sheet and where it is typed in."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final, NamedTuple

from markupsafe import Markup

from fitwright.bench.context import Bench
from fitwright.bench.expected import expected_of, limits_words
from fitwright.bench.order import Stop
from fitwright.bench.paper import DID, Box, Group, Line, settings_for
from fitwright.drawing.part_place import part_place_drawing
from fitwright.drawing.part_place.spots import spots_of
from fitwright.model.dimension import Dimension
from fitwright.records.kinds import Setting
from fitwright.units.senses import DIMENSION_OF
from fitwright.web.forms import Option

MOST_COLUMNS: Final = 6
"""So many places of one dimension stand beside each other; more stand below each other."""
SIZE: Final = "size"
"""Names the box for a size, as `bench.paper.DID` names those for blades."""
FINEST: Final = 1e-6
"""Lengths of limits are written to this [m]."""


@dataclass(frozen=True, slots=True)
class Choice:
    """One answer to a question."""

    value: str
    words: str


@dataclass(frozen=True, slots=True)
class Earlier:
    """An answer given before to another question about the same size."""

    name: str
    answer: str


@dataclass(frozen=True, slots=True)
class NotePart:
    """What has to be said of one place: what is wrong there (refused), or a question with its answers."""

    id: str
    place: str
    words: str
    state: str
    answer_name: str = ""
    key_name: str = ""
    key: str = ""
    choices: tuple[Choice, ...] = ()
    earlier: tuple[Earlier, ...] = ()


@dataclass(frozen=True, slots=True)
class CellPart:
    """A box: what is printed in it, the field that it is typed into, and what is kept of it."""

    name: str
    head: str
    words: str
    lead: str
    blanks: str
    unit: str
    lead_name: str
    typed: str
    kept: str
    note: str


@dataclass(frozen=True, slots=True)
class RowPart:
    """A line of a table: what is measured, its boxes, what has to be said of them."""

    title: str
    place: str
    cells: tuple[CellPart, ...]
    notes: tuple[NotePart, ...]


@dataclass(frozen=True, slots=True)
class TablePart:
    """The boxes of one family of dimensions."""

    title: str
    facts: str
    drawing: Markup
    setting_name: str
    settings: tuple[Option, ...]
    heads: tuple[str, ...]
    rows: tuple[RowPart, ...]


class PlaceTyped(NamedTuple):
    """What was typed at a place from paper, what of it is kept, and what has to be said of it."""

    size: str = ""
    blades: Mapping[str, str] = MappingProxyType({})
    kept: Mapping[str, str] = MappingProxyType({})
    note: NotePart | None = None


Typed = Mapping[Stop, PlaceTyped]
NOTHING_TYPED: Final = PlaceTyped()
NOTHING: Final[Mapping[str, str]] = MappingProxyType({})


def tables_of(
    bench: Bench,
    groups: tuple[Group, ...],
    typed: Typed | None = None,
    *,
    chosen: Mapping[str, str] = NOTHING,
) -> tuple[TablePart, ...]:
    """The tables of a station as printed; as a form with what was typed and the settings chosen."""
    return tuple(_table(bench, group, typed or {}, chosen, drawn=typed is None) for group in groups)


def setting_field(group: Group) -> str:
    """The name of the field that says in which setting the sizes of a group were read."""
    return f"set|{group.first.id}"


def _settings(bench: Bench, group: Group, chosen: str) -> Iterator[Option]:
    if group.lines[0].boxes[0].by_value:
        for each in settings_for(bench, group.first):
            yield Option(each.code, setting_words(each), each.code == chosen)


def setting_words(setting: Setting) -> str:
    """A setting in words: its code, its gauge, the size that it was set to."""
    size = f" at {setting.size.typed}" if setting.size is not None else ""
    return f"{setting.code}: {setting.instrument}{size}"


def field_name(what: str, stop: Stop) -> str:
    """The name of the field for a box."""
    return f"{what}|{stop.dimension}|{stop.place}"


def place_words(bench: Bench, dimension: Dimension, place: str) -> str:
    """A place in words; "size" where a dimension is taken in one place only."""
    spot = next(each for each in spots_of(dimension) if each.id == place)
    return spot.words(bench.sheet.engine.directions) or SIZE


def _table(bench: Bench, group: Group, typed: Typed, chosen: Mapping[str, str], *, drawn: bool) -> TablePart:
    first, last = group.lines[0], group.lines[-1]
    beside = not first.boxes[0].by_blades and len(first.boxes) <= MOST_COLUMNS
    rows = _beside(bench, group, typed) if beside else _below(bench, group, typed)
    drawing = ""
    if drawn:
        drawing = part_place_drawing(bench.sheet, first.dimension, first.boxes[0].place, ())
    return TablePart(
        title=from_to(first.dimension.title, last.dimension.title),
        facts=_facts(bench, first.dimension, first.boxes[0]),
        drawing=Markup(drawing),  # noqa: S704  (our own drawing)
        setting_name=setting_field(group),
        settings=tuple(_settings(bench, group, chosen.get(setting_field(group), ""))),
        heads=tuple(_heads(bench, first, beside=beside)),
        rows=tuple(rows),
    )


def from_to(first: str, last: str) -> str:
    """The title of a family, from its first to its last; said short where one word differs.

    >>> from_to("Main 1 upper shell, wall", "Main 6 upper shell, wall")
    'Main 1 to 6 upper shell, wall'
    >>> from_to("Stroke", "Stroke")
    'Stroke'
    """
    ones, others = first.split(), last.split()
    if len(ones) != len(others):
        return f"{first} to {last}"
    differing = [index for index, pair in enumerate(zip(ones, others, strict=True)) if pair[0] != pair[1]]
    if not differing:
        return first
    if len(differing) > 1:
        return f"{first} to {last}"
    at = differing[0]
    return " ".join([*ones[: at + 1], "to", *others[at:]])


def _heads(bench: Bench, line: Line, *, beside: bool) -> Iterator[str]:
    if beside:
        yield from (place_words(bench, line.dimension, box.place.id) for box in line.boxes)
        return
    box = line.boxes[0]
    if box.by_value:
        yield SIZE
    if box.by_blades:
        yield from DID


def _beside(bench: Bench, group: Group, typed: Typed) -> Iterator[RowPart]:
    """A line for each dimension, its places beside each other."""
    for line in group.lines:
        cells = tuple(_size_cell(bench, line.dimension, box, typed) for box in line.boxes)
        notes = tuple(_notes(line.boxes, typed))
        yield RowPart(line.dimension.title, "", cells, notes)


def _below(bench: Bench, group: Group, typed: Typed) -> Iterator[RowPart]:
    """A line for each place: a size, or what blades did."""
    for line in group.lines:
        for box in line.boxes:
            words = place_words(bench, line.dimension, box.place.id)
            place = words if len(line.boxes) > 1 else ""
            cells = tuple(_cells(bench, line.dimension, box, typed))
            yield RowPart(line.dimension.title, place, cells, tuple(_notes((box,), typed)))


def _cells(bench: Bench, dimension: Dimension, box: Box, typed: Typed) -> Iterator[CellPart]:
    if box.by_value:
        yield _size_cell(bench, dimension, box, typed)
    if box.by_blades:
        there = typed.get(box.stop, NOTHING_TYPED)
        name = _name(bench, dimension, box)
        for did in DID:
            yield CellPart(
                name=field_name(did, box.stop),
                head=did,
                words=f"{name}: blade that {did}",
                lead="",
                blanks="",
                unit="",
                lead_name="",
                typed=there.blades.get(did, ""),
                kept=there.kept.get(did, ""),
                note=there.note.id if there.note is not None else "",
            )


def _size_cell(bench: Bench, dimension: Dimension, box: Box, typed: Typed) -> CellPart:
    there = typed.get(box.stop, NOTHING_TYPED)
    return CellPart(
        name=field_name(SIZE, box.stop),
        head=place_words(bench, dimension, box.place.id),
        words=f"{_name(bench, dimension, box)}, in {box.unit}",
        lead=box.lead,
        blanks="_" * box.blanks,
        unit=box.unit,
        lead_name=field_name("lead", box.stop) if box.lead else "",
        typed=there.size,
        kept=there.kept.get(SIZE, ""),
        note=there.note.id if there.note is not None else "",
    )


def _name(bench: Bench, dimension: Dimension, box: Box) -> str:
    words = place_words(bench, dimension, box.place.id)
    return dimension.title if words == SIZE else f"{dimension.title}, {words}"


def _notes(boxes: tuple[Box, ...], typed: Typed) -> Iterator[NotePart]:
    for box in boxes:
        note = typed.get(box.stop, NOTHING_TYPED).note
        if note is not None:
            yield note


def _facts(bench: Bench, dimension: Dimension, box: Box) -> str:
    """Condition, gauges and limits of a dimension, as far as the sheet says them."""
    condition = bench.sheet.conditions.get(dimension.condition or "")
    said = [condition.title if condition is not None else "", " or ".join(dimension.instruments)]
    said.append(_limits(bench, dimension, box.unit))
    said.append("" if box.by_blades and not box.by_value else f"in {_unit_words(box.unit)}")
    return "; ".join(each for each in said if each)


def _unit_words(unit: str) -> str:
    return "inches" if unit == "in" else unit


def _limits(bench: Bench, dimension: Dimension, unit: str) -> str:
    quantity = DIMENSION_OF[dimension.sense]
    finest = FINEST if quantity == "length" else None
    return limits_words(expected_of(bench.sheet, dimension), unit, quantity, finest)
