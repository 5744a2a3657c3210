"""Dossier: the document as it stands, its open points first; signed, handed over, taken away as a file.

`show` the page: `document` the document as HTML, `papers` the files that can be made of it, `signing` who
signed what, `handing_over` revisions; `files` a file sent once it is ready.
"""

from __future__ import annotations

from starlette.routing import BaseRoute, Route

from fitwright.web.pages.dossier import files, handing_over, sending, show

ROUTES: list[BaseRoute] = [
    Route("/builds/{build}/dossier", show.show, name="dossier"),
    Route("/builds/{build}/dossier/file", files.show, name="dossier file"),
    Route("/builds/{build}/dossier/hand-over", handing_over.take, methods=["POST"], name="hand over"),
    Route("/builds/{build}/dossier/{do}", sending.take, methods=["POST"], name="dossier, enter"),
    Route("/builds/{build}/dossier/{do}/effects", sending.look, name="dossier, what follows"),
]
