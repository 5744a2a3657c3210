"""Oil in crank bearings: out of a groove over both lands, and through a crank to its big end."""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.drawing.part_place.shapes import box, corners, seg
from fitwright.drawing.sum_pictures.sketch import Sketch

_LEFT, _RIGHT, _GROOVE = 110.0, 350.0, 22.0
_TOP, _BACK, _SHELL = 52.0, 20.0, 34.0
_NARROW, _WIDE = 8.0, 30.0
_FULL = 0.1e-3  # a radial clearance [m] that is drawn as wide as any
_AXIS, _JOURNAL, _PIN = 168.0, 44.0, 82.0


@dataclass(frozen=True, slots=True)
class GroovedBearing:
    """A bearing with a groove all round: its radial clearance [m], and words."""

    radial_clearance: float
    clearance: str
    land: str
    journal: str
    pressure: str
    flow: str


@dataclass(frozen=True, slots=True)
class CrankFeed:
    """A drilled crank: innermost over surface radius of the main, and words; `starved` breaks the line."""

    share: float
    starved: bool
    speed: str
    main: str
    margin: str
    big_end: str


def grooved_bearing(bearing: GroovedBearing, label: str) -> str:
    """The upper shell over its journal, cut along the axis; the clearance is drawn far wider."""
    gap = _NARROW + (_WIDE - _NARROW) * min(bearing.radial_clearance / _FULL, 1.0)
    low = _TOP + _BACK + _SHELL
    sketch = Sketch(low + gap + 104.0)
    middle = 0.5 * (_LEFT + _RIGHT)
    for start, end in ((_LEFT, middle - _GROOVE), (middle + _GROOVE, _RIGHT)):
        _metal(sketch, (start, _TOP + _BACK, end - start, _SHELL))
    for start, end in ((_LEFT, middle - 8.0), (middle + 8.0, _RIGHT)):
        _metal(sketch, (start, _TOP, end - start, _BACK))
    _metal(sketch, (_LEFT - 26.0, low + gap, _RIGHT - _LEFT + 52.0, 54.0), falling=True)
    sketch.centre(seg(_LEFT - 40.0, low + gap + 54.0, _RIGHT + 40.0, low + gap + 54.0))
    sketch.arrow(middle, _TOP - 26.0, middle, low - 4.0)
    for sign in (-1.0, 1.0):
        sketch.arrow(middle + sign * 6.0, low + 0.5 * gap, middle + sign * 160.0, low + 0.5 * gap)
    sketch.write(middle - 8.0, _TOP - 14.0, bearing.pressure, "end")
    sketch.across(middle + _GROOVE, _RIGHT, _TOP - 6.0, bearing.land)
    sketch.write(middle, low + gap + 78.0, bearing.clearance)
    sketch.write(middle, low + gap + 34.0, bearing.journal)
    sketch.write(middle, low + gap + 95.0, bearing.flow)
    return sketch.svg(label)


def crank_feed(crank: CrankFeed, label: str) -> str:
    """A main journal, a web and a crank pin, and the way of the oil from one to the other."""
    sketch = Sketch(262.0)
    _metal(sketch, (70.0, _AXIS - _JOURNAL, 110.0, 2.0 * _JOURNAL))
    _metal(sketch, (180.0, _PIN - 46.0, 34.0, _AXIS + _JOURNAL + 14.0 - _PIN + 46.0), falling=True)
    _metal(sketch, (214.0, _PIN - 34.0, 96.0, 68.0))
    sketch.centre(seg(50.0, _AXIS, 330.0, _AXIS))
    sketch.centre(seg(200.0, _PIN, 326.0, _PIN))
    inner = _AXIS - _JOURNAL * min(crank.share, 1.0)
    enters, turns, leaves = (112.0, _AXIS - _JOURNAL), (150.0, inner), (262.0, _PIN - 34.0)
    sketch.arrow(enters[0], enters[1] - 30.0, *enters)
    sketch.ink(seg(*enters, *turns))
    (sketch.dashed if crank.starved else sketch.ink)(seg(*turns, *leaves))
    sketch.arrow(*leaves, leaves[0], leaves[1] - 24.0)
    sketch.dot(*turns)
    sketch.write(6.0, enters[1] - 20.0, crank.main, "start")
    sketch.write(126.0, _AXIS + _JOURNAL + 36.0, crank.margin)
    sketch.write(leaves[0] + 10.0, leaves[1] - 14.0, crank.big_end, "start")
    sketch.write(336.0, _AXIS + 4.0, crank.speed, "start")
    return sketch.svg(label)


def _metal(sketch: Sketch, area: tuple[float, float, float, float], *, falling: bool = False) -> None:
    sketch.cut(box(*area), corners(*area), falling=falling)
