"""The page Put right: what is outside, concessions and permits granted, rework ordered and followed up."""

import re

import pytest

from fitwright.assess.results import Verdict
from fitwright.records import kinds
from fitwright.web.entering import effects
from fitwright.web.pages.put_right import (
    order,
    orders,
    outside,
    permissions,
    printed,
    show,
    unproven,
)
from tests.support.assembly_shop import CODE, TEXT, Workshop
from tests.support.contexts import unread
from tests.web.build_forms import form_on, sends

PAGE = f"/builds/{CODE}/put-right"
FIT, OTHER = "clearance", "deck"
SIGNED = {"person": "builder", "pin_new": "4711", "pin_again": "4711"}
GRANTED = {"lowest": "0.040", "highest": "0.250", "because": "short duty", "until": "the first strip-down"}
ORDERED = {
    "change": "rework",
    "dimension": "journal",
    "words": "Polish the journal",
    "target": "55.450",
    "person": "builder",
}
BEFORE_METAL = "Before metal comes off: read again with a fresh setting, by another route if there is one."


@pytest.fixture
def gone_wrong(opened, tmp_path):
    """A shop of two people with the clearance of its one build outside; its cure would take metal off."""
    text = TEXT.replace("[fits.clearance]", "[fits.clearance]\nremoves_metal = true")
    for name in ("housing", "fitted", "journal"):
        text = text.replace(f"[dimensions.{name}]", f'[dimensions.{name}]\nstation = "bench"')
    workshop = Workshop.open(opened(tmp_path / "gone-wrong"), text)
    workshop.hires("apprentice", "Apprentice")
    workshop.read_outside()
    return workshop.shop


@pytest.fixture
def bench(asking, gone_wrong):
    return asking(gone_wrong)


def last(shop, kind):
    return [each for each in shop.record.entries() if each.kind == kind.kind][-1]


def grant(bench, subject=FIT, **typed):
    return sends(bench, PAGE, "grant", GRANTED | SIGNED | typed, subject=subject)


def ordered(bench, **typed):
    return sends(bench, PAGE, "order", ORDERED | typed, part="crank", subject=FIT)


def standing(shop):
    return shop.assembly(CODE)


def granted(shop):
    """The permission given last, as it stands now; None where it was withdrawn."""
    entry = last(shop, kinds.Concession)
    return next((each for each in standing(shop).concessions if each.code == entry.body["code"]), None)


def order_of(shop):
    """The page of the order given last, and how it stands."""
    code = last(shop, kinds.ReworkOrder).body["code"]
    return f"{PAGE}/orders/{code}", next(each for each in standing(shop).reworks if each.code == code)


def fits_outside(shop):
    return shop.assessment(CODE).count(Verdict.OUTSIDE)


# Looking.


def test_what_is_outside_stands_first_with_what_can_be_done(bench, gone_wrong):
    page = bench.get(PAGE).text
    for words in (BEFORE_METAL, "Nothing is decided about it yet.", "Order a rework"):
        assert words in page
    assert page.index(">Outside: ") < page.index(">Rework orders") < page.index(">Unproven")
    assert "Read it again, by parts" in page
    assert "Read it again, fitted" in page
    assert fits_outside(gone_wrong) == 1
    assert "1 fit outside" in page
    at = page.index("Running clearance")
    assert "Grant a concession" in page[at:]


def test_of_a_build_without_anything_outside_it_claims_no_more_than_was_read(asking, opened, tmp_path):
    workshop = Workshop.open(opened(tmp_path / "within")).laid_in()
    page = asking(workshop.shop).get(PAGE).text
    assert "No recorded fit is outside its limits. That speaks only for what was read." in page


def test_an_empty_build_says_what_to_do(asking, begun_shop):
    page = asking(begun_shop).get("/builds/first/put-right").text
    assert "Nothing is read yet" in page
    assert "None yet. An order says what a machinist is to do" in page
    assert "None yet. A concession accepts" in page


@pytest.mark.parametrize("path", ["", "/orders/R-1", "/orders/R-1/print"])
def test_of_a_build_that_is_not_there_it_is_said(asking, empty_shop, path):
    assert asking(empty_shop).get(f"/builds/nothing/put-right{path}").status_code == 404


@pytest.mark.parametrize("path", ["/orders/no", "/orders/no/print"])
def test_an_order_that_is_not_there_is_said(bench, path):
    answer = bench.get(PAGE + path)
    assert answer.status_code == 404
    assert "No such rework order" in answer.text


