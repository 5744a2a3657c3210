"""The section across the crank, seen from the nose: cut through the first cylinder of each bank."""

from __future__ import annotations

from math import radians

from fitwright.drawing.engine_section import across_bank as bank
from fitwright.drawing.engine_section import across_crank as crank
from fitwright.drawing.engine_section import across_oil as oil
from fitwright.drawing.engine_section.across_drive import draw_low_cam, tunnel
from fitwright.drawing.engine_section.across_head import draw_head
from fitwright.drawing.engine_section.figure import Figure
from fitwright.drawing.engine_section.ink import Ink
from fitwright.drawing.engine_section.outline import Outline, box, ring
from fitwright.model.throws import Throw

_WIDE_VEE = radians(80.0)


def cut_throws(figure: Figure) -> list[Throw]:
    """The cylinders that are cut: the first of each bank, the one nearest to the eye last."""
    found = []
    for side in range(figure.banks):
        throws = [throw for throw in figure.crank.throws if throw.bank == side]
        found.append(min(throws, key=lambda throw: (throw.pin, throw.cylinder)))
    return found


def draw_across(figure: Figure) -> Ink:
    """The engine across its crank."""
    ink = Ink()
    throws = cut_throws(figure)
    frames = [(throw, _upright(ink, figure, throw)) for throw in throws]
    _case(ink, figure, frames)
    for _, upright in frames:
        bank.draw_jackets(upright, figure)
        if figure.two_stroke:
            bank.draw_ports(upright, figure)
    for throw in _on_own_pins(throws):
        crank.draw_web(ink, figure, throw)
    for throw, upright in frames:
        bank.draw_piston(upright, figure, throw)
        draw_head(upright, figure, throw)
    draw_low_cam(ink, figure, frames)
    for throw, upright in frames:
        crank.draw_rod(ink, figure, throw)
        bank.draw_piston_pin(upright, figure, throw)
        crank.draw_pin(ink, figure, throw)
    oil.draw_pump(ink, figure)
    _axes(ink, figure, frames)
    return ink


def _upright(ink: Ink, figure: Figure, throw: Throw) -> Ink:
    """The frame of a bank; mirrored where its side valves stand on the right of its axis.

    They stand inside a wide vee, outside a narrow one, and on the sump's side of a flat engine.
    """
    upright = ink.turned(figure.crank.axes[throw.bank])
    inside = figure.crank.axes[-1] - figure.crank.axes[0] > _WIDE_VEE and not figure.flat
    on_the_right = figure.banks > 1 and (throw.bank == 0) == inside
    if figure.side_valve and on_the_right:
        return upright.framed(lambda point: (-point[0], point[1]))
    return upright


def _on_own_pins(throws: list[Throw]) -> list[Throw]:
    """One throw for each pin."""
    return list({throw.pin: throw for throw in throws}.values())


def _case(ink: Ink, figure: Figure, frames: list[tuple[Throw, Ink]]) -> None:
    metal, hollow = _shell(figure), [ring((0.0, 0.0), figure.case)]
    for _, upright in frames:
        metal += [outline.moved(upright.turn) for outline in bank.block_outlines(figure)]
        if figure.side_valve:
            metal += [outline.moved(upright.turn) for outline in tunnel(figure)]
        hollow.append(bank.bore_void(figure).moved(upright.turn))
    if figure.flat:
        hollow.append(box(-0.8 * figure.case, oil.foot(figure), 0.8 * figure.case, 0.0))
    elif not figure.two_stroke:
        hollow.append(box(-figure.case, oil.foot(figure), figure.case, 0.0))
    if figure.flat:
        oil.draw_sump(ink, figure)
    ink.united(metal, "cut")
    ink.united(hollow, "void")
    if not (figure.flat or figure.two_stroke):
        _open_foot(ink, figure)


def _shell(figure: Figure) -> list[Outline]:
    wall = oil.case_wall(figure)
    out = figure.case + wall
    found = [ring((0.0, 0.0), out), *([] if figure.side_valve else tunnel(figure))]
    if figure.flat:
        half = 0.8 * figure.case + wall
        found.append(box(-half, oil.foot(figure), half, 0.0))
    if not (figure.flat or figure.two_stroke):
        b = figure.sizes.bore
        found.append(box(-out, oil.foot(figure), out, 0.0))
        found.append(box(-out - 0.08 * b, oil.foot(figure), out + 0.08 * b, oil.foot(figure) + 0.08 * b))
    return found


def _open_foot(ink: Ink, figure: Figure) -> None:
    """The crankcase is open to the sump: no line crosses there, and its round foot is not there."""
    low = oil.foot(figure)
    ink.box(
        -figure.case + 0.01,
        min(low, -figure.case) - 0.3 * figure.sizes.bore,
        figure.case - 0.01,
        low + 0.5,
        "ground",
    )
    oil.draw_sump(ink, figure)


def _axes(ink: Ink, figure: Figure, frames: list[tuple[Throw, Ink]]) -> None:
    b = figure.sizes.bore
    ink.cross((0.0, 0.0), figure.case + 0.25 * b)
    for _, upright in frames:
        upright.line((0.0, 0.0), (0.0, figure.face + 0.95 * b), cls="centre")
