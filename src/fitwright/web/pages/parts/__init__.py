"""Parts: what a person records about a build besides readings, by forms that are quick at the bench.

`show` the page with its lists: `changed` what changed since it was read, `positions` which part
sits where, `said_so` what was said and decided, `pictures` photos, `happened` what happened; `one`
the page of one position or part. `every` all forms by name: `of_parts`, `of_sayings`,
`of_decisions`; `serve_photo` a photo shown.
"""

from __future__ import annotations

from starlette.routing import BaseRoute, Route

from fitwright.web.entering.opening import showing
from fitwright.web.entering.sending import looking, taking
from fitwright.web.pages.parts import one, serve_photo
from fitwright.web.pages.parts.show import OF_PARTS

ROUTES: list[BaseRoute] = [
    Route("/builds/{build}/parts", showing(OF_PARTS), name="parts"),
    Route("/builds/{build}/parts/one", one.show, name="part"),
    Route("/builds/{build}/parts/{do}", taking(OF_PARTS), methods=["POST"], name="enter"),
    Route("/builds/{build}/parts/{do}/effects", looking(OF_PARTS), name="effects"),
    Route("/builds/{build}/photos", taking(OF_PARTS, "photo"), methods=["POST"], name="photos"),
    Route("/builds/{build}/photos/{digest}", serve_photo.show, name="photo"),
]
