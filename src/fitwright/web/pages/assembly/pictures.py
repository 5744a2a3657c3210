"""The pictures of a group, each for wide and for narrow screens: the same drawings as in print."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from typing import Final

from markupsafe import Markup

from fitwright.assess.assembly.results import FastenerPass, GroupStanding
from fitwright.drawing.bolt_pattern import FastenerShown, bolt_pattern, shown_of
from fitwright.drawing.charts.torque_stretch import TorqueAndStretch, torque_stretch
from fitwright.model.fastener import TighteningGroup, readable_names
from fitwright.units.families import Family
from fitwright.web.pages.assembly.opened import Opened

WIDE: Final = 780.0
NARROW: Final = 350.0
MOST_KEPT: Final = 64
"""So many pictures are kept at hand: a page asked for again draws nothing."""


@dataclass(frozen=True, slots=True)
class Pictures:
    """A picture for wide screens and the same for narrow ones; only one of them is shown."""

    wide: Markup
    narrow: Markup


def pattern_pictures(opened: Opened, group: GroupStanding, at: str) -> Pictures:
    """The bolt pattern as it stands; a touch opens the fastener."""
    shown = shown_of(
        group,
        opened.reader,
        chosen=at,
        address=lambda name: f"{opened.group_address(group.id, at=name)}#typed",
    )
    return _patterns(group.group, shown)


@lru_cache(maxsize=MOST_KEPT)
def _patterns(group: TighteningGroup, shown: tuple[FastenerShown, ...]) -> Pictures:
    wide, narrow = (bolt_pattern(group, shown, width=width).svg for width in (WIDE, NARROW))
    return Pictures(Markup(wide), Markup(narrow))  # noqa: S704  (our own drawings, all text in them escaped)


def stretch_pictures(opened: Opened, group: GroupStanding) -> Pictures | None:
    """Torque against stretch, where both were read of a fastener."""
    points = tuple(_points(group))
    return _charts(points, _window(group), opened.family) if points else None


@lru_cache(maxsize=MOST_KEPT)
def _charts(
    points: tuple[TorqueAndStretch, ...], window: tuple[float | None, float | None], family: Family
) -> Pictures:
    low, high = window
    wide, narrow = (
        torque_stretch(points, stretch_low=low, stretch_high=high, family=family, width=width).svg
        for width in (WIDE, NARROW)
    )
    return Pictures(Markup(wide), Markup(narrow))  # noqa: S704  (our own drawings, all text in them escaped)


def _window(group: GroupStanding) -> tuple[float | None, float | None]:
    """The stretch that the last such pass of the sheet wants."""
    for each in reversed(group.passes):
        low, high = each.asks.stretch_low, each.asks.stretch_high
        if low is not None or high is not None:
            return low.si if low is not None else None, high.si if high is not None else None
    return None, None


def _points(group: GroupStanding) -> Iterator[TorqueAndStretch]:
    called = readable_names(group.group)
    for order, each in enumerate(group.fasteners, start=1):
        last = each.passes[-1] if each.passes else None
        torque, stretch = _read(last) if last is not None else (None, None)
        if torque is not None and stretch is not None:
            yield TorqueAndStretch(order, called[each.id], torque, stretch, each.odd or "")


def _read(last: FastenerPass) -> tuple[float | None, float | None]:
    stretch = last.stretch
    if stretch is None and last.tightened_length is not None and last.free_length is not None:
        stretch = last.tightened_length - last.free_length
    return last.torque, stretch
