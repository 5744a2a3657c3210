"""A material by name, or by the constants that somebody knows better."""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.data.materials import UsualMaterial, usual_materials
from fitwright.sums.errors import InputError, MissingInputError, nearest
from fitwright.sums.raw import plain


@dataclass(frozen=True, slots=True)
class Constant:
    """One constant [SI] and where it came from."""

    value: float
    origin: str


def material_named(name: str, place: str) -> UsualMaterial:
    """The material with this name, however its spaces and capitals were written.

    Raises
    ------
    InputError
        If there is none, with the nearest names.
    """
    known = usual_materials()
    found = {plain(each): each for each in known}.get(plain(name))
    if found is None:
        raise InputError(place, f'no material "{name}"; {nearest(name, list(known))}')
    return known[found]


def constant(given: float | None, material: UsualMaterial | None, field: str, place: str) -> Constant:
    """A constant as given, else that of the material.

    Raises
    ------
    InputError
        If neither is there.
    """
    if given is not None:
        return Constant(given, "given")
    if material is None:
        raise MissingInputError(place, f"give it, or a material ({', '.join(usual_materials())})")
    origin = f"{material.title}, {material.grade} [{material.source}]"
    return Constant(getattr(material, field), origin)
