"""PINs as they are kept and tried: hardened, compared whole, with a wait that grows."""

from __future__ import annotations

import hashlib
import itertools

import pytest

from fitwright.bench.errors import BenchError
from fitwright.bench.pin_hash import COST, fits, hardened
from fitwright.bench.pins import FIRST_WAIT, FREE_TRIES, LONGEST_WAIT, WrongTries, needs_pin, pin_set
from fitwright.records import kinds
from fitwright.records.errors import BodyError
from fitwright.records.registry import checked, shown_body
from tests.support.guarded_shop import BUILDER, SECOND
from tests.support.record import new

SALT = bytes(range(16))


@pytest.fixture
def shop(assembly):
    return assembly.wired.state


def test_a_pin_is_hardened_as_rfc_7914_says(shop):
    kept = pin_set(shop, BUILDER, "2468", again="2468", salt=SALT)
    assert kept.cost == 2**15
    by_itself = hashlib.scrypt(b"2468", salt=SALT, n=2**15, r=8, p=1, maxmem=2**26, dklen=32)
    assert kept.hardened == by_itself.hex()
    assert fits("2468", kept)
    assert not fits("2469", kept)
    assert not fits("", kept)


def test_a_record_that_holds_nonsense_fits_nothing():
    odd = kinds.PinSet(person=BUILDER, salt="00" * 16, hardened="0" * 64, cost=COST)
    assert not fits("2468", odd)


@pytest.mark.parametrize("pin", ["", "123", "1" * 13, "12a4", "１２３４", "12 34", "-123"])
def test_a_pin_has_four_to_twelve_digits(shop, pin):
    with pytest.raises(BenchError, match="That is no PIN: type 4 to 12 digits"):
        pin_set(shop, BUILDER, pin, again=pin, salt=SALT)


def test_a_pin_is_typed_twice(shop):
    with pytest.raises(BenchError, match="Both PINs are not the same"):
        pin_set(shop, BUILDER, "2468", again="2469", salt=SALT)
    with pytest.raises(BenchError, match="Nobody is called"):
        pin_set(shop, "x", "2468", again="2468", salt=SALT)


def test_a_pin_is_asked_for_once_there_is_a_second_person_or_one_was_set(assembly):
    assert not needs_pin(assembly.wired.state, BUILDER)
    assembly.says(kinds.Person(code=SECOND, name="Second"), build=None)
    assert needs_pin(assembly.wired.state, BUILDER)


def test_a_lone_builder_who_set_a_pin_is_asked_for_it(assembly):
    assembly.set_pins()
    assert needs_pin(assembly.wired.state, BUILDER)


class Seconds:
    """A clock of seconds that a test moves on."""

    def __init__(self):
        self.now = 100.0

    def __call__(self):
        return self.now


def test_the_wait_after_wrong_pins_doubles_up_to_an_end():
    clock = Seconds()
    tries = WrongTries(clock)
    waits = []
    for _ in range(16):
        waits.append(tries.wrong("a"))
        assert tries.wait("a") == waits[-1]
        clock.now += waits[-1]
        assert tries.wait("a") == 0.0
    assert waits[: FREE_TRIES - 1] == [0.0] * (FREE_TRIES - 1)
    grown = waits[FREE_TRIES - 1 :]
    assert grown[0] == FIRST_WAIT
    assert all(after in (2 * before, LONGEST_WAIT) for before, after in itertools.pairwise(grown))
    assert grown[-1] == LONGEST_WAIT
    assert tries.wait("b") == 0.0, "somebody else's tries make nobody else wait"
    tries.right("a")
    assert tries.wrong("a") == 0.0, "a right one begins anew"


def test_what_is_kept_of_a_pin_is_shown_to_nobody():
    body = {"person": BUILDER, "salt": "00" * 16, "hardened": hardened("2468", bytes(16)), "cost": COST}
    assert set(shown_body(new("PIN set", None, **body))) == {"person", "cost"}
    for field, wrong in (("salt", "00"), ("hardened", "zz"), ("cost", 1024)):
        with pytest.raises(BodyError, match=field):
            checked(new("PIN set", None, **(body | {field: wrong})))
