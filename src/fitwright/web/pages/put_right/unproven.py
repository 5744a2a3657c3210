"""What is unproven: nothing is wrong with it as far as is known, and nothing is shown to be right."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime

from markupsafe import Markup

from fitwright.assess.results import Assessment, Verdict
from fitwright.drawing.accepted import accepted_words
from fitwright.drawing.figures import Reader
from fitwright.drawing.marks import mark_drawing
from fitwright.web.addresses import fit_address
from fitwright.web.fit_lines import next_words
from fitwright.web.hands import Hands
from fitwright.web.view import View


@dataclass(frozen=True, slots=True)
class UnprovenLine:
    """An unproven fit: why, and what would settle it."""

    mark: Markup
    name: str
    address: str
    words: str
    settle: str


def unproven_lines(hands: Hands, view: View, found: Assessment) -> tuple[UnprovenLine, ...]:
    """Every unproven fit, critical ones first."""
    lines = sorted(_unproven(hands, view, found), key=lambda each: not each[0])
    return tuple(line for _, line in lines)


def _unproven(hands: Hands, view: View, found: Assessment) -> Iterator[tuple[bool, UnprovenLine]]:
    assessor, reader = hands.shop.assessor(view.code, view.state), Reader(view.family)
    now = datetime.now(UTC)
    for each in found.verdicts.values():
        if each.verdict is Verdict.UNPROVEN:
            yield (
                each.limit_class == "critical",
                UnprovenLine(
                    mark=Markup(mark_drawing(each.verdict)),  # noqa: S704  (our own drawing)
                    name=each.name,
                    address=fit_address(view.code, each.id, view.state, view.family),
                    words="; ".join(
                        said for said in (each.words, accepted_words(assessor, each, now)) if said
                    ),
                    settle=next_words(assessor, each, reader),
                ),
            )
