"""What a dossier says, as text: never more than the record, nothing of anybody else, all that is open."""

from __future__ import annotations

import json
import re
from collections import Counter

import pytest

from fitwright.assess.words import HOT_NOT_JUDGED
from fitwright.dossier.tree import Table, as_data
from fitwright.records.kinds import (
    LimitAdopted,
    Note,
    PinSet,
    ShopSetting,
    Signature,
    Withdrawal,
)
from tests.support.dossiers import OTHER, OWN, SECRET, as_text, reads

GOOD = ("is good", "is sound", "is safe", "safe to run", "healthy", "is fine", "passed")


def section(document, name):
    return next((each for each in document.sections if each.id == name), None)


def rows_of(document, name):
    return [row for block in section(document, name).blocks if isinstance(block, Table) for row in block.rows]


def spaced(text):
    """Without what keeps a value and its unit in one line."""
    return text.replace("\u00a0", " ")


@pytest.mark.parametrize("depth", ["owner", "complete"])
def test_it_is_json_and_every_row_fits_its_table(shop, depth):
    document = shop.dossier_document(OWN, depth)
    assert json.loads(json.dumps(as_data(document), allow_nan=False)) == as_data(document)
    for each in document.sections:
        for block in each.blocks:
            if isinstance(block, Table):
                assert {len(row) for row in block.rows} <= {1, len(block.columns)}, block.title


def test_nothing_of_another_customer_and_no_pin_is_in_it(own_shop):
    pin = PinSet(person="P", salt="aa" * 16, hardened="bb" * 32, cost=2**14)
    own_shop.record.append([own_shop.entry(pin)])
    made = own_shop.dossier(OWN, "complete")
    for told in (as_text(made.document), made.data):
        assert SECRET not in told
        assert "bb" * 32 not in told
        assert "aa" * 16 not in told
    data = json.loads(made.data)
    assert {each["build"] for each in data["entries"]} == {OWN, None}
    assert OTHER not in {each["build"] for each in data["entries"]}
    assert len(data["digests"]) == own_shop.record.head().seq


@pytest.mark.parametrize("depth", ["owner", "complete"])
def test_it_never_says_that_an_engine_is_good(shop, depth):
    told = as_text(shop.dossier_document(OWN, depth)).lower()
    assert "does not say that the engine is good" in told
    for words in GOOD:
        assert words not in told.replace("does not say that the engine is good", ""), words


def test_the_engines_name_is_not_in_the_title_while_something_critical_is_unmeasured(own_shop):
    document = own_shop.dossier_document(OWN)
    assert "Small" not in document.title
    assert "critical" in document.cover.subtitle
    assert "not measured" in document.cover.subtitle


def test_open_points_stand_first_and_the_title_says_so(shop):
    document = shop.dossier_document(OWN)
    assert document.sections[0].id == "open-points"
    assert "open points" in document.title
    assert f"{len(document.open_points)} open points" in document.cover.standing
    rows = rows_of(document, "open-points")
    assert {point.title for point in document.open_points} <= {row[1] for row in rows}
    assert any(point.settle for point in document.open_points), "what would settle it is said"


def test_a_draft_says_so_on_every_page_and_a_revision_says_its_number(own_shop):
    draft = own_shop.dossier_document(OWN)
    assert draft.draft
    assert "draft" in draft.foot
    assert "Draft" in draft.cover.standing
    first = own_shop.hand_over(OWN, person="P")
    second = own_shop.hand_over(OWN)
    assert (first.revision, second.revision) == (1, 2)
    assert "revision 1" in first.document.foot
    assert "replaces revision 1" in second.document.cover.standing
    assert any("revision 1 handed over" in row[1] for row in rows_of(second.document, "history"))


