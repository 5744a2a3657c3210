"""Tightenings as they are typed: what is taken, what is asked first, what is never silent."""

from __future__ import annotations

from dataclasses import replace

import pytest

from fitwright.bench.context import Bench
from fitwright.bench.errors import BenchError
from fitwright.bench.fastener_lists import fastener_words, fasteners_named
from fitwright.bench.tightened import entered_twice, next_pass
from fitwright.bench.tightenings import TighteningTyped, take_tightening
from fitwright.bench.withdrawing import withdrawal
from fitwright.bench.work_taking import WorkTaken, WorkTaking
from fitwright.bench.wrenches import NO_WRENCH
from fitwright.model.fastener import Fastener, Locking, TighteningGroup
from fitwright.model.slips import Question
from fitwright.records import kinds
from tests.support.bench import gauge
from tests.support.guarded_shop import BUILD, Keep

WRENCH = gauge("T3", "torque wrench", "N m", 0.5, range_high=60.0)
CALIBRATED = kinds.Calibration(code="C-T3-1", instrument="T3", standard_uncertainty=0.5, date="2031-02-01")


@pytest.fixture
def bench(assembly):
    """The bench as it stands now; `bench.of(group=...)` changes one group of the sheet."""

    class Now:
        def __call__(self, **changes):
            found = assembly.wired.bench(BUILD)
            groups = dict(found.sheet.tightening_groups)
            groups |= {name: replace(groups[name], **change) for name, change in changes.items()}
            return Bench(replace(found.sheet, tightening_groups=groups), found.shop, found.build)

    assembly.says(WRENCH, CALIBRATED, build=None)
    return Now()


@pytest.fixture
def tighten(assembly, bench):
    """Type a tightening; what is asked comes back, what is taken is written."""

    def typed(*, answers=None, family="mm", on=None, **said):
        taking = WorkTaking(
            person="builder",
            now=assembly.clock.now,
            family=family,
            answers={} if answers is None else answers,
        )
        found = take_tightening(on or bench(), TighteningTyped(**({"wrench": "T3"} | said)), taking)
        if isinstance(found, WorkTaken):
            assembly.wired.write(found.entries)
        return found

    return typed


def asked(found, begins):
    assert isinstance(found, Question), getattr(found, "words", found)
    assert found.key.startswith(begins), found
    return found


def taken(found):
    assert isinstance(found, WorkTaken), found
    return found


# What is taken.


def test_all_fasteners_of_a_pass_are_one_entry(tighten, bench):
    found = taken(tighten(group="caps", torque="25"))
    assert found.body.fasteners == ("c1", "c2", "c3", "c4")
    assert (found.body.number, found.body.torque.si, found.body.wrench) == (1, 25.0, "T3")
    assert found.words == "Main caps, all 4: pass 1 to 25 N·m; with T3; by builder"
    assert next_pass(bench(), bench().sheet.tightening_groups["caps"]) == 2
    assert taken(tighten(group="caps", torque="45")).body.number == 2


def test_a_number_without_a_unit_is_in_that_of_the_wrench_or_of_the_reader(tighten):
    assert taken(tighten(group="caps", torque="25", family="inch")).body.torque.si == 25.0
    without = taken(tighten(group="caps", torque="33.2", family="inch", number="2", wrench=""))
    assert without.body.torque.unit == "lbf ft"
    assert without.body.torque.si == pytest.approx(45.01, abs=0.01)
    assert NO_WRENCH in without.cautions


def test_which_bolt_sits_where_is_kept_until_another_is_named(tighten):
    first = taken(tighten(group="caps", torque="25", bolts="A"))
    assert first.body.members == {"c1": "A-c1", "c2": "A-c2", "c3": "A-c3", "c4": "A-c4"}
    assert taken(tighten(group="caps", torque="45")).body.members == first.body.members
    other = taken(
        tighten(
            group="caps", torque="45", number="2", fasteners="c2", members={"c2": "spare"}, answers=Keep()
        )
    )
    assert other.body.members == {"c2": "spare"}


def test_lengths_give_the_stretch_of_one_fastener(tighten):
    taken(tighten(group="rods", torque="25"))
    found = taken(
        tighten(group="rods", fasteners="1a", torque="45", free_length="50.000", tightened_length="50.150")
    )
    assert (found.body.free_length.si, found.body.tightened_length.si) == (0.05, 0.05015)
    with pytest.raises(BenchError, match="Lengths belong to one fastener each"):
        tighten(group="rods", torque="45", free_length="50.000", tightened_length="50.150")
    with pytest.raises(BenchError, match="is no longer than"):
        tighten(group="rods", fasteners="1b", torque="45", free_length="50.2", tightened_length="50.1")


def test_a_lubricant_is_known_by_its_consumable_or_by_words(tighten):
    assert taken(tighten(group="caps", torque="25", lubricant="paste")).body.lubricant == "paste"
    with pytest.raises(BenchError, match="or name a consumable of the sheet"):
        tighten(group="caps", torque="25", lubricant="treacle")


