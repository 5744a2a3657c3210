"""Dossier: the document as it stands, its open points first; signed, handed over, taken away as a file.

`show` the page: `document` the document as HTML, `papers` the files that can be made of it, `signing` who
signed what, `handing_over` revisions; `files` a file sent once it is ready.
"""

from __future__ import annotations

from starlette.routing import BaseRoute, Route

from fitwright.web.entering.sending import looking, taking
from fitwright.web.pages.dossier import files, handing_over, show
from fitwright.web.pages.dossier.show import OF_DOSSIER

ROUTES: list[BaseRoute] = [
    Route("/builds/{build}/dossier", show.show, name="dossier"),
    Route("/builds/{build}/dossier/file", files.show, name="dossier file"),
    Route("/builds/{build}/dossier/hand-over", handing_over.take, methods=["POST"], name="hand over"),
    Route("/builds/{build}/dossier/{do}", taking(OF_DOSSIER), methods=["POST"], name="dossier, enter"),
    Route("/builds/{build}/dossier/{do}/effects", looking(OF_DOSSIER), name="dossier, what follows"),
]
