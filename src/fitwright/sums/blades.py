"""Blades as inputs of sums: a thickness alone, or with its own uncertainty."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Final

from fitwright.sums.declaration import PutIn
from fitwright.sums.forms import Amount, Given, Group, Input
from fitwright.units import approximately

if TYPE_CHECKING:
    from fitwright.physics.metrology.readings import Blade

UNCERTAINTY: Final = Amount("length", least=0.0)
THICKNESS: Final = Amount("length", above=0.0)

BLADE: Final = Group(
    (
        Input("thickness", THICKNESS, "thickness of the blade, as marked or as measured", required=True),
        Input("standard_uncertainty", UNCERTAINTY, "its own standard uncertainty, where it was measured"),
    ),
    alone="thickness",
    short=r"(?P<thickness>.+?)(?: u (?P<standard_uncertainty>.+))?",
    example="0.0512 mm u 0.0005 mm",
)

DEFAULT_BLADE_UNCERTAINTY: Final = Input(
    "blade_standard_uncertainty",
    UNCERTAINTY,
    "standard uncertainty of every blade that has none of its own",
    default="0.002 mm",
)


def blade(thickness: float, standard_uncertainty: float) -> Blade:
    """A blade; two of equal thickness and uncertainty are one and the same."""
    from fitwright.physics.metrology.readings import Blade

    return Blade(f"{thickness!r} {standard_uncertainty!r}", thickness, standard_uncertainty)


def blades_of(several: Sequence[Given], usual: float) -> list[Blade]:
    """The blades of a set, each once."""
    found = {
        each.key: each
        for each in (
            blade(
                one["thickness"],
                usual if one["standard_uncertainty"] is None else one["standard_uncertainty"],
            )
            for one in several
        )
    }
    return list(found.values())


def marking(one: Blade) -> str:
    """A blade as one would call it at the bench."""
    return approximately(one.thickness, "mm", "length")


def interface_numbers() -> tuple[PutIn, ...]:
    """What each interface of a stack adds, for a working."""
    from fitwright.physics.metrology.readings import INTERFACE_THICKNESS, INTERFACE_UNCERTAINTY

    return (
        PutIn("an interface adds", INTERFACE_THICKNESS, "length", "assumed: film, burrs, curl"),
        PutIn("u of what it adds", INTERFACE_UNCERTAINTY, "length", "assumed"),
    )
