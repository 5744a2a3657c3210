"""Quick sums: the index, and each sum as a form with its picture and its working.

index       all sums, and the search among them
page        one sum: its form, and the answer to what was typed
query       an address -> inputs, and back
fields      the form, from what the sum declares
answering   the answer: figures, tables, cautions, the working
pictures    the picture of each sum, its measures those of the numbers put in
"""

from __future__ import annotations

from typing import Final

from starlette.routing import BaseRoute, Route

from fitwright.web.pages.sums import index, page

ROUTES: Final[list[BaseRoute]] = [
    Route("/sums", index.show, name="sums"),
    Route("/sums/{name}", page.show, name="sum"),
]
