"""Laws of the projections, on random histories."""

from __future__ import annotations

import random

from hypothesis import given
from hypothesis import strategies as st

from fitwright.records.projection import BuildState, ShopState
from tests.support.record import new, numbered_id, reading, sealed_chain, typed

PARTS = ("a", "b", "p", "q")
PRESSURE = {
    "angular_speed": typed(94.0, "900", "rpm", 0),
    "oil_temperature": typed(365.15, "92", "degC", 0),
    "gauge_reading": typed(2.4e5, "2.4", "bar", 1),
}
BOLTS = {"group": "g", "fasteners": ["1", "2"]}
SIGNED = {"code": "C-1", "subject": "s", "granted_by": "x", "because": "b"}
WORK = (
    ("tightening", {**BOLTS, "number": 1, "torque": typed(25.0, "25", "N m", 0)}),
    ("tightening check", {**BOLTS, "check": "marked"}),
    ("loosening", {**BOLTS, "because": "b"}),
    ("heat cycle", {"words": "w"}),
    ("consumable used", {"consumable": "c"}),
    ("step done", {"step": "s"}),
    ("step released", {"step": "s", "released_by": "x"}),
    ("witness invited", {"step": "s", "invited": "x"}),
    ("concession", SIGNED),
    ("deviation permit", SIGNED),
    ("rework order", {"code": "R-1", "part": "p", "dimensions": ["d"], "words": "w"}),
    ("rework checked", {"order": "R-1", "item": "i", "answer": "holds"}),
    ("signature", {"subject": "s", "meaning": "checked", "signed_by": "x", "seq": 0, "hash": "h"}),
    (
        "dossier written",
        {"revision": 1, "depth": "owner", "paper": "A4", "seq": 0, "hash": "h", "data_digest": "d"},
    ),
)
SECRET = {"salt": "00" * 16, "hardened": "0" * 64, "cost": 2**15}


def entry_of(chance: random.Random, earlier: list):
    """Any entry; half of those that can name an earlier one do, sensibly or not."""
    build = chance.choice(["b1", "b1", "b1", "b2", None])
    more = {}
    if earlier and chance.random() < 0.3:
        more = {"supersedes": chance.choice(earlier).id, "reason": "r"}
    named = chance.choice(earlier).id if earlier else numbered_id(0)
    part, position = chance.choice(PARTS), chance.choice(("p", "q"))
    move = {"entry": named, "dimension": "d", "feature": "wall", "place": "x", "members": {"p": part}}
    return chance.choice(
        [
            lambda: reading(part, feature=chance.choice(["bore", "wall"]), build=build, **more),
            lambda: new("withdrawal", build, entry=named, **more),
            lambda: new("withdrawal", build, entry=named, **more),
            lambda: new("readings moved", build, moves=[move], **more),
            lambda: new("fitting", build or "b1", part=part, position=position, **more),
            lambda: new("taking out", build or "b1", part=part, position=position, **more),
            lambda: new("part", build, code=part, title="t", position=chance.choice([None, "p"]), **more),
            lambda: new(
                "state", build, code="R", change="rework", part=part, dimensions=["bore"], words="w", **more
            ),
            lambda: new("choice", build, choice="use again", entries=[named], **more),
            lambda: new("note", build, text="n", **more),
            lambda: new("setting", build, code=chance.choice(["Z1", "Z2"]), instrument="M3", **more),
            lambda: new("check-back", build, setting="Z1", drift=typed(1e-6), **more),
            lambda: new(
                "calibration", build, code="C", instrument="M3", standard_uncertainty=chance.random(), **more
            ),
            lambda: new("build started", build or "b1", code=build or "b1", title="t", sheet="s", **more),
            lambda: new("not in this job", build or "b1", subject="p", **more),
            lambda: new("oil chosen", build or "b1", grade=chance.choice(["30", "10W-40"]), **more),
            lambda: new("pressure reading", build or "b1", **PRESSURE, **more),
            *(lambda kind=kind, body=body: new(kind, build or "b1", **body, **more) for kind, body in WORK),
            lambda: new("person", build, code=chance.choice(["x", "y"]), name="n", **more),
            lambda: new("PIN set", build, person="x", **SECRET, **more),
        ]
    )()


@st.composite
def histories(draw):
    chance = random.Random(draw(st.integers(0, 2**32)))
    news: list = []
    for _ in range(draw(st.integers(0, 60))):
        news.append(entry_of(chance, news))
    return sealed_chain(news)


def contents(state):
    """Everything that a state holds, down to the containers inside it."""
    inside = {}
    for name, value in vars(state).items():
        inside[name] = vars(value) if hasattr(value, "__dict__") else value
    return inside


@given(histories())
def test_entry_by_entry_gives_the_same_state_as_all_at_once(history):
    build, shop = BuildState("b1"), ShopState()
    for entry in history:
        build.apply(entry)
        shop.apply(entry)
    assert contents(build) == contents(BuildState.replay("b1", history))
    assert contents(shop) == contents(ShopState.replay(history))


@given(histories(), st.integers(0, 41))
def test_as_of_an_entry_is_the_state_after_it_and_can_go_on(history, seq):
    earlier = [entry for entry in history if entry.seq <= seq]
    build, shop = BuildState.replay("b1", history).as_of(seq), ShopState.replay(history).as_of(seq)
    assert contents(build) == contents(BuildState.replay("b1", earlier))
    assert contents(shop) == contents(ShopState.replay(earlier))
    for entry in history[len(earlier) :]:
        build.apply(entry)
        shop.apply(entry)
    assert contents(build) == contents(BuildState.replay("b1", history))
    assert contents(shop) == contents(ShopState.replay(history))


@given(histories())
def test_entries_of_another_build_change_nothing(history):
    mine = [entry for entry in history if entry.build in ("b1", None)]
    with_others, alone = BuildState.replay("b1", history), BuildState.replay("b1", mine)
    assert contents(with_others) == contents(alone)


@given(histories())
def test_a_part_is_in_one_place_at_a_time(history):
    state = BuildState.replay("b1", history)
    seated = [state.occupant(position) for position in PARTS if state.occupant(position) is not None]
    assert len(seated) == len(set(seated))
    for position in PARTS:
        if (part := state.occupant(position)) is not None:
            assert state.location(part) == position


@given(histories())
def test_withdrawing_and_undoing_that_changes_nothing(history):
    state = BuildState.replay("b1", history)
    effective = [
        held.entry
        for held in state.ledger.in_order()
        if held.entry.build == "b1" and state.ledger.effective(held.entry.id)
    ]
    for target in effective[:3]:
        undo = new("withdrawal", target.build, entry=target.id)
        redo = new("withdrawal", target.build, entry=undo.id)
        more = sealed_chain([undo, redo], first_seq=len(history) + 1)
        again = BuildState.replay("b1", [*history, *more])
        assert again.readings == state.readings
        assert again.notes == state.notes
        assert again.oils_chosen == state.oils_chosen
        assert again.pressure_readings == state.pressure_readings
        assert {p: again.arrangement_events(p) for p in PARTS} == {
            p: state.arrangement_events(p) for p in PARTS
        }
