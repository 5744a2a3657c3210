"""The frame around every page: where one is, where one can go, what everybody must know, what to load."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final
from urllib.parse import quote, urlencode

from fitwright.units.families import Family
from fitwright.web.hands import Hands

PAGES: Final = (("Builds", "/"), ("Shop", "/shop"), ("Quick sums", "/sums"))
"""The pages that belong to no build."""

OF_A_BUILD: Final = (
    ("Engine", ""),
    ("Measure", "/measure"),
    ("Fits", "/fits"),
    ("Oil", "/oil"),
    ("Assembly", "/assembly"),
    ("Put right", "/put-right"),
    ("Parts", "/parts"),
    ("Sheet", "/sheet"),
    ("Paper", "/forms"),
    ("Record", "/record"),
    ("Dossier", "/dossier"),
)
"""The pages of a build, with what follows its address."""


@dataclass(frozen=True, slots=True)
class Way:
    """A page to go to; `here` is the one that is open."""

    label: str
    address: str
    here: bool


@dataclass(frozen=True, slots=True)
class Frame:
    """What stands around a page.

    `styles` and `scripts` name files of `static/` that this page needs besides those of all pages;
    `live` is the address at which the page hears of new entries, empty where it need not.
    """

    title: str
    troubles: tuple[str, ...]
    ways: tuple[Way, ...]
    build_title: str
    build_ways: tuple[Way, ...]
    help: str
    live: str
    styles: tuple[str, ...]
    scripts: tuple[str, ...]


def frame_of(
    hands: Hands,
    title: str,
    here: str,
    *,
    build: str | None = None,
    family: Family | None = None,
    help_page: str = "",
    live: bool = True,
    styles: tuple[str, ...] = (),
    scripts: tuple[str, ...] = (),
) -> Frame:
    """The frame of a page; `here` is its label in the rows of pages, `help_page` its page of help."""
    started = hands.shop.builds().get(build) if build is not None else None
    return Frame(
        title=title,
        troubles=hands.shop.troubles,
        ways=tuple(Way(label, address, label == here) for label, address in PAGES),
        build_title=started.title if started is not None else "",
        build_ways=tuple(_ways(build, here, family)) if started is not None and build else (),
        help=f"/help/{quote(help_page)}" if help_page else "/help",
        live=live_address(build, hands.shop.position) if live else "",
        styles=styles,
        scripts=scripts,
    )


def live_address(build: str | None, position: int) -> str:
    """Where a page hears what is written after it was made: for one build with its shop, or for all."""
    return f"/live?{urlencode(({'build': build} if build else {}) | {'after': position})}"


def _ways(build: str, here: str, family: Family | None) -> Iterator[Way]:
    asked = f"?{urlencode({'units': family})}" if family else ""
    for label, rest in OF_A_BUILD:
        yield Way(label, f"/builds/{quote(build)}{rest}{asked}", label == here)
