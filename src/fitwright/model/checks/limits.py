"""Limits of a sheet: bounds in order, and no doubt about which of them governs."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import combinations

from fitwright.model.governing import is_rule_of_thumb
from fitwright.model.limit import AppliesTo, Limit, Source
from fitwright.model.problem import Path, Problem
from fitwright.model.sheet import Sheet


def check_limits(sheet: Sheet) -> Iterator[Problem]:
    """Problems of all limits of dimensions and fits."""
    for dimension in sheet.dimensions.values():
        yield from _check_all(dimension.limits, ("dimensions", dimension.id), sheet.sources)
    for fit in sheet.fits.values():
        yield from _check_all(fit.limits, ("fits", fit.id), sheet.sources)


def _check_all(limits: tuple[Limit, ...], path: Path, sources: Mapping[str, Source]) -> Iterator[Problem]:
    for index, limit in enumerate(limits):
        yield from _check_bounds(limit, (*path, "limits", index))
        if limit.governs and is_rule_of_thumb(limit, sources):
            mend = "leave governs out; a named person adopts a limit in the build, with a reason"
            yield Problem((*path, "limits", index, "governs"), "a rule of thumb cannot govern", mend)
    for one, other in combinations(range(len(limits)), 2):
        yield from _check_pair(limits, one, other, path, sources)


def _check_bounds(limit: Limit, path: Path) -> Iterator[Problem]:
    if limit.lower is None and limit.upper is None:
        yield Problem(path, "a limit without a bound", "write lower, upper or both")
    if limit.lower is not None and limit.upper is not None and limit.lower.si >= limit.upper.si:
        what = f"the lower bound {limit.lower.written} is not below the upper bound {limit.upper.written}"
        yield Problem((*path, "lower"), what, "write the smaller one as lower")


def _check_pair(
    limits: tuple[Limit, ...], one: int, other: int, path: Path, sources: Mapping[str, Source]
) -> Iterator[Problem]:
    """Two limits for the same parts and temperature must not both govern, nor both be left open."""
    first, second = limits[one], limits[other]
    if not _compete(first, second) or any(is_rule_of_thumb(limit, sources) for limit in (first, second)):
        return
    where: Path = (*path, "limits", other)
    if first.governs and second.governs:
        mend = "write governs = true under one of them"
        yield Problem((*where, "governs"), f"limit {one + 1} governs already, for {_what_for(second)}", mend)
    elif not any(limit.governs for limit in limits if _same_use(limit, first)):
        what = f"limit {one + 1} is for {_what_for(second)} too, and neither governs"
        yield Problem(where, what, "write governs = true under one of them")


def _same_use(first: Limit, second: Limit) -> bool:
    return (first.applies_to, first.temperature_case) == (second.applies_to, second.temperature_case)


def _compete(first: Limit, second: Limit) -> bool:
    both_lower = first.lower is not None and second.lower is not None
    both_upper = first.upper is not None and second.upper is not None
    return _same_use(first, second) and (both_lower or both_upper)


def _what_for(limit: Limit) -> str:
    parts = "used parts" if limit.applies_to is AppliesTo.USED else "new parts"
    return parts if limit.temperature_case is None else f"{parts} at {limit.temperature_case}"
