"""How a group stands, as its drawing shows it, in the reader's own words and figures."""

import pytest

from fitwright.assess.assembly.results import FastenerState
from fitwright.assess.results import Verdict
from fitwright.drawing.bolt_pattern import bolt_pattern, shown_of
from fitwright.drawing.tightening_figures import TighteningReader
from tests.support.tightened import fastener_of, group_of, pass_of, standing_of

MM, INCH = TighteningReader("mm"), TighteningReader("inch")
BOTH = (pass_of(1, 30.0), pass_of(2, 60.0))


def shown(fastener, *, reader=MM, **how):
    group = group_of(1)
    more = {"next_fastener": how.pop("next_fastener", None)}
    (found,) = shown_of(standing_of(group, [fastener], **more), reader, **how)
    return found


@pytest.mark.parametrize(
    "fastener, verdict, word",
    [
        (fastener_of("bolt 1"), Verdict.NOT_MEASURED, "not yet"),
        (fastener_of("bolt 1", BOTH[:1]), Verdict.NOT_MEASURED, "pass 1 of 2"),
        (fastener_of("bolt 1", BOTH), Verdict.WITHIN, "complete"),
        (fastener_of("bolt 1", BOTH, FastenerState.OUTSIDE), Verdict.OUTSIDE, "outside"),
        (fastener_of("bolt 1", BOTH, under="C1"), Verdict.OUTSIDE, "under concession"),
        (fastener_of("bolt 1", BOTH, odd="little stretch"), Verdict.UNPROVEN, "odd one out"),
        (fastener_of("bolt 1", (), FastenerState.LOOSENED), Verdict.NOT_MEASURED, "loosened"),
        (fastener_of("bolt 1", BOTH, FastenerState.TO_TIGHTEN_AGAIN), Verdict.UNPROVEN, "tighten again"),
    ],
)
def test_every_state_has_its_mark_and_word(fastener, verdict, word):
    found = shown(fastener)
    assert (found.verdict, found.word) == (verdict, word)


def test_what_is_outside_is_outside_even_where_it_is_odd_too():
    assert shown(fastener_of("bolt 1", BOTH, FastenerState.OUTSIDE, odd="little stretch")).word == "outside"


def test_the_passes_are_those_that_it_had_and_not_only_how_many():
    assert shown(fastener_of("bolt 1", (pass_of(2, 60.0),))).passes == (False, True)


def test_figures_are_those_of_the_last_pass_in_the_readers_unit():
    fastener = fastener_of("bolt 1", BOTH)
    assert shown(fastener).figures == ("60 N·m",)
    assert shown(fastener, reader=INCH).figures == ("44.3 lbf·ft",)
    stretched = fastener_of("bolt 1", (pass_of(1, 54.0, stretch=0.152e-3, angle=1.5707963267948966),))
    assert shown(stretched).figures == ("0.152 mm", "90°", "54 N·m")


def test_who_is_next_is_pointed_at_on_a_page_and_not_in_a_document():
    fastener = fastener_of("bolt 1")
    assert shown(fastener, next_fastener="bolt 1").next
    assert not shown(fastener, next_fastener="bolt 1", is_next=False).next
    assert not shown(fastener, next_fastener="bolt 2").next


def test_a_touch_leads_where_the_page_says():
    assert shown(fastener_of("bolt 1"), address=lambda name: f"?at={name}").address == "?at=bolt 1"


def test_a_group_as_it_stands_can_be_drawn():
    group = group_of(4)
    fasteners = [
        fastener_of("bolt 1", BOTH),
        fastener_of("bolt 2", BOTH[:1]),
        *(fastener_of(f"bolt {k}") for k in (3, 4)),
    ]
    standing = standing_of(group, fasteners, next_fastener="bolt 3")
    picture = bolt_pattern(group, shown_of(standing, MM))
    assert "1: bolt 1, complete, pass 2 of 2, 60 N·m" in picture.svg
    assert "3: bolt 3, not yet, next" in picture.svg