@pytest.mark.parametrize("do", ["grant", "permit", "order", "done", "check"])
def test_every_form_opens_with_nothing_known(looking, asking, begun_shop, do):
    for client, code in ((looking, "corrie-five"), (asking(begun_shop), "first")):
        assert client.get(f"/builds/{code}/put-right", params={"do": do}).status_code == 200
        assert client.get(f"/builds/{code}/put-right/{do}/effects").status_code == 200


# Concessions and permits.


def test_a_concession_says_before_it_is_granted_what_it_accepts_and_for_which_parts(bench):
    form, _, _ = form_on(bench, PAGE, do="grant", subject=FIT)
    for words in ("above the upper limit of", "At hot idle", "It holds for", "shell", "not judged"):
        assert words in form
    assert re.search(r'name="lowest" value="0.040"', form)
    assert re.search(r'name="highest" value="0.20\d"', form)


def test_what_was_shown_is_stored_with_the_concession(bench, gone_wrong):
    answer = grant(bench)
    assert answer.status == 200, answer.said
    body = last(gone_wrong, kinds.Concession).body
    shown = bench.get(f"{PAGE}/grant/effects", params=GRANTED | {"subject": FIT, "person": "builder"}).text
    assert body["consequence"]
    for words in body["consequence"]:
        assert words in shown
    assert body["granted_by"] == "builder"
    assert body["lowest"]["typed"] == "0.040"
    assert body["parts"] == {"block": "block", "shell": "shell", "crank": "crank"}


def test_what_is_accepted_stays_outside_and_says_under_which_concession(bench, gone_wrong):
    answer = grant(bench)
    assert "stays outside, and says so" in answer.said
    assert gone_wrong.assessor(CODE).verdict(FIT).verdict == "outside"
    page = bench.get(PAGE).text
    assert "1 of them under concession" in page
    assert f"Under concession {granted(gone_wrong).code}, until the first strip-down" in page
    assert granted(gone_wrong).in_force


def test_another_part_or_a_value_beyond_ends_it_and_the_page_says_why(bench, gone_wrong):
    grant(bench, highest="0.150")
    page = bench.get(PAGE).text
    assert "Not in force: the value now lies above the 0.150 mm that was accepted" in page
    grant(bench, person="builder", pin="4711", pin_new="", pin_again="")
    assert granted(gone_wrong).in_force
    gone_wrong.write(
        [gone_wrong.entry(kinds.Part(code="crank-2", title="Crank", position="crank"), build=CODE)]
    )
    assert "Not in force: another part since, in crank" in bench.get(PAGE).text


def test_withdrawing_needs_no_pin_and_bringing_back_does(bench, gone_wrong):
    grant(bench)
    entry = last(gone_wrong, kinds.Concession)
    answer = sends(bench, PAGE, "back", {"reason": "a mistake", "person": "apprentice"}, entry=entry.id)
    assert answer.status == 200, answer.said
    assert granted(gone_wrong) is None
    again = {"reason": "right after all", "person": "builder"}
    refused = sends(bench, PAGE, "back", again, entry=entry.id)
    assert refused.status == 422
    assert "signs with a PIN" in refused.said
    assert sends(bench, PAGE, "back", again | {"pin": "4711"}, entry=entry.id).status == 200
    assert granted(gone_wrong).in_force


UNCLEAR = (
    ({"because": ""}, "needs the reason"),
    ({"lowest": "0.250", "highest": "0.040"}, "exchange the two"),
    ({"highest": "a lot"}, "a lot"),
    ({"person": ""}, "Nobody is picked"),
    ({"pin_new": "", "pin_again": ""}, "Builder has no PIN yet: set one below"),
    ({"pin_again": "4712"}, "Both PINs are not the same"),
    ({"pin_new": "12", "pin_again": "12"}, "no PIN"),
)


def test_a_refusal_is_one_sentence_and_nothing_typed_is_lost(bench, gone_wrong):
    before = gone_wrong.position
    for typed, wrong in UNCLEAR:
        answer = grant(bench, **typed)
        assert answer.status == 422
        assert wrong in answer.said
        kept = GRANTED | typed
        for name in ("because", "lowest", "highest"):
            assert kept[name] in answer.text
        assert "4711" not in answer.text
    assert gone_wrong.record.head().seq == before


def test_a_wrong_pin_is_refused_and_told_how_long_to_wait(bench, gone_wrong):
    grant(bench)
    tries = [grant(bench, pin="0000", pin_new="", pin_again="") for _ in range(4)]
    assert [each.status for each in tries] == [422] * 4
    assert "That is not the PIN of Builder" in tries[0].said
    assert re.search(r"(try in|wait) \d+ s", tries[-1].said)
    assert all("0000" not in each.text for each in tries)
    assert "4711" not in str([each.body for each in gone_wrong.record.entries()])