def test_hot_states_are_told_beside_the_cold_ones_and_called_what_they_are(shop):
    document = shop.dossier_document(OWN, "complete")
    scales = [row for block in section(document, "fits").blocks for row in getattr(block, "rows", ())]
    notes = [note for row in scales if hasattr(row, "notes") for note in row.notes]
    hot = [note for note in notes if "hot idle" in note]
    assert hot
    assert all(note.endswith("estimated, not judged") for note in hot)
    assert HOT_NOT_JUDGED in as_text(document)


def test_a_corrected_reading_stays_visible_with_the_reason(own_shop):
    before = reads(own_shop, OWN, "fitted", None, "55.510")
    because = Withdrawal(entry=before, reason="read from the wrong side")
    own_shop.write([own_shop.entry(because, build=OWN)])
    told = rows_of(own_shop.dossier_document(OWN, "complete"), "readings")
    rows = [row for row in told if "55.510" in row[1]]
    assert len(rows) == 1
    assert "taken back" in rows[0][3]
    assert "read from the wrong side" in rows[0][3]


def test_notes_and_adopted_limits_are_told(own_shop):
    adopted = LimitAdopted(subject="end_float", source="trade", adopted_by="P", reason="as ever")
    own_shop.write([own_shop.entry(adopted, build=OWN), own_shop.entry(Note(text="A mark left."), build=OWN)])
    complete = as_text(own_shop.dossier_document(OWN, "complete"))
    assert "A mark left." in complete
    assert "as ever" in complete
    assert "as ever" in as_text(own_shop.dossier_document(OWN)), (
        "a limit bears on verdicts: the owner reads it"
    )


def test_signatures_say_what_they_mean_and_what_they_speak_for(own_shop):
    head = own_shop.record.head()
    signed = Signature(
        subject="dossier", meaning="checked", signed_by="P", seq=head.seq, hash=head.hash, later=True
    )
    own_shop.record.append([own_shop.entry(signed, build=OWN)])
    told = as_text(own_shop.dossier_document(OWN))
    assert "checked: looked at it" in told
    assert f"up to entry {head.seq} ({head.hash[:12]})" in told
    assert "looked again later" in told


def test_units_are_those_of_the_shop_and_nothing_typed_is_converted(own_shop):
    assert "0.040 to 0.060 mm" in as_text(own_shop.dossier_document(OWN))
    own_shop.write([own_shop.entry(ShopSetting(name="units", value="inch"))])
    told = as_text(own_shop.dossier_document(OWN, "complete"))
    assert "thou" in told
    assert "0.040 to 0.060 mm" not in told
    assert "55.450 mm" in spaced(told), "a reading stays as it was typed"
    assert "0.040 to 0.060 mm" in as_text(own_shop.dossier_document(OWN, units="mm"))


def test_the_complete_one_holds_every_reading_the_owners_none(shop):
    assert section(shop.dossier_document(OWN), "readings") is None
    known = shop.bench(OWN).build.readings.values()
    rows = rows_of(shop.dossier_document(OWN, "complete"), "readings")
    told = Counter(number for row in rows for number in re.findall(r"\((\d+)\)", row[1]))
    assert told == Counter(str(each.entry.seq) for each in known)


def test_readings_of_one_size_taken_alike_stand_together(own_shop):
    first, last = (reads(own_shop, OWN, "fitted", None, text) for text in ("55.446", "55.447"))
    rows = rows_of(own_shop.dossier_document(OWN, "complete"), "readings")
    seqs = {each.entry.id: each.entry.seq for each in own_shop.bench(OWN).build.readings.values()}
    together = [row[1] for row in rows if f"({seqs[first]})" in row[1]]
    assert len(together) == 1
    assert f"55.446 mm ({seqs[first]}), 55.447 mm ({seqs[last]})" in spaced(together[0])


def test_verdicts_are_those_of_the_pages(shop):
    """The dossier plays its own entries again; it comes to what the whole record comes to."""
    from fitwright.wiring.dossiers import material_of

    known = material_of(shop, OWN).known
    assert known.assessment.verdicts == shop.assessment(OWN).verdicts
    assert known.assessment.not_recorded == shop.assessment(OWN).not_recorded
