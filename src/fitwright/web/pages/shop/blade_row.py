"""A set of blades as a row: each blade drawn as thick as it is against the others, marked and measured."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from fitwright.bench.blade_sets import marked_thickness
from fitwright.drawing.blade_shape import blade_shape
from fitwright.records.kinds import BladeOnShelf, BladeSet
from fitwright.web.pages.shop.amounts import exact
from fitwright.web.pages.shop.ways import thing_address


@dataclass(frozen=True, slots=True)
class BladeKey:
    """One blade of a row; its address opens it to be measured or set apart."""

    marking: str
    measured: str
    state: str
    picture: Markup
    address: str


def blade_row(body: BladeSet) -> tuple[BladeKey, ...]:
    """Every blade of a set, in the order of the set."""
    thickest = max(blade.thickness for blade in body.blades) if body.blades else 1.0
    return tuple(_key(body, blade, thickest) for blade in body.blades)


def _key(body: BladeSet, blade: BladeOnShelf, thickest: float) -> BladeKey:
    shape = blade_shape(blade.thickness / thickest, available=blade.available, plug=body.plugs)
    return BladeKey(
        marking=blade.marking,
        measured=thickness_words(blade) if blade.measured else "",
        state="" if blade.available else "missing",
        picture=Markup(shape),  # noqa: S704  (our own drawing, no text in it)
        address=thing_address("blades", body.code, blade=blade.marking) + "#form-measure",
    )


def thickness_words(blade: BladeOnShelf) -> str:
    """What a blade was measured at, in the unit of its marking."""
    marked = marked_thickness(blade)
    unit = marked[1] if marked is not None else "mm"
    return f"{exact(blade.thickness, unit, 'length')} {unit}"


def set_words(body: BladeSet) -> str:
    """How many blades, how many measured, how many missing."""
    noun = "plugs" if body.plugs else "blades"
    measured = sum(blade.measured for blade in body.blades)
    missing = sum(not blade.available for blade in body.blades)
    parts = [f"{len(body.blades)} {noun}"]
    if measured == len(body.blades):
        parts.append("all measured")
    elif measured:
        parts.append(f"{measured} measured, the others as marked")
    else:
        parts.append("none measured: each counts as it is marked")
    if missing:
        parts.append(f"{missing} missing or worn out")
    return ", ".join(parts)
