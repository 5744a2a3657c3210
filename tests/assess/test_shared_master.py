"""What a bore gauge and a micrometer share, and what follows for a clearance and for a size wanted."""

from __future__ import annotations

from math import hypot, sqrt

import pytest

from tests.support.compare import absolute, verified
from tests.support.small_sheet import read_clearance, small_story

JOURNAL = sqrt(1.0**2 + 0.5**2 + 1.0**2) * 1e-6
BORE = {
    "S-BM": sqrt(1.0**2 + 0.5**2 + 1.2**2 + 1.1**2) * 1e-6,
    "S-BR": sqrt(1.0**2 + 1.2**2 + 1.1**2) * 1e-6,
}
BY = "root of the squares, with what is shared taken out by hand"


@pytest.mark.parametrize(
    "setting, expanded, own", [("S-BM", 3.8e-6, (1.0, 1.2, 1.1)), ("S-BR", 4.9e-6, (1.5, 1.0, 1.2, 1.1))]
)
def test_clearance_from_a_gauge_set_in_the_micrometer_or_in_a_ring(setting, expanded, own):
    story = small_story()
    read_clearance(story, setting)
    found = story.verdict("clearance").standard_uncertainty
    root_sum = hypot(JOURNAL, BORE[setting])
    verified(found, sqrt(sum(each**2 for each in own)) * 1e-6, by=BY, tolerance=1e-6)
    verified(2.0 * found, expanded, by="the shop's statement, two figures", tolerance=absolute(0.05e-6))
    if setting == "S-BM":
        assert found < 0.8 * root_sum
    else:
        verified(found, root_sum, by="root sum of squares of the two", tolerance=1e-6)


def test_the_shared_error_cancels_in_the_value_too():
    """One micrometer in both chains drops out of the budget; two micrometers do not."""
    story = small_story()
    read_clearance(story)
    keys = {key for key, part, _ in story.verdict("clearance").budget if part > 1e-12}
    assert not any(key.startswith(("calibration:M", "setting:S-M")) for key in keys), keys
    read_apart = small_story()
    read_apart.reads("fitted", None, "55.500", instrument="B", setting="S-BM")
    for place in ("front", "rear"):
        read_apart.reads("journal", place, "55.450", instrument="N", setting="S-N")
    apart = read_apart.verdict("clearance")
    verified(apart.standard_uncertainty, hypot(JOURNAL, BORE["S-BM"]), by=BY, tolerance=1e-6)


def test_size_wanted_knows_what_the_micrometer_shares_with_the_bore_gauge():
    story = small_story()
    story.reads("fitted", None, "55.500", instrument="B", setting="S-BM")
    wanted = story.verdict("clearance").size_wanted
    assert (wanted.dimension, wanted.gauge, wanted.possible) == ("journal", "M", True)
    guard = 1.6448536269514722 * sqrt(1.0**2 + 1.2**2 + 1.1**2) * 1e-6
    expected = [55.5e-3 - 0.060e-3 + guard, 55.5e-3 - 0.040e-3 - guard]
    verified([wanted.low, wanted.high], expected, by="limits less guard bands by hand", tolerance=1e-9)
    for text, verdict in (
        (wanted.low + 0.1e-6, "within"),
        (wanted.high - 0.1e-6, "within"),
        (wanted.high + 0.2e-6, "unproven"),
    ):
        read = small_story()
        read_clearance(read, journal=f"{text * 1e3:.4f}")
        assert read.verdict("clearance").verdict.value == verdict, text


def test_size_wanted_with_a_ring_is_narrower():
    def width(setting):
        story = small_story()
        story.reads("fitted", None, "55.500", instrument="B", setting=setting)
        wanted = story.verdict("clearance").size_wanted
        return wanted.high - wanted.low

    assert width("S-BR") < width("S-BM")
