"""Pumps of the quick sums: rotors and gears in proportion, a relief valve with its spring."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import pi

import numpy as np

from fitwright.drawing.part_place.shapes import box, corners, poly, ring, seg
from fitwright.drawing.sum_pictures.sketch import LINE, Sketch
from fitwright.physics.pump.gear_profile import gear_profile
from fitwright.physics.pump.spur import SpurPair
from fitwright.physics.pump.trochoid import RotorPair, inner_profile, is_undercut, outer_profile
from fitwright.quantity import FloatArray

_MIDDLE, _REACH = 122.0, 104.0


@dataclass(frozen=True, slots=True)
class Valve:
    """A relief valve: full lift over seat diameter, how far it is lifted of that, and words."""

    lift_ratio: float
    lifted: float
    seat: str
    spring: str
    cracking: str
    passes: str


def rotors(pair: RotorPair, words: Sequence[str], label: str) -> str:
    """Both rotors as they mesh, with their centres, and what was found beside them."""
    sketch = Sketch(2.0 * _MIDDLE)
    scale = _REACH / (pair.outer_root_radius * 1.12)
    centre = _MIDDLE, _MIDDLE
    outer = outer_profile(pair, count=pair.outer_teeth * 40)
    sketch.parts.append(_metal(ring(*centre, _REACH) + poly(_points(outer, centre, scale))))
    beside = centre[0] - scale * pair.eccentricity, centre[1]
    if not is_undercut(pair):
        inner = inner_profile(pair, count=pair.inner_lobes * 60)
        hub = ring(*beside, 0.5 * scale * pair.inner_root_radius)
        sketch.parts.append(_metal(poly(_points(inner, beside, scale)) + hub))
    for x, y in (centre, beside):
        sketch.centre(seg(x - 8.0, y, x + 8.0, y) + seg(x, y - 8.0, x, y + 8.0))
    _beside(sketch, words)
    return sketch.svg(label)


def gears(pair: SpurPair, words: Sequence[str], label: str) -> str:
    """Both gears as they mesh, one beside the other, and what was found below them."""
    foot = 2.0 * _MIDDLE - 10.0
    sketch = Sketch(foot + LINE * (len(words) + 1) / 2.0 + 6.0)
    scale = 372.0 / (pair.centre_distance + pair.outside_diameter)
    half = 0.5 * scale * pair.centre_distance
    for sign, turned in ((-1.0, 0.0), (1.0, pi + pi / pair.teeth)):
        centre = 230.0 + sign * 2.0 * half / 2.0, 0.5 * foot
        points = gear_profile(pair, turned=turned)
        root = scale * (0.5 * pair.outside_diameter - 2.25 * pair.module)
        sketch.parts.append(_metal(poly(_points(points, centre, scale)) + ring(*centre, 0.5 * root)))
        sketch.centre(seg(centre[0] - 8.0, centre[1], centre[0] + 8.0, centre[1]))
    for index, each in enumerate(words):
        x, anchor = (20.0, "start") if index % 2 == 0 else (440.0, "end")
        sketch.write(x, foot + LINE * (index // 2 + 1), each, anchor)
    return sketch.svg(label)


def valve(shown: Valve, label: str) -> str:
    """The valve cut along its axis: pressure from below, the spring above it, what is lifted dashed."""
    sketch = Sketch(250.0)
    half, left = 34.0, 120.0
    lift = 2.0 * half * min(max(shown.lift_ratio, 0.1), 0.9) * shown.lifted
    seat = 186.0
    for x in (left - half - 26.0, left + half):
        sketch.cut(box(x, 24.0, 26.0, 196.0), corners(x, 24.0, 26.0, 196.0))
    sketch.cut(
        box(left - half - 26.0, 8.0, 2 * half + 52.0, 16.0), corners(left - half - 26, 8.0, 120.0, 16.0)
    )
    for sign in (-1.0, 1.0):
        x = left + sign * half - (12.0 if sign > 0 else 0.0)
        sketch.cut(box(x, seat, 12.0, 18.0), corners(x, seat, 12.0, 18.0), falling=True)
    head = seat - lift
    sketch.cut(
        box(left - half + 2, head - 40.0, 2 * half - 4, 40.0), corners(left - half + 2, head - 40, 64, 40)
    )
    if lift > 1.0:
        sketch.dashed(box(left - half + 2, seat - 40.0, 2 * half - 4, 40.0))
    _spring(sketch, left, (24.0, head - 40.0))
    sketch.arrow(left, 244.0, left, seat + 6.0)
    _beside(sketch, (shown.seat, shown.spring, shown.cracking, shown.passes))
    return sketch.svg(label)


def _spring(sketch: Sketch, middle: float, ends: tuple[float, float]) -> None:
    turns = 7
    step = (ends[1] - ends[0]) / (2.0 * turns)
    points = [(middle + (20.0 if k % 2 else -20.0), ends[0] + k * step) for k in range(2 * turns + 1)]
    sketch.ink(poly(points, closed=False))


def _beside(sketch: Sketch, words: Sequence[str]) -> None:
    lines = [each for each in words if each]
    top = 0.5 * sketch.height - 0.5 * LINE * (len(lines) - 1)
    for index, each in enumerate(lines):
        sketch.write(248.0, top + index * LINE + 4.0, each, "start")


def _points(points: FloatArray, centre: tuple[float, float], scale: float) -> list[tuple[float, float]]:
    placed = np.column_stack([centre[0] + scale * points[:, 0], centre[1] - scale * points[:, 1]])
    return [(x, y) for x, y in placed.tolist()]


def _metal(data: str) -> str:
    return f'<path d="{data}" class="sum-solid" fill-rule="evenodd"/>'