def test_a_concession_without_a_range_is_asked_about_once(bench, gone_wrong):
    empty = {"lowest": "", "highest": ""}
    answer = grant(bench, **empty)
    assert answer.status == 200
    assert "A question first. No range was said" in answer.said
    key = re.search(r'name="question" value="([^"]*)"', answer.text)[1]
    kept = grant(bench, **empty, question=key, answer_to_question="keep")
    assert "Kept as entries" in kept.said
    assert last(gone_wrong, kinds.Concession).body["highest"] is None


def test_what_the_sheet_has_no_more_is_shown_as_it_was_typed(bench, gone_wrong):
    """A later revision of the sheet, or a file, leaves permissions about names that it does not have."""
    low = kinds.Typed(typed="40", unit="um", decimals=0, si=40e-6)
    fields = {"granted_by": "builder", "because": "b", "lowest": low}
    told = kinds.DeviationPermit(code="D-7", subject="<b>gone</b>", **fields)
    half = kinds.DeviationPermit(code="D-8", subject="gone/b1", **fields)
    entries = [gone_wrong.entry(each, build=CODE, person="builder") for each in (told, half)]
    gone_wrong.record.append(entries)
    answer = bench.get(PAGE)
    assert answer.status_code == 200
    assert answer.text.count("from 40 um") == 2
    assert "<b>gone" not in answer.text
    assert bench.get(f"{PAGE}?do=permit&subject=gone").status_code in (200, 404)


def test_the_same_form_twice_counts_once(bench, gone_wrong):
    _, hidden, action = form_on(bench, PAGE, do="grant", subject=FIT)
    answers = [bench.post(action, data=hidden | GRANTED | SIGNED) for _ in range(2)]
    assert [each.status_code for each in answers] == [200, 200], answers[-1].text
    assert sum(each.subject == FIT for each in standing(gone_wrong).concessions) == 1


def test_a_permit_is_given_beforehand_for_any_fit_or_fastener(bench, gone_wrong):
    fit = sends(bench, PAGE, "permit", GRANTED | SIGNED, subject="end_float")
    assert fit.status == 200, fit.said
    first, _, _ = form_on(bench, PAGE, do="permit")
    group = next(iter(gone_wrong.bench(CODE).sheet.tightening_groups.values()))
    fastener = f"{group.id}/{group.fasteners[0].id}"
    assert fastener in first
    signed = {"person": "builder", "pin": "4711"}
    typed = {"lowest": "80 N m", "highest": "90 N m", "because": "other lubricant", "until": ""}
    torque = sends(bench, PAGE, "permit", typed | signed, subject=fastener)
    assert torque.status == 200, torque.said
    found = {each.subject: each.kind for each in standing(gone_wrong).concessions}
    assert found["end_float"] == found[fastener] == "deviation permit"
    assert "from 80.0 N·m" in bench.get(PAGE).text
    turned = typed | {"lowest": "80 deg", "highest": "90 deg"}
    angle = sends(bench, PAGE, "permit", turned | signed, subject=fastener)
    assert angle.status == 200, angle.said
    assert "from 80.0° to 90.0°" in bench.get(PAGE).text, "an angle is told as one"


def test_an_inch_reader_grants_in_thou(bench, gone_wrong):
    typed = GRANTED | SIGNED | {"lowest": "1.6", "highest": "10"}
    answer = sends(bench, PAGE, "grant", typed, subject=FIT, units="inch")
    assert answer.status == 200, answer.said
    assert "from 1.6 thou" in answer.said
    assert last(gone_wrong, kinds.Concession).body["highest"]["unit"] == "thou"


# Rework.


def test_an_order_says_before_it_is_kept_what_else_the_sizes_feed(bench):
    shown = bench.get(f"{PAGE}/order/effects", params=ORDERED | {"part": "crank", "sizes": "asked"}).text
    assert "What is reworked feeds" in shown
    assert "Running clearance" in shown


def test_an_order_is_kept_with_what_it_feeds_and_has_a_page_of_its_own(bench, gone_wrong):
    answer = ordered(bench)
    assert answer.status == 200, answer.said
    body = last(gone_wrong, kinds.ReworkOrder).body
    assert FIT in body["feeds"]
    page = bench.get(order_of(gone_wrong)[0]).text
    for words in (
        "Polish the journal",
        "55.450 mm (2.1831 in)",
        "Ordered, not carried out yet",
        BEFORE_METAL,
    ):
        assert words in page
    code = body["code"]
    assert f"{code} Crank: rework" in bench.get(PAGE).text
    assert f"Rework ordered ({code})" in bench.get(PAGE).text


