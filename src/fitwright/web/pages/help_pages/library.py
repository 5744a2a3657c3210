"""The pages of help, in the order of the pages that they are for."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Final

from markupsafe import Markup

from fitwright.web.pages.help_pages.writing import html_of

PAGES: Final = (
    "builds",
    "start-a-build",
    "engine",
    "measure",
    "fits",
    "fit",
    "oil",
    "assembly",
    "put-right",
    "parts",
    "sheet",
    "paper",
    "record",
    "dossier",
    "verify",
    "shop",
    "sums",
)
INDEX: Final = "index"


@dataclass(frozen=True, slots=True)
class HelpPage:
    """A page of help: its name, its title, what it is about in a sentence, its body."""

    name: str
    title: str
    about: Markup
    body: Markup


@cache
def help_page(name: str) -> HelpPage:
    """A page of help by its name, one of `PAGES` or the index."""
    text = text_of(name)
    title, _, rest = text.partition("\n")
    about = rest.strip().partition("\n\n")[0]
    return HelpPage(name, title.removeprefix("# ").strip(), html_of(about), html_of(rest.strip()))


def text_of(name: str) -> str:
    """A page of help as it is written; it is part of the package."""
    return (files("fitwright") / "help" / f"{name}.md").read_text(encoding="utf-8")
