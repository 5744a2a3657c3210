"""Fasteners: tightened with its torque and preload, stretched, in its hole; and a wrench."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from fitwright.drawing.limit_picture import LimitPicture
from fitwright.drawing.part_place.shapes import Polygon, box, corners, poly, ring, seg
from fitwright.drawing.sum_pictures.sketch import LINE, Labelled, Sketch, shortened

_HEAD_HEIGHT = 24.0
_TOP = 34.0


@dataclass(frozen=True, slots=True)
class Tightened:
    """A tightened fastener: its head over its shank, its torque in three shares, its preload on an axis."""

    head_ratio: float
    torque: str
    shares: tuple[Labelled, Labelled, Labelled]
    preload: LimitPicture
    preload_words: str


def tightened(fastener: Tightened, label: str) -> str:
    """The fastener over two parts, bars of where its torque goes, and the band of its preload."""
    sketch = Sketch(292.0)
    _clamped_bolt(sketch, fastener)
    for number, each in enumerate(fastener.shares):
        y = _TOP + 12.0 + 44.0 * number
        sketch.write(210.0, y, each.words, "start")
        sketch.solid(210.0, y + 7.0, max(226.0 * each.size, 2.0), 12.0, "sum-hot" if number else "sum-blade")
    _on_axis(sketch, 196.0, fastener.preload, (fastener.preload_words,))
    return sketch.svg(label)


def _clamped_bolt(sketch: Sketch, fastener: Tightened) -> None:
    """A bolt through a plate into a part with its thread, and the torque on its head."""
    middle, shank = 100.0, 17.0
    head = min(max(shank * fastener.head_ratio, shank + 5.0), 44.0)
    plate, part, foot = _TOP + _HEAD_HEIGHT, _TOP + 74.0, _TOP + 142.0
    left, right = 28.0, 172.0
    for top, bottom, gap in ((plate, part, shank + 3.0), (part, foot, shank)):
        for x, width in ((left, middle - gap - left), (middle + gap, right - middle - gap)):
            sketch.cut(
                box(x, top, width, bottom - top), corners(x, top, width, bottom - top), falling=top == part
            )
    sketch.ink(box(middle - head, _TOP, 2.0 * head, _HEAD_HEIGHT))
    sketch.ink(f"M{middle - shank} {plate}V{foot - 12.0}M{middle + shank} {plate}V{foot - 12.0}")
    sketch.ink(seg(middle - shank, foot - 12.0, middle + shank, foot - 12.0))
    for number in range(7):
        y = part + 6.0 + 8.0 * number
        if y < foot - 14.0:
            sketch.thin(seg(middle - shank, y, middle + shank, y - 4.0))
    sketch.centre(seg(middle, _TOP - 10.0, middle, foot + 4.0))
    sketch.thin(f"M{middle - 30.0} {_TOP - 6.0}a30 8 0 0 1 60 0")
    sketch.arrow(middle + 28.0, _TOP - 9.0, middle + 30.0, _TOP - 3.0)
    sketch.write(middle, _TOP - 18.0, fastener.torque)


def _on_axis(sketch: Sketch, top: float, picture: LimitPicture, words: Sequence[str]) -> None:
    """An axis with bars, words above it."""
    for number, each in enumerate(words):
        sketch.write(24.0, top - LINE * (len(words) - 1 - number), shortened(each, 62), "start")
    sketch.parts.append(f'<g transform="translate(0 {top + 6.0:g})">{"".join(picture.parts())}</g>')


def two_bands(picture: LimitPicture, words: tuple[str, str], label: str) -> str:
    """Two preloads on one axis, the thin bar above the other, each with its words."""
    sketch = Sketch(160.0)
    _on_axis(sketch, 46.0, picture, words)
    return sketch.svg(label)


@dataclass(frozen=True, slots=True)
class Stretched:
    """A fastener lying down: its sections as lengths and diameters over the nominal, the last its thread."""

    sections: Sequence[tuple[float, float, str]]
    thread_length: float
    thread_words: str
    stretch: str
    preload: str


def stretched(fastener: Stretched, label: str) -> str:
    """The grip in proportion, its end drawn further out by the stretch, which is drawn larger."""
    sketch = Sketch(176.0)
    middle, half, left, right = 84.0, 30.0, 84.0, 372.0
    whole = sum(length for length, _, _ in fastener.sections) + fastener.thread_length
    x = left
    sketch.ink(box(left - 34.0, middle - 1.55 * half, 34.0, 3.1 * half))
    for length, diameter, words in fastener.sections:
        x = _section(sketch, (x, middle), (right - left) * length / whole, half * diameter, words)
    if fastener.thread_length:
        width = (right - left) * fastener.thread_length / whole
        for number in range(1, int(width / 8.0) + 1):
            at = x + 8.0 * number
            sketch.thin(seg(at - 4.0, middle - 0.93 * half, min(at, x + width), middle + 0.93 * half))
        x = _section(sketch, (x, middle), width, 0.93 * half, fastener.thread_words)
    sketch.dashed(box(x, middle - 0.93 * half, 26.0, 1.86 * half))
    sketch.across(x, x + 26.0, middle - 1.55 * half)
    sketch.write(min(x + 60.0, 450.0), middle - 1.55 * half - 8.0, fastener.stretch, "end")
    sketch.centre(seg(left - 44.0, middle, x + 40.0, middle))
    sketch.write(left - 34.0, middle - 1.55 * half - 8.0, fastener.preload, "start")
    return sketch.svg(label)


def _section(sketch: Sketch, start: tuple[float, float], width: float, half: float, words: str) -> float:
    """One length of the shank with its dimension; where it ends."""
    x, middle = start
    sketch.ink(box(x, middle - half, width, 2.0 * half))
    sketch.thin(
        f"{seg(x, middle + half, x, middle + 62.0)}{seg(x + width, middle + half, x + width, middle + 62.0)}"
    )
    sketch.across(x, x + width, middle + 58.0, shortened(words, max(6, int(width / 6.0))), above=False)
    return x + width


@dataclass(frozen=True, slots=True)
class Engaged:
    """A bolt in its hole: engagement and countersink over the nominal diameter, forces in words."""

    engagement: float
    countersink: float
    threads: float
    words: Sequence[str]
    length: str


def engaged(thread: Engaged, label: str) -> str:
    """Half a section through bolt and parent metal, the thread that strips marked."""
    sketch = Sketch(244.0)
    top, left, middle, radius = 52.0, 30.0, 118.0, 44.0
    depth = min(2.0 * radius * thread.engagement, 150.0)
    scale = depth / thread.engagement
    mouth = top + scale * thread.countersink
    bottom = top + depth
    teeth = _teeth(mouth, bottom, middle - radius, 9.0, max(3, min(round(thread.threads), 24)))
    floor = bottom + 22.0
    outline: Polygon = [
        (left, top),
        (middle - radius - 6.0, top),
        *teeth,
        (middle - radius, floor),
        (left, floor),
    ]
    sketch.cut(poly(outline), outline)
    mirrored = [(2.0 * middle - x, y) for x, y in outline]
    sketch.cut(poly(mirrored), mirrored)
    sketch.ink(f"M{middle - radius + 4.0} 20V{mouth}M{middle + radius - 4.0} 20V{mouth}")
    sketch.ink(seg(middle - radius + 9.0, bottom, middle + radius - 9.0, bottom))
    sketch.dashed(f"M{middle - radius} {mouth}V{bottom}M{middle + radius} {mouth}V{bottom}")
    sketch.centre(seg(middle, 12.0, middle, floor + 6.0))
    sketch.arrow(middle, 40.0, middle, 16.0)
    sketch.thin(f"{seg(middle + radius + 6.0, top, 226.0, top)}{seg(middle, bottom, 226.0, bottom)}")
    sketch.upright(220.0, top, bottom)
    sketch.write(228.0, (top + bottom) / 2.0 + 4.0, thread.length, "start")
    for number, each in enumerate(thread.words):
        sketch.write(
            228.0, top + 2.0 + LINE * number if number < 2 else bottom - 8.0, shortened(each, 38), "start"
        )
    return sketch.svg(label)


def _teeth(top: float, bottom: float, x: float, depth: float, count: int) -> list[tuple[float, float]]:
    """The flanks of a thread from its mouth to its end."""
    step = (bottom - top) / count
    found = [(x, top)]
    for number in range(count):
        found += [(x + depth, top + step * (number + 0.5)), (x, top + step * (number + 1.0))]
    return found


@dataclass(frozen=True, slots=True)
class Wrench:
    """A wrench with its extension, seen along the fastener; lengths in one unit."""

    length: Labelled
    extension: Labelled
    angle: float
    setting: str
    torque: str


def wrench(tool: Wrench, label: str) -> str:
    """Handle, drive and extension in proportion, the hand's pull across the handle."""
    ahead, across = tool.extension.size * math.cos(tool.angle), tool.extension.size * math.sin(tool.angle)
    span = tool.length.size + max(ahead, 0.0)
    scale = min(340.0 / span, 100.0 / max(abs(across), 1e-9))
    long, ahead, across = (scale * each for each in (tool.length.size, ahead, across))
    up = max(across, 0.0) + 74.0
    sketch = Sketch(up + max(-across, 0.0) + 84.0)
    hand, drive = (50.0, up), (50.0 + long, up)
    nut = (drive[0] + ahead, up - across)
    sketch.ink(box(hand[0] - 8.0, up - 7.0, long + 8.0, 14.0))
    sketch.solid(hand[0] - 8.0, up - 7.0, 44.0, 14.0, "sum-dark")
    sketch.ink(f"{seg(*drive, *nut)}{ring(*drive, 11.0)}{ring(*nut, 13.0)}")
    sketch.ink(poly([(nut[0] + 8.0 * math.cos(k), nut[1] + 8.0 * math.sin(k)) for k in _HEXAGON]))
    sketch.arrow(hand[0] + 14.0, up + 44.0, hand[0] + 14.0, up + 12.0)
    sketch.across(hand[0] + 14.0, drive[0], up + 62.0, tool.length.words, above=False)
    sketch.thin(
        f"{seg(hand[0] + 14.0, up + 46.0, hand[0] + 14.0, up + 66.0)}{seg(drive[0], up, drive[0], up + 66.0)}"
    )
    sketch.write(hand[0] - 8.0, up - 18.0, tool.setting, "start")
    sketch.write(min(nut[0] + 20.0, 452.0), nut[1] - 38.0, tool.torque, "end")
    sketch.write(min(nut[0] + 20.0, 452.0), nut[1] - 21.0, tool.extension.words, "end")
    return sketch.svg(label)


_HEXAGON = [math.pi / 3.0 * corner for corner in range(6)]
