"""What a build's entries say, as far as they count."""

from __future__ import annotations

import pytest

from fitwright.records.projection import BuildState
from tests.support.record import new, reading, sealed_chain, typed


def state_of(*news, build="b1"):
    return BuildState.replay(build, sealed_chain(news))


def values(records):
    return [record.body.observation.value.si for record in records if record.effective]


def test_readings_are_found_by_feature_in_order():
    first, second, other = reading(si=0.0559), reading(si=0.0560), reading(feature="width")
    state = state_of(first, other, second)
    assert [record.entry.id for record in state.readings_of("bore")] == [first.id, second.id]
    assert state.readings_of("wall") == []
    assert state.readings[other.id].members == {"main.1.housing": "main.1.housing"}


def test_a_withdrawn_reading_stays_visible_and_no_longer_counts():
    wrong = reading()
    state = state_of(wrong, withdrawal := new("withdrawal", entry=wrong.id))
    record = state.readings[wrong.id]
    assert not record.effective
    assert record.withdrawn_by.id == withdrawal.id
    assert state.readings_of("bore") == [record]


def test_undo_can_itself_be_undone_again_and_again():
    wrong = reading()
    news = [wrong, new("withdrawal", entry=wrong.id)]
    for _ in range(3000):  # deeper than Python's recursion limit
        news.append(new("withdrawal", entry=news[-1].id))
    assert not state_of(*news).readings[wrong.id].effective  # 3001 withdrawals: an odd number
    news.append(new("withdrawal", entry=news[-1].id))
    assert state_of(*news).readings[wrong.id].effective


def test_a_correction_replaces_what_it_names_and_stands_where_that_stood():
    wrong = reading(si=0.5591)
    rework = new(
        "state", code="R1", change="rework", part="main.1.housing", dimensions=["bore"], words="honed"
    )
    right = reading(si=0.05591, supersedes=wrong.id, reason="slipped a digit")
    state = state_of(wrong, rework, right)
    assert values(state.readings_of("bore")) == [0.05591]
    assert state.readings[wrong.id].superseded_by.id == right.id
    assert state.readings[right.id].order == 1 < state.last_change("main.1.housing", "bore").order


def test_a_corrected_correction_leaves_one_reading_and_undoing_both_brings_the_first_back():
    first = reading(si=0.001)
    second = reading(si=0.002, supersedes=first.id, reason="one")
    third = reading(si=0.003, supersedes=second.id, reason="two")
    news = [first, second, third]
    assert values(state_of(*news).readings_of("bore")) == [0.003]
    news.append(new("withdrawal", entry=second.id))  # says nothing about the third, which replaced it
    assert values(state_of(*news).readings_of("bore")) == [0.003]
    news.append(new("withdrawal", entry=third.id))
    assert values(state_of(*news).readings_of("bore")) == [0.001]


def test_two_devices_correct_the_same_reading_and_both_are_kept():
    first = reading(si=0.001)
    news = [first, *(reading(si=si, supersedes=first.id, reason="x") for si in (0.002, 0.003))]
    assert values(state_of(*news).readings_of("bore")) == [0.002, 0.003]


def test_references_to_other_kinds_or_builds_have_no_effect():
    kept, note = reading(), new("note", text="n")
    state = state_of(
        kept,
        note,
        new("note", text="m", supersedes=kept.id, reason="x"),
        new("withdrawal", "b2", entry=kept.id),
        new("withdrawal", None, entry=kept.id),
    )
    assert state.readings[kept.id].effective
    assert len(state.notes) == 2


def test_readings_move_one_place_on_as_one_entry_with_one_undo():
    taken = [reading(place=place, si=si) for place, si in (("front 0", 0.001), ("front 90", 0.002))]
    moves = [
        {
            "entry": entry.id,
            "dimension": "main.2.housing.bore",
            "feature": "bore two",
            "place": place,
            "members": {"main.2.housing": "main.2.housing"},
        }
        for entry, place in zip(taken, ("front 90", "rear 0"), strict=True)
    ]
    moved = new("readings moved", moves=moves)
    state = state_of(*taken, moved)
    assert [record.place for record in state.readings_of("bore two")] == ["front 90", "rear 0"]
    assert state.readings_of("bore") == []
    assert state.readings[taken[0].id].moved_by.id == moved.id
    assert state.readings[taken[0].id].members == {"main.2.housing": "main.2.housing"}
    state = state_of(*taken, moved, new("withdrawal", entry=moved.id))
    assert [record.place for record in state.readings_of("bore")] == ["front 0", "front 90"]


