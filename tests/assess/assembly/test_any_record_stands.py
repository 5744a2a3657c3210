"""Whatever the record takes, the assembly stands somehow, and stands the same however it was read."""

from __future__ import annotations

import pytest

from fitwright.assess.assembly.past import Past
from fitwright.assess.assembly.results import StepState
from fitwright.assess.assembly.standing import standing_of
from fitwright.assess.assessment import Assessor
from fitwright.assess.results import State
from fitwright.records.projection import BuildState, ShopState
from tests.support.any_entries import grown
from tests.support.assembly import assembling


def closed():
    story = assembling()
    story.closes()
    return story


@pytest.mark.parametrize("odd", [0.0, 0.2])
def test_a_record_of_any_entries_stands(odd):
    seen = set()
    for seed in range(12):
        story = grown(closed if seed % 2 else assembling, seed, odd=odd, entries=3 * seed)
        standing = story.standing()
        seen.update(each.state for each in standing.steps.values())
        for step in standing.steps.values():
            if step.state in (StepState.DONE, StepState.RELEASED):
                assert step.missing == ()
            assert step.words
        for group in standing.groups.values():
            assert group.complete is all(each.complete for each in group.fasteners)
    assert len(seen) >= 3


def test_kept_memories_change_nothing_that_is_said():
    """The same standing entry by entry with one memory, and at once without any."""
    for seed in range(4):
        story = grown(closed, seed, odd=0.0, entries=20)
        entries = story.entries()
        build, shop, past = BuildState(story.build), ShopState(), Past()
        assessor = None
        for entry in entries:
            build.apply(entry)
            shop.apply(entry)
            if entry.seq > len(entries) - 15 and build.sheet is not None:
                assessor = Assessor(story.sheet, shop, build, State.CURRENT)
                kept = standing_of(assessor, past=past)
        fresh = story.standing()
        assert kept == fresh
