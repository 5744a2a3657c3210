"""A fit as the pages show it: figures, mark, limit scale."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import ClassVar

from markupsafe import Markup

from fitwright.assess.assessment import Assessor
from fitwright.assess.results import FitVerdict, State
from fitwright.drawing.figures import Reader
from fitwright.drawing.limit_scale import limit_scale
from fitwright.drawing.marks import mark_drawing
from fitwright.drawing.sentences import settle_sentence
from fitwright.units.families import Family
from fitwright.web.addresses import fit_address


@dataclass(frozen=True, slots=True)
class FitLine:
    """One fit in a list: what it is, its picture, its verdict. Without an address it is no link."""

    template: ClassVar[str] = "fit_line.html"
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


def fit_line(assessor: Assessor, found: FitVerdict, reader: Reader, address: str) -> FitLine:
    """A fit's line from its verdict. The drawings are our own SVG, all text in them escaped."""
    hot = found.hot[0] if found.hot else None
    return FitLine(
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
    )


@dataclass(slots=True)
class FitLines:
    """Lines drawn once for each verdict: a page of 250 fits draws only those that changed since."""

    _drawn: dict[tuple[str, State, Family, str], tuple[FitVerdict, FitLine]] = field(default_factory=dict)

    def line(self, code: str, assessor: Assessor, found: FitVerdict, state: State, family: Family) -> FitLine:
        """The line of a verdict, linked to the page of its fit."""
        key = (code, state, family, found.id)
        held = self._drawn.get(key)
        if held is None or held[0] is not found:
            address = fit_address(code, found.id, state, family)
            held = (found, fit_line(assessor, found, Reader(family), address))
            self._drawn[key] = held
        return held[1]

    def alone(
        self, code: str, assessor: Assessor, found: FitVerdict, state: State, family: Family
    ) -> FitLine:
        """The line of a verdict on the page of its own fit, where it needs no link."""
        return replace(self.line(code, assessor, found, state, family), address="")
