"""The application: pages, static files, the guard in front of them."""

from __future__ import annotations

from importlib.resources import files

from starlette.applications import Starlette
from starlette.middleware import Middleware
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import BaseRoute, Mount, Route
from starlette.staticfiles import StaticFiles

from fitwright.web.hands import Hands
from fitwright.web.pages import build, builds, fit, readings
from fitwright.web.pages.problem import problem_page
from fitwright.web.security import LOOPBACK, Guard, Token
from fitwright.web.shop import ShopForWeb


def create_app(
    shop: ShopForWeb, *, device: str = "browser", hosts: frozenset[str] = LOOPBACK
) -> Starlette:
    """The web application of one shop."""
    routes: list[BaseRoute] = [
        Route("/", builds.show, name="builds"),
        Route("/builds/{build}", build.show, name="build"),
        Route("/builds/{build}/readings", readings.take, methods=["POST"], name="readings"),
        Route("/builds/{build}/fits/{subject}", fit.show, name="fit"),
        Mount("/static", StaticFiles(directory=str(files("fitwright.web") / "static")), name="static"),
    ]
    app = Starlette(
        routes=routes,
        middleware=[Middleware(Guard, hosts=hosts)],
        exception_handlers={404: _not_found, 405: _not_found},
    )
    app.state.hands = Hands(shop, Token(), device)
    return app


async def _not_found(request: Request, _: Exception) -> Response:
    return problem_page(f"There is no page at {request.url.path}.", "Go back to the builds.", status=404)
