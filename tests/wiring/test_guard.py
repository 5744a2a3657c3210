"""A hold point cannot be passed, and nobody signs for somebody else, whatever way an entry comes."""

from __future__ import annotations

import threading

import pytest

from fitwright.assess.assembly.results import StepState
from fitwright.bench.guarding_errors import (
    CodeOfAnotherError,
    GuardError,
    HoldLeftOutError,
    NoPinYetError,
    NotOfThisRecordError,
    NotTheSignerError,
    PinWaitError,
    PinWantedError,
    StepWaitsError,
    UnknownSignerError,
    WrongPinError,
)
from fitwright.bench.signing import sign
from fitwright.bench.steps import step_done, step_released
from fitwright.records import kinds
from fitwright.records.errors import BodyError, IdReusedError, MeanwhileError
from fitwright.wiring.gate import Gate
from tests.support.guarded_shop import BUILD, BUILDER, PINS, SECOND


def entries(shop):
    return sum(1 for _ in shop.wired.record.entries())


def refused(shop, error, write, words=""):
    """A write refused in one sentence, with nothing stored."""
    before = entries(shop)
    with pytest.raises(error) as caught:
        write()
    assert "\n" not in str(caught.value)
    assert words in str(caught.value)
    assert entries(shop) == before
    return caught.value


def states(shop):
    return {name: each.state for name, each in shop.wired.assembly(BUILD).steps.items()}


# Steps.


def test_a_step_is_not_done_while_it_waits_or_its_work_is_open(lone):
    refused(lone, StepWaitsError, lambda: lone.done("rods_on"), "Lay the crank in is not done")
    refused(lone, StepWaitsError, lambda: lone.done("crank_in"), "Main caps: 0 of 4 complete")
    lone.lays_crank()
    assert states(lone)["crank_in"] is StepState.DONE


def test_a_step_that_the_sheet_does_not_have_is_not_done(lone):
    refused(
        lone, StepWaitsError, lambda: lone.says(kinds.StepDone(step="nothing")), "the sheet has no such step"
    )


def test_nothing_is_done_past_a_hold_point_that_is_not_released(lone):
    lone.comes_to_hold()
    assert states(lone)["bottom_end"] is StepState.HELD
    lone.says(
        kinds.Part(code="gasket-2", title="Gasket", position="gasket"),
        kinds.ConsumableUsed(consumable="sealant", step="cover_on", batch="A"),
    )
    refused(
        lone, StepWaitsError, lambda: lone.done("cover_on"), "Release the bottom end is done and not released"
    )
    lone.releases("bottom_end")
    lone.done("cover_on")
    assert states(lone)["cover_on"] is StepState.DONE


def test_a_hold_point_is_not_released_before_it_is_done_or_while_anything_is_open(lone):
    refused(lone, StepWaitsError, lambda: lone.releases("bottom_end"), "cannot be released")
    lone.comes_to_hold()
    lone.says(kinds.Loosening(group="caps", fasteners=("c1",), because="to look"))
    error = refused(lone, StepWaitsError, lambda: lone.releases("bottom_end"), "Main caps")
    assert error.step == "bottom_end"


def test_entries_of_one_write_are_held_against_what_stands_before_each_of_them(lone):
    lone.reads_clearance()
    lone.tightens("caps")
    needed = [
        kinds.ConsumableUsed(consumable="paste", step="crank_in", batch="B1"),
        kinds.EyeCheck(check="bench.turns", answer=True),
        kinds.Photo(digest="0" * 64, media_type="image/png", subject="crank_in/arrows"),
    ]
    done = kinds.StepDone(step="crank_in")
    refused(lone, StepWaitsError, lambda: lone.says(done, *needed))
    lone.says(*needed, done)
    assert states(lone)["crank_in"] is StepState.DONE


def test_sent_again_an_entry_gets_its_first_answer_although_it_could_not_be_made_now(lone):
    lone.reads_clearance()
    lone.tightens("caps")
    lone.says(
        kinds.ConsumableUsed(consumable="paste", step="crank_in", batch="B1"),
        kinds.EyeCheck(check="bench.turns", answer=True),
        kinds.Photo(digest="0" * 64, media_type="image/png", subject="crank_in/arrows"),
    )
    made = step_done(lone.wired.bench(BUILD), "crank_in", lone.taking()).entries
    first = lone.wired.write(made)
    lone.says(kinds.Loosening(group="caps", fasteners=("c1",), because="to look"))
    assert lone.wired.write(made).acknowledgements == first.acknowledgements
    other = step_done(lone.wired.bench(BUILD), "crank_in", lone.taking(), words="other").entries[0]
    with pytest.raises((IdReusedError, GuardError)):
        lone.wired.write(
            [
                type(other)(
                    **{name: getattr(other, name) for name in type(other).__slots__} | {"id": made[0].id}
                )
            ]
        )


