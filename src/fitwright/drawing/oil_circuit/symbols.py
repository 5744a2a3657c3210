"""Symbols of the elements, as fluid power diagrams draw them; oil flows to the right through (0, 0).

Pump, relief valve, filter, cooler, gauge, reservoir, orifice and throttle follow the manner of ISO 1219-1.
What is no fluid power (bearing, drilling in a crank, plunger, turbocharger) is drawn as what it is.
"""

from __future__ import annotations

from math import cos, pi, sin

from fitwright.drawing.oil_circuit.graph import Symbol
from fitwright.drawing.svg import circle, line, path, rect

REACH = 18.0
"""From the middle of a symbol to where its line begins, along the line."""

THROUGH = frozenset({Symbol.PASSAGE, Symbol.INTERSECTION, Symbol.ORIFICE, Symbol.GAP})
"""Symbols beside a line that is not broken."""

HALF = 20.0
"""From the line to the highest and lowest that a symbol reaches."""

_EDGE, _THIN, _SOLID, _PAPER = "oc-edge", "oc-thin", "oc-solid", "oc-paper"


def symbol(kind: Symbol) -> str:
    """A symbol with its connections at (-REACH, 0) and (REACH, 0)."""
    return "".join(_DRAWN[kind]())


def reservoir(x: float, y: float) -> str:
    """The sump: an open tank, its middle at the foot of a line that ends at (x, y)."""
    return path(f"M{x - 11:g} {y - 5:g}v10h22v-10", _EDGE)


def gauge(x: float, y: float) -> str:
    """A pressure gauge around (x, y)."""
    hand = line(x - 4.5, y + 5.0, x + 4.0, y - 4.5, _EDGE)
    head = path(f"M{x + 6:g} {y - 6.8:g}l-5.6 2l3.6 3.4z", _SOLID)
    return circle(x, y, 10.0, _PAPER) + hand + head


def _diamond() -> str:
    return path(f"M{-REACH:g} 0L0 {-REACH:g}L{REACH:g} 0L0 {REACH:g}z", _PAPER)


def _pump() -> list[str]:
    return [circle(0, 0, REACH, _PAPER), path("M18 0L6.5 -6.6V6.6z", _SOLID)]


def _relief() -> list[str]:
    spring = path("M0 11v1.6l-4 1.2l8 2l-8 2l4 1.2", _EDGE)
    pilot = path("M-15 0V-16H0V-11", "oc-dashed")
    arrow = line(-11, 4, 6, 4, _EDGE) + path("M11 4l-6.5 -3v6z", _SOLID)
    ends = line(-REACH, 0, -11, 0, _EDGE) + line(11, 0, REACH, 0, _EDGE)
    return [ends, rect(-11, -11, 22, 22, _PAPER), arrow, spring, pilot]


def _passage() -> list[str]:
    return [line(-REACH, -7, REACH, -7, _THIN), line(-REACH, 7, REACH, 7, _THIN)]


def _intersection() -> list[str]:
    return [path("M-18 -7H-6V-16M6 -16V-7H18M-18 7H-6V16M6 16V7H18", _THIN)]


def _orifice() -> list[str]:
    return [path("M-7 -13L0 -4.6L7 -13M-7 13L0 4.6L7 13", _EDGE)]


def _gap() -> list[str]:
    return [path("M-11 -13Q0 2 11 -13M-11 13Q0 -2 11 13", _EDGE)]


def _strainer() -> list[str]:
    return [_diamond(), line(0, -REACH, 0, REACH, "oc-dashed")]


def _filter_bypass() -> list[str]:
    seat = path("M-3 16l-4 3.4M-3 16l-4 -3.4", _EDGE) + circle(0, 16, 3, _PAPER)
    spring = path("M3 16l1.4 -2.6l2 5.2l2 -5.2l1.4 2.6", _EDGE)
    way = path("M-16 0V16H-3M10 16H16V0", _THIN)
    small = path("M-14 -2L0 -15L14 -2L0 10z", _PAPER) + line(0, -15, 0, 10, "oc-dashed")
    ends = line(-REACH, -2, -14, -2, _EDGE) + line(14, -2, REACH, -2, _EDGE)
    return [way, ends.replace('y1="-2" ', 'y1="0" ').replace('y2="-2" ', 'y2="0" '), small, seat, spring]


def _cooler() -> list[str]:
    arrows = line(0, -4, 0, -11, _EDGE) + line(0, 4, 0, 11, _EDGE)
    heads = path("M0 -15l-3 6h6z", _SOLID) + path("M0 15l-3 -6h6z", _SOLID)
    return [_diamond(), arrows, heads]


