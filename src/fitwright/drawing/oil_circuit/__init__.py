"""The oil circuit of a sheet as a drawing, with the pressures and flows of one operating point.

`graph` what is to be drawn and by which symbol, `gathering` equal parts as one (`galleries` in pieces,
`titles` for several), `order` the way of the oil
and its trunk; `grid` and `across` the drawing from left to right, `down` the one for narrow screens;
`symbols` the symbols, `words` what is said at each, `pen` what both layouts share.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from types import MappingProxyType
from typing import Final

from fitwright.assess.oil.results import PointState
from fitwright.drawing.canvas import Canvas, Picture
from fitwright.drawing.oil_circuit.across import Across
from fitwright.drawing.oil_circuit.down import Down
from fitwright.drawing.oil_circuit.gathering import gathered
from fitwright.drawing.oil_circuit.graph import graph_of
from fitwright.drawing.oil_circuit.order import branches_of, course_of
from fitwright.drawing.oil_circuit.pen import Pen
from fitwright.drawing.oil_circuit.words import Words
from fitwright.drawing.oil_figures import OilReader
from fitwright.model.circuit.circuit import Circuit
from fitwright.model.circuit.pumps import StagePurpose
from fitwright.units.families import Family

__all__ = ["NARROW", "PAGE", "circuit_drawing"]

PAGE: Final = 780.0
"""Width for a page and for paper; 1100 and more suit wide screens."""

NARROW: Final = 350.0
"""Width for a phone; below 600 the oil runs from top to bottom."""

_LEAST_ACROSS: Final = 600.0


def circuit_drawing(
    circuit: Circuit,
    point: PointState | None = None,
    *,
    family: Family = "mm",
    width: float = PAGE,
    gather: bool = True,
    apart: Collection[str] = (),
    selected: str | None = None,
    hrefs: Mapping[str, str] = MappingProxyType({}),
) -> Picture:
    """The circuit of a sheet, whatever its layout.

    Parameters
    ----------
    circuit : Circuit
        The circuit of the sheet.
    point : PointState, optional
        Pressures and flows; without it only the circuit is drawn.
    family : {"mm", "inch"}
        bar or psi.
    width : float
        Width in units of 1 px; below 600 from top to bottom.
    gather : bool
        Whether equal parts are drawn as one.
    apart : collection of str
        Ids, groups or families of elements that are shown one by one all the same.
    selected : str, optional
        Id of the path, pump stage or relief valve that is framed.
    hrefs : mapping of str to str
        Where touching an element leads, by its id (of the first of several drawn as one).

    Returns
    -------
    Picture
        SVG text; `oil_pictures.css` or `oil_style` has its style.
    """
    graph = graph_of(circuit)
    graph = gathered(graph, apart) if gather else graph
    words = Words(OilReader(family), point, circuit.gauge)
    pen = Pen(Canvas(width), words, selected, hrefs)
    roots = branches_of(graph)
    top = 2.0
    for line, hand in words.heading():
        top = pen.canvas.paragraph(0.0, top + 14.0, line, width, hand) - 10.0
    if width < _LEAST_ACROSS:
        foot = Down(pen, graph).draw(roots, top + 6.0)
    else:
        foot = Across(pen, graph).draw(course_of(roots), top + 6.0)
    foot = _notes(pen, circuit, foot + 18.0)
    pen.canvas.written += pen.touch
    return pen.canvas.picture(
        foot, _label(words), _described(words, graph.nodes, len(graph.edges)), "oil-circuit"
    )


def _notes(pen: Pen, circuit: Circuit, y: float) -> float:
    notes = []
    if pen.words.point is not None:
        y = pen.legend(y, 0.0, pen.canvas.width) + 10.0
        notes.append(
            "Below a pressure stands its 95 % band; where equal parts are drawn as one, "
            "the lowest and the highest of them."
        )
    idle = [each.title for each in circuit.pumps.values() if each.purpose is StagePurpose.SCAVENGE]
    if idle:
        notes.append(f"Not part of the circuit, they empty the sump: {', '.join(idle)}.")
    notes.append("The same letter in a ring is the same place." if _has_letters(pen) else "")
    for note in filter(None, notes):
        y = pen.canvas.paragraph(0.0, y, note, pen.canvas.width, "small") + 2.0
    return y - 8.0


def _has_letters(pen: Pen) -> bool:
    return any('class="oc-letter"' in part for part in pen.canvas.parts)


def _label(words: Words) -> str:
    heading = [line for line, _ in words.heading()]
    return ". ".join(("Oil circuit", *heading))


def _described(words: Words, nodes: tuple[str, ...], count: int) -> str:
    gauge = f" Gauge: {words.reader.pressure(words.point.gauge_pressure)}." if words.point else ""
    return f"{len(nodes)} places and {count} elements between them, from the sump back to it.{gauge}"
