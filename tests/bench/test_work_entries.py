"""Looks, loosenings, steps, consumables, permissions, rework orders and signatures as they are typed."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest

from fitwright.bench.consumables import ConsumableTyped, take_consumable
from fitwright.bench.entry_words import said
from fitwright.bench.errors import BenchError
from fitwright.bench.loosenings import (
    CheckTyped,
    LooseningTyped,
    take_check,
    take_heat_cycle,
    take_loosening,
)
from fitwright.bench.moments import last_day, moment_typed
from fitwright.bench.permissions import PermissionTyped, accepted_of, grant_concession, grant_permit
from fitwright.bench.reworking import OrderTyped, order_rework, rework_checked, rework_done
from fitwright.bench.signing import sign
from fitwright.bench.steps import step_done, step_released, witness_invited
from fitwright.bench.told import told
from fitwright.bench.withdrawing import withdrawal
from fitwright.bench.work_taking import WorkTaken, WorkTaking
from fitwright.model.slips import Question
from fitwright.records import kinds
from tests.support.guarded_shop import BUILD, BUILDER, SECOND, START, GuardedShop


@pytest.fixture
def bench(assembly):
    """The bench as it stands now."""
    return lambda: assembly.wired.bench(BUILD)


@pytest.fixture
def enter(assembly):
    """Write what was taken; a question fails the test."""

    def written(found):
        assert isinstance(found, WorkTaken), found
        assembly.wired.write(found.entries)
        return found

    return written


TAKING = WorkTaking(person=BUILDER, now=START)


def with_answer(question):
    return replace(TAKING, answers={question.key: "keep"})


# Looking again and loosening.


def test_fasteners_are_marked_and_checked(assembly, bench, enter):
    assembly.tightens("caps")
    found = enter(take_check(bench(), CheckTyped(group="caps", fasteners="c1 c2", check="marked"), TAKING))
    assert found.words == "Main caps, c1 and c2: marked by builder"
    with pytest.raises(BenchError, match="needs the reason"):
        take_check(bench(), CheckTyped(group="caps", check="stands as it is"), TAKING)
    with pytest.raises(BenchError, match='No way to look at fasteners "seen"'):
        take_check(bench(), CheckTyped(group="caps", check="seen"), TAKING)


def test_fasteners_not_tightened_are_asked_about_when_checked(bench):
    question = take_check(bench(), CheckTyped(group="caps"), TAKING)
    assert isinstance(question, Question)
    assert "not tightened" in question.text


def test_whoever_tightened_is_no_second_person(tmp_path):
    shop = GuardedShop(tmp_path / "two", people=2)
    shop.tightens("caps")
    question = take_check(shop.wired.bench(BUILD), CheckTyped(group="caps"), TAKING)
    assert isinstance(question, Question)
    assert question.text.startswith("Builder tightened them too")
    second = take_check(shop.wired.bench(BUILD), CheckTyped(group="caps", checked_by=SECOND), TAKING)
    assert isinstance(second, WorkTaken)
    shop.wired.close()


def test_a_loosening_has_its_reason_and_a_length_one_fastener(assembly, bench, enter):
    assembly.tightens("rods")
    with pytest.raises(BenchError, match="needs why"):
        take_loosening(bench(), LooseningTyped(group="rods"), TAKING)
    with pytest.raises(BenchError, match="A length belongs to one fastener"):
        take_loosening(bench(), LooseningTyped(group="rods", because="b", length_after="50 mm"), TAKING)
    one = LooseningTyped(
        group="rods", fasteners="1a", because="to read it", breakaway_torque="40", length_after="50.012"
    )
    found = enter(take_loosening(bench(), one, TAKING))
    assert found.body.breakaway_torque.si == 40.0
    assert found.words == "Rod bolts, 1a: loosened, to read it; it took 40 N·m; length then 50.012 mm"
    assert assembly.wired.assembly(BUILD).groups["rods"].fastener("1a").state.value == "loosened"
    question = take_loosening(bench(), one, TAKING)
    assert isinstance(question, Question)
    assert isinstance(take_loosening(bench(), one, with_answer(question)), WorkTaken)


def test_a_heat_cycle_has_words(bench, enter):
    with pytest.raises(BenchError, match="needs how the engine was heated"):
        take_heat_cycle(bench(), " ", TAKING)
    found = enter(take_heat_cycle(bench(), "30 min at fast idle, cold overnight", TAKING, taken_at="08:30"))
    assert found.body.taken_at == "2031-05-04T08:30:00+00:00"


# Steps.


def test_a_step_is_done_by_who_is_named_or_enters_it(bench):
    assert step_done(bench(), "crank_in", TAKING).body.done_by == BUILDER
    assert step_done(bench(), "crank_in", replace(TAKING, person=None)).body.done_by == BUILDER
    with pytest.raises(BenchError, match='No step "crank"; name one of: crank_in'):
        step_done(bench(), "crank", TAKING)


def test_only_a_hold_point_is_released_and_only_by_a_name(bench):
    found = step_released(bench(), "bottom_end", TAKING, released_by="Builder", later=True)
    assert (found.body.released_by, found.body.later, found.entries[0].person) == (BUILDER, True, BUILDER)
    with pytest.raises(BenchError, match="Lay the crank in is no hold point"):
        step_released(bench(), "crank_in", TAKING)
    with pytest.raises(BenchError, match='Nobody is called "x"'):
        step_released(bench(), "bottom_end", TAKING, released_by="x")


def test_a_witness_is_whom_the_sheet_names_unless_somebody_else_is(bench, enter):
    assert enter(witness_invited(bench(), "fill", TAKING)).body.invited == "the customer"
    found = witness_invited(bench(), "fill", TAKING, invited="the owner", answer="did not come")
    assert found.words == "Fill with oil: the owner did not come"
    with pytest.raises(BenchError, match="is no witness point"):
        witness_invited(bench(), "bottom_end", TAKING)
    with pytest.raises(BenchError, match='No answer of a witness "came"'):
        witness_invited(bench(), "fill", TAKING, answer="came")


# Consumables.


def test_a_consumable_is_used_with_its_batch_and_times(bench, enter):
    used = ConsumableTyped(
        consumable="sealant",
        step="cover_on",
        batch="A7",
        expires="2031-06",
        mixed_at="8:50",
        applied_at="08:55",
    )
    found = enter(take_consumable(bench(), used, TAKING))
    assert (found.body.expires, found.body.mixed_at) == ("2031-06-30", "2031-05-04T08:50:00+00:00")
    assert found.cautions == ()
    assert (
        "No batch was said"
        in take_consumable(bench(), ConsumableTyped(consumable="sealant"), TAKING).cautions[0]
    )


@pytest.mark.parametrize(
    "said_of_it, begins",
    [
        ({"batch": "A7", "expires": "2031-04"}, "expired:A7:2031-04-30"),
        ({"batch": "A7", "mixed_at": "08:30", "applied_at": "08:45"}, "pot-life:"),
        ({"batch": "A7", "mixed_at": "08:30"}, "pot-life:"),
    ],
)
def test_what_is_past_its_time_is_asked_about(bench, said_of_it, begins):
    used = ConsumableTyped(consumable="sealant", **said_of_it)
    question = take_consumable(bench(), used, TAKING)
    assert isinstance(question, Question)
    assert question.key.startswith(begins)
    assert isinstance(take_consumable(bench(), used, with_answer(question)), WorkTaken)


@pytest.mark.parametrize(
    "said_of_it, words",
    [
        ({"mixed_at": "09:30"}, "lies ahead"),
        ({"mixed_at": "after lunch"}, "is no time"),
        ({"expires": "soon"}, "is no date"),
        ({"mixed_at": "08:50", "applied_at": "08:40"}, "was put on before it was mixed"),
        ({"step": "nothing"}, 'No step "nothing"'),
        ({"consumable": "glue"}, 'No consumable "glue"; name one of: paste, sealant'),
    ],
)
def test_times_that_cannot_be_are_refused(bench, said_of_it, words):
    with pytest.raises(BenchError, match=words):
        take_consumable(bench(), ConsumableTyped(**({"consumable": "sealant"} | said_of_it)), TAKING)


def test_a_time_of_day_is_that_of_the_shop_s_zone(assembly):
    assembly.says(kinds.ShopSetting(name="time zone", value="Europe/London"), build=None)
    shop = assembly.wired.state
    assert moment_typed("09:59", shop, START) == "2031-05-04T09:59:00+01:00"
    assert moment_typed("2031-05-04T08:59Z", shop, START) == "2031-05-04T08:59:00+00:00"
    assert moment_typed("10:04", shop, START) is not None, "clocks differ by minutes"
    with pytest.raises(BenchError, match="lies ahead"):
        moment_typed("10:06", shop, START)
    assert last_day("02/2032") == "2032-02-29"


# Permissions.


def grant(bench, taking=TAKING, **more):
    typed = PermissionTyped(**({"subject": "clearance", "because": "short run"} | more))
    return grant_concession(bench, typed, taking, consequence=["0.005 mm above the limit"])


def test_a_concession_names_what_it_accepts_and_for_which_parts(bench, enter):
    found = enter(grant(bench(), highest="0.066", until="the first strip-down"))
    body = found.body
    assert (body.code, body.granted_by, body.highest.si) == ("C-1", BUILDER, pytest.approx(66e-6))
    assert body.parts == {"block": "block", "shell": "shell", "crank": "crank"}
    assert body.consequence == ("0.005 mm above the limit",)
    assert found.words == (
        "concession C-1: Running clearance accepted to 0.066 mm; by builder, because short run; "
        "until the first strip-down"
    )


def test_codes_go_on_from_withdrawn_ones(assembly, bench, enter):
    first = enter(grant(bench(), highest="0.066"))
    assembly.wired.write([withdrawal(bench(), first.entries[0].id, reason="undo")])
    assert enter(grant(bench(), highest="0.066")).body.code == "C-2"
    permit = grant_permit(bench(), PermissionTyped(subject="deck", highest="200.1", because="b"), TAKING)
    assert enter(permit).body.code == "P-1"


def test_an_inch_shop_types_thou(bench):
    found = grant(bench(), replace(TAKING, family="inch"), highest="2.6")
    assert (found.body.highest.unit, found.body.highest.si) == ("thou", pytest.approx(66.04e-6))


@pytest.mark.parametrize(
    "text, si", [("47 N m", 47.0), ("47", 47.0), ("35 lbf ft", 47.45), ("20 deg", 0.349)]
)
def test_a_fastener_may_be_accepted_by_any_of_its_amounts(bench, text, si):
    found = grant(bench(), subject="caps/c2", lowest=text)
    assert found.body.subject == "caps/c2"
    assert found.body.lowest.si == pytest.approx(si, rel=1e-3)


def test_a_concession_without_a_range_is_asked_about(bench):
    question = grant(bench())
    assert isinstance(question, Question)
    assert "would cover whatever value" in question.text
    assert isinstance(grant(bench(), with_answer(question)), WorkTaken)


@pytest.mark.parametrize(
    "more, words",
    [
        ({"subject": "nothing"}, 'No fit, dimension or GROUP/FASTENER "nothing"'),
        ({"subject": "caps/c9", "lowest": "4"}, 'No fastener of Main caps "c9"'),
        ({"because": " "}, "A concession needs the reason"),
        ({"lowest": "0.07", "highest": "0.06"}, "exchange the two"),
        ({"subject": "caps/c1", "lowest": "3 bar"}, "is a pressure"),
        ({"granted_by": "x", "highest": "1"}, 'Nobody is called "x"'),
    ],
)
def test_what_cannot_be_granted_is_said_in_one_sentence(bench, more, words):
    with pytest.raises(BenchError, match=words):
        grant(bench(), **more)


def test_a_permission_is_for_the_bolt_that_sits_there(assembly, bench):
    assembly.says(
        kinds.Tightening(
            group="caps",
            fasteners=("c1",),
            number=1,
            torque=kinds.Typed(typed="25", unit="N m", decimals=0, si=25.0),
            members={"c1": "bolt-7"},
        )
    )
    assert dict(accepted_of(bench(), "caps/c1", "mm").parts) == {"c1": "bolt-7"}
    assert accepted_of(bench(), "rods/1a", "inch").unit == "thou"


# Rework orders.


def test_a_rework_order_lists_what_its_dimensions_feed(assembly, bench, enter):
    typed = OrderTyped(part="crank", dimensions=("journal",), words="polish", target="55.440")
    found = enter(order_rework(bench(), typed, TAKING))
    assert (found.body.code, found.body.feeds) == ("R-1", ("clearance",))
    assert found.body.target.si == pytest.approx(0.05544)
    assert found.words == "rework order R-1: rework of crank (Journal, to 55.440 mm): polish"
    done = enter(rework_done(bench(), "R-1", TAKING))
    assert (done.body.code, done.body.part, done.body.dimensions) == ("R-1", "crank", ("journal",))
    enter(rework_checked(bench(), "R-1", "clearance", "holds", TAKING))
    (standing,) = assembly.wired.assembly(BUILD).reworks
    assert standing.carried_out is not None
    assert [(each.item, each.answer) for each in standing.items] == [("clearance", "holds")]


@pytest.mark.parametrize(
    "typed, words",
    [
        (OrderTyped(part="nothing", dimensions=("journal",), words="w"), 'No part "nothing"'),
        (OrderTyped(part="crank", words="w"), "needs the dimensions that change"),
        (OrderTyped(part="crank", dimensions=("journal",)), "needs what is to be done"),
        (
            OrderTyped(part="crank", dimensions=("jornal",), words="w"),
            'No dimension "jornal"; name one of: jour',
        ),
        (
            OrderTyped(part="crank", dimensions=("journal", "gap"), words="w", target="55 mm"),
            "belongs to one dimension",
        ),
    ],
)
def test_what_cannot_be_ordered_is_said_in_one_sentence(bench, typed, words):
    with pytest.raises(BenchError, match=words):
        order_rework(bench(), typed, TAKING)


def test_only_what_an_order_feeds_is_checked_off(bench, enter):
    with pytest.raises(BenchError, match='No rework order "R-1"'):
        rework_checked(bench(), "R-1", "clearance", "holds", TAKING)
    enter(order_rework(bench(), OrderTyped(part="crank", dimensions=("journal",), words="w"), TAKING))
    with pytest.raises(BenchError, match='"deck"; name one of: clearance'):
        rework_checked(bench(), "R-1", "deck", "holds", TAKING)
    with pytest.raises(BenchError, match='No answer "fine"'):
        rework_checked(bench(), "R-1", "clearance", "fine", TAKING)


# Signatures, and words for all of it.


def test_a_signature_speaks_for_the_record_up_to_an_entry(assembly, bench, enter):
    head = assembly.wired.record.head()
    found = enter(sign(bench(), "dossier", "checked", TAKING, head=head))
    assert (found.body.seq, found.body.hash, found.body.signed_by) == (head.seq, head.hash, BUILDER)
    for subject, meaning, words in (("cover", "checked", "thing to sign"), ("dossier", "seen", "meaning")):
        with pytest.raises(BenchError, match=f'No {words}.* "{subject if words[0] == "t" else meaning}"'):
            sign(bench(), subject, meaning, TAKING, head=head)


def test_work_is_told_by_titles_with_a_bench_and_by_ids_without(bench):
    body = kinds.StepReleased(step="bottom_end", released_by=BUILDER, later=True)
    assert said(body, bench()) == "Release the bottom end released by builder, who looked again later"
    assert told(body, None) == "bottom_end released by builder, who looked again later"
    used = kinds.ConsumableUsed(consumable="sealant", step="cover_on", batch="A7")
    assert told(used, bench()) == "Sealant used in Close the cover; batch A7"


def test_an_answer_kept_with_its_entry_is_not_asked_for_again(bench, enter):
    used = ConsumableTyped(consumable="sealant", batch="A7", expires="2031-04")
    question = take_consumable(bench(), used, TAKING)
    enter(take_consumable(bench(), used, with_answer(question)))
    assert isinstance(take_consumable(bench(), used, TAKING), WorkTaken)
    later = replace(TAKING, now=START + timedelta(days=40))
    assert isinstance(take_consumable(bench(), replace(used, batch="A8"), later), Question)
