"""One build, as received and current side by side: what differs, and what is not within in both."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar

from markupsafe import Markup

from fitwright.assess.results import Assessment, FitVerdict, State, Verdict
from fitwright.drawing.figures import Reader
from fitwright.drawing.marks import mark_drawing
from fitwright.drawing.sentences import summary_sentence
from fitwright.units.families import Family
from fitwright.web.addresses import BOTH, fit_address
from fitwright.web.frame import Frame, frame_of
from fitwright.web.hands import Hands
from fitwright.web.pages.builds import facts_of
from fitwright.web.pages.choices import Choice, state_choices, unit_choices


@dataclass(frozen=True, slots=True)
class Side:
    """A fit in one of the two states."""

    state: str
    address: str
    verdict: str
    words: str
    value: str
    mark: Markup


@dataclass(frozen=True, slots=True)
class Pair:
    """A fit in both states."""

    name: str
    limits: str
    source: str
    sides: tuple[Side, Side]


@dataclass(frozen=True, slots=True)
class BothContext:
    """The page of one build in both states."""

    template: ClassVar[str] = "both.html"
    frame: Frame
    facts: str
    states: tuple[Choice, ...]
    units: tuple[Choice, ...]
    summaries: tuple[tuple[str, str], ...]
    pairs: tuple[Pair, ...]
    within_in_both: int


def context(hands: Hands, code: str, family: Family) -> BothContext:
    """The page of a build in both states."""
    shop = hands.shop
    with shop.held():
        started, engine = shop.builds()[code], shop.bench(code).sheet.engine
        before, after = shop.assessment(code, State.AS_RECEIVED), shop.assessment(code, State.CURRENT)
        pairs = tuple(_pairs(code, before, after, family))
        return BothContext(
            frame=frame_of(hands, "Fits", "Fits", build=code, family=family),
            facts=facts_of(
                started, started.duty or engine.duty, f"sheet {engine.id} revision {engine.revision}"
            ),
            states=state_choices(code, BOTH, family),
            units=unit_choices(code, BOTH, family),
            summaries=(
                ("as received", summary_sentence(before)),
                ("current", summary_sentence(after)),
            ),
            pairs=pairs,
            within_in_both=sum(
                each.verdict is _verdict_of(before, name) is Verdict.WITHIN
                for name, each in after.verdicts.items()
            ),
        )


def _verdict_of(found: Assessment, name: str) -> Verdict | None:
    return found.verdicts[name].verdict if name in found.verdicts else None


def _pairs(code: str, before: Assessment, after: Assessment, family: Family) -> Iterator[Pair]:
    reader = Reader(family)
    for subject, now in after.verdicts.items():
        then = before.verdicts.get(subject)
        if then is None or then.verdict is now.verdict is Verdict.WITHIN:
            continue
        sides = (
            _side(code, then, State.AS_RECEIVED, family),
            _side(code, now, State.CURRENT, family),
        )
        yield Pair(now.name, reader.limits(now), reader.source(now), sides)


def _side(code: str, found: FitVerdict, state: State, family: Family) -> Side:
    return Side(
        state="as received" if state is State.AS_RECEIVED else "current",
        address=fit_address(code, found.id, state, family),
        verdict=found.verdict.value,
        words=found.words,
        value=Reader(family).value(found),
        mark=Markup(mark_drawing(found.verdict)),  # noqa: S704
    )