@pytest.mark.parametrize(
    "said, words",
    [
        ({"group": "cap", "torque": "25"}, 'No tightening group "cap"; name one of: caps'),
        ({"group": "caps", "torque": "25", "fasteners": "c9"}, 'No fastener of Main caps "c9"'),
        ({"group": "caps", "torque": "25", "fasteners": " "}, "needs which they are"),
        ({"group": "caps", "torque": "25", "number": "4"}, "Main caps has 3 passes: name 1 to 3"),
        ({"group": "caps", "torque": ""}, "Torque is missing"),
        ({"group": "caps", "torque": "25", "wrench": "T9"}, 'No instrument "T9"'),
        ({"group": "caps", "torque": "25", "wrench": "M"}, "M reads mm: name a torque wrench"),
        ({"group": "caps", "torque": "25", "performed_by": "nobody"}, 'Nobody is called "nobody"'),
    ],
)
def test_what_is_not_there_is_said_in_one_sentence(tighten, said, words):
    with pytest.raises(BenchError, match=words):
        tighten(**said)


# Slips of unit.


@pytest.mark.parametrize(
    "text, family, label",
    [
        ("25 lbf ft", "mm", "25 N·m"),
        ("25", "inch", None),  # in the wrench's own unit: nothing to ask
        ("18.4 N m", "mm", "18.4 lbf·ft"),
        ("2.55 N m", "mm", "2.55 kgf·m"),
        ("250 N m", "mm", "25.0 N·m"),
    ],
)
def test_a_torque_in_the_wrong_unit_is_asked_about_and_its_guess_is_taken(tighten, text, family, label):
    found = tighten(group="caps", torque=text, family=family)
    if label is None:
        assert taken(found).body.torque.si == 25.0
        return
    question = asked(found, "torque:")
    assert label in [each.label for each in question.guesses]
    kept = taken(tighten(group="caps", torque=text, family=family, answers={question.key: label}))
    assert kept.body.torque.si == pytest.approx(25.0, rel=0.01)
    assert kept.entries[1].kind == "question answered"


def test_without_a_value_of_the_sheet_the_thread_says_what_can_be_meant(tighten, bench):
    m6 = bench(caps={"thread": "M6", "passes": ()})
    question = asked(tighten(group="caps", torque="90 lbf ft", wrench="", on=m6), "torque:slip")
    assert next(each.label for each in question.guesses) == "90 lbf·in"
    assert isinstance(tighten(group="caps", torque="90 lbf in", wrench="", on=m6), WorkTaken)


def test_a_torque_below_a_fifth_of_the_wrench_is_asked_about(tighten, bench):
    low = bench(caps={"passes": ()})
    assert "12 N·m to 60 N·m" in asked(tighten(group="caps", torque="9", on=low), "torque:range").text


def test_a_stretch_ten_times_too_large_is_asked_about(tighten):
    taken(tighten(group="rods", torque="25"))
    question = asked(tighten(group="rods", torque="45", fasteners="1a", stretch="1.5 mm"), "stretch:slip")
    assert [each.label for each in question.guesses] == ["0.15 mm"]
    lengths = {"free_length": "50.00", "tightened_length": "51.60"}
    asked(tighten(group="rods", torque="45", fasteners="1a", **lengths), "beside")


# Gauges.


def test_a_wrench_without_a_calibration_is_asked_about_once(assembly, tighten):
    assembly.says(gauge("T4", "torque wrench", "N m", 0.5, range_high=100.0), build=None)
    question = asked(tighten(group="caps", torque="25", wrench="T4"), "calibration:T4:none")
    assert "has no dated calibration" in question.text
    taken(tighten(group="caps", torque="25", wrench="T4", answers={question.key: "keep"}))
    taken(tighten(group="caps", torque="45", wrench="T4"))


def test_a_calibration_is_good_for_a_year(assembly, tighten):
    taken(tighten(group="caps", torque="25"))
    assembly.clock.goes_on(days=300)
    question = asked(tighten(group="caps", torque="45"), "calibration:T3:2031-02-01")
    assert "more than a year ago" in question.text


# Its place in the order.


def test_a_pass_begun_before_the_one_before_is_complete_is_asked_about(tighten):
    taken(tighten(group="caps", torque="25", fasteners="c1..c3"))
    question = asked(tighten(group="caps", torque="45", number="2", fasteners="c1"), "begun-early:2")
    assert question.text.startswith("Pass 1 is not complete: c4 wanting.")


def test_another_order_than_the_sheet_s_is_asked_about(tighten):
    question = asked(tighten(group="caps", torque="25", fasteners="c3"), "order:1")
    assert "c1 and c2 of pass 1 come before c3" in question.text
    taken(tighten(group="caps", torque="25", fasteners="c1..c2"))
    taken(tighten(group="caps", torque="25", fasteners="c3"))


def test_a_pass_entered_again_is_asked_about_and_the_later_entry_counts(tighten, bench):
    first = taken(tighten(group="caps", torque="25"))
    question = asked(tighten(group="caps", torque="25.2", number="1", fasteners="c1"), "again:")
    assert f"again:{first.entries[0].id}" == question.key
    taken(tighten(group="caps", torque="25.2", number="1", fasteners="c1", answers={question.key: "keep"}))
    said = entered_twice(bench(), bench().sheet.tightening_groups["caps"])
    assert len(said) == 1
    assert said[0].startswith("Pass 1 of c1 was entered more than once")


