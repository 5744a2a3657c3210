"""Readings of a run: one place off, alike, repeated; and all of it taken back."""

import pytest

from fitwright.bench.alike import alike_in
from fitwright.bench.errors import NoSuchMoveError, NothingToWithdrawError, UnknownNameError
from fitwright.bench.moving import last_moved, moved_by, off_by_one, run_of
from fitwright.bench.order import stops
from fitwright.bench.repeats import repeat_answer, repeat_question
from fitwright.bench.taking import Taking, take_value
from fitwright.bench.withdrawing import Undo, withdrawal
from fitwright.records.kinds import Sitting

SIZES = ["2.400", "2.552", "2.801", "2.648", "3.050", "2.903"]


def read(shop, number, text, sitting="S1"):
    taken = take_value(shop.bench("trial"), f"shim.{number}.thickness", None, text, Taking(sitting=sitting))
    shop.write(taken.entries)
    return taken.reading.id


def second_sitting(shop):
    shop.write([shop.entry(Sitting(code="S2", measured_by="builder"), build="trial")])


def thicknesses(shop):
    """What counts at each shim, newest last."""
    build = shop.bench("trial").build
    return {
        number: [
            record.body.observation.value.typed
            for record in build.readings.values()
            if record.effective and record.dimension == f"shim.{number}.thickness"
        ]
        for number in range(1, 7)
    }


@pytest.fixture
def order(shop):
    return stops(shop.bench("trial").sheet, "shims")


@pytest.fixture
def shifted(shop):
    """All six shims read once; in a second sitting the first was passed over and nobody noticed."""
    for number, size in enumerate(SIZES, start=1):
        read(shop, number, size)
    second_sitting(shop)
    return [read(shop, number, size, "S2") for number, size in enumerate(SIZES[1:], start=1)]


def test_readings_one_place_off_are_asked_about_and_mended_by_one_entry(shop, order, shifted):
    bench = shop.bench("trial")
    run = run_of(bench, order, "S2")
    found = off_by_one(run)
    assert "one place off" in found.text
    entry = moved_by(bench, run, found.move, person="builder")
    before = shop.record.head().seq
    shop.write([entry])
    assert shop.record.head().seq == before + 1
    assert len(entry.body["moves"]) == 5
    assert thicknesses(shop) == {1: [SIZES[0]], **{n: [SIZES[n - 1]] * 2 for n in range(2, 7)}}
    assert off_by_one(run_of(shop.bench("trial"), order, "S2")) is None


def test_one_undo_puts_moved_readings_back(shop, order, shifted):
    bench = shop.bench("trial")
    before = thicknesses(shop)
    entry = last_moved(bench, order, shifted, count=5, way="on")
    shop.write([entry])
    assert thicknesses(shop) != before
    shop.write([withdrawal(shop.bench("trial"), entry.id)])
    assert thicknesses(shop) == before


def test_the_last_readings_move_on_or_back(shop, order, shifted):
    shop.write([last_moved(shop.bench("trial"), order, shifted, count=2, way="on")])
    assert thicknesses(shop)[6] == [SIZES[5]] * 2
    assert thicknesses(shop)[4] == [SIZES[3]]
    shop.write([last_moved(shop.bench("trial"), order, shifted, count=2, way="back")])
    assert thicknesses(shop)[4] == [SIZES[3], SIZES[4]]


@pytest.mark.parametrize("count, way", [(0, "on"), (6, "on"), (5, "back")])
def test_a_move_off_the_end_is_refused(shop, order, shifted, count, way):
    with pytest.raises(NoSuchMoveError):
        last_moved(shop.bench("trial"), order, shifted, count=count, way=way)


def test_readings_in_their_places_raise_no_question(shop, order):
    for number, size in enumerate(SIZES, start=1):
        read(shop, number, size)
    second_sitting(shop)
    for number, size in enumerate(SIZES, start=1):
        read(shop, number, size, "S2")
        assert off_by_one(run_of(shop.bench("trial"), order, "S2")) is None


def test_a_run_alike_to_the_last_digit_is_asked_about(shop):
    taken, asked = [], []
    for number in range(1, 7):
        taken.append(read(shop, number, "2.500"))
        asked.append(alike_in(shop.bench("trial"), taken) is not None)
    assert asked == [False] * 5 + [True], "five in a row are not yet one in a hundred for this gauge"


def test_a_repeat_that_agrees_is_used_without_asking(shop):
    read(shop, 1, "2.500")
    again = read(shop, 1, "2.501")
    assert repeat_question(shop.bench("trial"), again) is None


@pytest.fixture
def differing(shop):
    first, second = read(shop, 1, "2.500"), read(shop, 1, "2.520")
    return first, second, repeat_question(shop.bench("trial"), second)


def test_a_repeat_that_differs_is_asked_about(differing):
    first, _, asked = differing
    assert asked.earlier == (first,)
    assert "2.520 mm does not agree with 2.500 mm" in asked.question.text


@pytest.mark.parametrize(
    "answer, kind, left",
    [
        ("keep both", "choice", ["2.500", "2.520"]),
        ("use instead", "choice", ["2.500", "2.520"]),
        ("withdraw", "withdrawal", ["2.500"]),
    ],
)
def test_the_answer_to_a_repeat_is_kept(shop, differing, answer, kind, left):
    _, second, asked = differing
    entries = repeat_answer(shop.bench("trial"), asked, answer, person="builder")
    shop.write(entries)
    assert [entry.kind for entry in entries] == [kind, "question answered"]
    assert entries[1].body["answer"] == answer
    assert thicknesses(shop)[1] == left
    if answer == "use instead":
        assert entries[0].body["instead_of"] == [asked.earlier[0]]
        assert repeat_question(shop.bench("trial"), second) is None, "the earlier one is out of use"


def test_an_answer_that_is_none_is_refused(bench, differing):
    with pytest.raises(UnknownNameError):
        repeat_answer(bench, differing[2], "average them")


def test_undo_goes_back_step_by_step(shop):
    undo = Undo()
    for text in ("2.500", "2.600"):
        undo.remember(read(shop, 1, text), text)
    for expected in (["2.500"], []):
        entry, _ = undo.step(shop.bench("trial"))
        shop.write([entry])
        undo.undone()
        assert thicknesses(shop)[1] == expected
    with pytest.raises(NothingToWithdrawError):
        undo.step(shop.bench("trial"))
