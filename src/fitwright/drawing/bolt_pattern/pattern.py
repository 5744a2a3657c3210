"""The drawing of a tightening group: heads where they sit, numbers by order of tightening, words beside."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Final

from fitwright.assess.results import Verdict
from fitwright.drawing.bolt_pattern.heads import NEXT, RING, head, touch
from fitwright.drawing.bolt_pattern.places import Layout, Point, layout_of
from fitwright.drawing.bolt_pattern.shown import FastenerShown
from fitwright.drawing.canvas import Canvas, Picture
from fitwright.drawing.writing import TextBox
from fitwright.model.fastener import TighteningGroup, readable_names

PAGE: Final = 780.0
TO_SCALE: Final = "To scale, as one looks at the heads. Numbers: the order of tightening."
IN_ROWS: Final = (
    "The sheet gives no places for these fasteners: they stand in the order of tightening, not as they sit."
)
RINGS: Final = "Ring: one arc for each pass, clockwise from the top; heavy where it was done."
POINTER: Final = "Pointer and outer ring: next."
MORE_BELOW: Final = "Where there was no room, the figures stand in the list alone."


def bolt_pattern(
    group: TighteningGroup, shown: Sequence[FastenerShown] = (), *, width: float = PAGE, ids: bool = True
) -> Picture:
    """A group drawn as its bolt pattern.

    Parameters
    ----------
    group : TighteningGroup
        Fasteners in the order of tightening; to scale where each has its place, else in rows.
    shown : sequence of FastenerShown
        What each has got; a fastener that is not among them is drawn with its number alone.
    width : float
        Width in units of 1 px.
    ids : bool
        Whether the name of each position is written beside it.

    Returns
    -------
    Picture
        SVG text; `bolt_pattern.css` and `oil_pictures.css` have its style.
    """
    canvas = Canvas(width)
    said = {each.id: each for each in shown}
    canvas.links = any(each.address for each in shown)
    layout = layout_of(group.fasteners, width)
    names = readable_names(group)
    everyone = [said.get(each.id, FastenerShown(each.id, names[each.id])) for each in group.fasteners]
    for order, each in enumerate(everyone, start=1):
        canvas.put(_drawn(layout, each, order))
    left_out = _write_all(canvas, layout, everyone, ids=ids)
    foot = layout.height + 14.0
    for note in _notes(layout, everyone, left_out=left_out):
        foot = canvas.paragraph(0.0, foot, note, width, "small")
    return canvas.picture(foot - 4.0, f"Bolt pattern: {group.title}", _described(everyone), "bolt-pattern")


def _drawn(layout: Layout, shown: FastenerShown, order: int) -> str:
    place = layout.places[shown.id]
    inside = head(place, layout.head, shown, order)
    if not shown.address:
        return f"<g>{inside}</g>"
    label = _named(shown, order)
    return touch(place, layout.head + RING, shown, label, inside, layout.nearest)


def _write_all(canvas: Canvas, layout: Layout, everyone: Iterable[FastenerShown], *, ids: bool) -> bool:
    """The words beside each head, as far as there is room; whether some were left out."""
    heads = [_box(layout, place) for place in layout.places.values()]
    canvas.texts.extend(heads)
    complete = True
    for each in everyone:
        complete &= _write_beside(canvas, layout, each, ids=ids)
    del canvas.texts[: len(heads)]
    return not complete


def _box(layout: Layout, place: Point) -> TextBox:
    """The room of a head, which no words may cover."""
    reach = layout.head + RING + 2.0
    return TextBox("", place[0] - reach, place[1] - reach, 2.0 * reach + 10.0, 2.0 * reach)


def _write_beside(canvas: Canvas, layout: Layout, shown: FastenerShown, *, ids: bool) -> bool:
    """Words below, above, or beside a head; the most telling first."""
    place = layout.places[shown.id]
    lines = [(shown.called, "small")] if ids else []
    lines += [(each, "number") for each in shown.figures[:1]]
    lines += [(shown.word, "title")] if shown.word and shown.verdict is not Verdict.WITHIN else []
    for rank, (words, hand) in enumerate(reversed(lines)):
        if canvas.write_near(_around(layout, place, rank), words, hand, (0.0, layout.height)) is None:
            return False
    return True


def _around(layout: Layout, place: Point, rank: int) -> Iterable[tuple[float, float, str]]:
    x, y = place
    clear = layout.head + RING + 4.0
    for step in (0, 1, 2):
        yield x, y + clear + 11.0 + 15.0 * step, "middle"
    for step in (0, 1):
        yield x, y - clear - NEXT - 8.0 - 15.0 * step, "middle"
    for step in (rank, 0, 1, 2):
        yield x + clear + 14.0, y + 4.0 + 15.0 * step, "start"
        yield x - clear - 4.0, y + 4.0 + 15.0 * step, "end"


def _notes(layout: Layout, everyone: Sequence[FastenerShown], *, left_out: bool) -> list[str]:
    notes = [TO_SCALE if layout.is_pattern else IN_ROWS]
    notes += [RINGS] if any(len(each.passes) > 1 for each in everyone) else []
    notes += [POINTER] if any(each.next for each in everyone) else []
    return [*notes, *([MORE_BELOW] if left_out else [])]


def _named(shown: FastenerShown, order: int) -> str:
    """A fastener in one line, for who cannot see the drawing."""
    said = (shown.word, shown.passes_words, ", ".join(shown.figures), "next" if shown.next else "")
    return ", ".join((f"{order}: {shown.called}", *filter(None, dict.fromkeys(said))))


def _described(everyone: Sequence[FastenerShown]) -> str:
    return "; ".join(_named(each, order) for order, each in enumerate(everyone, start=1)) + "."
