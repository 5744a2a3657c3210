"""In-app help: one page for each page of the bench, written for the person at it.

library  the pages of help, in their order, from the package's own Markdown
writing  Markdown -> HTML that is safe to show, its links kept inside of the help
page     the index and the pages
"""

from __future__ import annotations

from typing import Final

from starlette.routing import BaseRoute, Route

from fitwright.web.pages.help_pages import page

ROUTES: Final[list[BaseRoute]] = [
    Route("/help", page.show, name="help index"),
    Route("/help/{page}", page.show, name="help"),
]