def _jet() -> list[str]:
    nozzle = path("M-18 -6H-8L2 -2V2L-8 6H-18", _PAPER)
    spray = path("M4 0H17M4 -1.4L16 -7M4 1.4L16 7M3.6 -3L12 -12M3.6 3L12 12", "oc-dotted")
    return [nozzle, spray]


def _jet_valve() -> list[str]:
    ball = circle(-11, 0, 3.2, _PAPER)
    spring = path("M-7.8 0l1.2 -2.4l2 4.8l2 -4.8l1.2 2.4", _EDGE)
    return [*_jet(), ball, spring]


def _bearing() -> list[str]:
    return [circle(0, 0, 16, _PAPER), circle(0, 2.2, 11, "oc-metal"), *_cross(2.2), *_leads(16)]


def _cam_bearing() -> list[str]:
    lobe = path("M-8 0A8 8 0 0 0 8 0Q8 -7 3 -13.5A3.4 3.4 0 0 0 -3 -13.5Q-8 -7 -8 0z", "oc-metal")
    return [circle(0, 0, 16, _PAPER), lobe, *_cross(0), *_leads(16)]


def _big_end_feed() -> list[str]:
    web = path("M-13 5.5L7 -12A7.4 7.4 0 0 1 15.5 0.5L-8 12.5z", _PAPER)
    pins = circle(-9, 8, 8, "oc-metal") + circle(9, -7, 7.4, "oc-metal")
    way = path("M-18 0L-12 3L-9 8L9 -7L18 0", "oc-dashed")
    return [web, pins, way]


def _plunger() -> list[str]:
    bore = path("M-12 -14V14M12 -14V14", _EDGE)
    return [*_leads(12), bore, rect(-9.5, -9, 19, 16, "oc-metal"), line(0, 7, 0, 15, _EDGE)]


def _tensioner() -> list[str]:
    bore = path("M-14 -9H8M-14 9H8M-14 -9V9", _EDGE)
    spring = path("M-13 0l2 -5l3 10l3 -10l3 10l2 -5", _THIN)
    return [
        line(-REACH, 0, -14, 0, _EDGE),
        bore,
        spring,
        rect(0, -6.5, 14, 13, "oc-metal"),
        line(14, 0, 18, 0, _EDGE),
    ]


def _turbocharger() -> list[str]:
    wheels = path("M-11 -10L-3 -4V4L-11 10zM11 -10L3 -4V4L11 10z", "oc-metal")
    return [circle(0, 0, 16, _PAPER), wheels, line(-3, 0, 3, 0, "oc-shaft"), *_leads(16)]


def _leads(at: float) -> list[str]:
    return [line(-REACH, 0, -at, 0, _EDGE), line(at, 0, REACH, 0, _EDGE)]


def _cross(y: float) -> list[str]:
    return [line(-4, y, 4, y, _THIN), line(0, y - 4, 0, y + 4, _THIN)]


def arrow_head(x: float, y: float, direction: float, size: float = 7.0) -> str:
    """A head on a line at (x, y), pointing in a direction (radians; 0 to the right, down is positive)."""
    points = [(size, 0.0), (-0.2 * size, 0.55 * size), (-0.2 * size, -0.55 * size)]
    c, s = cos(direction), sin(direction)
    turned = [f"{x + a * c - b * s:.2f} {y + a * s + b * c:.2f}" for a, b in points]
    return path(f"M{turned[0]}L{turned[1]}L{turned[2]}z", "oc-head")


RIGHT, DOWN, LEFT, UP = 0.0, pi / 2, pi, -pi / 2

_DRAWN = {
    Symbol.PUMP: _pump,
    Symbol.RELIEF: _relief,
    Symbol.PASSAGE: _passage,
    Symbol.INTERSECTION: _intersection,
    Symbol.ORIFICE: _orifice,
    Symbol.STRAINER: _strainer,
    Symbol.FILTER: _strainer,
    Symbol.FILTER_BYPASS: _filter_bypass,
    Symbol.COOLER: _cooler,
    Symbol.JET: _jet,
    Symbol.JET_VALVE: _jet_valve,
    Symbol.BEARING: _bearing,
    Symbol.CAM_BEARING: _cam_bearing,
    Symbol.BIG_END_FEED: _big_end_feed,
    Symbol.PLUNGER: _plunger,
    Symbol.GAP: _gap,
    Symbol.TENSIONER: _tensioner,
    Symbol.TURBOCHARGER: _turbocharger,
}
