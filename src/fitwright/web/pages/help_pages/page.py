"""The index of help, and its pages."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from markupsafe import Markup
from starlette.requests import Request
from starlette.responses import Response

from fitwright.web.frame import Frame, frame_of
from fitwright.web.hands import hands_of
from fitwright.web.pages.choices import Choice
from fitwright.web.pages.help_pages.library import INDEX, PAGES, HelpPage, help_page
from fitwright.web.pages.problem import problem_page
from fitwright.web.rendering import page


@dataclass(frozen=True, slots=True)
class HelpLine:
    """A page of help in the index."""

    title: str
    about: Markup
    address: str


@dataclass(frozen=True, slots=True)
class HelpContext:
    """A page of help; the index lists all of them."""

    template: ClassVar[str] = "help.html"
    frame: Frame
    body: Markup
    pages: tuple[Choice, ...]
    lines: tuple[HelpLine, ...]


async def show(request: Request) -> Response:
    """Answer with the index, or with a page of help."""
    name = str(request.path_params.get("page", INDEX))
    if name not in (*PAGES, INDEX):
        mend = f"There is help on {', '.join(PAGES)}: open one of them from Help at the top."
        return problem_page(request, f'There is no page of help on "{name[:60]}".', mend, status=404)
    found = help_page(name)
    frame = frame_of(hands_of(request), found.title, "", help_page="", live=False, styles=("help.css",))
    lines = tuple(_line(help_page(each)) for each in PAGES) if name == INDEX else ()
    choices = tuple(Choice(help_page(each).title, f"/help/{each}", each == name) for each in PAGES)
    return page(HelpContext(frame, found.body, choices, lines))


def _line(found: HelpPage) -> HelpLine:
    return HelpLine(found.title, found.about, f"/help/{found.name}")
