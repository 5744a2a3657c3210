"""A fastener as given: its thread, where its head bears, its friction, and where each of them came from."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, TypeVar

from fitwright.data.cautions import cautions
from fitwright.sums.errors import InputError, MissingInputError
from fitwright.sums.forms import SIZE, Amount, Given, Input, Words
from fitwright.units import approximately

if TYPE_CHECKING:
    from fitwright.data.fasteners import ParentMetal, PropertyClass
    from fitwright.physics.fasteners.band import FrictionRange, PreloadBand
    from fitwright.physics.fasteners.friction import Bearing
    from fitwright.physics.fasteners.thread import Thread

T = TypeVar("T")

OVER_TIGHTENING: Final = cautions()["over_tightening"].words
SOUND_THREAD: Final = (
    "For a sound, clean, full-depth thread; one that was damaged or cleaned by a tap holds less."
)
TORQUE: Final = Amount("torque", above=0.0)
LENGTH: Final = Amount("length", above=0.0, typed_in=SIZE)
FORCE: Final = Amount("force", above=0.0)
COEFFICIENT: Final = Amount("ratio", above=0.0, most=1.0)
STRESS: Final = Amount("pressure", above=0.0, typed_in=("MPa", "psi"))
THREAD: Final = Input(
    "thread", Words(), "thread, such as M10x1.25, 1/2-20 UNF, 3/8 BSF, M8 LH", required=True
)
_LEAST_COEFFICIENT, _MOST_COEFFICIENT = 0.04, 0.5


@dataclass(frozen=True, slots=True)
class GivenBearing:
    """Where the head bears, and where each diameter came from."""

    bearing: Bearing
    outer_origin: str
    hole_origin: str


@dataclass(frozen=True, slots=True)
class GivenFriction:
    """Friction with its range, where it came from, and what is to be said of its lubricant."""

    friction: FrictionRange
    origin: str
    note: str = ""


def friction_inputs(before: str = "", of: str = "") -> tuple[Input, ...]:
    """The inputs of friction: by lubricant, or as two coefficients."""
    return (
        Input(
            f"{before}lubricant",
            Words(),
            f"lubricant{of}, such as assembly paste, engine oil, threadlocker, dry, class B",
            usual=True,
        ),
        Input(
            f"{before}thread_friction",
            COEFFICIENT,
            f"coefficient of friction in the thread{of}, in place of the lubricant",
            usual=True,
        ),
        Input(
            f"{before}head_friction",
            COEFFICIENT,
            f"coefficient of friction under the turned head or nut{of}",
            usual=True,
        ),
    )


BEARING_INPUTS: Final = (
    Input(
        "bearing_diameter_outer",
        LENGTH,
        "outside of the ring that the turned head or nut bears on; else that of a usual hexagon head",
        usual=True,
    ),
    Input(
        "bearing_diameter_hole",
        LENGTH,
        "inside of that ring; else a usual clearance hole",
        usual=True,
    ),
)


def thread_given(given: Given) -> Thread:
    """The thread.

    Raises
    ------
    InputError
        If it is not known.
    """
    from fitwright.data.threads import thread_of

    return _known("thread", lambda: thread_of(given["thread"]))


def class_given(given: Given, thread: Thread) -> PropertyClass:
    """The property class.

    Raises
    ------
    InputError
        If it is not known, or not made so thick.
    """
    from fitwright.data.fasteners import property_class_of

    return _known("property_class", lambda: property_class_of(given["property_class"], thread))


def metal_given(given: Given, key: str) -> ParentMetal:
    """The parent metal.

    Raises
    ------
    InputError
        If it is not known.
    """
    from fitwright.data.fasteners import parent_metal_of

    return _known(key, lambda: parent_metal_of(given[key]))


def bearing_given(given: Given, thread: Thread) -> GivenBearing:
    """Where the head bears: as given, else under a usual hexagon head.

    Raises
    ------
    InputError
        If the outside of the ring is not above its hole.
    """
    from fitwright.data.fasteners import usual_bearing
    from fitwright.physics.fasteners.friction import Bearing

    usual = usual_bearing(thread)
    outer, hole = given["bearing_diameter_outer"], given["bearing_diameter_hole"]
    sizes = (
        usual.bearing.outer_diameter if outer is None else outer,
        usual.bearing.hole_diameter if hole is None else hole,
    )
    if not sizes[0] > sizes[1]:
        place = "bearing_diameter_hole" if outer is None else "bearing_diameter_outer"
        words = "not below the outside of its ring" if outer is None else "not above the hole within it"
        raise InputError(place, words)
    return GivenBearing(
        Bearing(*sizes),
        usual.origin if outer is None else "given",
        usual.origin if hole is None else "given",
    )


def friction_given(given: Given, before: str = "") -> GivenFriction:
    """Friction by lubricant or by both coefficients.

    Raises
    ------
    InputError
        If it is given twice or not at all, or the lubricant is not known.
    """
    from fitwright.data.fasteners import lubricant_of
    from fitwright.physics.fasteners.band import friction_range
    from fitwright.physics.fasteners.friction import Friction

    place = f"{before}lubricant"
    lubricant, thread, head = given[place], given[f"{before}thread_friction"], given[f"{before}head_friction"]
    if lubricant is not None:
        if thread is not None or head is not None:
            raise InputError(place, "give either the lubricant or coefficients of friction")
        found = _known(place, lambda: lubricant_of(lubricant))
        origin = f"{found.title}, friction class {found.friction_class} [{found.source}]"
        return GivenFriction(found.friction, origin, found.note)
    if thread is None and head is None:
        raise MissingInputError(place, f"give {place}, or {before}thread_friction and {before}head_friction")
    for key, value in ((f"{before}thread_friction", thread), (f"{before}head_friction", head)):
        if value is None:
            raise MissingInputError(key, "give both coefficients of friction")
    return GivenFriction(friction_range(Friction(thread, head)), "given")


def one_of(given: Given, *keys: str) -> str:
    """The one of several inputs that is given.

    Raises
    ------
    InputError
        If none is, or more than one.
    """
    there = [key for key in keys if given[key] is not None]
    if not there:
        raise MissingInputError(keys[0], f"give {', '.join(keys[:-1])} or {keys[-1]}")
    if len(there) > 1:
        raise InputError(there[1], f"give either {' or '.join(there)}")
    return there[0]


def calculated(band: PreloadBand) -> str:
    """What stands beside every torque that was calculated."""
    low, high = (approximately(each, "kN", "force") for each in (band.preload_low, band.preload_high))
    pounds = [approximately(each, "lbf", "force") for each in (band.preload_low, band.preload_high)]
    return (
        f"Calculated from friction you chose; preload between {low} and {high} ({pounds[0]} and {pounds[1]})."
        " The maker's figure, lubricant and method govern. Not for fasteners tightened by angle or to yield."
    )


def friction_cautions(*several: GivenFriction) -> list[str]:
    """What is to be said of lubricants, and of friction that no lubricant has."""
    said = [each.note for each in several if each.note]
    coefficients = [
        value for each in several for value in (each.friction.usual.thread, each.friction.usual.head)
    ]
    if not all(_LEAST_COEFFICIENT <= value <= _MOST_COEFFICIENT for value in coefficients):
        said.append(
            "No friction class has a coefficient"
            f" below {_LEAST_COEFFICIENT:g} or above {_MOST_COEFFICIENT:g}: check it."
        )
    return said


def torque_cautions(thread: Thread, torque: float) -> list[str]:
    """A question where no fastener of this thread takes, or needs, such a torque."""
    from fitwright.physics.fasteners.wrench import is_possible_torque

    found = is_possible_torque(thread, torque)
    if found.is_possible:
        return []
    if found.is_too_large:
        times = f"it is {found.utilisation:.2g} times what brings class 12.9 to yield"
        words = (
            f"No {thread.designation} fastener stands this torque: {times}. Check the unit and the thread."
        )
        return [words]
    return [f"This torque hardly loads a {thread.designation} fastener. Is its unit right?"]


def _known(place: str, find: Callable[[], T]) -> T:
    from fitwright.data.errors import DataError

    try:
        return find()
    except DataError as error:
        raise InputError(place, str(error)) from None