def test_the_last_move_of_a_reading_counts():
    taken = reading()
    move = {"entry": taken.id, "dimension": "d", "feature": "bore", "members": {"a": "a"}}
    state = state_of(
        taken,
        new("readings moved", moves=[move | {"place": "front 90"}]),
        new("readings moved", moves=[move | {"place": "rear 0"}]),
    )
    assert state.readings[taken.id].place == "rear 0"


def test_an_untouched_position_is_occupied_by_its_original_part():
    state = state_of()
    assert state.occupant("main.4.shell_upper") == "main.4.shell_upper"
    assert state.original_occupant("main.4.shell_upper") == "main.4.shell_upper"
    assert state.arrangement_events("main.4.shell_upper") == []


def test_taking_out_empties_a_position_and_fitting_fills_it():
    out = new("taking out", part="main.4.shell_upper", position="main.4.shell_upper")
    state = state_of(out)
    assert state.occupant("main.4.shell_upper") is None
    fitted = new("fitting", part="shell-17", position="main.4.shell_upper")
    state = state_of(out, fitted)
    assert state.occupant("main.4.shell_upper") == "shell-17"
    assert state.original_occupant("main.4.shell_upper") == "main.4.shell_upper"
    assert [(seq, part) for seq, _, part in state.arrangement_events("main.4.shell_upper")] == [
        (1, None),
        (2, "shell-17"),
    ]


def test_a_part_fitted_elsewhere_comes_out_of_where_it_was():
    state = state_of(
        new("part", code="shell-17", title="upper shell", position="main.4.shell_upper"),
        moved := new("fitting", part="shell-17", position="main.5.shell_upper"),
    )
    assert state.occupant("main.4.shell_upper") is None
    assert state.occupant("main.5.shell_upper") == "shell-17"
    assert state.original_occupant("main.4.shell_upper") == "shell-17"
    last = state.arrangement_events("main.4.shell_upper")[-1]
    assert (last.entry.id, last.part) == (moved.id, None)


def test_two_original_parts_swapped_by_two_fittings():
    state = state_of(
        new("fitting", part="main.4.shell_upper", position="main.5.shell_upper"),
        new("fitting", part="main.5.shell_upper", position="main.4.shell_upper"),
    )
    assert state.occupant("main.4.shell_upper") == "main.5.shell_upper"
    assert state.occupant("main.5.shell_upper") == "main.4.shell_upper"
    assert state.location("main.4.shell_upper") == "main.5.shell_upper"


def test_taking_out_a_part_that_sits_elsewhere_changes_nothing():
    state = state_of(
        new("fitting", part="a", position="p"),
        new("taking out", part="b", position="p"),
    )
    assert state.occupant("p") == "a"


def test_declaring_a_part_again_does_not_put_it_back():
    declared = {"code": "shell-17", "title": "upper shell", "position": "p"}
    state = state_of(
        new("part", **declared),
        new("taking out", part="shell-17", position="p"),
        new("part", **declared, used=True),
    )
    assert state.occupant("p") is None
    assert state.is_used("shell-17")
    assert not state.is_used("shell-18")


def test_an_undone_fitting_never_happened():
    fitted = new("fitting", part="a", position="p")
    state = state_of(fitted, new("withdrawal", entry=fitted.id))
    assert state.occupant("p") == "p"
    assert state.arrangement_events("p") == []


def test_a_corrected_fitting_does_not_push_out_the_part_fitted_since():
    wrong = new("fitting", part="a", position="p")
    state = state_of(
        wrong,
        new("fitting", part="c", position="p"),
        new("fitting", part="b", position="p", supersedes=wrong.id, reason="read the wrong tag"),
    )
    assert state.occupant("p") == "c"
    assert state.original_occupant("p") == "b"
    assert [event.seq for event in state.arrangement_events("p")] == [1, 2]


def test_changes_of_a_part_by_dimension():
    state = state_of(
        new("state", code="R1", change="rework", part="crank", dimensions=["journal"], words="ground"),
        new("state", code="R2", change="repair", part="crank", dimensions=["keyway"], words="welded"),
    )
    assert [change.code for change in state.changes("crank")] == ["R1", "R2"]
    assert state.last_change("crank", "journal").words == "ground"
    assert state.last_change("crank", "flange") is None
    assert state.changes("rod") == []


