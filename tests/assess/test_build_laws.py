"""Laws at the level of a whole build: order, unrelated entries, one reading more, and renewal."""

from __future__ import annotations

import random
from dataclasses import replace

import pytest

from fitwright.assess.assessment import Assessor, assess
from fitwright.assess.results import FitVerdict, State
from fitwright.records.kinds import EyeCheck, Note, Photo
from fitwright.records.projection import BuildState, ShopState
from tests.support.next_entries import NextEntries
from tests.support.plain import differences, plain
from tests.support.small_sheet import SHEET, read_clearance, small_story
from tests.support.story import Story


def figures(found: FitVerdict):
    """Every number and word of a verdict that a reader could see; ids of readings as a set."""
    return plain(
        replace(
            found,
            readings=tuple(sorted(found.readings)),
            unused=tuple(sorted(found.unused, key=lambda each: each.entry)),
        )
    )


# ---------------------------------------------------------------------------- unrelated entries


def test_unrelated_entries_change_no_digit():
    story = Story.of("corrie-five")
    before = story.verdicts()
    story.says(Note(text="Owner called.", subject="main.2.running_clearance"))
    story.says(Photo(digest="0" * 64, media_type="image/jpeg", caption="notebook"))
    story.says(EyeCheck(check="turns by hand", answer=True))
    extra = {
        name: story.reads(name, place, text, instrument=instrument, setting=setting)
        for name, place, text, instrument, setting in (
            ("main.5.journal", "front/0", "55.990", "M3", "S-003"),
            ("crank.centre_indicator", None, "0.012", "L1", None),
        )
    }
    after = story.verdicts()
    touched = {name for name, found in after.items() if set(found.readings) & set(extra.values())}
    assert "main.5.running_clearance" in touched
    assert len(after) - len(touched) > 150
    assert {"pump.housing_offset", "pump.end_clearance"} <= after.keys() - touched  # read by blades
    for name in after.keys() - touched:
        assert differences(figures(after[name]), figures(before[name])) == [], name


@pytest.mark.parametrize("seed", range(3))
def test_the_order_of_readings_changes_no_digit(seed):
    """Within a sitting, where nothing else happens, readings may come in any order."""
    story = Story.of("corrie-five")
    before = story.verdicts()
    shuffled = Story.of("corrie-five")
    order = random.Random(seed)
    runs: dict[int, list[int]] = {}
    run = 0
    for index, entry in enumerate(shuffled.new):
        if entry.kind != "reading":
            run += 1
        else:
            runs.setdefault(run, []).append(index)
    entries = list(shuffled.new)
    for places in runs.values():
        moved = order.sample(places, len(places))
        for place, source in zip(places, moved, strict=True):
            entries[place] = shuffled.new[source]
    assert [e.id for e in entries] != [e.id for e in shuffled.new]
    shuffled.new = entries
    after = shuffled.verdicts()
    for name, found in before.items():
        assert differences(figures(found), figures(after[name])) == [], name


# ------------------------------------------------------------------------------ one reading more


@pytest.mark.parametrize("seed", range(12))
def test_one_more_value_never_makes_a_fit_less_certain(seed):
    draw = random.Random(seed)
    story = small_story()
    read_clearance(story)
    uncertainty = story.verdict("clearance").standard_uncertainty
    for _ in range(6):
        name, place = draw.choice([("fitted", None), ("journal", "front"), ("journal", "rear")])
        base, gauge = (
            (55.5, ("B", draw.choice(["S-BM", "S-BR"])))
            if name == "fitted"
            else (
                55.45,
                draw.choice([("M", "S-M"), ("N", "S-N")]),
            )
        )
        text = f"{base + draw.choice([-1, 0, 1]) * 1e-3:.3f}"
        story.reads(name, place, text, instrument=gauge[0], setting=gauge[1])
        found = story.verdict("clearance")
        # The worst places may change: what is never less certain is each combination, so the worst of all.
        worst = max(bound.standard_uncertainty for bound in found.bounds)
        assert worst <= uncertainty * (1.0 + 1e-12)


# --------------------------------------------------------------------------------------- renewal


@pytest.mark.parametrize("seed", range(3))
def test_renewing_gives_what_starting_anew_gives(seed):
    story = Story.of("corrie-five")
    coming = NextEntries(story, seed)
    entries = story.entries()
    shop, build = ShopState.replay(entries), BuildState.replay(story.build, entries)
    kept = {state: Assessor(story.sheet, shop, build, state) for state in State}
    for assessor in kept.values():
        assessor.assessment()
    seen = len(entries)
    for _ in range(8):
        for _ in range(coming.draw.randint(1, 3)):
            coming.one()
        entries = story.entries()
        new = entries[seen:]
        seen = len(entries)
        for entry in new:
            shop.apply(entry)
            build.apply(entry)
        for assessor in kept.values():
            assessor.renew(new)
    for state, assessor in kept.items():
        fresh = assess(story.sheet, ShopState.replay(entries), BuildState.replay(story.build, entries), state)
        assert differences(plain(assessor.assessment()), plain(fresh)) == []


@pytest.mark.parametrize("corrected", ["main.2.journal", "main.3.journal"])
def test_a_correction_that_names_another_dimension_renews_both(corrected):
    story = Story.of("corrie-five")
    assessor = story.assessor()
    assessor.assessment()
    wrong = story.bench().build.readings_of("main.2.journal")[0]
    story.reads(
        corrected,
        wrong.place,
        "55.993",
        instrument="M3",
        setting="S-003",
        supersedes=wrong.entry.id,
        reason="read on another main",
    )
    (entry,) = [each for each in story.entries() if each.id == story.new[-1].id]
    touched = assessor.touched_by(entry)
    assert {"main.2.running_clearance", f"{corrected.removesuffix('.journal')}.running_clearance"} <= touched


def test_a_reading_that_no_fit_rests_on_is_recorded_at_once():
    alone = """
[dimensions.alone]
title = "Alone"
part = "crank"
sense = "linear"
nominal = "10.000 mm"
instrument = "outside micrometer"
"""
    story = small_story(SHEET + alone)
    entries = story.entries()
    shop, build = ShopState.replay(entries), BuildState.replay(story.build, entries)
    kept = Assessor(story.sheet, shop, build, State.CURRENT)
    assert "alone" in {each.id for each in kept.assessment().not_recorded}
    story.reads("alone", None, "10.000", instrument="M", setting="S-M")
    new = story.entries()[len(entries) :]
    for entry in new:
        build.apply(entry)
    kept.renew(new)
    assert "alone" not in {each.id for each in kept.assessment().not_recorded}
