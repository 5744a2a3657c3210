"""The size expected of a dimension about to be read: stated in the sheet, or known from what was read.

It serves short entries and questions about slips, and judges nothing.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from fitwright.bench.context import Bench
from fitwright.model.dimension import Dimension
from fitwright.model.fit import FitKind
from fitwright.records.kinds import ValueObservation
from fitwright.records.projection import ReadingRecord

_ALIKE: Final = frozenset(
    {FitKind.RUNNING_CLEARANCE, FitKind.INTERFERENCE, FitKind.SIDE_CLEARANCE, FitKind.END_FLOAT}
)
"""Fits of two members that are nearly of one size."""


def size_expected(bench: Bench, dimension: Dimension) -> float | None:
    """The size that a dimension is expected to read [SI]; None where nothing tells.

    Its nominal; without one, what was read of it last, of another of its family, or of the member
    that it runs or sits on (that member's nominal, where it was not read either).
    """
    if dimension.nominal is not None:
        return dimension.nominal.si
    own = size_read(bench, dimension)
    if own is not None:
        return own
    for size in (_of_family(bench, dimension), *_of_mates(bench, dimension)):
        if size is not None:
            return size
    return None


def size_read(bench: Bench, dimension: Dimension) -> float | None:
    """What was read of a dimension last, at any of its places [SI]; None where nothing stands."""
    for record in reversed(bench.build.readings_of(dimension.feature)):
        if record.dimension == dimension.id and (size := _size(record)) is not None:
            return size
    return None


def _size(record: ReadingRecord) -> float | None:
    observation = record.body.observation
    return observation.value.si if record.effective and isinstance(observation, ValueObservation) else None


def _of_family(bench: Bench, dimension: Dimension) -> float | None:
    dimensions = bench.sheet.dimensions
    for record in reversed(list(bench.build.readings.values())):
        other = dimensions.get(record.dimension or "")
        if other is None or dimension.family is None or other.family != dimension.family:
            continue
        size = _size(record)
        if size is not None:
            return size
    return None


def _of_mates(bench: Bench, dimension: Dimension) -> Iterator[float | None]:
    for fit in bench.sheet.fits.values():
        for route in fit.routes if fit.kind in _ALIKE else ():
            factors = {term.dimension: term.coefficient for term in route.chain}
            if len(factors) != 2 or dimension.id not in factors or sum(factors.values()) != 0.0:
                continue
            mate = bench.sheet.dimensions[next(name for name in factors if name != dimension.id)]
            read = size_read(bench, mate)
            yield mate.nominal.si if read is None and mate.nominal is not None else read