def test_done_retires_the_readings_and_says_so_before(bench, gone_wrong):
    ordered(bench)
    form, _, _ = form_on(bench, order_of(gone_wrong)[0], do="done")
    assert "then no longer used" in form
    answer = sends(bench, order_of(gone_wrong)[0], "done", {"person": "builder"})
    assert answer.status == 200, answer.said
    assert last(gone_wrong, kinds.State).body["dimensions"] == ["journal"]
    assert gone_wrong.assessor(CODE).verdict(FIT).reason == "changed since"
    page = bench.get(order_of(gone_wrong)[0]).text
    assert "55.30" in page
    assert "not read since" in page
    assert "This is done" not in page


def test_what_it_feeds_is_checked_off_and_what_is_open_is_counted(bench, gone_wrong):
    ordered(bench)
    sends(bench, order_of(gone_wrong)[0], "done", {"person": "builder"})
    found = order_of(gone_wrong)[1]
    open_before = len(found.open_items)
    assert open_before == len(found.items) >= 1
    answers = {f"item:{found.items[0].item}": "holds"}
    checked = sends(bench, order_of(gone_wrong)[0], "check", answers | {"person": "apprentice"})
    assert checked.status == 200, checked.said
    assert len(order_of(gone_wrong)[1].open_items) == open_before - 1
    page = bench.get(order_of(gone_wrong)[0]).text
    assert open_before == 1 or f"{open_before - 1} to look at" in page
    assert "holds, Apprentice" in page
    again = sends(bench, order_of(gone_wrong)[0], "check", answers | {"person": "apprentice"})
    assert again.status == 422
    assert "Nothing new was answered" in again.said


UNCLEAR_ORDERS = (
    ({"dimension": ""}, "dimensions that change"),
    ({"words": ""}, "what is to be done"),
    ({"change": "polish"}, "What is to be done is not chosen"),
    ({"target": "0 N m"}, "0 N m"),
)


def test_an_order_that_is_not_clear_is_refused_in_a_sentence(bench, gone_wrong):
    before = gone_wrong.position
    for typed, wrong in UNCLEAR_ORDERS:
        answer = ordered(bench, **typed)
        assert answer.status == 422
        assert wrong in answer.said
    assert gone_wrong.record.head().seq == before


def test_the_printed_order_has_what_was_read_limits_a_box_for_each_place_and_cautions(bench, gone_wrong):
    ordered(bench)
    page = bench.get(f"{order_of(gone_wrong)[0]}/print").text
    wanted = ("0.040 to 0.060 mm", "front", "rear", "55.3", "Target", "grinding", "Done by")
    for words in (*wanted, BEFORE_METAL):
        assert words in page
    assert page.count('class="blank"') == 2
    on_screen = bench.get(order_of(gone_wrong)[0]).text
    assert "grinding" in on_screen
    assert BEFORE_METAL in on_screen
    assert "paper_letter.css" in bench.get(f"{order_of(gone_wrong)[0]}/print?paper=letter").text


def test_a_replacement_is_printed_without_the_cautions_of_grinding(bench, gone_wrong):
    ordered(bench, change="replacement", target="")
    page = bench.get(f"{order_of(gone_wrong)[0]}/print").text
    assert "grinding" not in page
    assert BEFORE_METAL not in page


def test_no_field_of_any_part_is_left_unshown(bench, gone_wrong, read):
    grant(bench)
    grant(bench, OTHER, highest="200.1", lowest="", pin="4711", pin_new="", pin_again="")
    ordered(bench)
    group = next(iter(gone_wrong.bench(CODE).sheet.tightening_groups.values()))
    torque = kinds.Typed(typed="20", unit="N m", decimals=0, si=20.0)
    first = group.fasteners[0].id
    for number in range(1, len(group.passes) + 1):
        body = kinds.Tightening(group=group.id, fasteners=(first,), number=number, torque=torque)
        gone_wrong.write([gone_wrong.entry(body, build=CODE, person="builder")])
    page = bench.get(PAGE).text
    assert f"{group.title}, {first}" in page
    bench.get(f"{order_of(gone_wrong)[0]}?do=check")
    bench.get(f"{order_of(gone_wrong)[0]}/print")
    sends(bench, order_of(gone_wrong)[0], "done", {"person": "builder"})
    bench.get(order_of(gone_wrong)[0])
    assert not unread([effects, order, orders, outside, permissions, printed, show, unproven], read)
