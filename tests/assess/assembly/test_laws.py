"""Laws of assembly, on random ways through the work."""

from __future__ import annotations

import random

from hypothesis import given, settings
from hypothesis import strategies as st

from fitwright.assess.assembly.results import StepState
from fitwright.assess.results import Verdict
from tests.support.assembly import assembling
from tests.support.small_sheet import read_clearance

GOOD = (StepState.DONE, StepState.RELEASED)


def evidence(story):
    """Everything that the steps ask for, each piece by itself, in no order of its own."""
    return [
        lambda: read_clearance(story),
        lambda: story.reads("deck", None, "200.000", instrument="M", setting="S-M"),
        story.caps,
        story.rods,
        lambda: [story.tightens("head", "h1", "h2", number=n, torque=t) for n, t in ((1, 30.0), (2, 75.0))],
        lambda: story.uses("paste", "crank_in"),
        lambda: story.answers("bench.turns", yes=True),
        lambda: story.answers("bench.leaks", yes=False),
        lambda: story.answers("bench.holes_dry", yes=True),
        lambda: story.photographs("crank_in/arrows"),
    ]


def goes_on(story, chance):
    """Do whatever may be done, in any order, until nothing more may be."""
    while True:
        steps = story.standing().steps
        ways = [
            (name, story.does) for name, each in steps.items() if each.may_be_done and each.done is None
        ] + [
            (name, story.releases)
            for name, each in steps.items()
            if each.may_be_released and each.state is StepState.HELD
        ]
        if not ways:
            return
        name, does = chance.choice(ways)
        does(name)


def end(story):
    standing = story.standing()
    return (
        {name: (each.state, each.missing) for name, each in standing.steps.items()},
        {name: (each.complete, each.words) for name, each in standing.groups.items()},
        [(each.kind, each.subject, each.words) for each in standing.open_points],
    )


@settings(max_examples=6)
@given(st.integers(0, 2**32))
def test_any_valid_order_of_work_reaches_the_same_end(seed):
    chance = random.Random(seed)
    straight, mixed = assembling(), assembling()
    for each in evidence(straight):
        each()
    goes_on(straight, random.Random(0))
    pieces = evidence(mixed)
    chance.shuffle(pieces)
    for each in pieces:
        each()
        if chance.random() < 0.3:
            goes_on(mixed, chance)
    goes_on(mixed, chance)
    assert end(mixed) == end(straight)
    assert mixed.standing().steps["bottom_end"].state is StepState.RELEASED


@settings(max_examples=8)
@given(st.lists(st.tuples(st.sampled_from(["fitted", "front", "rear"]), st.integers(-2, 2)), max_size=4))
def test_readings_that_keep_the_fits_within_never_unrelease_a_step(readings):
    story = assembling()
    story.closes()
    before = story.states()
    for where, off in readings:
        if where == "fitted":
            story.reads("fitted", None, f"{55.500 + off / 1e3:.3f}", instrument="B", setting="S-BM")
        else:
            story.reads("journal", where, f"{55.450 + off / 1e3:.3f}", instrument="M", setting="S-M")
        if story.verdict("clearance").verdict is not Verdict.WITHIN:
            return
    assert story.states() == before


@settings(max_examples=8)
@given(st.integers(0, 2**32))
def test_a_step_counts_only_while_everything_that_it_asks_for_holds(seed):
    chance = random.Random(seed)
    story = assembling()
    story.closes()
    happenings = [
        lambda: story.loosens("caps", chance.choice(["c1", "c2"])),
        lambda: story.answers("bench.turns", yes=chance.random() < 0.5),
        lambda: story.answers("bench.leaks", yes=chance.random() < 0.5),
        lambda: story.tightens("caps", "c1", number=3, torque=chance.choice([52.0, 60.0])),
        lambda: story.reads(
            "fitted", None, chance.choice(["55.500", "55.530"]), instrument="B", setting="S-BM"
        ),
        lambda: story.uses("sealant", "cover_on"),
        lambda: story.does(chance.choice(["crank_in", "rods_on", "bottom_end", "cover_on"])),
        lambda: story.releases("bottom_end"),
    ]
    for _ in range(chance.randint(1, 5)):
        chance.choice(happenings)()
    steps = story.standing().steps
    for step in steps.values():
        if step.state in GOOD:
            assert step.missing == ()
            assert all(steps[name].state in GOOD for name in step.before)
        if step.state is StepState.CHANGED_SINCE:
            assert step.changes or step.out_of_order
        if step.state is StepState.WAITS_FOR:
            assert step.waits_for is not None


@settings(max_examples=8)
@given(st.integers(0, 2**32))
def test_doing_everything_anew_in_order_always_mends_what_still_holds(seed):
    """A fresh entry is what restores a step; nothing else is needed where the conditions hold."""
    chance = random.Random(seed)
    story = assembling()
    story.closes()
    for _ in range(chance.randint(1, 3)):
        which = chance.choice(["crank_in", "bottom_end"])
        check = "bench.turns" if which == "crank_in" else "bench.leaks"
        good = which == "crank_in"
        story.answers(check, yes=not good)
        story.answers(check, yes=good)
    assert story.step("cover_on").state is StepState.CHANGED_SINCE
    for name in ("crank_in", "rods_on", "bottom_end"):
        if story.step(name).state is StepState.CHANGED_SINCE:
            story.does(name)
        if name == "bottom_end" and story.step(name).state is StepState.HELD:
            story.releases(name)
    states = story.states()
    assert states["cover_on"] is StepState.DONE
    assert states["bottom_end"] is StepState.RELEASED
