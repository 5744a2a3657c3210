"""Record: what was entered, newest first; taken back and brought back; carried out and in; verified.

`listing` the entries of a build or of the shop, `lines` one of them in a line, `filters` which of them
are shown, `entry` one in full with its way back, `exporting` and `importing` files, `arriving` a whole
build from a file, `keeping` verifying and backing up.
"""

from __future__ import annotations

from starlette.routing import BaseRoute

from fitwright.web.pages.record import arriving, entry, exporting, importing, keeping, listing

ROUTES: list[BaseRoute] = [
    *keeping.ROUTES,
    *arriving.ROUTES,
    *importing.ROUTES,
    *exporting.ROUTES,
    *listing.ROUTES,
    *entry.ROUTES,
]
"""Literal addresses before those of entries."""
