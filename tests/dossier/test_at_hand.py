"""What a shop has at hand of dossiers made before changes nothing in the next one."""

from __future__ import annotations

import pytest

from fitwright.assess.results import State
from fitwright.dossier.asked import Asked
from fitwright.dossier.known import known_from
from fitwright.dossier.making import Material, make_dossier
from fitwright.records.kinds import Calibration, Note, Withdrawal
from fitwright.records.kinds import State as Change
from fitwright.wiring import open_shop
from fitwright.wiring.dossiers import material_of
from tests.support.assembly_shop import CODE, Workshop

COMPLETE = Asked(CODE, "complete")


@pytest.fixture(scope="module")
def workshop(tmp_path_factory):
    shop = open_shop(tmp_path_factory.mktemp("at-hand") / "shop")
    found = Workshop.open(shop)
    found.story.closes()
    found.tell()
    yield found
    shop.close()


def from_the_entries_alone(shop):
    """The same material with nothing at hand: no verdict, no moment of the past, no form of an entry."""
    held = material_of(shop, CODE)
    known = known_from(CODE, held.known.entries, held.known.sheets)
    assert known.at_hand.past is None
    assert not known.at_hand.reached
    return Material(known, held.head, held.digests, held.sheets, held.photo)


def reads_on(workshop):
    workshop.read_outside()


def takes_back(workshop):
    last = [each for each in workshop.shop.record.entries() if each.kind == "reading"][-1]
    workshop.says(Withdrawal(entry=last.id, reason="read at the wrong place"))


def mills(workshop):
    workshop.says(
        Change(code="W-7", change="rework", part="block", dimensions=("deck",), words="Milled 0.05 mm")
    )


def calibrates(workshop):
    wrench = next(iter(workshop.shop.state.instruments))
    workshop.says(Calibration(code="C-9", instrument=wrench, date="2026-11-30", standard_uncertainty=1e-6))


def notes(workshop):
    workshop.says(Note(text="Looked at."))


@pytest.mark.parametrize("enter", [notes, reads_on, takes_back, mills, calibrates])
def test_a_dossier_is_the_same_with_and_without_what_is_at_hand(workshop, enter):
    shop = workshop.shop
    make_dossier(material_of(shop, CODE), COMPLETE)
    enter(workshop)
    for state in State:
        shop.assessment(CODE, state)  # as pages leave it that were looked at
    with_it, without = (
        make_dossier(each, COMPLETE) for each in (material_of(shop, CODE), from_the_entries_alone(shop))
    )
    assert with_it.data == without.data
    assert with_it.document == without.document
    assert with_it.pdf == without.pdf
