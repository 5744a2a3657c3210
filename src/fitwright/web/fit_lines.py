"""A fit as the pages show it: figures, mark, limit scale."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from datetime import UTC, datetime
from typing import ClassVar

from markupsafe import Markup

from fitwright.assess.assessment import Assessor
from fitwright.assess.results import FitVerdict, HotState
from fitwright.assess.settling import Settling
from fitwright.drawing.accepted import accepted_words
from fitwright.drawing.figures import Reader
from fitwright.drawing.limit_scale import limit_scale
from fitwright.drawing.marks import mark_drawing
from fitwright.drawing.sentences import settle_sentence, titles_in, wanted_sentence
from fitwright.web.addresses import fit_address
from fitwright.web.view import View

FIRST = ""
"""The hot state drawn below a scale: the first that the sheet has."""
NONE = "none"
"""No hot state is drawn."""


@dataclass(frozen=True, slots=True)
class FitLine:
    """One fit in a list: what it is, its picture, its verdict. Without an address it is no link.

    `accepted` names the concession under which it stands although it is not within.
    `drawn_at` is the last entry of the record that it may rest on. With `same`, whoever asked has the
    line already: only its place in the list is said.
    """

    template: ClassVar[str] = "fit_line.html"
    anchor: str
    name: str
    critical: bool
    source: str
    limits: str
    verdict: str
    words: str
    value: str
    in_hand: str
    settle: str
    accepted: str
    mark: Markup
    scale: Markup
    address: str
    drawn_at: int
    same: bool = False


def fit_line(
    assessor: Assessor,
    found: FitVerdict,
    reader: Reader,
    address: str,
    *,
    hot: str = FIRST,
    at: int = 0,
    accepted: str = "",
) -> FitLine:
    """A fit's line from its verdict. The drawings are our own SVG, all text in them escaped."""
    return FitLine(
        anchor=f"fit-{found.id}",
        name=found.name,
        critical=found.limit_class == "critical",
        source=reader.source(found),
        limits=reader.limits(found),
        verdict=found.verdict.value,
        words=found.words,
        value=reader.value(found),
        in_hand=reader.in_hand(found),
        settle=next_words(assessor, found, reader),
        accepted=accepted,
        mark=Markup(mark_drawing(found.verdict)),  # noqa: S704
        scale=Markup(limit_scale(found, reader, hot=hot_state(found, hot))),  # noqa: S704
        address=address,
        drawn_at=at,
    )


def next_words(assessor: Assessor, found: FitVerdict, reader: Reader) -> str:
    """The size wanted of the one member that is missing; else what would settle the fit."""
    if found.size_wanted is not None:
        title = assessor.judge.sheet.dimensions[found.size_wanted.dimension].title
        if words := wanted_sentence(found, title, reader):
            return words
    called = titles_in(assessor.judge.sheet)
    return settle_sentence(found, assessor.settling(found.id), reader, called)


def hot_state(found: FitVerdict, case: str) -> HotState | None:
    """The hot state asked for; the first where none is named."""
    if case == FIRST:
        return found.hot[0] if found.hot else None
    return next((each for each in found.hot if each.case == case), None)


@dataclass(frozen=True, slots=True)
class _Drawn:
    """A line with what it was drawn from."""

    found: FitVerdict
    settling: Settling | None
    line: FitLine


@dataclass(slots=True)
class FitLines:
    """Lines drawn once for each verdict: a page of 250 fits draws only those that changed since."""

    _drawn: dict[tuple[View, str, str], _Drawn] = field(default_factory=dict)

    def line(
        self, view: View, assessor: Assessor, found: FitVerdict, *, hot: str = FIRST, at: int = 0
    ) -> FitLine:
        """The line of a verdict, linked to the page of its fit; `at` is the last entry it may rest on.

        A verdict judged anew that came out as before keeps its line.
        """
        key = (view, hot, found.id)
        held = self._drawn.get(key)
        settling = assessor.settling(found.id)
        accepted = accepted_words(assessor, found, datetime.now(UTC))
        if held is None or (held.found, held.settling, held.line.accepted) != (found, settling, accepted):
            address = fit_address(view.code, found.id, view.state, view.family)
            reader = Reader(view.family)
            line = fit_line(assessor, found, reader, address, hot=hot, at=at, accepted=accepted)
            held = _Drawn(found, settling, line)
            self._drawn[key] = held
        return held.line

    def alone(self, view: View, assessor: Assessor, found: FitVerdict, *, at: int = 0) -> FitLine:
        """The line of a verdict on the page of its own fit, where it needs no link."""
        return replace(self.line(view, assessor, found, at=at), address="")
