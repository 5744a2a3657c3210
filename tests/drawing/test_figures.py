"""Figures as people read them: limits as written, both ends of a fit, nothing rounded past its meaning."""

from __future__ import annotations

import pytest

from fitwright.assess.results import BoundVerdict, FitVerdict, Verdict
from fitwright.drawing.figures import Reader
from fitwright.drawing.sentences import verdict_sentence

THOU = 2.54e-5


def bound(side, limit, *, value=None, governs=True, case=None):
    return BoundVerdict(
        side=side,
        limit=limit,
        written="",
        governs=governs,
        source="manual",
        source_kind="engine maker" if governs else "rule of thumb",
        place_in_source="p. 12",
        applies_to="new",
        temperature_case=case,
        probability=None,
        verdict=Verdict.WITHIN,
        reason=None,
        value=value,
        standard_uncertainty=0.1 * THOU if value is not None else None,
        acceptance_limit=None,
    )


def verdict(*bounds, value=None, in_hand=None):
    return FitVerdict(
        id="spindle.clearance",
        kind="fit",
        name="Spindle in its bush",
        fit_kind="running clearance",
        sense="diametral",
        unit="m",
        station=None,
        limit_class="normal",
        verdict=Verdict.WITHIN if value is not None else Verdict.NOT_MEASURED,
        reason=None,
        words="within",
        value=value,
        standard_uncertainty=0.1 * THOU if value is not None else None,
        degrees_of_freedom=None,
        interval=(None, None),
        in_hand=in_hand,
        bounds=bounds,
        readings=(),
        unused=(),
        missing=(),
    )


@pytest.mark.parametrize(
    "lower, upper, family, text",
    [
        (0.75 * THOU, 1.5 * THOU, "inch", "0.75 to 1.50 thou"),
        (1.5 * THOU, 2.5 * THOU, "inch", "1.5 to 2.5 thou"),
        (1.5 * THOU, 2.5 * THOU, "mm", "0.0381 to 0.0635 mm"),
        (45e-6, 65e-6, "mm", "0.045 to 0.065 mm"),
        (45e-6, 65e-6, "inch", "1.77 to 2.56 thou"),
        (52.5e-6, None, "mm", "from 0.0525 mm"),
        (None, 0.4 * THOU, "inch", "up to 0.4 thou"),
    ],
)
def test_a_limit_is_shown_as_it_was_written_never_rounded(lower, upper, family, text):
    given = [("lower", lower), ("upper", upper)]
    found = verdict(*(bound(side, limit) for side, limit in given if limit is not None))
    assert Reader(family).limits(found) == text


def test_limits_given_for_a_hot_state_only_are_shown_and_say_so():
    found = verdict(bound("lower", 3 * THOU, case="hot"), bound("upper", 5 * THOU, case="hot"))
    assert Reader("inch").limits(found) == "3.0 to 5.0 thou, hot"


def test_the_smallest_and_the_largest_are_both_shown_where_the_limits_meet_other_places():
    low, high = 1.9 * THOU, 2.1 * THOU
    found = verdict(bound("lower", 1.5 * THOU, value=low), bound("upper", 2.5 * THOU, value=high), value=high)
    assert Reader("inch").value(found) == "1.90 to 2.10 thou (u 0.10)"


def test_one_value_is_shown_once():
    low = 1.9 * THOU
    found = verdict(bound("lower", 1.5 * THOU, value=low), bound("upper", 2.5 * THOU, value=low), value=low)
    assert Reader("inch").value(found) == "1.90 thou (u 0.10)"


def test_a_value_at_its_limit_reads_so_without_digits_that_no_gauge_shows():
    limit = 0.3 * THOU
    value = limit * (1 + 1e-13)
    found = verdict(bound("upper", limit, value=value), value=value, in_hand=limit - value)
    assert Reader("inch").value(found) == "0.30 thou (u 0.10)"
    assert Reader("inch").in_hand(found) == "nothing in hand"


def test_a_limit_that_nobody_adopted_stands_in_one_pair_of_brackets():
    thumb = [bound(side, limit, governs=False) for side, limit in (("lower", THOU), ("upper", 2 * THOU))]
    sentence = verdict_sentence(verdict(*thumb), Reader("inch"))
    assert sentence == "within; limits 1.0 to 2.0 thou (rule of thumb, p. 12, not adopted)."


def test_a_size_wanted_is_in_its_own_unit_and_rounded_inwards():
    found = verdict(bound("lower", 1.5 * THOU), bound("upper", 2.5 * THOU))
    low, high = 2.00131 * 0.0254, 2.00209 * 0.0254
    assert Reader("inch").span_inside(found, low, high) == "2.0014 to 2.0020 in"
    assert Reader("mm").span_inside(found, low, high) == "50.834 to 50.853 mm"
