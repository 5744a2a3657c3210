"""A fit as the pages show it: figures, mark, limit scale."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from markupsafe import Markup

from fitwright.assess.assessment import Assessor
from fitwright.assess.results import FitVerdict
from fitwright.drawing.figures import Reader
from fitwright.drawing.limit_scale import limit_scale
from fitwright.drawing.marks import mark_drawing
from fitwright.drawing.sentences import settle_sentence


@dataclass(frozen=True, slots=True)
class FitLine:
    """One fit in the list: what it is, its picture, its verdict."""

    template: ClassVar[str] = "fit_line.html"
    id: str
    anchor: str
    name: str
    source: str
    limits: str
    verdict: str
    words: str
    value: str
    in_hand: str
    settle: str
    mark: Markup
    scale: Markup
    address: str
    touched: bool


def fit_line(
    assessor: Assessor, found: FitVerdict, reader: Reader, address: str, *, touched: bool = False
) -> FitLine:
    """A fit's line from its verdict. The drawings are our own SVG, all text in them escaped."""
    hot = found.hot[0] if found.hot else None
    return FitLine(
        id=found.id,
        anchor=f"fit-{found.id}",
        name=found.name,
        source=reader.source(found),
        limits=reader.limits(found),
        verdict=found.verdict.value,
        words=found.words,
        value=reader.value(found),
        in_hand=reader.in_hand(found),
        settle=settle_sentence(found, assessor.settling(found.id), reader),
        mark=Markup(mark_drawing(found.verdict)),  # noqa: S704
        scale=Markup(limit_scale(found, reader, hot=hot)),  # noqa: S704
        address=address,
        touched=touched,
    )
