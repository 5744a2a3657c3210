"""A new set of fasteners: codes in order, what is refused, and what counts no longer."""

from __future__ import annotations

from dataclasses import replace

import pytest

from fitwright.assess.consequences import consequences_of
from fitwright.bench.errors import BenchError
from fitwright.bench.new_sets import NewSetTyped, take_new_set, takes_new_sets
from fitwright.bench.parts import part_of, put_new
from fitwright.bench.tightened import entered_twice, members_of_fasteners
from fitwright.bench.tightenings import TighteningTyped, take_tightening
from fitwright.bench.together import written_together
from fitwright.bench.withdrawing import withdrawal
from fitwright.bench.work_taking import WorkTaken, WorkTaking
from fitwright.records.kinds import BuildStarted, Fitting, Part, State, TakingOut
from tests.support.assembly import ASSEMBLY
from tests.support.guarded_shop import BUILDER, START, GuardedShop
from tests.support.new_set_sheet import POSITIONS
from tests.support.small_sheet import SHEET, sitting

BUILD = "bolts"
TAKING = WorkTaking(person=BUILDER, now=START)
CAPS = ("c1", "c2", "c3", "c4")


@pytest.fixture
def bolts(tmp_path):
    """A shop with a build whose cap bolts and flywheel bolts are positions of the sheet."""
    shop = GuardedShop(tmp_path / "shop")
    start = BuildStarted(code=BUILD, title="Bolts", sheet="")
    shop.wired.start_build(BUILD, SHEET + ASSEMBLY + POSITIONS, start)
    shop.says(sitting(), build=BUILD)
    yield shop.wired
    shop.wired.close()


def entered(bolts, said, taking=TAKING):
    taken = take_new_set(bolts.bench(BUILD), said, taking)
    bolts.write(taken.entries)
    return taken


def tighten(bolts, group="caps", **typed):
    """All three passes, each question answered with keep."""
    taking = replace(TAKING, answers=Keep())
    number = len(bolts.bench(BUILD).sheet.tightening_groups[group].passes)
    for each, torque in zip(range(1, number + 1), ("25", "45", "52"), strict=False):
        said = TighteningTyped(group=group, number=str(each), torque=typed.get("torque", torque))
        taken = take_tightening(bolts.bench(BUILD), said, taking)
        assert isinstance(taken, WorkTaken), taken
        bolts.write(taken.entries)


class Keep(dict):
    """Keeps whatever is asked about."""

    def get(self, key, default=None):
        return "keep"


def group(bolts, name="caps"):
    return bolts.assembly(BUILD).groups[name]


def test_each_fastener_gets_a_part_in_the_order_of_tightening(bolts):
    taken = entered(bolts, NewSetTyped(group="caps", stem="RB2", origin="packet 7"))
    assert taken.words == "Main caps, all 4: new set RB2-1 to RB2-4, packet 7"
    parts = [(each.body["code"], each.body["position"], each.body["origin"]) for each in taken.entries]
    assert parts == [(f"RB2-{n}", name, "packet 7") for n, name in enumerate(CAPS, 1)]
    assert {each.kind for each in taken.entries} == {Part.kind}
    assert {each.person for each in taken.entries} == {BUILDER}
    build = bolts.bench(BUILD).build
    assert [build.occupant(name) for name in CAPS] == ["RB2-1", "RB2-2", "RB2-3", "RB2-4"]
    assert [each.part for each in group(bolts).fasteners] == ["RB2-1", "RB2-2", "RB2-3", "RB2-4"]


def test_a_part_of_a_group_is_numbered_by_itself(bolts):
    taken = entered(bolts, NewSetTyped(group="caps", stem="N", fasteners="c4 c2..c3"))
    assert [(each.body["code"], each.body["position"]) for each in taken.entries] == [
        ("N-1", "c2"),
        ("N-2", "c3"),
        ("N-3", "c4"),
    ]
    assert bolts.bench(BUILD).build.occupant("c1") == "c1"


@pytest.mark.parametrize(
    "said, words",
    [
        ({"stem": " "}, "A new set for Main caps needs what it is called, RB2 for RB2-1 and so on"),
        ({"stem": "A", "fasteners": " "}, "needs which they are"),
        ({"stem": "A", "fasteners": "c9"}, 'No fastener of Main caps "c9"'),
        ({"stem": "A", "group": "none"}, 'No tightening group "none"'),
        ({"stem": "A", "group": "rods"}, "The sheet has no position for all 10 of Rod bolts"),
    ],
)
def test_what_is_unclear_is_refused_in_a_sentence(bolts, said, words):
    with pytest.raises(BenchError, match=words):
        take_new_set(bolts.bench(BUILD), NewSetTyped(**({"group": "caps"} | said)), TAKING)


def test_codes_that_exist_are_refused_whole(bolts):
    entered(bolts, NewSetTyped(group="caps", stem="RB2", fasteners="c1 c2"))
    with pytest.raises(BenchError) as refusal:
        take_new_set(bolts.bench(BUILD), NewSetTyped(group="caps", stem="RB2"), TAKING)
    assert str(refusal.value) == "RB2-1 and RB2-2 are there already: call the new set otherwise."


def test_codes_of_bolts_that_were_tightened_are_refused(bolts):
    said = TighteningTyped(group="flywheel", torque="65", fasteners="f1", members={"f1": "F2-2"})
    bolts.write(take_tightening(bolts.bench(BUILD), said, replace(TAKING, answers=Keep())).entries)
    with pytest.raises(BenchError, match="F2-2 is there already: call the new set otherwise"):
        take_new_set(bolts.bench(BUILD), NewSetTyped(group="flywheel", stem="F2"), TAKING)


