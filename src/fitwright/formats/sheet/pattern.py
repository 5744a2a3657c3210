"""From tables to the model: where the fasteners of a group sit, and in which order they are tightened."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

from fitwright.formats.sheet.amounts import AmountReader, RawAmount
from fitwright.formats.sheet.findings import Findings
from fitwright.formats.sheet.work_tables import PatternTable
from fitwright.model.bolt_pattern import Point, in_rows, on_a_circle
from fitwright.model.fastener import Fastener
from fitwright.model.problem import Path, meant
from fitwright.model.tightening_order import ORDERS, TighteningOrder

_FORMS: Final = {"circle": ("circle", "first_at"), "rows": ("columns", "rows"), "places": ("x", "y")}
_MEND: Final = (
    "write circle, or columns and rows with column_spacing and row_spacing, or x and y of each fastener"
)


class PatternReader:
    """Reads the pattern and the order of one group; faults are collected."""

    def __init__(self, amounts: AmountReader, findings: Findings, path: Path) -> None:
        """Report to `findings` below the path of the group."""
        self._amounts = amounts
        self._findings = findings
        self._path = path

    def fasteners(self, names: Sequence[str], pattern: PatternTable | None) -> tuple[Fastener, ...]:
        """The fasteners where the pattern puts them, as they are listed."""
        points = self._points(pattern, len(names)) if pattern is not None else None
        if points is None:
            return tuple(Fastener(name) for name in names)
        if len(points) != len(names):
            what = f"{len(points)} places for {len(names)} fasteners"
            self._findings.add((*self._path, "pattern"), what, "write one place for each fastener")
            return tuple(Fastener(name) for name in names)
        return tuple(Fastener(name, x, y) for name, (x, y) in zip(names, points, strict=True))

    def in_order(self, fasteners: tuple[Fastener, ...], order: Sequence[str]) -> tuple[Fastener, ...]:
        """The fasteners in the order of tightening."""
        named = next((each for each in TighteningOrder if list(order) == [each.value]), None)
        if named is not None:
            return self._by_pattern(fasteners, named)
        return self._as_named(fasteners, order) if order else fasteners

    def _points(self, pattern: PatternTable, count: int) -> tuple[Point, ...] | None:
        path: Path = (*self._path, "pattern")
        given = [
            form for form, keys in _FORMS.items() if any(getattr(pattern, key) is not None for key in keys)
        ]
        if len(given) != 1:
            what = f"{' and '.join(given)} are all given" if given else "nothing says where the fasteners sit"
            self._findings.add(path, what, _MEND)
            return None
        if given == ["circle"]:
            return self._circle(pattern, count, path)
        return self._rows(pattern, path) if given == ["rows"] else self._places(pattern, path)

    def _circle(self, pattern: PatternTable, count: int, path: Path) -> tuple[Point, ...] | None:
        if pattern.circle is None:
            self._findings.add(path, "first_at without a circle", 'write circle = "72 mm"')
            return None
        diameter = self._amounts.si(pattern.circle, "length", (*path, "circle"), positive=True)
        first = self._amounts.optional_si(pattern.first_at, "angle", (*path, "first_at"))
        return on_a_circle(count, diameter, first or 0.0)

    def _rows(self, pattern: PatternTable, path: Path) -> tuple[Point, ...]:
        across = self._distances(pattern.column_spacing, pattern.columns or 1, "column", path)
        upwards = self._distances(pattern.row_spacing, pattern.rows or 1, "row", path)
        return in_rows(across, upwards, column_by_column=pattern.filled == "column by column")

    def _distances(
        self, spacing: Sequence[RawAmount] | None, count: int, noun: str, path: Path
    ) -> tuple[float, ...]:
        key = f"{noun}_spacing"
        read = tuple(
            self._amounts.si(each, "length", (*path, key, index), positive=True)
            for index, each in enumerate(spacing or ())
        )
        if len(read) == 1:
            return read * (count - 1)
        if len(read) != count - 1:
            what = f"{len(read)} distances for {count} {noun}s"
            mend = f"write one distance, or {count - 1} of them"
            self._findings.add((*path, key) if read else path, what, mend)
            return (0.0,) * (count - 1)
        return read

    def _places(self, pattern: PatternTable, path: Path) -> tuple[Point, ...] | None:
        if pattern.x is None or pattern.y is None or len(pattern.x) != len(pattern.y):
            counts = [len(each or ()) for each in (pattern.x, pattern.y)]
            what = f"{counts[0]} of x and {counts[1]} of y"
            self._findings.add(path, what, "write an x and a y of each fastener")
            return None
        xs, ys = (
            [self._amounts.si(each, "length", (*path, key, index)) for index, each in enumerate(values)]
            for key, values in (("x", pattern.x), ("y", pattern.y))
        )
        return tuple(zip(xs, ys, strict=True))

    def _by_pattern(self, fasteners: tuple[Fastener, ...], order: TighteningOrder) -> tuple[Fastener, ...]:
        points = [(each.x, each.y) for each in fasteners if each.x is not None and each.y is not None]
        if len(points) != len(fasteners):
            what = f'the order "{order.value}" comes from a pattern, and none is given'
            self._findings.add((*self._path, "order"), what, "write pattern = { ... }, or name the fasteners")
            return fasteners
        if any(math.isnan(value) for point in points for value in point):
            return fasteners  # told already
        return tuple(fasteners[number] for number in ORDERS[order](points))

    def _as_named(self, fasteners: tuple[Fastener, ...], order: Sequence[str]) -> tuple[Fastener, ...]:
        path: Path = (*self._path, "order")
        known = {each.id: each for each in fasteners}
        for name in dict.fromkeys(order):
            if name not in known:
                mend = meant(name, [*known, *TighteningOrder]) or "write fasteners of this group"
                self._findings.add(path, f'"{name}" is no fastener of this group', mend)
            elif order.count(name) > 1:
                self._findings.add(path, f'"{name}" stands twice in the order', "name it once")
        left = [name for name in known if name not in order]
        if left:
            self._findings.add(path, f'the order leaves out "{left[0]}"', "name every fastener once")
        return tuple(known[name] for name in dict.fromkeys([*order, *left]) if name in known)