# Changed since, and brought back.


def test_a_later_reading_outside_reopens_the_hold_and_a_fresh_release_closes_it(lone):
    lone.comes_to_hold()
    lone.releases("bottom_end")
    lone.reads("fitted", None, "55.600")
    found = lone.wired.assembly(BUILD).steps
    assert found["crank_in"].state is StepState.CHANGED_SINCE
    assert found["bottom_end"].state is StepState.CHANGED_SINCE
    refused(lone, StepWaitsError, lambda: lone.releases("bottom_end"))
    lone.reads("fitted", None, "55.500")


def test_a_release_taken_back_and_brought_back_takes_what_a_release_takes(two):
    two.comes_to_hold()
    released = two.releases("bottom_end", pins=PINS).acknowledgements[0].id
    undo = two.says(kinds.Withdrawal(entry=released, reason="not yet")).acknowledgements[0].id
    assert states(two)["bottom_end"] is StepState.HELD
    back = kinds.Withdrawal(entry=undo, reason="after all")
    refused(two, PinWantedError, lambda: two.says(back))
    refused(two, NotTheSignerError, lambda: two.says(back, person=SECOND))
    entry = two.wired.entry(back, build=BUILD, person=BUILDER)
    refused(two, WrongPinError, lambda: two.wired.write([entry], pins={BUILDER: PINS[SECOND]}))
    two.says(kinds.Loosening(group="caps", fasteners=("c1",), because="b"))
    refused(two, StepWaitsError, lambda: two.wired.write([entry], pins=PINS), "Main caps")


def test_a_step_brought_back_is_held_to_its_conditions(lone):
    lone.lays_crank()
    done = next(e.id for e in lone.wired.record.entries() if e.kind == "step done")
    undo = lone.says(kinds.Withdrawal(entry=done, reason="undo")).acknowledgements[0].id
    lone.says(kinds.Loosening(group="caps", fasteners=("c1",), because="b"))
    refused(lone, StepWaitsError, lambda: lone.says(kinds.Withdrawal(entry=undo, reason="redo")))


@pytest.mark.parametrize("kind", ["step done", "step released", "signature"])
def test_what_others_rest_on_is_not_corrected(lone, kind):
    lone.comes_to_hold()
    lone.releases("bottom_end")
    head = lone.wired.record.head()
    lone.wired.write(sign(lone.wired.bench(BUILD), "dossier", "checked", lone.taking(), head=head).entries)
    entry = next(each for each in lone.wired.record.entries() if each.kind == kind)
    body = next(noun for noun in vars(kinds).values() if getattr(noun, "kind", None) == kind)
    again = body.model_validate(
        dict(entry.body) | {"supersedes": entry.id, "reason": "mistyped"}, strict=False
    )
    refused(lone, BodyError, lambda: lone.says(again), "withdraw it, and enter it anew")


# Who signs.


def concession(**more):
    fields = {"code": "C-1", "subject": "clearance", "granted_by": BUILDER, "because": "b"}
    return kinds.Concession.model_validate(fields | more)


def test_whoever_signs_enters_it_and_stands_in_the_book(lone):
    refused(lone, NotTheSignerError, lambda: lone.says(concession(), person=None))
    refused(lone, NotTheSignerError, lambda: lone.says(concession(), person="shop"))
    refused(lone, UnknownSignerError, lambda: lone.says(concession(granted_by="x"), person="x"))
    lone.says(concession())


def test_a_lone_builder_releases_his_own_work_without_a_pin(lone):
    lone.comes_to_hold()
    lone.releases("bottom_end")
    step = lone.wired.assembly(BUILD).steps["bottom_end"]
    assert (step.state, step.lone, step.later) == (StepState.RELEASED, True, False)


def test_once_there_are_two_a_signature_takes_its_person_s_pin(tmp_path, lone):
    lone.comes_to_hold()
    lone.says(kinds.Person(code=SECOND, name="Second"), build=None)
    refused(lone, NoPinYetError, lambda: lone.releases("bottom_end"), "set one")
    lone.set_pins()
    refused(lone, PinWantedError, lambda: lone.releases("bottom_end"), "Builder signs with a PIN")
    refused(lone, PinWantedError, lambda: lone.releases("bottom_end", pins={SECOND: PINS[SECOND]}))
    refused(lone, WrongPinError, lambda: lone.releases("bottom_end", pins={BUILDER: PINS[SECOND]}))
    lone.releases("bottom_end", pins=PINS)
    step = lone.wired.assembly(BUILD).steps["bottom_end"]
    assert (step.state, step.lone) == (StepState.RELEASED, False)


