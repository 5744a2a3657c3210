"""How assembly stands, asked of a shop in use: kept until an entry or the clock changes it."""

from __future__ import annotations

from datetime import timedelta

from fitwright.assess.assembly.results import StepState
from fitwright.formats.carrying import arrival, build_in, carried
from fitwright.records import kinds
from fitwright.records.kinds import Withdrawal
from fitwright.wiring import open_shop
from tests.support.guarded_shop import BUILD, BUILDER, PINS
from tests.support.plain import differences, plain


def cover_done(shop):
    """Past the hold point, with the cover on and its sealant wet."""
    shop.comes_to_hold()
    shop.releases("bottom_end")
    shop.says(
        kinds.Part(code="gasket-2", title="Gasket", position="gasket"),
        kinds.ConsumableUsed(consumable="sealant", step="cover_on", batch="A"),
    )
    shop.done("cover_on")
    shop.reads("deck", None, "200.00")


def test_it_is_kept_until_an_entry_or_the_clock_changes_it(lone):
    cover_done(lone)
    first = lone.wired.assembly(BUILD)
    assert lone.wired.assembly(BUILD) is first
    lone.clock.goes_on(hours=1)
    assert lone.wired.assembly(BUILD) is first, "nothing cured in an hour"
    lone.says(kinds.Note(text="n"))
    assert lone.wired.assembly(BUILD) is not first
    fresh = lone.another()
    assert differences(plain(lone.wired.assembly(BUILD)), plain(fresh.assembly(BUILD))) == []
    fresh.close()


def sealant_is_cured(shop):
    return shop.wired.assembly(BUILD).consumables["sealant"].cured


def test_curing_counts_from_the_shop_s_own_clock_not_from_that_of_a_device(lone):
    lone.comes_to_hold()
    lone.releases("bottom_end")
    entry = lone.wired.entry(
        kinds.ConsumableUsed(consumable="sealant", step="cover_on", batch="A"), build=BUILD
    )
    days_ago = (lone.clock.now - timedelta(days=9)).isoformat()
    lone.wired.write(
        [type(entry)(**{n: getattr(entry, n) for n in type(entry).__slots__} | {"client_time": days_ago})]
    )
    assert not sealant_is_cured(lone)
    lone.clock.goes_on(hours=23, minutes=59)
    assert not sealant_is_cured(lone)
    lone.clock.goes_on(minutes=2)
    assert sealant_is_cured(lone), "the clock alone makes it cured"


def test_a_clock_set_back_cures_nothing_and_order_stays_that_of_the_record(lone):
    cover_done(lone)
    lone.clock.goes_on(days=-3)
    assert not sealant_is_cured(lone)
    lone.says(kinds.Loosening(group="caps", fasteners=("c1",), because="b"))
    assert lone.wired.assembly(BUILD).steps["crank_in"].state is StepState.CHANGED_SINCE
    assert lone.wired.verify().clock_steps, "and the step of the clock is noted"


def test_what_is_supposed_is_not_written(lone):
    before = plain(lone.wired.assembly(BUILD))
    loosened = lone.wired.entry(
        kinds.Tightening(group="caps", fasteners=("c1",), number=1, torque=_torque(25.0)), build=BUILD
    )
    then = lone.wired.assembly_supposing(BUILD, [loosened])
    assert then.groups["caps"].fastener("c1").passes[0].torque == 25.0
    assert differences(plain(lone.wired.assembly(BUILD)), before) == []


def _torque(value):
    return kinds.Typed(typed=f"{value:g}", unit="N m", decimals=0, si=value)


def test_another_shop_s_build_comes_with_its_signatures_and_stands_as_its_record_says(two, tmp_path):
    two.comes_to_hold()
    two.releases("bottom_end", pins=PINS)
    text = carried(two.wired.record, BUILD).text
    assert "PIN set" not in text
    assert two.wired.state.pins[BUILDER].body.hardened not in text
    there = open_shop(tmp_path / "there", clock=two.clock)
    there.take_in(arrival(build_in(text, file="f"), there.record))
    assert there.assembly(BUILD).steps["bottom_end"].state is StepState.RELEASED
    assert there.state.pins == {}
    there.close()


def test_a_hold_passed_in_another_shop_reads_as_passed_here(lone, tmp_path):
    lone.comes_to_hold()
    done = lone.wired.entry(kinds.StepDone(step="cover_on"), build=BUILD, person=BUILDER)
    lone.wired.record.append([done])
    text = carried(lone.wired.record, BUILD).text
    there = open_shop(tmp_path / "there", clock=lone.clock)
    there.take_in(arrival(build_in(text, file="f"), there.record))
    step = there.assembly(BUILD).steps["cover_on"]
    assert (step.state, bool(step.out_of_order)) == (StepState.CHANGED_SINCE, True)
    there.close()


def test_undo_works_for_every_piece_of_work(lone):
    """Each withdrawn again: nothing of it is left, and each brought back is there again."""
    lone.lays_crank()
    head = lone.wired.record.head()
    bodies = (
        kinds.Tightening(group="head", fasteners=("h1",), number=1, torque=_torque(30.0)),
        kinds.TighteningCheck(group="caps", fasteners=("c1",), check="marked"),
        kinds.Loosening(group="head", fasteners=("h1",), because="b"),
        kinds.HeatCycle(words="w"),
        kinds.ConsumableUsed(consumable="sealant", batch="B"),
        kinds.WitnessInvited(step="fill", invited="the owner"),
        kinds.Concession(code="C-1", subject="gap", granted_by=BUILDER, because="b"),
        kinds.DeviationPermit(code="P-1", subject="gap", granted_by=BUILDER, because="b"),
        kinds.ReworkOrder(code="R-1", part="crank", dimensions=("journal",), words="w"),
        kinds.ReworkChecked(order="R-1", item="clearance", answer="holds"),
        kinds.Signature(
            subject="dossier", meaning="checked", signed_by=BUILDER, seq=head.seq, hash=head.hash
        ),
        kinds.StepDone(step="crank_in"),
    )
    before = work_of(lone)
    written = [lone.says(each).acknowledgements[0].id for each in bodies]
    there = work_of(lone)
    undone = [lone.says(Withdrawal(entry=each, reason="undo")).acknowledgements[0].id for each in written]
    assert work_of(lone) == before
    for each in undone:
        lone.says(Withdrawal(entry=each, reason="redo"))
    assert work_of(lone) == there


def work_of(shop):
    """The ids of all effective work of the build."""
    build = shop.wired.bench(BUILD).build
    kinds_of_work = ("tightening", "tightening check", "loosening", "heat cycle", "consumable used")
    more = (
        "witness invited",
        "concession",
        "deviation permit",
        "rework order",
        "rework checked",
        "signature",
    )
    every = build.ledger.recorded.values()
    wanted = (*kinds_of_work, *more, "step done")
    return {h.entry.id for h in every if h.entry.kind in wanted and build.ledger.effective(h.entry.id)}
