"""Where the fasteners of a group sit on the picture: to scale, or in rows where no pattern was given."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import ceil, hypot, inf
from typing import Final

from fitwright.model.fastener import Fastener

Point = tuple[float, float]

SIDE: Final = 58.0
NARROW_SIDE: Final = 0.11
"""Room left and right of the outermost heads, for words; on a narrow picture a share of its width."""
ABOVE: Final = 44.0
BELOW: Final = 74.0
"""Room above the topmost head and below the lowest, for words."""
TALLEST: Final = 560.0
LARGEST_HEAD, SMALLEST_HEAD = 17.0, 9.0
MOST_IN_A_ROW: Final = 6
_ROW_STEP: Final = 108.0


@dataclass(frozen=True, slots=True)
class Layout:
    """Where each fastener stands on the picture, how large heads are, and how high it all is.

    `is_pattern` says that the places are those of the sheet, to scale.
    """

    places: Mapping[str, Point]
    head: float
    height: float
    nearest: float
    is_pattern: bool


def layout_of(fasteners: Sequence[Fastener], width: float) -> Layout:
    """The places of fasteners on a picture of a width; in rows unless every one has its place."""
    given = [(each.id, each.x, each.y) for each in fasteners if each.x is not None and each.y is not None]
    if given and len(given) == len(fasteners):
        return _to_scale(given, width)
    return _in_rows([each.id for each in fasteners], width)


def _to_scale(given: Sequence[tuple[str, float, float]], width: float) -> Layout:
    left, right = min(x for _, x, _ in given), max(x for _, x, _ in given)
    low, high = min(y for _, _, y in given), max(y for _, _, y in given)
    scale = min(_room(width - 2.0 * _side(width), right - left), _room(TALLEST - ABOVE - BELOW, high - low))
    scale = scale if scale < inf else 0.0
    shift = (width - scale * (right - left)) / 2.0
    places = {name: (shift + scale * (x - left), ABOVE + scale * (high - y)) for name, x, y in given}
    return _layout(places, ABOVE + BELOW + scale * (high - low), is_pattern=True)


def _side(width: float) -> float:
    return min(SIDE, NARROW_SIDE * width)


def _room(room: float, span: float) -> float:
    return room / span if span > 0.0 else inf


def _in_rows(names: Sequence[str], width: float) -> Layout:
    """In one row, or in as many even rows as it takes, in the order of tightening."""
    side = _side(width)
    most = max(min(MOST_IN_A_ROW, int((width - 2.0 * side) // 90.0) + 1), 1)
    rows = max(ceil(len(names) / most), 1)
    columns = ceil(len(names) / rows)
    step = (width - 2.0 * side) / max(columns - 1, 1)
    places = {
        name: (
            side + step * (index % columns) if columns > 1 else width / 2.0,
            ABOVE + _ROW_STEP * (index // columns),
        )
        for index, name in enumerate(names)
    }
    return _layout(places, ABOVE + BELOW + _ROW_STEP * (rows - 1), is_pattern=False)


def _layout(places: Mapping[str, Point], height: float, *, is_pattern: bool) -> Layout:
    nearest = nearest_of(list(places.values()))
    head = max(min(LARGEST_HEAD, 0.3 * nearest), SMALLEST_HEAD)
    return Layout(places, head, height, nearest, is_pattern)


def nearest_of(points: Sequence[Point]) -> float:
    """How far the two nearest of some points lie apart; infinite for fewer than two."""
    return min(
        (
            hypot(one[0] - other[0], one[1] - other[1])
            for index, one in enumerate(points)
            for other in points[index + 1 :]
        ),
        default=inf,
    )
