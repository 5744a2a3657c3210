"""Property classes, friction by lubricant, parent metals, faces under heads: usual values."""

from __future__ import annotations

import re
import tomllib
from bisect import bisect_left
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from types import MappingProxyType
from typing import Any, Final, Literal

from fitwright.data.errors import DataError, UnknownNameError
from fitwright.physics.fasteners.band import FrictionRange, friction_range
from fitwright.physics.fasteners.friction import Bearing, Friction
from fitwright.physics.fasteners.strength import Strength
from fitwright.physics.fasteners.thread import Thread

HeadKind = Literal["hexagon", "socket", "flange"]
HoleSeries = Literal["fine", "medium", "coarse"]

_INCH: Final = 0.0254
_MPA: Final = 1e6
_DENIED: Final = re.compile(r"\b(?:no|not|never|without|free of)\b", re.IGNORECASE)


class NoStrengthError(DataError):
    """A property class that does not go up to a size."""

    def __init__(self, name: str, diameter: float) -> None:
        """Build the sentence."""
        self.name = name
        self.diameter = diameter
        size = f"{diameter * 1e3:g} mm"
        super().__init__(f"property class {name} is not made {size} thick; check class and thread")


@dataclass(frozen=True, slots=True)
class PropertyClass:
    """A property class at one diameter: strength, shear strength of its thread [Pa], source."""

    name: str
    strength: Strength
    shear_strength: float
    source: str
    note: str = ""


@dataclass(frozen=True, slots=True)
class Lubricant:
    """Friction of a lubricant on a surface: what to reckon with, its range, its class."""

    name: str
    title: str
    friction: FrictionRange
    friction_class: str
    source: str
    note: str = ""


@dataclass(frozen=True, slots=True)
class ParentMetal:
    """A metal that a thread is cut into: strength, limit of a seat and elastic modulus [Pa], source."""

    name: str
    title: str
    tensile_strength: float
    shear_strength: float
    seat_limit: float
    elastic_modulus: float
    source: str
    note: str = ""


@dataclass(frozen=True, slots=True)
class UsualBearing:
    """A face under a head with where its diameters come from, in words."""

    bearing: Bearing
    origin: str


@cache
def property_class_names() -> tuple[str, ...]:
    """The property classes, weakest first among those of one standard."""
    return tuple(_table("property_classes.toml"))


def property_class_of(name: str, thread: Thread) -> PropertyClass:
    """The property class that somebody wrote, at the diameter of a thread.

    >>> from fitwright.data.threads import thread_of
    >>> property_class_of("class 8.8", thread_of("M20")).strength.proof_stress
    600000000.0

    Raises
    ------
    UnknownNameError
        If there is no such class.
    NoStrengthError
        If the class is not made that thick.
    """
    table = _table("property_classes.toml")
    plain = re.sub(r"^(?:property class|class|iso) ", "", _plain(name.replace(",", ".")))
    key = _named(plain, {each: [each, *row.get("words", ())] for each, row in table.items()})
    if key is None:
        raise UnknownNameError("property class", name, table)
    row = table[key]
    unit = _INCH if "inch_steps" in row else 1e-3
    size = thread.nominal_diameter / unit
    for step in row.get("inch_steps", row.get("steps")):
        if step.get("over", 0.0) < size - 1e-9 and size <= step.get("to", float("inf")) + 1e-9:
            strength = Strength(step["tensile"] * _MPA, step["yield"] * _MPA, step["proof"] * _MPA)
            shear = row["shear_ratio"] * strength.tensile_strength
            return PropertyClass(key, strength, shear, row["source"], row.get("note", ""))
    raise NoStrengthError(key, thread.nominal_diameter)


@cache
def lubricants() -> Mapping[str, Lubricant]:
    """Lubricants by name, then the friction classes as `class A` to `class E`.

    >>> lubricants()["engine_oil"].friction.usual.thread
    0.14
    """
    table = _table("lubricants.toml")
    named = {name: _lubricant(name, row) for name, row in table["lubricants"].items()}
    classes = {f"class {name}": _friction_class(name, row) for name, row in table["classes"].items()}
    return MappingProxyType(named | classes)


def lubricant_of(text: str) -> Lubricant:
    """The lubricant that somebody wrote, also among other words.

    >>> lubricant_of("Medium-strength threadlocker, wet").name, lubricant_of("class b").friction_class
    ('threadlocker_wet', 'B')

    Raises
    ------
    UnknownNameError
        If no lubricant is known by these words.
    """
    rows = _table("lubricants.toml")["lubricants"]
    words = {name: [name, *row["words"]] for name, row in rows.items()}
    words |= {name: [name] for name in lubricants() if name.startswith("class ")}
    found = _named(_plain(text), words) or _among(_plain(text), words)
    if found is None:
        raise UnknownNameError("lubricant", text, lubricants())
    return lubricants()[found]


