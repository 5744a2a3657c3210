"""What a reading of a dimension is held against when it is typed: limits, nominal, plausible window.

It serves questions about slips only and judges nothing.
"""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from fitwright.model.dimension import Dimension
from fitwright.model.fit import Fit
from fitwright.model.limit import Limit, SourceKind
from fitwright.model.plausible import window_of
from fitwright.model.sheet import Sheet
from fitwright.model.slips import Window
from fitwright.units import at_resolution

SHEETS_KEPT: Final = 8


@dataclass(frozen=True, slots=True)
class Expected:
    """Limits, nominal and plausible window of one dimension [SI]; None where nothing is said.

    `source_kind` says whose the limits are; empty where there are none.
    """

    lower: float | None
    upper: float | None
    nominal: float | None
    window: Window | None
    source_kind: str = ""


class Expectations:
    """What is expected of each dimension of one sheet, worked out when first asked for."""

    def __init__(self, sheet: Sheet) -> None:
        self._sheet = sheet
        self._known: dict[str, Expected] = {}

    def of(self, dimension: Dimension) -> Expected:
        """What is expected of a dimension."""
        found = self._known.get(dimension.id)
        if found is None:
            found = self._work_out(dimension)
            self._known[dimension.id] = found
        return found

    def _work_out(self, dimension: Dimension) -> Expected:
        limit, factor = self._limit(dimension)
        lower, upper = _bounds(limit, factor) if limit is not None else (None, None)
        return Expected(
            lower=lower,
            upper=upper,
            nominal=dimension.nominal.si if dimension.nominal is not None else None,
            window=window_of(dimension, self._sheet.fits.values()),
            source_kind=self._sheet.sources[limit.source].kind.value if limit is not None else "",
        )

    def _limit(self, dimension: Dimension) -> tuple[Limit | None, float]:
        """The first limit that is more than a rule of thumb, of the dimension or of a fit read as it.

        With it the factor that turns it into what the dimension reads.
        """
        if dimension.limits:
            return self._first(dimension.limits), 1.0
        for fit, coefficient in _read_as(self._sheet, dimension):
            return self._first(fit.limits), 1.0 / coefficient
        return None, 1.0

    def _first(self, limits: tuple[Limit, ...]) -> Limit:
        sources = self._sheet.sources
        cold = [limit for limit in limits if limit.temperature_case is None] or list(limits)
        return min(cold, key=lambda each: sources[each.source].kind is SourceKind.RULE_OF_THUMB)


def _read_as(sheet: Sheet, dimension: Dimension) -> Iterator[tuple[Fit, float]]:
    """Fits that one reading of this dimension gives, with the factor between the two."""
    for fit in sheet.fits.values():
        for route in fit.routes:
            if fit.limits and len(route.chain) == 1 and route.chain[0].dimension == dimension.id:
                yield fit, route.chain[0].coefficient


def _bounds(limit: Limit, factor: float) -> tuple[float | None, float | None]:
    lower = None if limit.lower is None else limit.lower.si * factor
    upper = None if limit.upper is None else limit.upper.si * factor
    return (lower, upper) if factor > 0.0 else (upper, lower)


_KEPT: OrderedDict[str, Expectations] = OrderedDict()


def expected_of(sheet: Sheet, dimension: Dimension) -> Expected:
    """What is expected of a dimension; kept for the sheets used last, which their digest names."""
    if not sheet.digest:
        return Expectations(sheet).of(dimension)
    found = _KEPT.get(sheet.digest)
    if found is None:
        found = Expectations(sheet)
        _KEPT[sheet.digest] = found
        if len(_KEPT) > SHEETS_KEPT:
            _KEPT.popitem(last=False)
    return found.of(dimension)


def limits_words(expected: Expected, unit: str, quantity_dimension: str, resolution: float | None) -> str:
    """What the limits ask and whose they are, `from 49.96 to 49.98 (engine maker)`; empty where none are.

    Parameters
    ----------
    expected
        The limits [SI].
    unit, quantity_dimension
        The unit they are said in, and of which quantity it is one.
    resolution
        The finest step they are said with [SI]; None says them as they are.
    """
    texts = [
        f"{word} {at_resolution(bound, unit, quantity_dimension, resolution)}"
        for word, bound in (("from", expected.lower), ("to", expected.upper))
        if bound is not None
    ]
    return " ".join([*texts, f"({expected.source_kind})"]) if texts else ""
