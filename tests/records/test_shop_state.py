"""People, gauges, blades and settings of the shop."""

from __future__ import annotations

from fitwright.records.projection import ShopState
from tests.support.record import new, reading, sealed_chain, typed

MICROMETER = {
    "code": "M3",
    "title": "micrometer 50 to 75",
    "type": "micrometer",
    "unit": "mm",
    "resolution": 1e-6,
    "repeatability": 1e-6,
}


def state_of(*news):
    return ShopState.replay(sealed_chain(news))


def blade_set(code="F2", **thickness):
    blades = [
        {"marking": marking, "thickness": value, "standard_uncertainty": 1e-6}
        for marking, value in thickness.items()
    ]
    return new("blade set", None, code=code, title="feeler blades", blades=blades)


def test_shop_entries_count_whatever_build_they_were_filed_under():
    state = state_of(
        new("person", None, code="builder", name="builder"),
        new("instrument", "b7", **MICROMETER),
        new("setting", "b2", code="Z1", instrument="M3"),
        new("check-back", "b2", setting="Z1", drift=typed(1e-6)),
        new("check-back", "b2", setting="Z1", drift=typed(2e-6)),
        new("shop setting", None, name="units", value="inch"),
        reading(),
    )
    assert state.people["builder"].body.drag == 3e-6
    assert state.instruments["M3"].entry.build == "b7"
    assert [held.body.drift.si for held in state.check_backs["Z1"]] == [1e-6, 2e-6]
    assert state.shop_setting("units") == "inch"
    assert state.shop_setting("time zone") is None


def test_a_later_entry_with_the_same_code_is_the_newer_state():
    state = state_of(
        new("instrument", None, **MICROMETER), new("instrument", None, **MICROMETER | {"resolution": 5e-6})
    )
    assert state.instruments["M3"].body.resolution == 5e-6


def test_correcting_an_old_entry_does_not_make_it_the_newest():
    old = new("instrument", None, **MICROMETER)
    state = state_of(
        old,
        new("instrument", None, **MICROMETER | {"resolution": 5e-6}),
        new("instrument", None, **MICROMETER, supersedes=old.id, reason="title"),
    )
    assert state.instruments["M3"].body.resolution == 5e-6


def test_the_calibration_in_force_and_the_one_at_an_earlier_time():
    state = state_of(
        new("calibration", None, code="C1", instrument="M3", standard_uncertainty=1e-6),
        reading(),
        new("calibration", None, code="C2", instrument="M3", standard_uncertainty=2e-6),
    )
    assert state.calibrations["M3"].body.code == "C2"
    assert state.calibration_of("M3", at=2).body.code == "C1"
    assert state.calibration_of("M3").body.code == "C2"
    assert state.calibration_of("M4") is None


def test_blades_are_found_by_set_and_marking_and_a_newer_set_drops_lost_ones():
    first = blade_set(**{"0.05": 5e-5, "0.06": 6e-5})
    assert state_of(first).blade("F2:0.06").thickness == 6e-5
    state = state_of(first, blade_set(**{"0.05": 5.1e-5}))
    assert state.blade("F2:0.05").thickness == 5.1e-5
    assert state.blade("F2:0.06") is None


def test_a_withdrawal_filed_under_any_build_takes_a_shop_entry_back():
    wrong = new("instrument", None, **MICROMETER)
    undo = new("withdrawal", "b1", entry=wrong.id)
    assert state_of(wrong, undo).instruments == {}
    assert "M3" in state_of(wrong, undo, new("withdrawal", "b1", entry=undo.id)).instruments


def test_builds_notes_and_photos_of_the_shop():
    state = state_of(
        new("build started", "b1", code="b1", title="t", sheet="a" * 64),
        new("note", None, text="gauges go to the laboratory in May"),
        new("note", "b1", text="not the shop's"),
    )
    assert list(state.builds) == ["b1"]
    assert [held.body.text for held in state.notes] == ["gauges go to the laboratory in May"]


def pin(person="builder", **more):
    return new("PIN set", None, person=person, salt="00" * 16, hardened="0" * 64, cost=2**15, **more)


def test_the_last_pin_of_a_person_counts_until_it_is_withdrawn():
    first, second = pin(), pin()
    assert state_of(first, second).pins["builder"].entry.id == second.id
    undo = new("withdrawal", None, entry=second.id)
    assert state_of(first, second, undo).pins["builder"].entry.id == first.id


def test_what_would_be_is_as_if_it_had_been_written_and_nothing_is():
    before = [new("person", None, code="builder", name="Builder"), pin()]
    state = state_of(*before)
    coming = [new("person", None, code="second", name="Second"), new("withdrawal", None, entry=before[1].id)]
    then = state.supposing(coming)
    assert (list(then.people), list(then.pins)) == (["builder", "second"], [])
    assert (list(state.people), list(state.pins)) == (["builder"], ["builder"])
    written = state_of(*before, *coming)
    assert list(written.people) == list(then.people)
