"""From what people write to the units of the table: one closed list, nothing guessed.

A spelling that could mean two things is refused with what to write instead. Where a spelling is
usual in two dimensions (`lb` as mass or force, `oz in` as torque or imbalance, `degC` as
temperature or difference), the dimension that the place wants decides.
"""

from __future__ import annotations

import re
from difflib import get_close_matches
from functools import lru_cache
from typing import TYPE_CHECKING, Final

from fitwright.units.errors import QuantityError, UnknownUnitError
from fitwright.units.table import DIMENSIONS, UNITS, UnitDefinition

if TYPE_CHECKING:
    from collections.abc import Mapping

    from fitwright.units.grammar import WrittenNumber

_AMBIGUOUS: Final[Mapping[str, tuple[str, str]]] = {
    **dict.fromkeys(("mill", "mills"), ("could mean thou or millimetres", '"thou" or "mm"')),
    **dict.fromkeys(
        ("pt", "pint", "pints", "qt", "quart", "quarts", "gal", "gallon", "gallons", "gal/min", "gpm"),
        ("could mean imperial or US measure", 'it as "imp pt", "US qt", "imp gal/min", or in L'),
    ),
    "mPa": ("is a thousandth of a pascal, which no pressure here is", '"MPa" for a million pascals'),
    "mpa": ("could mean megapascals or millipascals", '"MPa"'),
    "nm": ("could mean newton metres or nanometres", '"N m" for a torque, "um" for a length'),
    "'": ("could mean feet or minutes of arc", '"ft" or "arcmin"'),
    "ton": ("could mean three different tons", 'the amount in "kg", "kN" or "lbf"'),
}
_TENTHS: Final = frozenset({"tenth", "tenths", "tths"})


@lru_cache(maxsize=512)
def unit_key(text: str) -> str:
    """A unit text in the form under which the table is searched (`N·m`, `N-m`, `N.m` are `N m`)."""
    text = text.replace("**", "").replace("^", "").replace("*", " ").replace(".", " ")
    text = re.sub(r"(?<=[A-Za-z])-(?=[A-Za-z])", " ", text)
    text = re.sub(r"\bper\b", "/", text)
    text = re.sub(r" ?([/(]) ?", r"\1", " ".join(text.split()))
    return re.sub(r"\u00b0 (?=[CF])", "\u00b0", text)


_SHOWN: Final = str.maketrans({"\u00b5": "u", "\u00b2": "2", "\u00b3": "3", "\u00b7": " "})


def _build_index() -> tuple[dict[str, list[UnitDefinition]], dict[str, list[UnitDefinition]]]:
    """The units under each spelling as it is and without case, in the order of the table."""
    exact: dict[str, list[UnitDefinition]] = {}
    folded: dict[str, list[UnitDefinition]] = {}
    for definition in UNITS:
        shown = definition.shown.translate(_SHOWN)
        for key in dict.fromkeys(map(unit_key, (definition.name, shown, *definition.spellings))):
            exact.setdefault(key, []).append(definition)
            if definition not in folded.setdefault(key.casefold(), []):
                folded[key.casefold()].append(definition)
    return exact, folded


_EXACT, _FOLDED = _build_index()


@lru_cache(maxsize=512)
def definition_of(name: str, dimension: str | None = None) -> UnitDefinition:
    """The definition behind a canonical spelling (or any accepted one).

    Raises
    ------
    UnknownUnitError
        If there is no such unit (of that dimension).
    """
    wanted = [unit for unit in _candidates(unit_key(name)) if dimension in (None, unit.dimension)]
    if not wanted:
        raise UnknownUnitError(name)
    return next((unit for unit in wanted if unit.name == name), wanted[0])


def units_of(dimension: str) -> tuple[str, ...]:
    """Canonical spellings of the units of a dimension, the usual ones first."""
    return tuple(definition.name for definition in UNITS if definition.dimension == dimension)


def read_unit(unit_text: str, number: WrittenNumber, typed: str, dimension: str | None) -> UnitDefinition:
    """The unit that somebody wrote.

    Raises
    ------
    QuantityError
        If it is unknown (with the nearest known spelling), could mean two things, or is not of
        the dimension wanted.
    """
    key = unit_key(unit_text)
    if key.casefold() in _TENTHS:
        raise _tenths_error(number, typed)
    if key not in _EXACT and (reason := _AMBIGUOUS.get(key) or _AMBIGUOUS.get(key.casefold())):
        raise QuantityError(typed, "ambiguous_unit", f'has a unit that {reason[0]} ("{key}")', reason[1])
    candidates = _candidates(key)
    if not candidates:
        raise _unknown_error(key, typed, dimension)
    for definition in candidates:
        if dimension in (None, definition.dimension):
            return definition
    raise _dimension_error(candidates[0], typed, dimension or "")


def _candidates(key: str) -> list[UnitDefinition]:
    return _EXACT.get(key) or _FOLDED.get(key.casefold(), [])


def _tenths_error(number: WrittenNumber, typed: str) -> QuantityError:
    inches, millimetres = float(number.exact) * 1e-4, float(number.exact) * 0.1
    problem = "could mean tenths of a thou or tenths of a millimetre"
    write = f'"{inches:.6g} in" or "{millimetres:.6g} mm"'
    return QuantityError(typed, "ambiguous_unit", problem, write)


def _unknown_error(key: str, typed: str, dimension: str | None) -> QuantityError:
    known = [
        spelling
        for spelling, units in _EXACT.items()
        if any(dimension in (None, definition.dimension) for definition in units)
    ]
    near = get_close_matches(key, known, n=1, cutoff=0.5)
    if near:
        return QuantityError(
            typed, "unknown_unit", f'has an unknown unit "{key}"', f'"{near[0]}" if you mean that'
        )
    example = DIMENSIONS[dimension].example if dimension else "67.08 mm"
    return QuantityError(typed, "unknown_unit", f'has an unknown unit "{key}"', f'it as "{example}"')


def _dimension_error(found: UnitDefinition, typed: str, dimension: str) -> QuantityError:
    is_, wanted = found.dimension.replace("_", " "), dimension.replace("_", " ")
    problem = f"is a {is_} where a {wanted} is wanted"
    return QuantityError(typed, "wrong_dimension", problem, f'it as "{DIMENSIONS[dimension].example}"')
