"""The predictions behind a page: with bands where they are there, else best estimates, else not yet."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Final

from fitwright.assess.oil.points import OilPoint
from fitwright.assess.oil.results import Prediction
from fitwright.assess.oil.what_if import WhatIf
from fitwright.web.hands import Hands
from fitwright.web.oil_work import OilAsked
from fitwright.web.pages.oil.asked import OilQuestion

SOON: Final = 0.8
"""Seconds that a page waits for a best estimate before it says that it is getting ready."""

BANDS_WITHIN: Final = 12.0
"""Seconds that a request for bands waits for them."""


@dataclass(frozen=True, slots=True)
class Worked:
    """What is there: what is shown, and the build as measured; the first of two what-ifs where one is kept.

    Each is None as long as it is not worked out; `banded` says whether what is shown has its bands.
    """

    shown: Prediction | None
    measured: Prediction | None
    first: Prediction | None
    banded: bool
    measured_banded: bool

    @property
    def is_ready(self) -> bool:
        """Whether there is something to show."""
        return self.shown is not None and self.measured is not None


def worked(
    hands: Hands,
    question: OilQuestion,
    readings: tuple[OilPoint, ...] = (),
    *,
    begin: bool = True,
    wait: float = SOON,
    bands_wait: float = 0.0,
) -> Worked:
    """What is there for a question; `begin` starts on the bands where they are not.

    A page waits a moment for best estimates, and `bands_wait` seconds for bands.
    """
    measured = OilAsked(WhatIf(), (*question.also, *readings))
    asked = measured if question.moved.is_nothing else OilAsked(question.what_if, question.also)
    found, banded = _one(hands, question, asked, begin=begin, wait=wait, bands_wait=bands_wait)
    if asked is measured:
        base, base_banded = found, banded
    else:
        base, base_banded = _one(hands, question, measured, begin=begin, wait=wait, bands_wait=0.0)
    return Worked(found, base, _first(hands, question, base, wait), banded, base_banded)


def _first(
    hands: Hands, question: OilQuestion, measured: Prediction | None, wait: float
) -> Prediction | None:
    """What the first of two what-ifs comes to; bands play no part in the comparison."""
    if question.held_what_if is None:
        return None
    if question.held_moved is not None and question.held_moved.is_nothing:
        return measured
    asked = OilAsked(question.held_what_if, question.also)
    return hands.oil.answer(question.desk, asked, wait=wait)


def _one(
    hands: Hands, question: OilQuestion, asked: OilAsked, *, begin: bool, wait: float, bands_wait: float
) -> tuple[Prediction | None, bool]:
    desk, with_bands = question.desk, replace(asked, banded=True)
    found = hands.oil.there(desk, with_bands)
    if found is not None:
        return found, True
    moves = not begin and not asked.what_if.changes_nothing
    best = hands.oil.answer(desk, replace(asked, glance_at=question.row if moves else None), wait=wait)
    if best is not None and not best.points:
        return best, True  # nothing is predicted: no band will come
    if best is None or not begin:
        return best, False
    found = hands.oil.answer(desk, with_bands, wait=bands_wait)
    return (found, True) if found is not None else (best, False)
