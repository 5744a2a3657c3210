"""Sets of blades and plugs: entered as they are marked, measured one by one, marked missing or worn."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from typing import Final

from fitwright.bench.amounts import amount
from fitwright.bench.asking import Answered
from fitwright.bench.errors import CannotEnterError, UnknownNameError
from fitwright.model.slips import Question, Window, question_for
from fitwright.records.kinds import BladeOnShelf, BladeSet
from fitwright.records.projection import ShopState
from fitwright.units import QuantityError, parse_quantity
from fitwright.units.wording import SlipWording

THINNEST_BLADE: Final = 1e-5
"""Thinner than this [m] is no blade: its marking is in another unit than was said."""
MARKED_UNITS: Final = ("mm", "in", "thou")
WORN: Final = 0.3
"""A blade measured further from its marking than this share is asked about."""


def blade_set_from(
    code: str,
    title: str,
    blades: Sequence[str],
    *,
    unit: str = "mm",
    uncertainty: str = "0.003 mm",
    measured_uncertainty: str = "0.001 mm",
    missing: Iterable[str] = (),
    plugs: bool = False,
) -> BladeSet:
    """A set from its markings: `0.05`, or `0.05=0.0512` where a blade was measured.

    Raises
    ------
    BenchError
        If no blade is named, one cannot be as thin, or one is missing that is not in the set.
    QuantityError
        If a marking or thickness cannot be read.
    """
    if not blades:
        raise CannotEnterError("No blade is named", "name the blades as they are marked: 0.03 0.04")
    gone = set(missing)
    found = [_blade(text, unit, uncertainty, measured_uncertainty, gone) for text in blades]
    thinnest = min(found, key=lambda each: each.thickness)
    if thinnest.thickness < THINNEST_BLADE:
        wrong = f"No blade is as thin as {thinnest.marking} {unit}"
        raise CannotEnterError(wrong, "say the unit that the blades are marked in: in or thou")
    strange = sorted(gone - {blade.marking for blade in found})
    if strange:
        raise UnknownNameError("blade of this set", strange[0], [blade.marking for blade in found])
    return BladeSet(code=code, title=title, blades=tuple(found), plugs=plugs)


def _blade(text: str, unit: str, uncertainty: str, measured_uncertainty: str, gone: set[str]) -> BladeOnShelf:
    marking, _, measured = text.partition("=")
    return BladeOnShelf(
        marking=marking,
        thickness=amount(measured or marking, unit),
        standard_uncertainty=amount(measured_uncertainty if measured else uncertainty, unit),
        measured=bool(measured),
        available=marking not in gone,
    )


def markings_in(text: str) -> tuple[str, ...]:
    """The markings in a text: by spaces, lines or semicolons, or by commas with a space behind."""
    return tuple(each for each in re.split(r"[\s;]+|,(?=\s)", text) if each)


def set_named(shop: ShopState, code: str) -> BladeSet:
    """A blade set of the shop by its code."""
    held = shop.blade_sets.get(code)
    if held is None:
        raise UnknownNameError("blade set", code, list(shop.blade_sets))
    return held.body


def blade_named(blade_set: BladeSet, marking: str) -> BladeOnShelf:
    """A blade of a set by its marking."""
    for blade in blade_set.blades:
        if blade.marking == marking:
            return blade
    raise UnknownNameError(f"blade of {blade_set.code}", marking, [each.marking for each in blade_set.blades])


def marked_thickness(blade: BladeOnShelf) -> tuple[float, str] | None:
    """What a blade's marking says [m], and in which unit: that in which it comes nearest to the blade."""
    found = []
    for unit in MARKED_UNITS:
        try:
            size = parse_quantity(blade.marking, default_unit=unit, dimension="length").si
        except QuantityError:
            continue
        if size > 0.0:
            found.append((abs(size / blade.thickness - 1.0), size, unit))
    return min(found)[1:] if found else None


def measured_blade(
    blade_set: BladeSet,
    marking: str,
    thickness: str,
    *,
    uncertainty: str = "0.001 mm",
    answers: Mapping[str, str] | None = None,
) -> tuple[BladeSet, tuple[Answered, ...]] | Question:
    """The set with one blade measured; asks first where that is far from its marking.

    A number without a unit is in that of the markings. The set and the answers that it took.
    """
    blade = blade_named(blade_set, marking)
    marked = marked_thickness(blade)
    unit = marked[1] if marked is not None else "mm"
    quantity = parse_quantity(thickness, default_unit=unit, dimension="length")
    answered: tuple[Answered, ...] = ()
    question = _question(marked[0], SlipWording(quantity)) if marked is not None else None
    if question is not None:
        answer = (answers or {}).get(question.key)
        if answer is None:
            return question
        answered = (Answered(question, quantity.typed, answer),)
        guess = next((each for each in question.guesses if each.label == answer), None)
        quantity = parse_quantity(guess.label, dimension="length") if guess is not None else quantity
    changed = blade.model_copy(
        update={
            "thickness": quantity.si,
            "standard_uncertainty": amount(uncertainty, unit),
            "measured": True,
            "available": True,
        }
    )
    return _with(blade_set, changed), answered


def _question(marked: float, wording: SlipWording) -> Question | None:
    return question_for(
        wording.quantity.si,
        wording=wording,
        dimension="length",
        lower=None,
        upper=None,
        nominal=marked,
        window=Window(marked * (1.0 - WORN), marked * (1.0 + WORN)),
    )


def set_apart(blade_set: BladeSet, marking: str, *, available: bool) -> BladeSet:
    """The set with one blade missing or worn out, or back again."""
    blade = blade_named(blade_set, marking)
    return _with(blade_set, blade.model_copy(update={"available": available}))


def _with(blade_set: BladeSet, changed: BladeOnShelf) -> BladeSet:
    blades = tuple(changed if each.marking == changed.marking else each for each in blade_set.blades)
    return blade_set.model_copy(update={"blades": blades, "supersedes": None, "reason": None})
