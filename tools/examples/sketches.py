"""Pictures of the examples: plain sketches on a card that says what a photo would show.

`python -m tools.examples sketches` draws those that are not there yet. They are fictional like everything
in the examples, and say so; the records name them by digest, so that they are drawn once and kept.
"""

from __future__ import annotations

import io
import math
from collections.abc import Callable
from textwrap import wrap
from typing import Final

from PIL import Image, ImageDraw, ImageFont

from fitwright.model.step import PhotoWanted, Step

SIZE: Final = (480, 360)
SMALL: Final = (320, 240)
"""Drawn at the first size, kept at the second: all cards together stay small."""
QUALITY: Final = 28
INK, GREY, PAPER = 20, 150, 246
MIDDLE: Final = (240.0, 150.0)
ROOT: Final = "src/fitwright/dossier/fonts"

Pen = ImageDraw.ImageDraw


def sketch(step: Step, photo: PhotoWanted) -> bytes:
    """The card of one photo as a JPEG."""
    picture = Image.new("L", SIZE, PAPER)
    pen = ImageDraw.Draw(picture)
    pen.rectangle((4, 4, SIZE[0] - 5, SIZE[1] - 5), outline=INK, width=2)
    _shape(step.id, photo.id)(pen)
    for line, text in enumerate(wrap(photo.words, 50)[:2]):
        pen.text((16, 262 + 26 * line), text, fill=INK, font=_font("SemiBold", 19))
    pen.text((16, 326), "Sketch for the example: no photo of an engine", fill=90, font=_font("Regular", 16))
    out = io.BytesIO()
    small = picture.resize(SMALL, Image.Resampling.LANCZOS)
    small.save(out, "JPEG", quality=QUALITY, optimize=True, progressive=True)
    return out.getvalue()


def _font(weight: str, size: int) -> ImageFont.FreeTypeFont:
    return ImageFont.truetype(f"{ROOT}/IBMPlexSans-{weight}.ttf", size)


def _shape(step: str, photo: str) -> Callable[[Pen], None]:
    for name, shape in SHAPES:
        if name in (photo, step):
            return shape
    return _bore


def _ring(pen: Pen, centre: tuple[float, float], radius: float, width: int = 2) -> None:
    x, y = centre
    pen.ellipse((x - radius, y - radius, x + radius, y + radius), outline=INK, width=width)


def _around(count: int, radius: float, turned: float = 0.0) -> list[tuple[float, float]]:
    x, y = MIDDLE
    angles = (turned + 2.0 * math.pi * each / count for each in range(count))
    return [(x + radius * math.sin(angle), y - radius * math.cos(angle)) for angle in angles]


def _row(count: int, pitch: float) -> list[float]:
    return [MIDDLE[0] + pitch * (each - 0.5 * (count - 1)) for each in range(count)]


def _tunnel(pen: Pen) -> None:
    """Light at the end of a drilling."""
    for radius in (104, 84, 64, 44, 24):
        _ring(pen, MIDDLE, radius)
    pen.ellipse((226, 136, 254, 164), fill=GREY)


def _bags(pen: Pen) -> None:
    """Bags in rows, each with its label."""
    for x in _row(6, 70):
        for y in (60, 150):
            pen.rectangle((x - 28, y, x + 28, y + 70), outline=INK, width=2)
            pen.line((x - 18, y + 16, x + 18, y + 16), fill=INK, width=2)
            _ring(pen, (x, y + 45), 9)


def _caps(pen: Pen) -> None:
    """Caps in a row with two heads each, a stroke of paint over every head."""
    for x in _row(5, 84):
        pen.arc((x - 32, 70, x + 32, 220), 180, 360, fill=INK, width=3)
        for side in (-22, 22):
            pen.regular_polygon((x + side, 190, 13), 6, outline=INK)
            pen.line((x + side - 12, 182, x + side + 14, 204), fill=INK, width=3)


def _shells(pen: Pen) -> None:
    """Half shells with their oil holes."""
    for x in _row(6, 72):
        pen.arc((x - 30, 110, x + 30, 190), 0, 180, fill=INK, width=7)
        _ring(pen, (x, 188), 5)


def _wheel(pen: Pen) -> None:
    """A degree wheel with its pointer."""
    _ring(pen, MIDDLE, 108)
    for inner, outer in zip(_around(36, 98), _around(36, 108), strict=True):
        pen.line((*inner, *outer), fill=INK, width=1)
    pen.line((*MIDDLE, *_around(1, 92, math.radians(72.0))[0]), fill=INK, width=3)
    _ring(pen, MIDDLE, 16)


