"""The working of a centring, and what has to be said with its answer."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from fitwright.sums.declaration import Computed, PutIn, Step
from fitwright.sums.forms import Given
from fitwright.sums.gaps import Gap, Located

if TYPE_CHECKING:
    from fitwright.physics.fits.centring_move import Move, SagCorrection


def steps(
    given: Given, gaps: Sequence[Gap], found: Located, sag: SagCorrection | None, move: Move | None
) -> tuple[Step, ...]:
    """The steps from gaps to move."""
    made = [_offset(gaps, found)]
    if found.closure is not None:
        made.append(_closure(found))
    if found.chance is not None:
        made.append(_limit(given, found.chance))
    if sag is not None:
        made.append(_sag(given, sag))
    if move is not None:
        made.append(_move(move))
    return tuple(made)


def cautions(found: Located, values: Mapping[str, Computed]) -> tuple[str, ...]:
    """What the gaps themselves cast doubt on."""
    said = []
    if found.closure is not None and not found.closure.agrees:
        said.append("Sums of opposite gaps differ too much: out of round, or a reading is wrong; read again.")
    if found.polygon is not None and found.polygon.contradicting:
        said.append("No offset agrees with all blades: read the gaps named again; they are never averaged.")
    if found.polygon is not None and found.polygon.open_towards:
        said.append("Blades leave the offset open on some side: try thicker blades there.")
    after = values["gaps_after"]
    rows = [row for row in after if isinstance(row, Mapping)] if isinstance(after, tuple) else []
    if any(isinstance(row["gap"], float) and row["gap"] < 0.0 for row in rows):
        said.append("After this move the housing would touch the shaft.")
    return tuple(said)


def _offset(gaps: Sequence[Gap], found: Located) -> Step:
    by_blades = found.polygon is not None
    formula = (
        "every offset with all gaps in their brackets; the mean of them, each weighed by its likelihood"
        if by_blades
        else "gap = mean + e_r sin θ + e_u cos θ − r_r sin(θ − φ) − r_u cos(θ − φ); e housing, r shaft"
    )
    return Step(
        "Offset of the housing",
        formula,
        tuple(number for n, each in enumerate(gaps, 1) for number in _gap(n, each)),
        PutIn("offset", None if found.offset is None else found.offset.magnitude, "length"),
        "jcgm101_2008" if by_blades else "muralikrishnan2009",
    )


def _gap(number: int, gap: Gap) -> list[PutIn]:
    where = f"gap {number} at θ {math.degrees(gap.angle):g}°, φ {math.degrees(gap.shaft_angle):g}°"
    if gap.value is not None:
        return [PutIn(where, gap.value, "length", "given")]
    ends = [PutIn(f"{where}: at least", gap.at_least, "length", "given")]
    if math.isfinite(gap.less_than):
        ends.append(PutIn(f"{where}: less than", gap.less_than, "length", "given"))
    return ends


def _closure(found: Located) -> Step:
    closure = found.closure
    assert closure is not None  # noqa: S101  (asked for only where there is one)
    return Step(
        "Sums of opposite gaps",
        "each is twice the mean gap, whatever the offset",
        (
            *(
                PutIn(f"from {math.degrees(each.station_angle):g}°", each.gap_sum, "length")
                for each in closure.sums
            ),
            PutIn(
                "allowed difference",
                closure.allowed_difference,
                "length",
                "given, or two standard uncertainties",
            ),
        ),
        PutIn("largest difference", closure.largest_difference, "length"),
        "muralikrishnan2009",
    )


def _limit(given: Given, chance: float) -> Step:
    return Step(
        "The limit",
        "probability that the size of the offset is at most the limit",
        (PutIn("limit", given["upper_limit"], "length", "given"),),
        PutIn("probability", chance, "ratio"),
        "jcgm106_2012",
    )


def _sag(given: Given, sag: SagCorrection) -> Step:
    return Step(
        "The shaft in its clearance",
        "half the clearance down while it rests (up while it is lifted), less (1 − lift) of it when it runs",
        (
            PutIn("running clearance", given["running_clearance"], "length", "given"),
            PutIn("shaft", given["shaft_position"], None, given.origin("shaft_position")),
            PutIn("attitude on the stand", given["attitude"], "angle", given.origin("attitude")),
            PutIn(
                "attitude in service",
                given["attitude_in_service"],
                "angle",
                given.origin("attitude_in_service"),
            ),
            PutIn(
                "running lift",
                given["running_lift"],
                "ratio",
                f"{given.origin('running_lift')}: a rule of thumb",
            ),
            PutIn("added to the right", sag.correction.right, "length"),
        ),
        PutIn("added upwards", sag.correction.up, "length"),
        "jcgm100_2008",
    )


def _move(move: Move) -> Step:
    return Step(
        "The move",
        "the offset, reversed",
        (
            PutIn("to the right", move.vector.right, "length"),
            PutIn("towards the top", move.vector.up, "length"),
        ),
        PutIn("distance", move.vector.magnitude, "length"),
    )
