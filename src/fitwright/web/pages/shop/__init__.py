"""The pages of the shop: what stands on the shelf, who works here, and what it all can prove.

`overview` the shop in short; `people` with their `pins`; `instruments` and one `instrument`; `settings` and
one `setting`; `blades` and one `blade_set`; `sources` of limits; `studies` and one `study`; `rules`;
`taking_back` one entry. They share `entering` (how a form is taken), `ways` (addresses), `facts` and
`history` (what an entry says), `provable` (what a gauge can prove) and `amounts` (in both units).
"""

from __future__ import annotations

from starlette.routing import BaseRoute, Route

from fitwright.web.pages.shop import (
    blade_set,
    blades,
    echo,
    instrument,
    instruments,
    overview,
    people,
    rules,
    setting,
    settings,
    sources,
    studies,
    study,
    taking_back,
)

ROUTES: list[BaseRoute] = [
    Route("/shop/echo", echo.show, name="shop-echo"),
    *overview.ROUTES,
    *people.ROUTES,
    *instruments.ROUTES,
    *instrument.ROUTES,
    *settings.ROUTES,
    *setting.ROUTES,
    *blades.ROUTES,
    *blade_set.ROUTES,
    *sources.ROUTES,
    *studies.ROUTES,
    *study.ROUTES,
    *rules.ROUTES,
    *taking_back.ROUTES,
]
