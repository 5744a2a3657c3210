"""The files that can be made of a dossier: for the owner or complete, on A4 or Letter."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from fitwright.dossier.asked import DEPTHS, PAPERS, Depth
from fitwright.units.families import Family
from fitwright.web.addresses import dossier_address
from fitwright.web.dossier_work import Making, Wanted
from fitwright.web.hands import Hands

DEPTH_WORDS: Final[dict[Depth, str]] = {"owner": "for the owner", "complete": "complete, with every reading"}


@dataclass(frozen=True, slots=True)
class PaperLine:
    """One file: what it is, and how far it is."""

    label: str
    address: str
    state: str
    words: str


def paper_lines(hands: Hands, code: str, family: Family) -> tuple[PaperLine, ...]:
    """Every file; nothing is begun by looking."""
    return tuple(_lines(hands, code, family))


def _lines(hands: Hands, code: str, family: Family) -> Iterator[PaperLine]:
    for depth in DEPTHS:
        for paper in PAPERS:
            making = hands.dossiers.look(hands.shop, Wanted(code, depth, paper, family))
            yield PaperLine(
                label=f"{DEPTH_WORDS[depth]}, {paper}",
                address=dossier_address(code, family, "/file", depth=depth, paper=paper),
                state=making.state,
                words=making_words(making),
            )


def making_words(making: Making) -> str:
    """How far a file is, in words."""
    if making.state == "ready" and making.dossier is not None:
        size = len(making.dossier.pdf)
        return f"ready, {making.dossier.pages} pages, {_size(size)}"
    if making.state == "failed":
        return f"could not be made: {making.wrong}"
    return "is getting ready" if making.state == "getting ready" else "is made when you ask for it"


def _size(count: int) -> str:
    return f"{count / 1e6:.1f} MB" if count >= 1e6 else f"{max(1, round(count / 1e3))} kB"
