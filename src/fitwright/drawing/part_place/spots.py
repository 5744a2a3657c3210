"""Where the places of a dimension lie, and what they are called: planes, angles, directions, names."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import cos, radians, sin

from fitwright.model.dimension import WHOLE, Dimension, Place
from fitwright.model.engine import Directions

PLANES = ("front", "rear", "top", "upper", "middle", "lower", "bottom", "end", "nose", "tail")
"""What a plane along a part is called; said with the word "plane" after it."""

DIRECTIONS = {"top": 0.0, "right": 90.0, "bottom": 180.0, "left": 270.0}
"""Directions around the crank, in degrees clockwise seen from the nose."""

Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Spot:
    """A place as it is drawn: which of the planes, at what angle, in what position of the crank."""

    id: str
    plane: str | None = None
    degrees: float | None = None
    crank: float | None = None
    direction: str | None = None
    mark: str | None = None

    def words(self, directions: Directions, *, round_part: bool = True, degree: str = "°") -> str:
        """The place in words: "front plane, 45°"; empty where a size is taken in one place only."""
        if self.direction is not None:
            return _direction_words(self, directions, degree)
        parts = []
        if self.plane is not None:
            parts.append(_plane_words(self.plane, round_part=round_part))
        if self.mark is not None:
            parts.append(self.mark)
        elif self.degrees is not None:
            parts.append(f"{self.degrees:g}{degree}")
        return ", ".join(parts)


def spots_of(dimension: Dimension) -> tuple[Spot, ...]:
    """The places of a dimension as they are drawn, in the order of the sheet."""
    places = _with_angles(dimension.places)
    spots = [_spot(place) for place in places]
    marks = list(dict.fromkeys(spot.mark for spot in spots if spot.mark is not None))
    step = 360.0 / max(len(marks), 1)
    return tuple(
        spot if spot.mark is None else replace(spot, degrees=marks.index(spot.mark) * step) for spot in spots
    )


def planes_of(spots: tuple[Spot, ...]) -> tuple[str, ...]:
    """The distinct planes, in the order of the sheet."""
    return tuple(dict.fromkeys(spot.plane for spot in spots if spot.plane is not None))


def around(centre: Point, radius: float, degrees: float) -> Point:
    """The point at an angle on a circle: 0 at the top, clockwise."""
    angle = radians(degrees)
    return centre[0] + radius * sin(angle), centre[1] - radius * cos(angle)


def spread(count: int, low: float, high: float) -> list[float]:
    """So many positions between two ends, evenly spread, none at an end.

    >>> spread(2, 0.0, 100.0)
    [25.0, 75.0]
    """
    return [low + (index + 0.5) * (high - low) / count for index in range(count)]


def _with_angles(places: tuple[Place, ...]) -> tuple[Place, ...]:
    """Places named by numbers from 0 are angles ("0", "90", "180"); from 1 they are only counted."""
    if places[0].id != "0" or any(place.plane or place.angle or not place.id.isdigit() for place in places):
        return places
    return tuple(Place(place.id, angle=place.id) for place in places)


def _spot(place: Place) -> Spot:
    if place.id == WHOLE.id:
        return Spot(place.id)
    if place.plane is None and place.angle is None:
        return _named(place.id)
    degrees = _degrees(place.angle)
    mark = place.angle if place.angle is not None and degrees is None else None
    return Spot(place.id, plane=place.plane, degrees=degrees, mark=mark)


def _named(name: str) -> Spot:
    """A place by name only; `top@180` is a direction at a position of the crank."""
    direction, at, crank = name.partition("@")
    if not at:
        return Spot(name, plane=name)
    degrees = DIRECTIONS.get(direction, _degrees(direction))
    return Spot(name, degrees=degrees or 0.0, crank=_degrees(crank), direction=direction)


def _degrees(text: str | None) -> float | None:
    try:
        return float(text) % 360.0 if text is not None else None
    except ValueError:
        return None


def _plane_words(plane: str, *, round_part: bool) -> str:
    words = plane.replace("_", " ")
    if round_part and words in PLANES:
        return f"{words} plane"
    return f"place {words}" if len(words) == 1 or words.isdigit() else words


def _direction_words(spot: Spot, directions: Directions, degree: str) -> str:
    """A direction around the crank in the engine's own word, and where the crank stands."""
    name = spot.direction or ""
    own = {"top": directions.top, "right": directions.right, "bottom": directions.bottom}
    said = (own | {"left": directions.left}).get(name, "")
    words = f"{name} ({said})" if said and not said.startswith(name) else name or f"{spot.degrees:g}{degree}"
    return words if spot.crank is None else f"{words}, crank at {spot.crank:g}{degree}"
