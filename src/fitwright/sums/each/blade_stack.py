"""Which blades of a set make a wanted thickness."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from fitwright.sums.blades import BLADE, DEFAULT_BLADE_UNCERTAINTY, blades_of, interface_numbers, marking
from fitwright.sums.declaration import Found, Output, PutIn, Row, Step, Sum
from fitwright.sums.forms import Amount, Count, Given, Input, Several

if TYPE_CHECKING:
    from fitwright.physics.metrology.blade_stacks import BladeStack


def _compute(given: Given) -> Found:
    from fitwright.physics.metrology.blade_stacks import stacks_nearest

    blades = blades_of(given["blades"], given["blade_standard_uncertainty"])
    found = stacks_nearest(
        given["wanted_thickness"], blades, largest_stack=given["largest_stack"], count=given["count"]
    )
    best, others = found[0], found[1:]
    again = [one for one in others if len(one.blades) > 1 and abs(one.thickness - best.thickness) < 5e-7]
    return Found(
        {
            "blades": tuple(blade.thickness for blade in best.blades),
            "thickness": best.thickness,
            "standard_uncertainty": best.standard_uncertainty,
            "difference": best.difference,
            "alternatives": tuple(map(_row, others)),
            "cross_check": tuple(blade.thickness for blade in again[0].blades) if again else None,
        },
        (_working(best, given),),
    )


def _row(stack: BladeStack) -> Row:
    return {
        "blades": tuple(blade.thickness for blade in stack.blades),
        "thickness": stack.thickness,
        "standard_uncertainty": stack.standard_uncertainty,
        "difference": stack.difference,
    }


def _working(best: BladeStack, given: Given) -> Step:
    blades = tuple(
        PutIn(f"blade {marking(blade)}", blade.thickness, "length", "given") for blade in best.blades
    )
    return Step(
        "Thickness of the nearest stack",
        "sum of the blades + (blades − 1) × what an interface adds",
        (
            *blades,
            *(interface_numbers() if len(blades) > 1 else ()),
            PutIn("thickness wanted", given["wanted_thickness"], "length", "given"),
        ),
        PutIn("thickness", best.thickness, "length"),
        "jcgm100_2008",
    )


_COLUMNS = (
    Output("blades", "the blades, thickest first", "length"),
    Output("thickness", "of the stack, with what its interfaces add", "length"),
    Output("standard_uncertainty", "of that thickness", "length"),
    Output("difference", "thickness less the thickness wanted", "length"),
)

SUM = Sum(
    name="blade-stack",
    words=("feeler blades", "feeler gauges", "shims", "shim pack"),
    title="Stack of blades",
    text="Which blades of a set, put together, make a wanted thickness, and how well it is known.",
    inputs=(
        Input("wanted_thickness", Amount("length", above=0.0), "the thickness wanted", required=True),
        Input("blades", Several(BLADE), "the blades of the set, each of which is there once", required=True),
        DEFAULT_BLADE_UNCERTAINTY,
        Input("largest_stack", Count(1, 4), "most blades in a stack", default=3),
        Input("count", Count(1, 50), "how many stacks to show", default=5),
    ),
    outputs=(
        *(replace(each, leads=each.key != "standard_uncertainty") for each in _COLUMNS),
        Output("alternatives", "the next nearest stacks", columns=_COLUMNS),
        Output(
            "cross_check", "other blades that make the same thickness; null where there are none", "length"
        ),
    ),
    compute=_compute,
    source="jcgm100_2008",
    example={
        "wanted_thickness": "0.452 mm",
        "blades": ["0.05 mm", "0.10 mm", "0.15 mm", "0.20 mm", "0.25 mm", "0.30 mm", "0.40 mm", "0.50 mm"],
    },
)
