"""How a number typed into a form of the shop is read, before it is taken: in both units."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from starlette.requests import Request
from starlette.responses import Response

from fitwright.units import QuantityError, UnitsError, definition_of, echo, parse_quantity
from fitwright.web.rendering import page


@dataclass(frozen=True, slots=True)
class EchoContext:
    """The number as it will be taken, or what is wrong with it."""

    template: ClassVar[str] = "shop/echo.html"
    words: str
    wrong: str


async def show(request: Request) -> Response:
    """Answer with how the field named `echo` reads; its unit is `of`, or that of the field named `unit`."""
    asked = request.query_params
    text = asked.get(asked.get("echo", ""), "").strip()
    unit = asked.get("of") or asked.get("unit") or "mm"
    return page(_read(text, unit))


def _read(text: str, unit: str) -> EchoContext:
    if not text:
        return EchoContext("", "")
    try:
        dimension = definition_of(unit).dimension
        return EchoContext(echo(parse_quantity(text, default_unit=unit, dimension=dimension)), "")
    except QuantityError as error:
        return EchoContext("", str(error))
    except UnitsError:
        return EchoContext("", f"{unit[:20]} is no unit that is known here.")