def test_two_devices_that_enter_the_same_at_once_are_both_kept(assembly, tighten, bench):
    """Both were made before either was written: nobody could be asked."""
    taking = WorkTaking(person="builder", now=assembly.clock.now)
    made = [
        take_tightening(bench(), TighteningTyped(group="caps", torque=text, wrench="T3"), taking)
        for text in ("25", "24.8")
    ]
    for each in made:
        assembly.wired.write(each.entries)
    group = bench().sheet.tightening_groups["caps"]
    assert "entry" in entered_twice(bench(), group)[0]
    standing = assembly.wired.assembly(BUILD).groups["caps"]
    assert standing.fastener("c1").passes[0].torque == 24.8
    assert len(bench().build.work.tightened["caps"]) == 2


def test_threadlocker_on_a_joint_tightened_again_is_asked_about(assembly, tighten, bench):
    locked = bench(caps={"locking": Locking.THREADLOCKER})
    taken(tighten(group="caps", torque="25", on=locked))
    assembly.says(kinds.Loosening(group="caps", fasteners=("c1", "c2", "c3", "c4"), because="b"))
    locked = bench(caps={"locking": Locking.THREADLOCKER})
    assert "fresh threadlocker" in asked(tighten(group="caps", torque="25", on=locked), "locked-again").text
    taken(tighten(group="caps", torque="25"))


def test_a_bolt_tightened_more_often_than_it_may_be_is_asked_about(assembly, tighten):
    taken(tighten(group="flywheel", torque="65", bolts="F", wrench=""))
    assembly.says(kinds.Loosening(group="flywheel", fasteners=("f1", "f2"), because="b"))
    question = asked(tighten(group="flywheel", torque="65", wrench=""), "too-often")
    assert "may be tightened once, and all 2 were before" in question.text
    taken(tighten(group="flywheel", torque="65", wrench="", bolts="G"))


# Beside the sheet's value.


@pytest.mark.parametrize("torque, side", [("60", "above"), ("40", "below")])
def test_a_torque_beside_the_sheet_s_says_what_it_does_and_is_not_refused(assembly, tighten, torque, side):
    taken(tighten(group="caps", torque="25"))
    taken(tighten(group="caps", torque="45"))
    question = asked(tighten(group="caps", torque=torque), "beside:3")
    for words in (f"{torque} N·m is {side} the sheet's 52 N·m", "of preload", "grants a concession"):
        assert words in question.text
    found = taken(tighten(group="caps", torque=torque, answers={question.key: "keep"}))
    assert any("yielded" in each for each in found.cautions) is (side == "above")
    standing = assembly.wired.assembly(BUILD).groups["caps"]
    assert not standing.complete
    assert {each.state.value for each in standing.fasteners} == {"outside"}


def test_the_sheet_s_value_in_another_unit_is_no_other_value(tighten):
    taken(tighten(group="caps", torque="18.4 lbf ft"))


def test_another_lubricant_says_what_it_does(tighten):
    question = asked(tighten(group="caps", torque="25", lubricant="engine oil"), "beside:1")
    assert "values are for paste" in question.text


# Corrections and undo.


def test_an_undone_tightening_counts_no_more_and_a_correction_stands_in_its_place(assembly, tighten, bench):
    first = taken(tighten(group="caps", torque="25"))
    assembly.wired.write([withdrawal(bench(), first.entries[0].id, reason="undo")])
    assert next_pass(bench(), bench().sheet.tightening_groups["caps"]) == 1
    wrong = taken(tighten(group="caps", torque="25"))
    said = TighteningTyped(group="caps", torque="25.2", number="1", wrench="T3")
    taking = WorkTaking(supersedes=wrong.entries[0].id, now=assembly.clock.now)
    with pytest.raises(BenchError, match="A correction needs its reason"):
        take_tightening(bench(), said, taking)
    right = take_tightening(bench(), said, replace(taking, reason="misread"))
    assembly.wired.write(taken(right).entries)
    assert assembly.wired.assembly(BUILD).groups["caps"].fastener("c1").passes[0].torque == 25.2
    with pytest.raises(BenchError, match="No tightening"):
        take_tightening(bench(), said, replace(taking, supersedes="f" * 32, reason="x"))


def test_fasteners_are_named_by_lists_spans_and_their_last_part():
    ids = ("head.bolt.2", "head.bolt.1", "head.bolt.3")
    group = TighteningGroup("head", "Head", "M10", tuple(map(Fastener, ids)), ())
    assert fasteners_named(group, "1..2") == ("head.bolt.2", "head.bolt.1")
    assert fasteners_named(group, "3, head.bolt.2") == ("head.bolt.2", "head.bolt.3")
    assert fasteners_named(group, "ALL") == ids
    assert fastener_words(group, ids) == "all 3"
    assert fastener_words(group, ids[:2]) == "2 and 1"
    with pytest.raises(BenchError, match="name one of: 2, 1, 3"):
        fasteners_named(group, "1..4")
