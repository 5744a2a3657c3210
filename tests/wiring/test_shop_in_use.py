"""A shop used by several programs and threads: nothing is lost, nothing old is shown as current."""

from __future__ import annotations

import threading

import pytest

from fitwright.assess.results import State, Verdict
from fitwright.bench.starting import BuildExistsError
from fitwright.bench.taking import Taken, Taking, take_value
from fitwright.records.errors import BodyError, UnknownKindError
from fitwright.records.kinds import BuildStarted, CheckBack, Note, Typed, Withdrawal
from fitwright.wiring import UnknownBuildError, open_shop
from tests.support import small_sheet
from tests.support.plain import differences, plain
from tests.support.tampering import tamper

DRIFTED = CheckBack(setting="S-M", drift=Typed(typed="0.02", unit="mm", decimals=2, si=2e-5))


@pytest.fixture
def opened(tmp_path):
    """Opens the shop of this test as one more program would, and closes them all at the end."""
    shops = []

    def opener():
        shops.append(open_shop(tmp_path / "shop"))
        return shops[-1]

    yield opener
    for shop in shops:
        shop.close()


@pytest.fixture
def shop(opened):
    """A shop with its gauges and two builds to the small sheet, each with a proven clearance."""
    shop = opened()
    shop.write([shop.entry(body) for body in small_sheet.shop()])
    for code in ("a", "b"):
        start(shop, code)
        shop.write([shop.entry(small_sheet.sitting(), build=code)])
        take(shop, code, "fitted", None, "55.500")
        for place in ("front", "rear"):
            take(shop, code, "journal", place, "55.450")
    return shop


def start(shop, code, revision="A"):
    sheet = small_sheet.SHEET.replace('revision = "A"', f'revision = "{revision}"')
    return shop.start_build(code, sheet, BuildStarted(code=code, title=code, sheet=""))


GAUGES = {"fitted": ("B", "S-BM"), "journal": ("M", "S-M")}


def take(shop, code, dimension, place, text):
    instrument, setting = GAUGES[dimension]
    taking = Taking(instrument=instrument, setting=setting)
    taken = take_value(shop.bench(code), dimension, place, text, taking)
    assert isinstance(taken, Taken)
    return shop.write(taken.entries)


@pytest.mark.parametrize("filed_under", ["a", None])
def test_what_counts_for_the_shop_is_renewed_in_every_build(shop, filed_under):
    assert shop.assessor("b").verdict("clearance").verdict is Verdict.WITHIN
    back = shop.write([shop.entry(DRIFTED, build=filed_under)])
    assert "clearance" in back.touched
    assert shop.assessor("b").verdict("clearance").verdict is Verdict.UNPROVEN
    undo = Withdrawal(entry=back.acknowledgements[0].id)
    assert "clearance" in shop.write([shop.entry(undo, build=filed_under)]).touched
    assert shop.assessor("b").verdict("clearance").verdict is Verdict.WITHIN


def test_what_cannot_be_taken_up_is_said_each_time_and_hides_nothing(shop, opened, tmp_path):
    """An entry of a later version: the build must not go on being shown as it was before."""
    other = opened()
    written = other.write([other.entry(Note(text="n"), build="a")])
    written_id = written.acknowledgements[0].id
    tamper(tmp_path / "shop", f"UPDATE entries SET kind = 'of a later version' WHERE id = '{written_id}'")
    assert shop.assessment("a").count(Verdict.WITHIN)
    for _ in range(3):
        with pytest.raises(UnknownKindError), shop.held():
            shop.assessment("a")
    with pytest.raises(UnknownKindError):
        shop.assessment("a")
    assert shop.assessment("b").count(Verdict.WITHIN)


def test_what_is_durable_is_acknowledged_although_an_earlier_entry_cannot_be_taken_up(shop, opened, tmp_path):
    other = opened()
    written = other.write([other.entry(Note(text="n"), build="a")])
    written_id = written.acknowledgements[0].id
    tamper(tmp_path / "shop", f"UPDATE entries SET kind = 'of a later version' WHERE id = '{written_id}'")
    mine = shop.write([shop.entry(Note(text="mine"), build="a")])
    assert mine.acknowledgements[0].seq == written.acknowledgements[0].seq + 1
    with pytest.raises(UnknownKindError), shop.held():
        shop.assessment("a")


def test_of_several_programs_that_start_one_build_one_does(shop, opened):
    answers = []

    def try_to(program, revision):
        try:
            start(program, "c", revision)
        except (BuildExistsError, BodyError) as error:
            answers.append(str(error))
        else:
            answers.append("started")

    programs = [shop, opened(), opened()]
    threads = [threading.Thread(target=try_to, args=each) for each in zip(programs, "ABC", strict=True)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert answers.count("started") == 1, answers
    sheets = set()
    for program in programs:
        with program.held():
            sheets.add(program.bench("c").sheet.digest)
    assert len(sheets) == 1
    with pytest.raises(BuildExistsError):
        start(opened(), "c", "D")


def test_a_withdrawn_build_is_not_begun_anew_under_its_old_readings(shop):
    shop.assessment("b")
    started = shop.state.builds["b"].entry.id
    undo = shop.write([shop.entry(Withdrawal(entry=started), build="b")])
    assert list(shop.builds()) == ["a"]
    with pytest.raises(UnknownBuildError):
        shop.assessment("b")
    with pytest.raises(BodyError, match="was started already"):
        start(shop, "b", "B")
    shop.write([shop.entry(Withdrawal(entry=undo.acknowledgements[0].id), build="b")])
    assert shop.assessor("b").verdict("clearance").verdict is Verdict.WITHIN


def test_threads_that_write_and_look_at_once_see_what_a_fresh_program_sees(shop, opened):
    faults = []

    def work(number):
        try:
            for turn in range(4):
                code = "ab"[(number + turn) % 2]
                if number % 3 == 0:
                    shop.write([shop.entry(DRIFTED if turn % 2 else Note(text="n"), build=code)])
                elif number % 3 == 1:
                    take(shop, code, "journal", "front", "55.450")
                with shop.held():
                    assert set(shop.builds()) == {"a", "b"}
                    shop.assessment(code, State.AS_RECEIVED)
                    shop.assessment(code)
        except BaseException as error:  # noqa: BLE001  (whatever it is fails the test)
            faults.append(error)

    threads = [threading.Thread(target=work, args=(number,)) for number in range(20)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert faults == []
    fresh = opened()
    for code in ("a", "b"):
        for state in State:
            found = differences(plain(shop.assessment(code, state)), plain(fresh.assessment(code, state)))
            assert found == []
