"""The drawing of a part with the place lit: the picture, the places, the label, the accessible name."""

from __future__ import annotations

from collections.abc import Collection

from fitwright.drawing.part_place.choosing import picture_of
from fitwright.drawing.part_place.errors import NoSuchPlaceError
from fitwright.drawing.part_place.pen import HEIGHT, WIDTH, Pen
from fitwright.drawing.part_place.spots import spots_of
from fitwright.drawing.part_place.subject import subject_of
from fitwright.drawing.svg import document, text
from fitwright.model.dimension import Dimension, Place, Sense
from fitwright.model.sheet import Sheet

ROUND = frozenset({Sense.DIAMETRAL, Sense.RADIAL})


def part_place_drawing(sheet: Sheet, dimension: Dimension, place: Place, read: Collection[str]) -> str:
    """A small drawing of where on its part a reading is taken, as SVG.

    Parameters
    ----------
    sheet : Sheet
        The engine sheet.
    dimension : Dimension
        The dimension that is measured.
    place : Place
        The place of it that is lit: arrows show the direction of measure, words name it.
    read : collection of str
        The ids of its places that have a reading; their marks are filled and ticked.

    Returns
    -------
    str
        The drawing; only classes carry its style (see `standalone` for a drawing by itself).

    Raises
    ------
    NoSuchPlaceError
        If the place is none of the dimension's.
    """
    spots = spots_of(dimension)
    lit = next((spot for spot in spots if spot.id == place.id), None)
    if lit is None:
        raise NoSuchPlaceError(dimension.id, place.id)
    pen = Pen(spots, lit, read)
    picture_of(subject_of(sheet, dimension))(pen)
    words = lit.words(sheet.engine.directions, round_part=dimension.sense in ROUND)
    label = text(WIDTH / 2, HEIGHT - 5, words or pen.caption, "place-label")
    return document(WIDTH, HEIGHT, place_name(sheet, dimension, place), [*pen.parts(), label], "part-place")


def place_name(sheet: Sheet, dimension: Dimension, place: Place) -> str:
    """A dimension and its place in words: "Main 2 journal, front plane, 45 degrees"."""
    spot = next((spot for spot in spots_of(dimension) if spot.id == place.id), None)
    round_part = dimension.sense in ROUND
    words = spot.words(sheet.engine.directions, round_part=round_part, degree=" degrees") if spot else ""
    return f"{dimension.title}, {words}" if words else dimension.title
