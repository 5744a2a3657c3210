"""Where a reading of a dimension is expected, from what the sheet says of it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from fitwright.model.dimension import Dimension
from fitwright.model.fit import Fit
from fitwright.model.limit import Limit
from fitwright.model.slips import Window, plausible_window

Bounds = tuple[float | None, float | None]


def window_of(dimension: Dimension, fits: Iterable[Fit]) -> Window | None:
    """The plausible window of a dimension [SI].

    Parameters
    ----------
    dimension : Dimension
        The dimension.
    fits : iterable of Fit
        The fits of the sheet.

    Returns
    -------
    Window or None
        The window given in the sheet; else around the dimension's own limits, or those of a fit
        that it alone makes up, or its nominal (see `slips.plausible_window`). All sources, wear
        limits and rules of thumb count: the window asks about slips and judges nothing. None where
        the sheet says nothing.
    """
    if dimension.plausible is not None:
        low, high = dimension.plausible
        return Window(low.si, high.si)
    lower, upper = _reach(dimension.limits)
    if lower is None and upper is None:
        lower, upper = _of_direct_fit(dimension, fits)
    nominal = dimension.nominal.si if dimension.nominal is not None else None
    return plausible_window(lower=lower, upper=upper, nominal=nominal)


def _reach(limits: Sequence[Limit]) -> Bounds:
    """The lowest lower and the highest upper bound, cold where any limit is given cold."""
    cold = [limit for limit in limits if limit.temperature_case is None] or limits
    lower = [limit.lower.si for limit in cold if limit.lower is not None]
    upper = [limit.upper.si for limit in cold if limit.upper is not None]
    return min(lower, default=None), max(upper, default=None)


def _of_direct_fit(dimension: Dimension, fits: Iterable[Fit]) -> Bounds:
    """The limits of a fit that is read directly as this dimension, times the factor between them."""
    for fit in fits:
        for route in fit.routes:
            if len(route.chain) != 1 or route.chain[0].dimension != dimension.id or not fit.limits:
                continue
            factor = 1.0 / route.chain[0].coefficient
            lower, upper = (None if bound is None else bound * factor for bound in _reach(fit.limits))
            return (lower, upper) if factor > 0.0 else (upper, lower)
    return None, None
