"""Parts entered, fitted, swapped and reworked; what that un-proves, said before it is written."""

import pytest

from fitwright.assess.changed import changed_since
from fitwright.assess.consequences import consequences_of
from fitwright.assess.results import Reason, Verdict
from fitwright.bench import decisions, parts, photos, statements
from fitwright.bench.adopting import limit_adopted
from fitwright.bench.entry_words import entry_words, said
from fitwright.bench.errors import BenchError, NoPhotoError, UnknownNameError
from fitwright.bench.taking import Taking, take_value
from fitwright.bench.together import first_of, ids_from, written_together
from fitwright.records import kinds
from fitwright.units import QuantityError

FIRST = "a" * 32


@pytest.fixture
def read(shop):
    """The trial build with the pump's two gaps read."""
    for dimension, text in (("pump.shaft_gap", "0.056"), ("pump.width", "5.601")):
        gauge = "D1" if text == "0.056" else "M1"
        taken = take_value(shop.bench("trial"), dimension, None, text, Taking(instrument=gauge))
        shop.write(taken.entries)
    return shop


def entries(shop, *bodies):
    return [
        shop.entry(body, build="trial", person="builder", entry_id=entry_id)
        for entry_id, body in zip(ids_from(FIRST), bodies, strict=False)
    ]


def supposed(shop, *bodies):
    return consequences_of(shop.assessor("trial"), entries(shop, *bodies))


def test_a_taking_out_is_supposed_first_and_then_as_it_said(read):
    body = parts.taking_out_of(read.bench("trial"), "pump")
    before = read.bench("trial").build.seq
    found = supposed(read, body)
    lost = {each.after.id: each for each in found.fits if each.unproves}
    assert lost["pump.shaft_clearance"].after.reason is Reason.CHANGED_SINCE
    assert "taken out since" in lost["pump.shaft_clearance"].why[0]
    assert read.bench("trial").build.seq == before  # nothing was written
    assert read.verdicts("trial", ["pump.shaft_clearance"])[0].reason is None
    read.write(entries(read, body))
    written = {each.id: each for each in read.verdicts("trial", lost)}
    assert {name: each.verdict for name, each in written.items()} == {
        name: each.after.verdict for name, each in lost.items()
    }


def test_what_changed_since_is_listed_until_it_is_chosen_again(read):
    read.write(entries(read, parts.taking_out_of(read.bench("trial"), "pump")))
    assert changed_since(read.assessor("trial").judge)[0].by_choice == ()
    read.write([read.entry(parts.fitting_of(read.bench("trial"), "pump", "pump"), build="trial")])
    changed = changed_since(read.assessor("trial").judge)
    assert [each.dimension.id for each in changed] == ["pump.shaft_gap"]
    assert changed[0].by_choice == changed[0].readings
    assert changed[0].subjects == ("pump.shaft_clearance",)
    again = decisions.choice_of("use again", changed[0].by_choice, reason="same parts, same torque")
    found = supposed(read, again)
    assert (found.gained, found.lost) == (1, 0)
    read.write([read.entry(again, build="trial")])
    assert changed_since(read.assessor("trial").judge) == ()


def test_a_part_entered_under_its_position_s_name_un_proves_nothing(read):
    bench = read.bench("trial")
    body = parts.part_of(bench, position="pump", serial="17", origin="owner's")
    assert (body.code, body.title) == ("pump", bench.sheet.parts["pump"].title)
    assert supposed(read, body).lost == 0
    other = parts.part_of(bench, code="pump-2", position="pump")
    assert supposed(read, other).lost > 0


def test_a_swap_is_two_fittings_in_one_write(read):
    bench = read.bench("trial")
    bodies = parts.swapped(bench, "shim.1", "shim.2")
    read.write(entries(read, *bodies))
    build = read.bench("trial").build
    assert (build.occupant("shim.1"), build.occupant("shim.2")) == ("shim.2", "shim.1")
    together = written_together(build.ledger, FIRST)
    assert [entry.kind for entry in together] == ["fitting", "fitting"]
    assert [first_of(build.ledger, entry.id) for entry in together] == [FIRST, FIRST]
    back = [decisions.withdrawal_of(entry.id, "slip") for entry in together]
    read.write([read.entry(body, build="trial") for body in back])
    build = read.bench("trial").build
    assert (build.occupant("shim.1"), build.occupant("shim.2")) == ("shim.1", "shim.2")


def test_a_swap_with_an_empty_position_moves_the_part(read):
    read.write([read.entry(parts.taking_out_of(read.bench("trial"), "shim.1"), build="trial")])
    (body,) = parts.swapped(read.bench("trial"), "shim.1", "shim.2")
    read.write([read.entry(body, build="trial")])
    build = read.bench("trial").build
    assert (build.occupant("shim.1"), build.occupant("shim.2")) == ("shim.2", None)
    assert parts.spare_parts(read.bench("trial")) == ()


