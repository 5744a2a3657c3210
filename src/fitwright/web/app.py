"""The application: pages, static files, the guard in front of them."""

from __future__ import annotations

from importlib.resources import files

from starlette.applications import Starlette
from starlette.middleware import Middleware
from starlette.middleware.gzip import GZipMiddleware
from starlette.routing import BaseRoute, Mount, Route
from starlette.staticfiles import StaticFiles

from fitwright.bench.errors import UnknownNameError
from fitwright.records.errors import RecordError
from fitwright.web.hands import Hands
from fitwright.web.pages import (
    assembly,
    bench_forms,
    builds,
    changing,
    dossier,
    engine,
    fit,
    fit_history,
    fits,
    help_pages,
    labels,
    live,
    measure,
    new_build,
    oil,
    paper_entry,
    parts,
    problem,
    put_right,
    readings,
    record,
    sheet,
    sums,
    verify,
)
from fitwright.web.pages import shop as shop_pages
from fitwright.web.security import LOOPBACK, Guard, Token
from fitwright.web.seen import Seen
from fitwright.web.shop import ShopForWeb
from fitwright.web.visit import NotThereError

SMALLEST_PRESSED = 2000
"""Answers from this many bytes on are compressed, quickly rather than well."""


def create_app(shop: ShopForWeb, *, device: str = "browser", hosts: frozenset[str] = LOOPBACK) -> Starlette:
    """The web application of one shop."""
    routes: list[BaseRoute] = [
        *builds.ROUTES,
        *new_build.ROUTES,
        *sheet.ROUTES,
        *record.ROUTES,
        Route("/live", live.listen, name="live"),
        *engine.ROUTES,
        Route("/builds/{build}/fits", fits.show, name="fits"),
        *measure.ROUTES,
        *oil.ROUTES,
        *assembly.ROUTES,
        *bench_forms.ROUTES,
        *labels.ROUTES,
        *paper_entry.ROUTES,
        *parts.ROUTES,
        *put_right.ROUTES,
        *dossier.ROUTES,
        *verify.ROUTES,
        Route("/builds/{build}/readings", readings.take, methods=["POST"], name="readings"),
        *fit.ROUTES,
        *fit_history.ROUTES,
        *changing.ROUTES,
        *sums.ROUTES,
        *help_pages.ROUTES,
        *shop_pages.ROUTES,
        Mount("/static", StaticFiles(directory=str(files("fitwright.web") / "static")), name="static"),
    ]
    app = Starlette(
        routes=routes,
        middleware=[
            Middleware(Guard, hosts=hosts),
            Middleware(Seen),
            Middleware(GZipMiddleware, minimum_size=SMALLEST_PRESSED, compresslevel=3),
        ],
        exception_handlers={
            RecordError: problem.unreadable,
            UnknownNameError: problem.not_here,  # a form that names what the sheet does not have
            NotThereError: problem.not_there,
            400: problem.not_understood,
            404: problem.not_here,
            405: problem.not_this_way,
            413: problem.too_much,
            500: problem.fault,
        },
    )
    app.state.hands = Hands(shop, Token(), device)
    return app
