"""Tightenings, steps, permissions and rework in the document: as they stand, and as they were found."""

from __future__ import annotations

import math

import pytest

from fitwright.dossier.tree import Drawing, Table
from fitwright.records.kinds import Concession, DeviationPermit, Photo, ReworkOrder, State, Typed
from fitwright.wiring import open_shop
from tests.support.assembly_shop import CODE, Workshop
from tests.support.dossiers import as_text, photo


@pytest.fixture(scope="module")
def workshop(tmp_path_factory):
    """A build closed step by step, with one odd rod bolt; then its clearance is read outside."""
    shop = open_shop(tmp_path_factory.mktemp("assembly") / "shop")
    found = Workshop.open(shop)
    found.story.closes()
    found.tell()
    found.hires("checker", "Checker")
    digest = shop.keep_photo(photo(), "image/png")
    found.says(Photo(digest=digest, media_type="image/png", subject="crank_in/arrows", caption="Arrows"))
    order = ReworkOrder(code="W-1", part="block", dimensions=("deck",), words="Deck to 200.00 mm")
    found.says(order)
    state = State(code="W-1", change="rework", part="block", dimensions=("deck",), words="Milled 0.05 mm")
    found.says(state)
    found.read_outside()
    yield found
    shop.close()


@pytest.fixture(scope="module")
def documents(workshop):
    return {depth: workshop.shop.dossier_document(CODE, depth) for depth in ("owner", "complete")}


def section(document, name):
    return next(each for each in document.sections if each.id == name)


def tables(document, name):
    return {block.title: block for block in section(document, name).blocks if isinstance(block, Table)}


def test_every_pass_of_every_fastener_stands_in_the_complete_one(documents):
    found = tables(documents["complete"], "tightenings")["Main caps, fastener by fastener"]
    assert len(found.rows) == 4 * 3
    assert {row[2] for row in found.rows} == {"25 N·m", "45 N·m", "52 N·m"}
    assert all("kN (" in row[3] for row in found.rows), "preload with its band"


def test_bolt_patterns_are_drawn_and_said(documents):
    """All in the complete one; the owner's has those of which something is open, odd or accepted."""
    drawn = [
        each for each in section(documents["complete"], "tightenings").blocks if isinstance(each, Drawing)
    ]
    assert any("Main caps" in each.alt for each in drawn)
    assert "the maker's figure, lubricant and method govern" in as_text(documents["owner"])


def test_the_overview_says_how_each_group_stands(documents):
    rows = {row[0]: row for row in tables(documents["owner"], "tightenings")["Tightening groups"].rows}
    caps = next(row for name, row in rows.items() if name.startswith("Main caps"))
    assert "to 52 N·m" in caps[2]
    assert " to " in caps[3]
    assert any("not tightened" in row[4] for row in rows.values())


def test_what_has_changed_since_is_said_with_what_did_it(documents, workshop):
    told = as_text(documents["owner"])
    assert "changed since" in told
    steps = {row[0]: row for row in tables(documents["owner"], "work")["Steps by stage"].rows if len(row) > 1}
    assert steps["Lay the crank in"][2].startswith("changed since")
    assert any(point.kind == "step changed since" for point in documents["owner"].open_points)


def test_releases_say_that_the_only_person_made_them(documents):
    rows = tables(documents["complete"], "work")["Steps by stage"].rows
    released = next(row for row in rows if row[0] == "Release the bottom end")
    assert "by the only person" in released[4]


def test_consumables_one_time_parts_and_eye_checks_are_told(documents):
    found = tables(documents["complete"], "work")
    assert ("Assembly paste", "B-7") in {row[:2] for row in found["Consumables"].rows}
    assert any(row[0] == "Cover gasket" for row in found["One-time-use parts"].rows)
    assert any(row[0] == "Turns by hand?" and row[1] == "yes" for row in found["Eye checks"].rows)


def test_whoever_takes_it_over_is_cautioned(documents):
    for document in documents.values():
        told = {row[0] for row in tables(document, "care")["What can hurt somebody"].rows}
        assert {"Lifting", "Hot oil", "Parts that turn", "First start"} <= told


def test_a_photo_says_of_which_step_it_is(documents):
    assert "Lay the crank in: Arrows of the caps: Arrows" in as_text(documents["complete"])


def test_rework_is_told_with_its_order(documents):
    orders = tables(documents["owner"], "put-right")["Rework orders and what they led to"]
    assert orders.rows[0][0] == "W-1, rework"
    assert "Deck to 200.00 mm" in orders.rows[0][2]
    changes = tables(documents["owner"], "put-right")["Work on parts since they came"]
    assert changes.rows[0][3] == "Milled 0.05 mm"


def test_a_concession_is_told_with_reason_person_and_bounds(tmp_path):
    shop = open_shop(tmp_path / "shop")
    found = Workshop.open(shop)
    found.read_outside()
    accepted = Typed(typed="0.300", unit="mm", decimals=3, si=3e-4)
    found.says(
        Concession(
            code="C-1",
            subject="clearance",
            highest=accepted,
            granted_by="builder",
            because="Shells of the next size are not to be had",
            consequence=("Oil pressure at idle falls by 0.1 bar",),
            until="the first strip-down",
        )
    )
    for depth in ("owner", "complete"):
        document = shop.dossier_document(CODE, depth)
        row = tables(document, "put-right")["Accepted by name, with a reason"].rows[0]
        assert row[0] == "C-1, concession"
        assert row[2] == "up to 0.300 mm"
        assert "next size" in row[3]
        assert "until the first strip-down" in row[5]
    assert "falls by 0.1 bar" in as_text(document), "what was shown then, in the complete one"
    made = shop.dossier(CODE, "complete")
    assert shop.verify_dossier(made.pdf, name="x").sound
    shop.close()


def test_what_is_accepted_of_a_fastener_is_told_as_it_was_typed(tmp_path):
    """A torque is told as one, to the digit that was typed; so is an angle."""
    shop = open_shop(tmp_path / "shop")
    found = Workshop.open(shop)
    ends = {
        "c1": ("7.5", "8.5", "N m", 1.0, "7.5 N·m to 8.5 N·m"),
        "c2": ("80", "90", "°", math.radians(1.0), "80° to 90°"),
    }
    for name, (low, high, unit, scale, _) in ends.items():
        lowest, highest = (
            Typed(typed=text, unit=unit, decimals=len(text.partition(".")[2]), si=float(text) * scale)
            for text in (low, high)
        )
        found.says(
            DeviationPermit(
                code=f"P-{name}",
                subject=f"caps/{name}",
                lowest=lowest,
                highest=highest,
                granted_by="builder",
                because="brace of thin plate",
            )
        )
    rows = tables(shop.dossier_document(CODE, "owner"), "put-right")["Accepted by name, with a reason"].rows
    told = {row[0].partition(",")[0]: row[2].replace(" °", "°") for row in rows}
    assert told == {f"P-{name}": words for name, (*_, words) in ends.items()}
    shop.close()


def test_it_prints_and_verifies_with_all_of_it(workshop):
    for depth, units in (("owner", "mm"), ("complete", "inch")):
        made = workshop.shop.dossier(CODE, depth, units=units)
        found = workshop.shop.verify_dossier(made.pdf, name="x")
        assert found.sound, found.told