def test_what_is_fitted_with_words_replaces_what_sat_there(read):
    read.write([read.entry(parts.part_of(None, code="pump-2", title="Second pump"), build="trial")])
    bench = read.bench("trial")
    assert parts.spare_parts(bench) == ("pump-2",)
    change, fitting = parts.fitted(bench, "pump-2", "pump", words="worn out")
    assert (change.part, change.change, change.code) == ("pump", "replacement", "R1")
    assert change.dimensions == ("pump.shaft_gap", "pump.cover_gap", "pump.drive_gap")  # not its width
    assert (fitting.part, fitting.position) == ("pump-2", "pump")


def test_a_rework_retires_what_it_names_and_is_numbered(read):
    bench = read.bench("trial")
    body = parts.change_of(bench, "pump", "Face lapped", ["pump.width"])
    assert (body.code, body.change) == ("R1", "rework")
    assert supposed(read, body).lost == 1
    read.write([read.entry(body, build="trial")])
    assert parts.new_change_code(read.bench("trial")) == "R2"


def test_a_change_of_a_feature_reaches_what_is_taken_through_it(read):
    bench = read.bench("trial")
    assert {each.id for each in parts.dimensions_of(bench, "pump")} >= {"pump.width", "pump.shaft_gap"}
    assert parts.touched_with(bench, "pump", ["pump.width"]) >= {"pump.width"}


def test_an_adopted_limit_is_a_consequence_too(read):
    body = limit_adopted(
        read.bench("trial"),
        "pump.shaft_clearance",
        "manual",
        by="builder",
        reason="tight",
        upper="0.01",
        unit="mm",
    )
    found = supposed(read, body)
    (fit,) = (each for each in found.fits if each.after.id == "pump.shaft_clearance")
    assert fit.after.verdict is Verdict.OUTSIDE
    assert (fit.lost, fit.gained) == (0, 0)


def test_statements(read):
    bench = read.bench("trial")
    stated = statements.stated_size(bench, "pump.width", "9.9", by="drawing", tolerance="0.1", unit="mm")
    assert (stated.size.si, stated.members) == (pytest.approx(0.0099), {"pump": "pump"})
    assert statements.not_in_this_job(bench, "pump", "sealed").reason == "sealed"
    assert statements.not_measured_of(bench, "pump.width", "no gauge").because == "no gauge"


@pytest.mark.parametrize(
    "wrong, says",
    [
        (lambda b: parts.swapped(b, "pump", "pump"), "name two positions"),
        (lambda b: parts.swapped(b, "pump", "pmp"), 'No position "pmp"; name one of: pump'),
        (lambda b: parts.fitted(b, "pump", "pump"), "sits in pump already"),
        (lambda b: parts.fitted(b, "nothing", "pump"), 'No part "nothing"'),
        (parts.part_of, "needs its code"),
        (lambda b: parts.part_of(b, code="x"), "needs its title"),
        (lambda b: parts.change_of(b, "pump", " ", []), "needs what was done"),
        (lambda b: parts.change_of(b, "pump", "lapped", ["pump.with"]), 'No dimension "pump.with"'),
        (lambda b: statements.stated_size(b, "pump.width", "9.9 mm", by=""), "needs who states it"),
        (lambda b: statements.stated_size(b, "pump.width", "9.9 mm", by="x", place="rear"), "No place of"),
        (lambda b: statements.eye_check(b, "turns", answer=True), 'No eye check "turns"'),
        (lambda b: statements.not_measured_of(b, "pump.width", ""), "needs its because"),
        (lambda b: statements.not_measured_of(b, "pump.wdth", "x"), "name one of: pump.width"),
        (lambda b: statements.not_in_this_job(b, "pmp"), 'begins with "pmp"'),
        (lambda b: statements.note_of(" "), "needs its text"),
        (lambda b: decisions.choice_of("use again", [], reason="x"), "needs the entries"),
        (lambda b: decisions.choice_of("use again", ["x"], reason=" "), "needs its reason"),
        (lambda b: decisions.choice_of("use instead", ["x"], reason="y"), "instead of"),
        (lambda b: photos.about(b, "pmp"), 'No station, fit, part, sitting or step "pmp"; name one of: pump'),
    ],
)
def test_what_cannot_be_is_said_in_one_sentence(read, wrong, says):
    with pytest.raises(BenchError) as told:
        wrong(read.bench("trial"))
    assert says in str(told.value)


def test_a_size_without_a_unit_is_asked_for_one(read):
    with pytest.raises(QuantityError, match="without a unit"):
        statements.stated_size(read.bench("trial"), "pump.width", "9.9", by="drawing")


