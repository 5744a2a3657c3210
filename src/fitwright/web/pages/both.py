"""One build, as received and current side by side: what differs, and what is not within in both."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from typing import ClassVar

from markupsafe import Markup

from fitwright.assess.results import Assessment, FitVerdict, State, Verdict
from fitwright.drawing.accepted import accepted_in
from fitwright.drawing.figures import Reader
from fitwright.drawing.limit_scale import two_states
from fitwright.drawing.marks import mark_drawing
from fitwright.drawing.sentences import summary_sentence
from fitwright.units.families import Family
from fitwright.web.addresses import BOTH, fit_address
from fitwright.web.filters import Filters, least_in_hand
from fitwright.web.frame import Frame, frame_of
from fitwright.web.hands import Hands
from fitwright.web.pages.builds import facts_of
from fitwright.web.pages.choices import Choice, state_choices, unit_choices
from fitwright.web.pages.panel import Listed, Panel, panel_of


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
    """A fit in both states, drawn on one scale."""

    name: str
    limits: str
    source: str
    scale: Markup
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
    panel: Panel
    hits: str
    pairs: tuple[Pair, ...]
    within_in_both: int


def context(hands: Hands, code: str, family: Family, filters: Filters) -> BothContext:
    """The page of a build in both states; a fit is shown if it is what the filters ask for in either."""
    shop = hands.shop
    with shop.held():
        started, sheet = shop.builds()[code], shop.bench(code).sheet
        before, after = shop.assessment(code, State.AS_RECEIVED), shop.assessment(code, State.CURRENT)
        searched = hands.searches.found(filters.query, sheet, shop.assessor(code).judge.subjects)
        every = list(_both(before, after))
        accepted = accepted_in(shop.assessor(code), after.verdicts.values(), datetime.now(UTC))
        listed = Listed(code, BOTH, family, [both for both in every if not _within(both)], searched)
        shown, asked = _in_order(listed.kept(filters), filters), filters.address()
        return BothContext(
            frame=frame_of(
                hands,
                "Fits",
                "Fits",
                build=code,
                family=family,
                help_page="fits",
                styles=("fits.css",),
                scripts=("fits.js",),
            ),
            facts=facts_of(
                started,
                started.duty or sheet.engine.duty,
                f"sheet {sheet.engine.id} revision {sheet.engine.revision}",
            ),
            states=state_choices(code, BOTH, family, asked),
            units=unit_choices(code, BOTH, family, asked),
            summaries=(("as received", summary_sentence(before)), ("current", summary_sentence(after))),
            panel=replace(panel_of(listed, filters, sheet), hot=()),
            hits=f"{len(shown)} of {len(listed.fits)} fits that are not within in both states.",
            pairs=tuple(_pair(code, then, now, family, accepted.get(now.id, "")) for then, now in shown),
            within_in_both=len(every) - len(listed.fits),
        )


Both = tuple[FitVerdict, FitVerdict]
"""One fit as received and current."""


def _both(before: Assessment, after: Assessment) -> Iterator[Both]:
    for subject, now in after.verdicts.items():
        if subject in before.verdicts:
            yield before.verdicts[subject], now


def _within(both: tuple[FitVerdict, ...]) -> bool:
    return all(each.verdict is Verdict.WITHIN for each in both)


def _in_order(kept: list[tuple[FitVerdict, ...]], filters: Filters) -> list[Both]:
    pairs = {each[-1].id: (each[0], each[-1]) for each in kept}
    if filters.order == "sheet":
        return list(pairs.values())
    return [pairs[now.id] for now in least_in_hand(now for _, now in pairs.values())]


def _pair(code: str, then: FitVerdict, now: FitVerdict, family: Family, accepted: str) -> Pair:
    reader = Reader(family)
    return Pair(
        name=now.name,
        limits=reader.limits(now),
        source=reader.source(now),
        scale=Markup(two_states(then, now, reader)),  # noqa: S704
        sides=(
            _side(code, then, State.AS_RECEIVED, family),
            _side(code, now, State.CURRENT, family, accepted),
        ),
    )


def _side(code: str, found: FitVerdict, state: State, family: Family, accepted: str = "") -> Side:
    return Side(
        state="as received" if state is State.AS_RECEIVED else "current",
        address=fit_address(code, found.id, state, family),
        verdict=found.verdict.value,
        words="; ".join(each for each in (found.words, accepted) if each),
        value=Reader(family).value(found),
        mark=Markup(mark_drawing(found.verdict)),  # noqa: S704
    )
