"""Tightening groups and how they stand, made by hand for tests of pictures and pages."""

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from fitwright.assess.assembly.results import (
    FastenerPass,
    FastenerStanding,
    FastenerState,
    GroupStanding,
    PassStanding,
    Preload,
    PreloadBy,
)
from fitwright.model.amount import Written
from fitwright.model.fastener import Fastener, Pass, TighteningGroup

TORQUES = (30.0, 60.0)
PRELOAD = Preload(39_400.0, 32_100.0, 46_900.0, PreloadBy.TORQUE, "engine oil", (0.12, 0.12), 0.62, 0.7, 2.1)


def group_of(count: int = 4, torques: Sequence[float] = TORQUES, **more: Any) -> TighteningGroup:
    """A group in one row, to be tightened in some passes by torque."""
    passes = tuple(Pass(Written(f"{torque:g} N m", torque, "N m")) for torque in torques)
    fasteners = tuple(Fastener(f"bolt {k}", 0.08 * k, 0.0) for k in range(1, count + 1))
    return TighteningGroup("caps", "Main caps", "M10x1.25", fasteners, passes, **more)


def pass_of(number: int, torque: float | None = None, **more: Any) -> FastenerPass:
    """What was recorded of a fastener in a pass."""
    nothing = dict.fromkeys(
        (
            *("at", "performed_by", "angle", "stretch", "free_length", "tightened_length", "lubricant"),
            *("equal_torque", "wrench", "preload", "outside", "outside_words", "note"),
        )
    )
    plain = {"read": "set", "other_lubricant": False, "early": False}
    return FastenerPass(
        number=number, entry=f"{number:032x}", seq=number, torque=torque, **{**nothing, **plain, **more}
    )


def fastener_of(
    name: str, passes: Sequence[FastenerPass] = (), state: FastenerState | None = None, **more: Any
) -> FastenerStanding:
    """How a fastener stands; by itself not tightened, part way or complete after two passes."""
    reached = (FastenerState.NOT_TIGHTENED, FastenerState.PART_WAY, FastenerState.COMPLETE)
    state = state or reached[min(len(passes), 2)]
    plain = FastenerStanding(
        id=name,
        state=state,
        part=None,
        passes=tuple(passes),
        preload=None,
        odd=None,
        under=None,
        marked=False,
        checked_by=(),
        second_person=False,
        times=0,
        permanent_set=None,
        set_beyond=False,
        new=None,
        missing=(),
        remarks=(),
        words=state.value,
    )
    return replace(plain, **more)


def standing_of(
    group: TighteningGroup,
    fasteners: Sequence[FastenerStanding],
    *,
    next_fastener: str | None = None,
    next_pass: int | None = None,
    **more: Any,
) -> GroupStanding:
    """How a group stands with its fasteners."""
    passes = tuple(
        PassStanding(
            number=number,
            asks=asks,
            words=asks.torque.written if asks.torque is not None else "",
            due=True,
            done=tuple(each.id for each in fasteners if len(each.passes) >= number),
            missing=tuple(each.id for each in fasteners if len(each.passes) < number),
            early=(),
        )
        for number, asks in enumerate(group.passes, start=1)
    )
    complete = all(each.complete for each in fasteners)
    plain = GroupStanding(
        group=group,
        fasteners=tuple(fasteners),
        passes=passes,
        complete=complete,
        started=any(each.passes for each in fasteners),
        next_pass=next_pass,
        next_fastener=next_fastener,
        intended=PRELOAD,
        warm=(),
        words="complete" if complete else "not complete",
        missing=(),
        remarks=(),
        not_computed=None,
    )
    return replace(plain, **more)
