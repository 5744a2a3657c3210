"""The rotor set of the pump, drawn to scale from the sheet with what was measured, turned by a slider."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import pi, radians
from typing import ClassVar, Final

from markupsafe import Markup
from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response

from fitwright.assess.oil.rotor_shapes import GearShape, RotorShape, rotor_shapes
from fitwright.drawing.canvas import Picture
from fitwright.drawing.rotor_set import Clearances, RotorBody, gear_set, rotor_set
from fitwright.units.families import Family
from fitwright.web.addresses import oil_address
from fitwright.web.hands import Hands, family_of, hands_of, is_known
from fitwright.web.numbers import whole_number
from fitwright.web.pages.oil.pictures import PAGE, PHONE, Pictures
from fitwright.web.pages.problem import no_build
from fitwright.web.rendering import page

ENLARGED: Final = 20.0
"""How many times larger clearances are drawn where that is asked for."""

Shape = RotorShape | GearShape


@dataclass(frozen=True, slots=True)
class RotorSet:
    """One pump stage as it is drawn."""

    title: str
    pictures: Pictures


@dataclass(frozen=True, slots=True)
class RotorPart:
    """The rotors at an angle, and the form that turns them; `most` is after how many degrees all is alike."""

    action: str
    address: str
    family: Family
    angle: str
    most: str
    enlarged: bool
    times: str
    sets: tuple[RotorSet, ...]


@dataclass(frozen=True, slots=True)
class RotorContext:
    """The rotors by themselves, turned."""

    template: ClassVar[str] = "oil/rotor_sets.html"
    sets: tuple[RotorSet, ...]


def rotor_part(
    code: str, family: Family, shapes: Sequence[Shape], asked: Mapping[str, str]
) -> RotorPart | None:
    """The rotors as an address asks for them; None where the sheet describes none."""
    if not shapes:
        return None
    angle, enlarged = _turn(asked), _is_enlarged(asked)
    action = oil_address(code, family).partition("?")[0]
    return RotorPart(
        action=action,
        address=f"{action}/rotors",
        family=family,
        angle=f"{angle}",
        most="360",
        enlarged=enlarged,
        times=f"{ENLARGED:.0f}",
        sets=_sets(shapes, family, angle, enlarged=enlarged),
    )


async def turned(request: Request) -> Response:
    """Answer with the rotors at the angle asked for."""
    hands, code = hands_of(request), request.path_params["build"]
    if not await is_known(hands, code):
        return no_build(request, code)
    family = family_of(request, code)
    return page(await run_in_threadpool(_context, hands, code, family, dict(request.query_params)))


def _context(hands: Hands, code: str, family: Family, asked: Mapping[str, str]) -> RotorContext:
    with hands.shop.held():
        shapes = shapes_of(hands, code)
    return RotorContext(_sets(shapes, family, _turn(asked), enlarged=_is_enlarged(asked)))


def shapes_of(hands: Hands, code: str) -> tuple[Shape, ...]:
    """What can be drawn of the pump of a build."""
    circuit = hands.shop.bench(code).sheet.circuit
    return rotor_shapes(hands.shop.assessor(code).judge, circuit) if circuit is not None else ()


def _turn(asked: Mapping[str, str]) -> int:
    """Degrees by which the driving rotor is turned."""
    return (whole_number(asked.get("angle", "")) or 0) % 360


def _is_enlarged(asked: Mapping[str, str]) -> bool:
    return asked.get("clearances") == "enlarged"


def _sets(shapes: Sequence[Shape], family: Family, angle: int, *, enlarged: bool) -> tuple[RotorSet, ...]:
    return tuple(_set(each, family, radians(angle), ENLARGED if enlarged else 1.0) for each in shapes)


@lru_cache(maxsize=32)
def _set(shape: Shape, family: Family, angle: float, factor: float) -> RotorSet:
    def draw(width: float) -> Markup:
        svg = _drawn(shape, family, angle % (2.0 * pi), factor, width).svg
        return Markup(svg)  # noqa: S704  (our own drawing, all text in it escaped)

    return RotorSet(shape.title, Pictures(draw(PAGE), draw(PHONE)))


def _drawn(shape: Shape, family: Family, angle: float, factor: float, width: float) -> Picture:
    gaps = Clearances(tip=shape.gaps.tip, body=shape.gaps.body, end=shape.gaps.end)
    if isinstance(shape, GearShape):
        return gear_set(
            shape.pair,
            gaps,
            shaft_diameter=shape.shaft_diameter,
            angle=angle,
            factor=factor,
            family=family,
            width=width,
        )
    body = RotorBody(shape.outer_rotor_diameter, shape.hub_diameter)
    return rotor_set(shape.pair, body, gaps, angle=angle, factor=factor, family=family, width=width)