def test_one_pin_is_enough_for_all_that_one_person_signs_at_once(two):
    both = [concession(), concession(code="C-2", subject="side")]
    made = [two.wired.entry(each, build=BUILD, person=BUILDER) for each in both]
    two.wired.write(made, pins={BUILDER: PINS[BUILDER]})
    mixed = [
        two.wired.entry(concession(code="C-3", subject="gap"), build=BUILD, person=BUILDER),
        two.wired.entry(
            concession(code="C-4", subject="deck", granted_by=SECOND), build=BUILD, person=SECOND
        ),
    ]
    refused(
        two, PinWantedError, lambda: two.wired.write(mixed, pins={BUILDER: PINS[BUILDER]}), "Second builder"
    )


def test_a_pin_may_be_set_in_the_write_that_it_signs(lone):
    lone.says(kinds.Person(code=SECOND, name="Second"), build=None)
    made = [
        lone.wired.pin_entry(BUILDER, PINS[BUILDER], again=PINS[BUILDER]),
        lone.wired.entry(concession(), build=BUILD, person=BUILDER),
    ]
    refused(lone, WrongPinError, lambda: lone.wired.write(made, pins={BUILDER: "9999"}))
    lone.wired.write(made, pins={BUILDER: PINS[BUILDER]})


def test_after_wrong_pins_even_the_right_one_waits(two):
    waits = []
    for _ in range(4):
        with pytest.raises((WrongPinError, PinWaitError)) as caught:
            two.wired.write(
                [two.wired.entry(concession(), build=BUILD, person=BUILDER)], pins={BUILDER: "0000"}
            )
        waits.append(caught.value.seconds)
    assert waits[:2] == [0.0, 0.0]
    assert waits[2] == 2.0
    error = refused(
        two,
        PinWaitError,
        lambda: two.wired.write([two.wired.entry(concession(), build=BUILD, person=BUILDER)], pins=PINS),
        "wait 2 s",
    )
    assert 0.0 < error.seconds <= 2.0
    other = concession(code="C-2", granted_by=SECOND)
    two.wired.write([two.wired.entry(other, build=BUILD, person=SECOND)], pins=PINS)


def test_a_wrong_pin_is_counted_although_nothing_is_stored_and_threads_cannot_try_side_by_side(two):
    errors = []

    def attempt():
        try:
            two.wired.write(
                [two.wired.entry(concession(), build=BUILD, person=BUILDER)], pins={BUILDER: "0000"}
            )
        except GuardError as error:
            errors.append(type(error))

    threads = [threading.Thread(target=attempt) for _ in range(8)]
    for each in threads:
        each.start()
    for each in threads:
        each.join()
    assert errors.count(WrongPinError) == 3
    assert errors.count(PinWaitError) == 5


def test_a_code_is_not_given_to_another_subject(lone):
    lone.says(concession())
    error = refused(lone, CodeOfAnotherError, lambda: lone.says(concession(subject="deck")))
    assert error.code == "C-1"
    lone.says(concession(because="said better"))


def test_a_signature_speaks_only_for_what_the_record_says(lone):
    head = lone.wired.record.head()
    signed = {"subject": "dossier", "meaning": "checked", "signed_by": BUILDER}
    lone.says(kinds.Signature(**signed, seq=head.seq, hash=head.hash))
    for wrong in ({"seq": head.seq, "hash": "0" * 64}, {"seq": head.seq + 99, "hash": head.hash}):
        refused(lone, NotOfThisRecordError, lambda wrong=wrong: lone.says(kinds.Signature(**signed, **wrong)))
    written = {"revision": 1, "depth": "owner", "paper": "A4", "data_digest": "0" * 64}
    refused(
        lone,
        NotOfThisRecordError,
        lambda: lone.says(kinds.DossierWritten(**written, seq=head.seq, hash="1" * 64)),
    )


# Ways around.


def test_a_hold_point_is_not_left_out_of_the_job_unseen(two, lone):
    out = kinds.NotInThisJob(subject="bottom_end", reason="in a hurry")
    refused(two, HoldLeftOutError, lambda: two.says(out, person=None), "Release the bottom end")
    refused(two, PinWantedError, lambda: two.says(out))
    two.says(kinds.NotInThisJob(subject="head", reason="no head in this job"))
    two.wired.write([two.wired.entry(out, build=BUILD, person=BUILDER)], pins=PINS)
    lone.says(out)


def test_another_build_or_no_build_is_no_way_around(lone):
    lone.comes_to_hold()
    done = step_done(lone.wired.bench(BUILD), "cover_on", lone.taking()).entries[0]
    for build in (None, "elsewhere"):
        moved = type(done)(**{n: getattr(done, n) for n in type(done).__slots__} | {"build": build})
        try:
            lone.wired.write([moved])
        except (GuardError, BodyError):
            continue
    assert states(lone)["cover_on"] is StepState.WAITS_FOR