@cache
def parent_metals() -> Mapping[str, ParentMetal]:
    """Parent metals by name.

    >>> parent_metals()["cast_aluminium"].seat_limit
    350000000.0
    """
    return MappingProxyType(
        {
            name: ParentMetal(
                name,
                row["title"],
                row["tensile"] * _MPA,
                row["tensile"] * row["shear_ratio"] * _MPA,
                row["seat_limit"] * _MPA,
                row["elastic_modulus"] * 1e9,
                row["source"],
                row.get("note", ""),
            )
            for name, row in _table("parent_metals.toml").items()
        }
    )


def parent_metal_of(text: str) -> ParentMetal:
    """The parent metal that somebody wrote.

    >>> parent_metal_of("Cast aluminum").name
    'cast_aluminium'

    Raises
    ------
    UnknownNameError
        If there is none, with the nearest names.
    """
    rows = _table("parent_metals.toml")
    found = _named(_plain(text), {name: [name, *row["words"]] for name, row in rows.items()})
    if found is None:
        raise UnknownNameError("parent metal", text, rows)
    return parent_metals()[found]


def usual_bearing(thread: Thread, head: HeadKind = "hexagon", hole: HoleSeries = "medium") -> UsualBearing:
    """The face under a usual head of a thread; between the sizes of the standard, between its neighbours.

    >>> from fitwright.data.threads import thread_of
    >>> usual_bearing(thread_of("M10x1.25")).bearing.outer_diameter
    0.01463
    """
    table = _table("bearing_faces.toml")
    row, holes = table[head], table["holes"]
    outer, exact = _at(row["face"], thread.nominal_diameter)
    inner, _ = _at(holes[hole], thread.nominal_diameter)
    between = "" if exact else ", between the sizes of the standard"
    origin = f"usual {row['title']} and {hole} clearance hole{between} [{row['source']}] [{holes['source']}]"
    return UsualBearing(Bearing(outer, inner), origin)


def width_across_flats(thread: Thread, head: HeadKind = "hexagon") -> float | None:
    """Width across flats [m] of a head of this size; None where the standard has none.

    >>> from fitwright.data.threads import thread_of
    >>> width_across_flats(thread_of("M12"))
    0.018
    """
    found = _table("bearing_faces.toml")[head]["across_flats"].get(f"{thread.nominal_diameter * 1e3:g}")
    return None if found is None else _millimetres(found)


def _lubricant(name: str, row: Mapping[str, Any]) -> Lubricant:
    friction = friction_range(Friction(row["thread"], row["head"]), least=row["least"], most=row["most"])
    return Lubricant(name, row["title"], friction, row["class"], row["source"], row.get("note", ""))


def _friction_class(name: str, row: Mapping[str, Any]) -> Lubricant:
    usual = Friction(row["usual"], row["usual"])
    friction = friction_range(usual, least=row["least"], most=row["most"])
    return Lubricant(f"class {name}", f"Friction class {name}: {row['text']}", friction, name, row["source"])


def _named(plain: str, words: Mapping[str, Iterable[str]]) -> str | None:
    return next((name for name, said in words.items() if plain in map(_plain, said)), None)


def _among(plain: str, words: Mapping[str, Iterable[str]]) -> str | None:
    """The name of which the longest words stand in a text that denies nothing."""
    if _DENIED.search(plain):
        return None
    found = [
        (len(_plain(each)), name)
        for name, said in words.items()
        for each in said
        if re.search(rf"(?<!\w){re.escape(_plain(each))}(?!\w)", plain)
    ]
    return max(found)[1] if found else None


def _at(table: Mapping[str, float], diameter: float) -> tuple[float, bool]:
    """A size [m] at a diameter, and whether the table has that diameter."""
    sizes = sorted((_millimetres(size), _millimetres(value)) for size, value in table.items())
    place = bisect_left([size for size, _ in sizes], diameter - 1e-9)
    if place < len(sizes) and abs(sizes[place][0] - diameter) < 1e-9:
        return sizes[place][1], True
    if place in (0, len(sizes)):
        nearest = sizes[min(place, len(sizes) - 1)]
        return nearest[1] * diameter / nearest[0], False
    (below, low), (above, high) = sizes[place - 1], sizes[place]
    return low + (high - low) * (diameter - below) / (above - below), False


def _millimetres(number: float | str) -> float:
    """Millimetres as metres, as if they had been written so."""
    return float(f"{number}e-3")


def _plain(text: str) -> str:
    return " ".join(re.sub(r"[_\-,;()]", " ", text).casefold().split())


@cache
def _table(name: str) -> dict[str, Any]:
    return tomllib.loads(files("fitwright.data").joinpath(name).read_text(encoding="utf-8"))
