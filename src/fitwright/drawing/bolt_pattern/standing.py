"""How a tightening group stands, as the drawing shows it; one for page, print and dossier."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Final

from fitwright.assess.assembly.results import FastenerPass, FastenerStanding, FastenerState, GroupStanding
from fitwright.assess.results import Verdict
from fitwright.drawing.bolt_pattern.shown import FastenerShown
from fitwright.drawing.tightening_figures import TighteningReader
from fitwright.model.fastener import readable_names

ODD: Final = "odd one out"
UNDER: Final = "under concession"
NOT_YET: Final = "not yet"
AGAIN: Final = "tighten again"

Address = Callable[[str], str]


def shown_of(
    group: GroupStanding,
    reader: TighteningReader,
    *,
    chosen: str = "",
    address: Address = lambda _: "",
    is_next: bool = True,
) -> tuple[FastenerShown, ...]:
    """Each fastener of a group in the words and figures of a reader.

    `address` says where a touch of a fastener leads; `is_next` whether who comes next is pointed at, which a
    document does not.
    """
    names = readable_names(group.group)
    return tuple(
        FastenerShown(
            id=each.id,
            name=names[each.id],
            verdict=verdict_of(each),
            word=word_of(group, each),
            passes=passes_of(group, each),
            figures=figures_of(each, reader),
            loosened=each.state is FastenerState.LOOSENED,
            next=is_next and each.id == group.next_fastener,
            chosen=each.id == chosen,
            address=address(each.id),
        )
        for each in group.fasteners
    )


def verdict_of(found: FastenerStanding) -> Verdict:
    """The mark of a fastener: what is under concession is outside all the same."""
    if found.state is FastenerState.OUTSIDE or found.under is not None:
        return Verdict.OUTSIDE
    if found.odd is not None or found.state is FastenerState.TO_TIGHTEN_AGAIN:
        return Verdict.UNPROVEN
    return Verdict.WITHIN if found.complete else Verdict.NOT_MEASURED


def word_of(group: GroupStanding, found: FastenerStanding) -> str:
    """The word beside the mark."""
    if found.under is not None:
        return UNDER
    if found.odd is not None and found.state is not FastenerState.OUTSIDE:
        return ODD
    words = {
        FastenerState.NOT_TIGHTENED: NOT_YET,
        FastenerState.PART_WAY: _reached(group, found),
        FastenerState.TO_TIGHTEN_AGAIN: AGAIN,
    }
    return words.get(found.state, found.state.value)


def passes_of(group: GroupStanding, found: FastenerStanding) -> tuple[bool, ...]:
    """Which passes of the sheet it has had."""
    had = {each.number for each in found.passes}
    return tuple(each.number in had for each in group.passes)


def figures_of(found: FastenerStanding, reader: TighteningReader) -> tuple[str, ...]:
    """What it got in its last pass; the stretch first, where one was read."""
    return tuple(_figures(found.passes[-1], reader)) if found.passes else ()


def _figures(last: FastenerPass, reader: TighteningReader) -> Iterator[str]:
    if last.stretch is not None:
        yield reader.stretch_of(last.stretch)
    if last.angle is not None:
        yield reader.angle_of(last.angle)
    if last.torque is not None:
        yield reader.torque_of(last.torque)


def _reached(group: GroupStanding, found: FastenerStanding) -> str:
    return f"pass {sum(passes_of(group, found))} of {len(group.passes)}"