def test_what_was_written_past_the_guard_reads_as_what_it_is(lone):
    """As an import brings it, or a program without a guard: it is in the record and counts for nothing."""
    lone.comes_to_hold()
    made = step_done(lone.wired.bench(BUILD), "cover_on", lone.taking()).entries
    lone.wired.record.append(made)
    step = lone.wired.assembly(BUILD).steps["cover_on"]
    assert step.state is StepState.CHANGED_SINCE
    assert "was not released yet" in " ".join(step.out_of_order)
    refused(lone, StepWaitsError, lambda: lone.done("fill"))


# Others who write at the same moment.


def test_what_another_program_wrote_since_is_seen_before_a_release(lone):
    lone.comes_to_hold()
    made = step_released(lone.wired.bench(BUILD), "bottom_end", lone.taking()).entries
    other = lone.another()
    other.write([other.entry(kinds.Loosening(group="caps", fasteners=("c1",), because="b"), build=BUILD)])
    refused(lone, StepWaitsError, lambda: lone.wired.write(made), "Main caps")
    other.close()


def test_an_entry_of_another_program_between_check_and_commit_is_held_against_anew(lone, monkeypatch):
    lone.comes_to_hold()
    made = step_released(lone.wired.bench(BUILD), "bottom_end", lone.taking()).entries
    other, append = lone.another(), lone.wired.record.append
    loosened = other.entry(kinds.Loosening(group="caps", fasteners=("c1",), because="b"), build=BUILD)
    tries = []

    def append_after_the_other(entries, **how):
        tries.append(how)
        if len(tries) == 1:
            other.write([loosened])
        return append(entries, **how)

    monkeypatch.setattr(lone.wired.record, "append", append_after_the_other)
    with pytest.raises(StepWaitsError, match="Main caps"):
        lone.wired.write(made)
    assert len(tries) == 1, "the second time it was not even tried"
    with pytest.raises(MeanwhileError):
        append(made, upon=tries[0]["upon"])
    other.close()


def test_no_thread_of_this_program_writes_between_check_and_commit(lone, monkeypatch):
    """A reading that puts the fit outside waits until the release is in, and shows it as changed since."""
    lone.comes_to_hold()
    release = step_released(lone.wired.bench(BUILD), "bottom_end", lone.taking()).entries
    loosened = lone.wired.entry(kinds.Loosening(group="caps", fasteners=("c1",), because="b"), build=BUILD)
    append, order = lone.wired.record.append, []
    threads = []

    def slow_append(entries, **how):
        kind = entries[0].kind
        if kind == "step released":
            threads.append(threading.Thread(target=lambda: lone.wired.write([loosened])))
            threads[0].start()
            threads[0].join(timeout=0.3)
            assert threads[0].is_alive(), "the other thread has to wait at the gate"
        found = append(entries, **how)
        order.append(kind)
        return found

    monkeypatch.setattr(lone.wired.record, "append", slow_append)
    lone.wired.write(release)
    threads[0].join(timeout=10)
    assert order == ["step released", "loosening"]
    assert states(lone)["bottom_end"] is StepState.CHANGED_SINCE


def test_many_threads_that_write_and_release_at_once_all_come_to_an_end(lone):
    lone.comes_to_hold()
    faults = []

    def work(number):
        try:
            for _ in range(5):
                if number % 2:
                    lone.says(kinds.Note(text=f"{number}"))
                else:
                    with lone.wired.held():
                        lone.says(kinds.Note(text="held"))
                    lone.releases("bottom_end")
        except BaseException as error:  # noqa: BLE001  (whatever it is fails the test)
            faults.append(error)

    threads = [threading.Thread(target=work, args=(number,)) for number in range(8)]
    for each in threads:
        each.start()
    for each in threads:
        each.join(timeout=120)
    assert not any(each.is_alive() for each in threads)
    assert faults == []
    assert lone.wired.verify().chain.sound


def test_the_gate_lets_many_in_or_one():
    gate, inside, most, alone_with = Gate(), [], [], []

    def among():
        for _ in range(200):
            with gate.among_others():
                inside.append(1)
                most.append(len(inside))
                inside.pop()

    def alone():
        for _ in range(50):
            with gate.alone():
                alone_with.append(len(inside))

    threads = [threading.Thread(target=among) for _ in range(6)] + [
        threading.Thread(target=alone) for _ in range(2)
    ]
    for each in threads:
        each.start()
    for each in threads:
        each.join(timeout=60)
    assert not any(each.is_alive() for each in threads)
    assert set(alone_with) == {0}
    assert len(alone_with) == 100
