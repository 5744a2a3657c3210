"""Predictions worked out beside the pages: nobody waits, what waits too long is left, faults are told."""

import threading

import pytest

from fitwright.assess.oil.points import OilPoint
from fitwright.assess.oil.what_if import WhatIf
from fitwright.web import oil_work
from fitwright.web.oil_work import OilAsked, OilWork


class Desk:
    """Answers with what it was asked; bands only when they are let."""

    def __init__(self, *, let=True):
        self.asked, self.let = [], threading.Event()
        if let:
            self.let.set()

    def best(self, what_if=None, also=()):
        self.asked.append(("best", what_if, also))
        return "best"

    def glance(self, what_if=None, also=(), *, row=0):
        self.asked.append(("glance", what_if, also))
        return f"glance at {row}"

    def banded(self, what_if=None, also=()):
        self.let.wait(30)
        self.asked.append(("banded", what_if, also))
        return "banded"


POINT = OilPoint("here", 100.0, 350.0)


def shim(number):
    return OilAsked(WhatIf(shim=1e-6 * number), banded=True)


def test_an_answer_is_worked_out_once_for_each_question():
    desk, work = Desk(), OilWork()
    asked = OilAsked(WhatIf(fuel_share=0.02), (POINT,))
    assert [work.answer(desk, asked, wait=10) for _ in range(3)] == ["best"] * 3
    assert desk.asked == [("best", WhatIf(fuel_share=0.02), (POINT,))]


def test_a_glance_is_another_answer_than_the_whole_best_estimate():
    desk, work = Desk(), OilWork()
    assert work.answer(desk, OilAsked(glance_at=0), wait=10) == "glance at 0"
    assert work.answer(desk, OilAsked(glance_at=3), wait=10) == "glance at 3"
    assert work.answer(desk, OilAsked(), wait=10) == "best"


def test_another_desk_is_asked_anew():
    one, other, work = Desk(), Desk(), OilWork()
    for desk in (one, other):
        work.answer(desk, OilAsked(), wait=10)
    assert len(one.asked) == len(other.asked) == 1


def test_nobody_waits_for_a_band_longer_than_told():
    desk, work = Desk(let=False), OilWork()
    asked = OilAsked(banded=True)
    assert work.answer(desk, asked, wait=0.01) is None
    assert work.there(desk, asked) is None
    desk.let.set()
    assert work.answer(desk, asked, wait=10) == "banded"
    assert work.there(desk, asked) == "banded"


def test_best_estimates_do_not_wait_for_bands():
    desk, work = Desk(let=False), OilWork()
    assert work.answer(desk, OilAsked(banded=True), wait=0.0) is None
    assert work.answer(desk, OilAsked(), wait=10) == "best"
    desk.let.set()


def test_nothing_is_begun_by_looking_whether_it_is_there():
    desk, work = Desk(), OilWork()
    assert work.there(desk, OilAsked()) is None
    assert desk.asked == []


def test_of_many_bands_that_wait_the_oldest_are_left_and_asked_for_anew_when_wanted():
    desk, work = Desk(let=False), OilWork()
    count = oil_work.MOST_WAITING + 4
    for number in range(count):
        assert work.answer(desk, shim(number), wait=0.0) is None
    desk.let.set()
    assert work.answer(desk, shim(count - 1), wait=10) == "banded"
    done = [asked for _, asked, _ in desk.asked]
    assert WhatIf(shim=1e-6 * (count - 1)) in done
    assert WhatIf(shim=2e-6) not in done
    assert work.answer(desk, shim(2), wait=10) == "banded"


def test_a_fault_is_told_to_whoever_asked_and_does_not_stay():
    desk, work = Desk(), OilWork()
    desk.best = lambda *_: 1 / 0
    with pytest.raises(ZeroDivisionError):
        work.answer(desk, OilAsked(), wait=10)
    del desk.best
    assert work.answer(desk, OilAsked(), wait=10) == "best"


def test_only_so_many_answers_are_kept(monkeypatch):
    monkeypatch.setattr(oil_work, "MOST", 3)
    desk, work = Desk(), OilWork()
    for number in range(5):
        work.answer(desk, OilAsked(WhatIf(shim=1e-6 * number)), wait=10)
    assert work.there(desk, OilAsked(WhatIf(shim=0.0))) is None
    assert work.there(desk, OilAsked(WhatIf(shim=4e-6))) == "best"


def test_what_was_drawn_of_a_prediction_is_drawn_once():
    work, drawn, found = OilWork(), [], object()
    for key in ("a", "a", "b"):
        work.drawn(found, key, lambda key=key: drawn.append(key))
    assert drawn == ["a", "b"]
    work.drawn(object(), "a", lambda: drawn.append("of another"))
    assert drawn[-1] == "of another"
