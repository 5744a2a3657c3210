"""Tightening groups of a sheet: passes that rise, windows the right way round, each fastener once."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from fitwright.model.amount import Written
from fitwright.model.fastener import Pass, TighteningGroup, TighteningMethod
from fitwright.model.problem import Path, Problem
from fitwright.model.sheet import Sheet


def check_tightening(sheet: Sheet) -> Iterator[Problem]:
    """Problems of all tightening groups."""
    owner: dict[str, str] = {}
    for group in sheet.tightening_groups.values():
        path: Path = ("tightening_groups", group.id)
        for fastener in group.fasteners:
            earlier = owner.setdefault(fastener.id, group.id)
            if earlier != group.id:
                what = f'"{fastener.id}" belongs to the tightening group {earlier} already'
                yield Problem((*path, "fasteners"), what, "name it in one of them")
        yield from _check_once(group, path)
        for index, each in enumerate(group.passes):
            yield from _check_pass(each, (*path, "passes", index))
        yield from _check_passes(group, path)
        yield from _check_method(group, path)
        yield from _check_face(group, path)


def _check_once(group: TighteningGroup, path: Path) -> Iterator[Problem]:
    names = [each.id for each in group.fasteners]
    for name in dict.fromkeys(name for name in names if names.count(name) > 1):
        yield Problem((*path, "fasteners"), f'"{name}" is named {names.count(name)} times', "name it once")


def _check_pass(each: Pass, path: Path) -> Iterator[Problem]:
    amounts = (each.torque, each.angle, each.stretch_low, each.stretch_high, each.upto)
    if all(amount is None for amount in amounts):
        yield Problem(path, "this pass asks for nothing", 'write torque = "45 N m", an angle or a stretch')
    if (each.stretch_low is None) != (each.stretch_high is None):
        missing = "stretch_low" if each.stretch_low is None else "stretch_high"
        yield Problem(path, f"half a window: {missing} is missing", f"write {missing} = ...")
    if each.upto is not None and each.torque is None:
        yield Problem((*path, "upto"), "an upper end without a torque", "write torque = ... beside it")
    for low, high, key in (
        (each.torque, each.upto, "upto"),
        (each.stretch_low, each.stretch_high, "stretch_high"),
    ):
        if low is not None and high is not None and high.si <= low.si:
            what = f"{high.written} is not above {low.written}"
            yield Problem((*path, key), what, "write the lower end first, then the upper one")


def _check_passes(group: TighteningGroup, path: Path) -> Iterator[Problem]:
    """From pass to pass nothing falls, and what is done cold comes before what is done after heat."""
    for index, (before, after) in enumerate(pairwise(group.passes), start=1):
        place: Path = (*path, "passes", index)
        if before.after_heat and not after.after_heat:
            what = "a pass before the heat cycle stands after one that follows it"
            yield Problem(place, what, "write passes in the order in which they are done")
        elif before.after_heat == after.after_heat:
            yield from _check_fall(before.torque, after.torque, (*place, "torque"))
            yield from _check_fall(before.stretch_high, after.stretch_high, (*place, "stretch_high"))
    first = group.passes[0] if group.passes else None
    if first is not None and first.angle is not None and first.torque is None:
        what = "an angle, and nothing says from which torque it is turned"
        yield Problem((*path, "passes", 0, "angle"), what, "write a pass with a torque before it")


def _check_fall(before: Written | None, after: Written | None, path: Path) -> Iterator[Problem]:
    if before is not None and after is not None and after.si < before.si:
        what = f"{after.written} after {before.written} in the pass before"
        yield Problem(path, what, "write passes rising")


def _check_method(group: TighteningGroup, path: Path) -> Iterator[Problem]:
    if not group.passes:
        return
    angles = any(each.angle is not None for each in group.passes)
    stretches = any(each.stretch_low is not None for each in group.passes)
    method, place = group.method, (*path, "method")
    if method is TighteningMethod.TORQUE and (angles or stretches):
        what = f"{'an angle' if angles else 'a stretch'} among the passes of the method torque"
        yield Problem(place, what, f'write method = "{"torque and angle" if angles else "stretch"}"')
    if method is TighteningMethod.TORQUE_AND_ANGLE and not angles:
        yield Problem(
            place, "the method torque and angle without an angle", 'write a pass with angle = "90 deg"'
        )
    if method is TighteningMethod.STRETCH and not stretches:
        mend = "write a pass with stretch_low and stretch_high"
        yield Problem(place, "the method stretch without a stretch", mend)


def _check_face(group: TighteningGroup, path: Path) -> Iterator[Problem]:
    outer, hole = group.bearing_diameter_outer, group.bearing_diameter_hole
    if (outer is None) != (hole is None):
        missing = "bearing_diameter_outer" if outer is None else "bearing_diameter_hole"
        yield Problem(path, f"half a face: {missing} is missing", f"write {missing} = ...")
    elif outer is not None and hole is not None and outer.si <= hole.si:
        what = f"a face of {outer.written} around a hole of {hole.written}"
        yield Problem((*path, "bearing_diameter_outer"), what, "write the outer diameter of the face")