def test_a_part_that_is_out_cannot_be_taken_out(read):
    read.write([read.entry(parts.taking_out_of(read.bench("trial"), "pump"), build="trial")])
    with pytest.raises(BenchError, match="Nothing sits in pump"):
        parts.taking_out_of(read.bench("trial"), "pump")
    with pytest.raises(BenchError, match="cannot be read now"):
        statements.stated_size(read.bench("trial"), "pump.width", "9.9 mm", by="drawing")


def test_pictures_are_known_by_their_first_bytes(read):
    assert photos.media_type_of(b"\xff\xd8\xff\xe0") == "image/jpeg"
    assert photos.media_type_of(b"\x89PNG\r\n\x1a\n...") == "image/png"
    assert photos.media_type_of(b"RIFF\n\0\0\0WEBPVP8 ") == "image/webp"
    with pytest.raises(NoPhotoError, match=r"shells\.jpg is no photo"):
        photos.media_type_of(b"<svg onload=...>", "shells.jpg")
    bench = read.bench("trial")
    assert photos.about(bench, "notebook page 12") == "notebook page 12"
    assert photos.about(bench, "S1") == "S1"
    assert photos.about(bench, "") is None


def test_an_entry_written_alone_is_its_own_first(read):
    ledger = read.bench("trial").build.ledger
    alone = next(reversed(ledger.recorded))
    assert first_of(ledger, alone) == alone
    assert first_of(ledger, "f" * 32) == "f" * 32
    with pytest.raises(UnknownNameError):
        parts.check_part(read.bench("trial"), "nothing")


def test_entries_are_told_in_words(read):
    bench = read.bench("trial")
    bodies = [
        parts.part_of(bench, code="pump-2", title="Second pump", serial="17", origin="spare", used=True),
        parts.part_of(bench, position="shim.1"),
        *parts.swapped(bench, "shim.1", "shim.2"),
        parts.taking_out_of(bench, "pump"),
        parts.change_of(bench, "pump", "Face lapped", ["pump.width"]),
        statements.stated_size(bench, "pump.width", "9.9 mm", by="drawing", tolerance="0.1 mm"),
        limit_adopted(bench, "pump.end_clearance", "manual", by="builder", reason="as good", upper="1 thou"),
        statements.not_measured_of(bench, "pump.width", "no gauge"),
        statements.not_in_this_job(bench, "pump", "sealed"),
        decisions.choice_of("use again", ["x"], reason="same parts", dimension="pump.width"),
        statements.note_of("long " * 20, "pump"),
        photos.photo_of("0" * 64, "image/png", caption="the pump", subject="S1"),
        decisions.withdrawal_of("0" * 32),
    ]
    assert [said(body, bench) for body in bodies] == [
        "part pump-2, Second pump on the shelf: serial 17, spare, used",
        "part shim.1, Shim 1",
        "shim.1 put into Shim 2",
        "shim.2 put into Shim 1",
        "pump taken out of Pump",
        "rework R1 of pump: Face lapped",
        "Pump rotor width stated 9.9 mm ± 0.1 mm by drawing",
        "limit of manual adopted for Pump end clearance, to 1 thou: as good",
        "Pump rotor width not measured, because no gauge",
        "Pump not in this job: sealed",
        "use again: 1 reading of Pump rotor width; same parts",
        "note on Pump: long long long long long long long long long long long long…",
        "photo of S1: the pump",
        "taken back: an entry that is not here",
    ]


def test_what_has_no_reason_says_none(read):
    bench = read.bench("trial")
    choice = kinds.Choice(choice="use instead", entries=(FIRST,), dimension="pump.width")
    assert said(choice, bench) == "use instead: 1 reading of Pump rotor width"
    limit = kinds.LimitAdopted(subject="pump.end_clearance", source="manual", adopted_by="builder")
    assert said(limit, bench) == "limit of manual adopted for Pump end clearance"


def test_what_is_taken_back_and_brought_back_is_told_by_its_number(read):
    note = read.write(entries(read, statements.note_of("slip"))).acknowledgements[0]
    withdrawal = read.entry(decisions.withdrawal_of(FIRST, "slip"), build="trial", entry_id="b" * 32)
    read.write([withdrawal])
    read.write([read.entry(decisions.withdrawal_of("b" * 32), build="trial", entry_id="c" * 32)])
    bench = read.bench("trial")
    told = {key: entry_words(bench, bench.build.ledger.recorded[key].entry) for key in ("b" * 32, "c" * 32)}
    assert told["b" * 32] == f"took back entry {note.seq} (note: slip); slip"
    assert told["c" * 32] == f"brought back what entry {note.seq + 1} took back"
