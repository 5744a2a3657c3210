"""Dimensions of a sheet: where they lie, their places, their own consistency."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from fitwright.model.dimension import Dimension
from fitwright.model.instruments import INSTRUMENT_KINDS
from fitwright.model.problem import Path, Problem, meant
from fitwright.model.sheet import Sheet


def check_dimensions(sheet: Sheet) -> Iterator[Problem]:
    """Problems of dimensions by themselves and of two that claim the same feature."""
    carried: dict[tuple[str, str], str] = {}
    for dimension in sheet.dimensions.values():
        path: Path = ("dimensions", dimension.id)
        yield from _check_lie(dimension, path)
        yield from _check_places(dimension, path)
        yield from _check_sizes(dimension, path)
        yield from _check_instruments(dimension, path)
        if dimension.part is not None:
            earlier = carried.setdefault((dimension.part, dimension.feature), dimension.id)
            if earlier != dimension.id:
                what = f'{dimension.part} has the feature "{dimension.feature}" already, as {earlier}'
                yield Problem((*path, "feature"), what, "give this one a feature name of its own")


def _check_lie(dimension: Dimension, path: Path) -> Iterator[Problem]:
    if dimension.part is None and not dimension.through:
        yield Problem(
            path, "neither part nor through is given", 'write part = "..." or through = ["...", "..."]'
        )
    if dimension.part is not None and dimension.through:
        yield Problem((*path, "through"), "part and through are both given", "write one of them")


def _check_places(dimension: Dimension, path: Path) -> Iterator[Problem]:
    counts = Counter(place.id for place in dimension.places)
    for name, count in counts.items():
        if count > 1:
            yield Problem(path, f'the place "{name}" is given {count} times', "name each place once")
    kinds = {(place.plane is None, place.angle is None) for place in dimension.places}
    if len(kinds) > 1:
        mend = "write places alone, or planes and angles"
        yield Problem((*path, "places"), "places are given beside planes or angles", mend)


def _check_sizes(dimension: Dimension, path: Path) -> Iterator[Problem]:
    if dimension.plausible is None:
        return
    low, high = dimension.plausible
    if low.si >= high.si:
        mend = "write the smallest first, then the largest"
        yield Problem((*path, "plausible"), f"{low.written} is not below {high.written}", mend)
    elif dimension.nominal is not None and not low.si <= dimension.nominal.si <= high.si:
        what = f"{dimension.nominal.written} is outside what is called plausible"
        yield Problem((*path, "nominal"), what, f"write a size from {low.written} to {high.written}")


def _check_instruments(dimension: Dimension, path: Path) -> Iterator[Problem]:
    for kind in dimension.instruments:
        if kind not in INSTRUMENT_KINDS:
            mend = meant(kind, INSTRUMENT_KINDS) or f"kinds: {', '.join(INSTRUMENT_KINDS)}"
            yield Problem((*path, "instrument"), f'"{kind}" is no kind of instrument', mend)