def _centred(pen: Pen) -> None:
    """A land in its bore, and the four places where blades go in."""
    _ring(pen, MIDDLE, 96, 3)
    _ring(pen, MIDDLE, 80, 3)
    for inner, outer in zip(_around(4, 76), _around(4, 112), strict=True):
        pen.line((*inner, *outer), fill=INK, width=5)


def _gasket(pen: Pen) -> None:
    """A head gasket over five bores."""
    pen.rectangle((30, 70, 450, 230), outline=INK, width=3)
    for x in _row(5, 82):
        _ring(pen, (x, 150), 36, 3)
    for x in _row(6, 82):
        for y in (84, 216):
            _ring(pen, (x, y), 5)


def _rings(pen: Pen) -> None:
    """An o-ring in its groove."""
    for radius in (92, 70):
        _ring(pen, MIDDLE, radius)
    _ring(pen, MIDDLE, 81, 9)


def _pipe(pen: Pen) -> None:
    """A pipe that falls all the way."""
    pen.line((90, 70, 250, 120, 330, 230), fill=INK, width=18, joint="curve")
    pen.line((90, 70, 250, 120, 330, 230), fill=PAPER, width=13, joint="curve")
    pen.line((280, 238, 400, 238), fill=INK, width=3)


def _stick(pen: Pen) -> None:
    """A dipstick wet to its mark."""
    pen.rectangle((90, 138, 400, 162), outline=INK, width=2)
    pen.rectangle((300, 138, 400, 162), fill=GREY, outline=INK, width=2)
    pen.line((300, 124, 300, 176), fill=INK, width=3)


def _pleats(pen: Pen) -> None:
    """The paper of a filter, cut open and spread."""
    points = [(60 + 12 * each, 90 if each % 2 else 210) for each in range(31)]
    pen.line([each for point in points for each in point], fill=INK, width=2)


def _clay(pen: Pen) -> None:
    """Clay cut through, beside a rule."""
    pen.chord((110, 70, 370, 270), 180, 360, fill=GREY, outline=INK, width=2)
    pen.rectangle((90, 172, 390, 200), outline=INK, width=2)
    for each in range(31):
        pen.line((90 + 10 * each, 172, 90 + 10 * each, 190 if each % 5 == 0 else 182), fill=INK, width=1)


def _bore(pen: Pen) -> None:
    """A piston in its bore, its mark to the nose."""
    _ring(pen, MIDDLE, 104, 3)
    _ring(pen, MIDDLE, 98)
    pen.polygon((120, 150, 146, 140, 146, 160), fill=INK)
    pen.arc((190, 110, 260, 190), 60, 300, fill=INK, width=2)


def _crank(pen: Pen) -> None:
    """A crank in its bearings."""
    for x in _row(3, 150):
        pen.rectangle((x - 22, 90, x + 22, 210), outline=INK, width=3)
    pen.rectangle((40, 138, 440, 162), outline=INK, width=2, fill=PAPER)
    for x, y in ((135, 108), (195, 172), (285, 172), (345, 108)):
        pen.rectangle((x - 14, y - 16, x + 14, y + 38), outline=INK, width=2, fill=PAPER)


def _below(pen: Pen) -> None:
    """A bottom end from below."""
    _caps(pen)
    pen.rectangle((24, 40, 456, 236), outline=INK, width=3)


def _pins(pen: Pen) -> None:
    """Castle nuts with split pins bent over."""
    for x in _row(4, 100):
        pen.regular_polygon((x, 150, 34), 6, outline=INK, width=3)
        _ring(pen, (x, 150), 15)
        pen.line((x - 40, 150, x + 40, 150, x + 30, 176), fill=INK, width=4)


SHAPES: Final[tuple[tuple[str, Callable[[Pen], None]], ...]] = (
    ("gallery", _tunnel),
    ("oilways", _tunnel),
    ("laid_out", _bags),
    ("shells", _shells),
    ("caps", _caps),
    ("open", _below),
    ("below", _below),
    ("centring", _centred),
    ("degree_wheel", _wheel),
    ("timing_marks", _wheel),
    ("gasket", _gasket),
    ("o_ring", _rings),
    ("drain", _pipe),
    ("level", _stick),
    ("filter", _pleats),
    ("clay", _clay),
    ("in", _crank),
    ("pins", _pins),
)
"""What is drawn for each photo of a sheet, by its id; a piston in its bore for any other."""