@pytest.mark.parametrize(
    "subject, expected",
    [
        ("main.4", "one main only"),
        ("main.4.housing.bore", "one main only"),
        ("main.40", None),
        ("main", None),
    ],
)
def test_not_in_this_job_ends_at_a_dot(subject, expected):
    state = state_of(new("not in this job", subject="main.4", reason="one main only"))
    assert state.not_in_this_job(subject) == expected


def test_choices_are_found_by_every_entry_they_name():
    one, other = reading(), reading()
    chosen = new(
        "choice", choice="use instead", entries=[one.id], instead_of=[other.id], reason="fresh setting"
    )
    state = state_of(one, other, chosen)
    for entry in (one, other):
        assert [(held.id, body.choice) for held, body in state.choices_for(entry.id)] == [
            (chosen.id, "use instead")
        ]
    assert state_of(one, other, chosen, new("withdrawal", entry=chosen.id)).choices_for(one.id) == []


def test_the_sheet_is_the_one_started_with_until_a_revision_is_taken_over():
    started = new("build started", code="b1", title="t", sheet="a" * 64)
    assert state_of(started).sheet == "a" * 64
    taken = new("revision taken over", sheet="b" * 64, previous_sheet="a" * 64)
    assert state_of(started, taken).sheet == "b" * 64
    assert state_of(started, taken, new("withdrawal", entry=taken.id)).sheet == "a" * 64


def test_everything_else_has_its_place():
    state = state_of(
        new("sitting", code="S1", measured_by="builder"),
        new(
            "stated size",
            dimension=None,
            feature="wall",
            members={"": "shell-1"},
            size=typed(2e-3),
            stated_by="box",
        ),
        new("eye check", check="turns by hand", answer=True),
        new("not measured", subject="main.1.wall", because="shells are new and sealed"),
        new("limit adopted", subject="main.1.running_clearance", source="shop", adopted_by="builder"),
        new("photo", digest="d", media_type="image/png"),
        new("question answered", question="unit", text="mm?", answer="yes"),
        new("oil chosen", grade="30"),
        new("oil chosen", grade="10W-40"),
        pressure(2.4e5),
    )
    assert [held.body.grade for held in state.oils_chosen] == ["30", "10W-40"]
    assert [held.body.gauge_pressure for held in state.pressure_readings] == [2.4e5]
    assert state.sittings["S1"].body.measured_by == "builder"
    assert [size.body.size.si for size in state.stated_sizes_of("wall")] == [2e-3]
    assert state.eye_checks[0].body.answer
    assert state.not_measured_because("main.1.wall") == "shells are new and sealed"
    assert state.not_measured_because("main.2.wall") is None
    assert state.adopted_limits("main.1.running_clearance")[0].body.adopted_by == "builder"
    assert len(state.photos) == len(state.questions) == 1


def pressure(si, **more):
    at = {"angular_speed": typed(94.0, "900", "rpm", 0), "oil_temperature": typed(365.15, "92", "degC", 0)}
    return new("pressure reading", **at, gauge_reading=typed(si, f"{si / 1e5:g}", "bar", 1), **more)


def test_a_pressure_is_the_reading_less_its_zero_and_a_correction_stands_in_its_place():
    wrong, later = pressure(4.2e5), pressure(3.0e5)
    right = pressure(2.4e5, zero=typed(0.1e5, "0.1", "bar", 1), supersedes=wrong.id, reason="misread")
    state = state_of(wrong, later, right)
    assert [held.body.gauge_pressure for held in state.pressure_readings] == [2.3e5, 3.0e5]
    withdrawn = state_of(wrong, later, right, new("withdrawal", entry=later.id))
    assert [held.body.gauge_pressure for held in withdrawn.pressure_readings] == [2.3e5]


def test_entries_of_other_builds_and_of_the_shop_are_passed_over():
    mine, shelf = reading(), reading("shell-9", build=None)
    state = state_of(
        mine,
        reading(build="b2"),
        shelf,
        new("person", code="builder", name="builder"),
        new("note", None, text="the shop's own"),
    )
    assert set(state.readings) == {mine.id, shelf.id}
    assert state.notes == []
