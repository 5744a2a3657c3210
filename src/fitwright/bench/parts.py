"""Parts of a build: entered, fitted, taken out, swapped, reworked; each typed thing looked up first.

Every function gives the bodies of the entries to write. Readings belong to parts: what a change
un-proves follows from these entries, and `assess.consequences` says it before they are written.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import count
from typing import Literal

from fitwright.assess.evidence import members_of
from fitwright.bench.context import Bench, near
from fitwright.bench.errors import (
    CannotEnterError,
    NoWordsError,
    PartThereError,
    PositionEmptyError,
    SamePositionError,
    UnknownNameError,
)
from fitwright.model.dimension import Dimension
from fitwright.records.kinds import Body, Fitting, Part, State, TakingOut

Change = Literal["rework", "repair", "replacement"]


def check_position(bench: Bench, position: str) -> None:
    """Refuse a position that the sheet does not have."""
    if position not in bench.sheet.parts:
        raise UnknownNameError("position", position, near(position, bench.sheet.parts))


def check_part(bench: Bench, part: str) -> None:
    """Refuse a part that nobody entered and that is no part of the sheet."""
    known = known_parts(bench)
    if part not in known:
        raise UnknownNameError("part", part, near(part, known))


def known_parts(bench: Bench) -> tuple[str, ...]:
    """The code of every part: those entered, and those that the sheet's positions began with."""
    return tuple(dict.fromkeys((*bench.build.parts, *bench.sheet.parts)))


def spare_parts(bench: Bench) -> tuple[str, ...]:
    """The parts entered that sit in no position now."""
    return tuple(code for code in bench.build.parts if position_of(bench, code) is None)


def position_of(bench: Bench, part: str) -> str | None:
    """The position of the sheet in which a part sits now; None for one on the shelf."""
    found = bench.build.location(part)
    return found if found in bench.sheet.parts else None


def part_of(
    bench: Bench | None,
    *,
    code: str = "",
    title: str = "",
    position: str | None = None,
    serial: str | None = None,
    used: bool = False,
    origin: str | None = None,
) -> Part:
    """A part, with or without a position yet.

    Without a code it is the part that sits in its position now, and what was read through it stays
    its own; another code puts another part there.
    """
    if bench is not None and position:
        check_position(bench, position)
        code = code or bench.build.occupant(position) or position
        title = title or bench.sheet.parts[position].title
    if not code:
        raise NoWordsError("A part on the shelf", "its code")
    if not title:
        raise NoWordsError(f"Part {code}", "its title")
    return Part(
        code=code,
        title=title,
        position=position or None,
        serial=serial or None,
        used=used,
        origin=origin or None,
    )


def fitting_of(bench: Bench, part: str, position: str) -> Fitting:
    """A part put into a position; who sat there before is out."""
    check_position(bench, position)
    check_part(bench, part)
    return Fitting(part=part, position=position)


def fitted(bench: Bench, part: str, position: str, *, words: str = "") -> tuple[Body, ...]:
    """A part put into a position, and what it replaces there where words say why.

    The replacement retires what was read through the part before it, and leaves it its own sizes.
    """
    body = fitting_of(bench, part, position)
    before = bench.build.occupant(position)
    if before == part:
        raise PartThereError(part, position)
    return (*replacing(bench, part, position, words), body)


def put_new(
    bench: Bench, body: Part, *, words: str = "", changes: Iterator[str] | None = None
) -> tuple[Body, ...]:
    """A part entered, in its position or on the shelf, and what it replaces there where words say why.

    `changes` are the codes of the replacements where several are written together.

    Raises
    ------
    CannotEnterError
        If another part has the code: that one would be moved, and no new one entered.
    """
    if body.code in bench.build.parts and position_of(bench, body.code) != body.position:
        at = position_of(bench, body.code)
        where = f"in {bench.sheet.parts[at].title}" if at else "on the shelf"
        raise CannotEnterError(
            f"A part {body.code} is there already, {where}", "fit it, or give the new one another code"
        )
    if body.position is None:
        return (body,)
    return (*replacing(bench, body.code, body.position, words, changes=changes), body)


def replacing(
    bench: Bench, part: str, position: str, words: str, *, changes: Iterator[str] | None = None
) -> tuple[State, ...]:
    """The replacement of what sits in a position by another part, where words say why.

    It retires what was read through the part before.
    """
    before = bench.build.occupant(position)
    through = [each.id for each in dimensions_of(bench, position) if each.part != position]
    if not (words and before and through) or before == part:
        return ()
    code = next(changes or new_change_codes(bench))
    return (change_of(bench, before, words, through, change="replacement", code=code),)


def taking_out_of(bench: Bench, position: str) -> TakingOut:
    """The part in a position taken out."""
    check_position(bench, position)
    inside = bench.build.occupant(position)
    if inside is None:
        raise PositionEmptyError(position)
    return TakingOut(part=inside, position=position)


def swapped(bench: Bench, one: str, other: str) -> tuple[Body, ...]:
    """The parts in two positions in each other's place; into an empty one the part just moves."""
    check_position(bench, one)
    check_position(bench, other)
    if one == other:
        raise SamePositionError(one)
    first, second = bench.build.occupant(one), bench.build.occupant(other)
    if first is None and second is None:
        raise PositionEmptyError(one)
    moves = [(first, other), (second, one)]
    return tuple(Fitting(part=part, position=position) for part, position in moves if part is not None)


def change_of(
    bench: Bench,
    part: str,
    words: str,
    dimensions: Sequence[str],
    *,
    change: Change = "rework",
    code: str | None = None,
) -> State:
    """A rework, repair or replacement of a part; it retires the readings of these dimensions."""
    check_part(bench, part)
    if not words.strip():
        raise NoWordsError(f"A {change}", "what was done")
    for name in dimensions:
        bench.dimension(name)
    return State(
        code=code or new_change_code(bench),
        change=change,
        part=part,
        dimensions=tuple(dimensions),
        words=words,
    )


def new_change_code(bench: Bench) -> str:
    """A code that no change of this build has yet: R1, R2 and so on."""
    return next(new_change_codes(bench))


def new_change_codes(bench: Bench) -> Iterator[str]:
    """Codes that no change of this build has yet, one after the other without end."""
    taken = {each.code for part in known_parts(bench) for each in bench.build.changes(part)}
    return (code for number in count(len(taken) + 1) if (code := f"R{number}") not in taken)


def dimensions_of(bench: Bench, position: str) -> tuple[Dimension, ...]:
    """The dimensions that rest on what sits in a position: its own first, then those taken through it."""
    resting = [
        each
        for each in bench.sheet.dimensions.values()
        if any(member.position == position for member in members_of(bench.sheet, each))
    ]
    return tuple(sorted(resting, key=lambda each: each.part != position))


def touched_with(bench: Bench, position: str, names: Iterable[str]) -> frozenset[str]:
    """Of the dimensions of a position, those that a change of these features retires as well."""
    features = {bench.dimension(name).feature for name in names}
    return frozenset(
        each.id
        for each in dimensions_of(bench, position)
        if any(
            member.position == position and member.feature in features
            for member in members_of(bench.sheet, each)
        )
    )