def test_the_tightening_of_those_that_are_out_counts_no_longer(bolts):
    tighten(bolts)
    assert group(bolts).complete
    taken = take_new_set(bolts.bench(BUILD), NewSetTyped(group="caps", stem="RB2", fasteners="c2"), TAKING)
    found = consequences_of(bolts.assessor(BUILD), taken.entries)
    assert [(each.group, each.fasteners) for each in found.untightened] == [("caps", ("c2",))]
    bolts.write(taken.entries)
    after = group(bolts)
    assert [each.state.value for each in after.fasteners] == [
        "complete",
        "not tightened",
        "complete",
        "complete",
    ]
    assert entered_twice(bolts.bench(BUILD), after.group) == ()
    tighten(bolts)
    assert group(bolts).complete
    assert group(bolts).fastener("c2").part == "RB2-1"


def test_it_is_as_if_each_had_been_entered_by_itself(bolts):
    tighten(bolts)
    bench = bolts.bench(BUILD)
    body = part_of(bench, code="RB2-1", position="c1", origin="packet 7")
    alone = consequences_of(
        bolts.assessor(BUILD), [bolts.entry(each, build=BUILD) for each in put_new(bench, body)]
    )
    said = NewSetTyped(group="caps", stem="RB2", fasteners="c1", origin="packet 7")
    together = consequences_of(bolts.assessor(BUILD), take_new_set(bench, said, TAKING).entries)
    assert together == alone
    assert together.untightened


def test_readings_taken_through_the_old_bolt_are_no_longer_used(bolts):
    from fitwright.bench.taking import Taking, take_value

    reading = Taking(instrument="M", setting="S-M", answers=Keep())
    bolts.write(take_value(bolts.bench(BUILD), "bolt_seat", "whole", "20.001", reading).entries)
    taken = take_new_set(bolts.bench(BUILD), NewSetTyped(group="caps", stem="RB2", words="stretched"), TAKING)
    found = consequences_of(bolts.assessor(BUILD), taken.entries)
    assert found.lost == 1
    changes = [each.body for each in taken.entries if each.kind == State.kind]
    assert [(each["code"], each["part"], each["words"]) for each in changes] == [("R1", "c1", "stretched")]
    assert [each.body["reason"] for each in taken.entries if each.kind == Part.kind] == ["stretched"] * 4


def test_taking_them_back_brings_the_tightening_back(bolts):
    tighten(bolts)
    taken = entered(bolts, NewSetTyped(group="caps", stem="RB2"))
    assert not group(bolts).complete
    ledger = bolts.bench(BUILD).build.ledger
    written = written_together(ledger, taken.entries[0].id)
    assert [each.id for each in written] == [each.id for each in taken.entries]
    bolts.write([withdrawal(bolts.bench(BUILD), each.id, person=BUILDER) for each in written])
    assert group(bolts).complete


def test_a_bolt_taken_out_is_not_tightened_even_when_it_is_put_back(bolts):
    tighten(bolts)
    entered(bolts, NewSetTyped(group="caps", stem="RB2"))
    tighten(bolts)
    for body in (TakingOut(part="RB2-4", position="c4"), Fitting(part="RB2-4", position="c4")):
        bolts.write([bolts.entry(body, build=BUILD, person=BUILDER)])
        assert group(bolts).fastener("c4").state.value == "not tightened"
    assert group(bolts).fastener("c4").part == "RB2-4"
    assert group(bolts).fastener("c3").complete


def test_a_part_that_was_said_with_the_tightening_and_entered_later_is_the_same(bolts):
    said = TighteningTyped(group="caps", torque="25", fasteners="c1", members={"c1": "N-1"})
    bolts.write(take_tightening(bolts.bench(BUILD), said, replace(TAKING, answers=Keep())).entries)
    body = part_of(bolts.bench(BUILD), code="N-1", position="c1")
    bolts.write([bolts.entry(body, build=BUILD, person=BUILDER)])
    assert group(bolts).fastener("c1").state.value == "part way"


def test_one_time_fasteners_are_new_then_and_once_only(bolts):
    assert members_of_fasteners(bolts.bench(BUILD), group(bolts, "flywheel").group, ["f1"], {}) == {}
    entered(bolts, NewSetTyped(group="flywheel", stem="FB1"))
    said = TighteningTyped(group="flywheel", torque="65")
    taken = take_tightening(bolts.bench(BUILD), said, replace(TAKING, answers=Keep()))
    assert taken.body.members == {"f1": "FB1-1", "f2": "FB1-2"}
    bolts.write(taken.entries)
    standing = bolts.assembly(BUILD)
    assert standing.groups["flywheel"].complete
    new = {each.subject: each.new for each in standing.one_time_parts}
    assert new["flywheel/f1"]
    assert new["flywheel/f2"]


def test_a_step_that_rests_on_the_tightening_says_what_changed(bolts):
    tighten(bolts)
    condition = bolts.assembly(BUILD).steps["crank_in"].conditions
    assert next(each for each in condition if each.subject == "caps").holds
    entered(bolts, NewSetTyped(group="caps", stem="RB2", fasteners="c3"))
    found = next(
        each for each in bolts.assembly(BUILD).steps["crank_in"].conditions if each.subject == "caps"
    )
    assert (found.holds, found.words) == (False, "3 of 4 complete; c3 is not")


def test_only_groups_whose_fasteners_are_all_positions_take_one(bolts):
    sheet = bolts.bench(BUILD).sheet
    found = {name for name, each in sheet.tightening_groups.items() if takes_new_sets(sheet, each)}
    assert found == {"caps", "flywheel"}
