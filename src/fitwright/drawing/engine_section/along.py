"""The section along the crank: nose on the left, one bank cut through its cylinders.

Of two banks the right one is turned into the plane of the drawing; the banks of a flat engine lie
in one plane and are both cut.
"""

from __future__ import annotations

from fitwright.drawing.engine_section import along_crank as crank
from fitwright.drawing.engine_section import along_cylinders as cylinders
from fitwright.drawing.engine_section import along_ends as ends
from fitwright.drawing.engine_section import along_head as head
from fitwright.drawing.engine_section import along_oil as oil
from fitwright.drawing.engine_section.figure import Figure
from fitwright.drawing.engine_section.ink import Ink
from fitwright.drawing.engine_section.outline import Outline, box


def draw_along(figure: Figure) -> Ink:
    """The engine along its crank."""
    ink = Ink()
    banks = _banks(ink, figure)
    _case(ink, figure, banks)
    for bank, upright in banks:
        cylinders.draw_bores(upright, figure, cylinders.bank_throws(figure, bank))
    crank.draw_crank(ink, figure)
    _drives(ink, figure, banks)
    for bank, upright in banks:
        _cylinders(upright, figure, bank)
    _hidden_rods(ink, figure, [bank for bank, _ in banks])
    if not (figure.flat or figure.two_stroke):
        oil.draw_oil(ink, figure)
    _axes(ink, figure, banks)
    return ink


def _banks(ink: Ink, figure: Figure) -> list[tuple[int, Ink]]:
    """The banks that are cut, each with its frame."""
    last = figure.banks - 1
    found = [(last, ink)]
    if figure.flat and figure.banks > 1:
        found.append((0, ink.framed(lambda point: (point[0], -point[1]))))
    return found


def _case(ink: Ink, figure: Figure, banks: list[tuple[int, Ink]]) -> None:
    if not (figure.flat or figure.two_stroke):
        oil.draw_case(ink, figure)
    outlines: list[Outline] = []
    for _, upright in banks:
        found = cylinders.block_outlines(figure)
        outlines += [outline.moved(upright.turn) for outline in found]
    if figure.two_stroke:
        b, floor = figure.sizes.bore, -(figure.case + 0.02 * figure.sizes.bore)
        outlines.append(box(figure.front, floor - 0.1 * b, figure.rear, floor))
        outlines += [box(x, floor, x + 0.09 * b, 0.0) for x in (figure.front, figure.rear - 0.09 * b)]
        half = 0.8 * figure.main_width / 2
        outlines += [box(main - half, floor, main + half, 0.0) for main in figure.mains]
    ink.united(outlines, "cut")
    if not (figure.flat or figure.two_stroke):
        crank.draw_caps(ink, figure)
    for outline in cylinders.housing_voids(figure):
        ink.draw(outline, "void")
    for index, main in enumerate(figure.mains, start=1):
        ink.place("bulkhead", (main, 0.45 * figure.bore_foot + 0.5 * crank.housing_radius(figure)), index)


def _cylinders(ink: Ink, figure: Figure, bank: int) -> None:
    throws = cylinders.bank_throws(figure, bank)
    if figure.two_stroke:
        cylinders.draw_ports(ink, figure, throws)
    for throw in throws:
        cylinders.draw_piston(ink, figure, throw)
        cylinders.draw_rod(ink, figure, throw, cylinders.crank_level(figure, throw))
    head.draw_head(ink, figure, throws)


def _hidden_rods(ink: Ink, figure: Figure, drawn: list[int]) -> None:
    """Big ends of the bank that is not cut, beside those that are."""
    for throw in figure.crank.throws:
        if throw.bank not in drawn:
            cylinders.draw_big_end(ink, figure, throw, crank.pin_level(figure, throw.pin))


def _drives(ink: Ink, figure: Figure, banks: list[tuple[int, Ink]]) -> None:
    level = ends.cam_level(figure)
    if level is not None:
        for _, upright in banks:
            ends.draw_timing_cover(upright, figure, level)
            ends.draw_cam_drive(upright, figure, level)
    if not (figure.overhead_cams or figure.two_stroke or figure.flat):
        head.draw_low_camshaft(ink, figure)
    ends.draw_nose(ink, figure)
    ends.draw_rear(ink, figure)


def _axes(ink: Ink, figure: Figure, banks: list[tuple[int, Ink]]) -> None:
    """Centre lines of crank and cylinders."""
    b = figure.sizes.bore
    ink.line((figure.front - 1.15 * b, 0.0), (figure.rear + 0.85 * b, 0.0), cls="centre")
    for bank, upright in banks:
        for throw in cylinders.bank_throws(figure, bank):
            z = figure.rod_place(throw)
            upright.line((z, -0.12 * b), (z, figure.face + 0.2 * b), cls="centre")
