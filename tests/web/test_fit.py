"""A fit opened: curve, routes, readings, what would settle it, history; readings put right there."""

import re

import pytest

from fitwright.assess.results import Verdict
from fitwright.records.kinds import Fitting, TakingOut
from tests.support.serving import form_of
from tests.support.small_sheet import SHEET, read_clearance, small_story

CODE, THOU = "corrie-five", "brackengill-eleven"
UNREAD = "valve.1.inlet.lash"
FIT = f"/builds/{CODE}/fits/main.4.running_clearance"
SMALL = "/builds/small/fits/clearance"


def words(page):
    return " ".join(re.sub(r"<[^>]+>", " ", page).split())


def section(page, name):
    return page.partition(f'aria-label="{name}">')[2].partition("</section>")[0]


@pytest.fixture
def told(opened, tmp_path):
    """Makes a shop with the small build, after a story."""

    def shop_of(story):
        shop = opened(tmp_path / "told")
        shop.record.keep_sheet(SHEET)
        shop.write(story.new)
        return shop

    return shop_of


@pytest.fixture
def clearance(told):
    """The running clearance of the small build read, within its limits."""
    story = small_story()
    read_clearance(story)
    return told(story)


@pytest.fixture
def changing(asking):
    """Opens the form for a reading, and sends it filled in."""

    def send(client, entry, fit=SMALL, **typed):
        page = client.get(f"{fit}?reading={entry}").text
        return client.post(f"{fit}/readings", data=form_of(page, "reading changing") | typed)

    return send


def reading(shop, dimension, place=None):
    """The entry of the last reading of a dimension that counts."""
    used = shop.assessor("small").judge.member(dimension).evidence.used
    return [each for each in used if place in (None, each.place)][-1].entry.id


def test_every_fit_of_both_examples_opens(looking, shown_shop):
    for code in (CODE, "brackengill-eleven"):
        for subject in shown_shop.assessor(code).judge.subjects:
            for state in ("current", "as-received"):
                page = looking.get(f"/builds/{code}/fits/{subject}?state={state}")
                assert page.status_code == 200, subject
                assert not re.search(r"\bnan\b|\binf\b", page.text, re.IGNORECASE), subject


def test_an_empty_fit_says_what_to_do(asking, begun_shop):
    page = asking(begun_shop).get("/builds/first/fits/main.1.running_clearance").text
    assert "not measured" in page
    assert "Measure here" in page
    assert "No reading." in section(page, "Readings")
    assert 'aria-label="Against the limits"' not in page


def test_the_curve_says_the_chances_of_the_verdict(looking, shown_shop):
    verdict = shown_shop.assessor(CODE).verdict("piston.2.pin_clearance")
    lower = next(each for each in verdict.bounds if each.side == "lower" and each.governs)
    page = section(looking.get(f"/builds/{CODE}/fits/piston.2.pin_clearance").text, "Against the limits")
    assert f"lies below 0.003 mm: {100 * (1 - lower.probability):.1f} %" in page
    assert "is proven within (dashed)" in page
    assert page.count('class="guard"') == 2
    assert 'class="spread-out"' in page
    assert page.count('class="bar-hot"') == 2
    assert "not judged" in page


def test_one_blade_shows_how_well_each_gap_agrees_and_no_share(asking, told):
    story = small_story()
    story.tries("gap", None, "F:0.05", "goes")
    page = section(asking(told(story)).get("/builds/small/fits/end_float").text, "Against the limits")
    assert "there is no share to shade" in page
    assert "spread-open" in page
    assert "Chance that it lies" not in page


def test_both_routes_stand_beside_each_other_with_their_difference(looking, shown_shop):
    found = shown_shop.assessor(CODE).verdict("main.4.running_clearance").comparison
    page = section(looking.get(FIT).text, "Two routes")
    assert page.count('class="limit-scale"') == 2
    assert "The two routes agree" in words(page)
    assert f"{found.difference * 1e3:.4f} mm (u {found.standard_uncertainty * 1e3:.4f} mm)" in words(page)


def test_routes_that_disagree_are_a_finding(asking, told):
    story = small_story()
    read_clearance(story)
    story.reads("housing", None, "60.030", instrument="B", setting="S-BM")
    story.reads("shell.wall", None, "2.250", instrument="W", setting="S-W")
    page = section(asking(told(story)).get(SMALL).text, "Two routes")
    assert "<strong>The two routes disagree" in page


def test_a_route_alone_is_said_in_one_sentence(asking, told):
    story = small_story()
    read_clearance(story)
    page = section(asking(told(story)).get(SMALL).text, "Two routes")
    assert "Only one of the two routes has a value." in page
    assert ".." not in page


def test_every_reading_stands_there_used_or_struck_with_its_reason(looking, shown_shop):
    verdict = shown_shop.assessor(CODE).verdict("main.4.running_clearance")
    readings = shown_shop.bench(CODE).build.readings
    page = section(looking.get(FIT).text, "Readings")
    for entry in verdict.readings:
        row = page.partition(f'id="reading-{readings[entry].entry.seq}"')[2].partition("</tr>")[0]
        assert readings[entry].body.observation.value.typed in row
        assert "<s>" not in row
    for each in verdict.unused:
        row = page.partition(f'id="reading-{readings[each.entry].entry.seq}"')[2].partition("</table>")[0]
        assert f"<s>{readings[each.entry].body.observation.value.typed}" in row
        assert each.why in row


def test_what_would_settle_it_is_said_with_its_chances(looking, shown_shop):
    settling = shown_shop.assessor(CODE).settling("piston.2.pin_clearance")
    page = words(
        section(looking.get(f"/builds/{CODE}/fits/piston.2.pin_clearance").text, "What would settle it")
    )
    best = settling.proposals[0]
    assert f"read once with {best.gauge} {100 * best.settles:.1f} %" in page
    assert "Its lower limit is open" in page


def test_a_critical_fit_without_an_adopted_limit_leads_to_adopting_one(asking, told):
    story = small_story()
    for answer, blade in (("goes", "F:0.05"), ("does not go", "F:0.06")):
        story.tries("gap", None, blade, answer)
    page = asking(told(story)).get("/builds/small/fits/end_float").text
    assert re.search(
        r'<a class="button" href="/builds/small/parts\?adopt=end_float[^"]*">Adopt a limit', page
    )
    assert "a named person adopts a limit" in words(page).lower()


def test_the_history_tells_what_un_proved_it(looking):
    page = words(looking.get(f"{FIT}/history").text)
    assert page.index("outside: below the lower limit") < page.index("rework R1") < page.index("within")
    part = looking.get(f"{FIT}/history", headers={"hx-request": "true"}).text
    assert "<html" not in part
    assert '<div id="history">' in part
    assert "No reading yet" in looking.get(f"/builds/{THOU}/fits/{UNREAD}/history").text
    assert looking.get("/builds/none/fits/x/history").status_code == 404
    assert looking.get(f"/builds/{CODE}/fits/none/history").status_code == 404


def test_a_value_is_corrected_and_both_stay_visible(asking, clearance, changing):
    client = asking(clearance)
    entry = reading(clearance, "fitted")
    answer = changing(client, entry, value="55.502", reason="misread", do="correct", person="builder")
    assert "Reading corrected" in answer.text
    assert "Kept as entry" in answer.text
    verdict = clearance.assessor("small").verdict("clearance")
    assert verdict.value == pytest.approx(52e-6, abs=1e-9)
    new = clearance.bench("small").build.readings[reading(clearance, "fitted")]
    assert (new.body.supersedes, new.body.reason, new.body.measured_by) == (entry, "misread", "builder")
    assert new.body.observation.setting == "S-BM"
    assert new.entry.person == "builder"
    page = client.get(SMALL).text
    assert "<s>55.500 mm</s>" in page
    assert "superseded by a later entry" in page


def test_a_correction_needs_its_reason_and_keeps_what_was_typed(asking, clearance, changing):
    client, head = asking(clearance), clearance.record.head()
    answer = changing(client, reading(clearance, "fitted"), value="55.502", do="correct")
    assert answer.status_code == 422
    assert "A correction needs its reason" in answer.text
    assert 'value="55.502"' in answer.text
    assert clearance.record.head() == head


def test_a_slip_in_a_correction_is_asked_about(asking, clearance, changing):
    client, head = asking(clearance), clearance.record.head()
    entry = reading(clearance, "fitted")
    asked = changing(client, entry, value="555.02", reason="misread", do="correct")
    assert clearance.record.head() == head
    guess = re.search(r'name="answer_to_question" value="([^"]+)">Take', asked.text)[1]
    form = form_of(asked.text, "reading changing")
    sent = {"value": "555.02", "reason": "misread", "answer_to_question": guess}
    answer = client.post(f"{SMALL}/readings", data=form | sent)
    assert "Reading corrected" in answer.text
    assert clearance.assessor("small").verdict("clearance").value == pytest.approx(52e-6, abs=1e-9)


def test_a_reading_is_withdrawn_with_a_reason_and_brought_back(asking, clearance, changing):
    client, entry = asking(clearance), reading(clearance, "journal", "front")
    assert "A withdrawal needs its reason" in changing(client, entry, do="withdraw").text
    answer = changing(client, entry, do="withdraw", reason="wrong crank")
    assert "Reading withdrawn" in answer.text
    assert entry not in clearance.assessor("small").verdict("clearance").readings
    page = client.get(f"{SMALL}?reading={entry}").text
    assert "It does not count: withdrawn" in words(page)
    assert "Correct it" not in page
    assert "Reading brought back" in changing(client, entry, do="bring back").text
    assert entry in clearance.assessor("small").verdict("clearance").readings


def test_one_of_two_readings_is_used_instead_and_the_other_again(asking, told, changing):
    story = small_story()
    read_clearance(story)
    first = story.bench().build.readings_of("journal")[0].entry.id
    later = story.reads("journal", "front", "55.470", instrument="M", setting="S-M")
    shop = told(story)
    client = asking(shop)
    assert shop.assessor("small").verdict("clearance").verdict is Verdict.UNPROVEN
    assert "A choice needs its reason" in changing(client, later, do="use instead").text
    answer = changing(client, first, do="use instead", reason="the later one was on the fillet")
    assert "Used instead" in answer.text
    used = shop.assessor("small").verdict("clearance").readings
    assert first in used
    assert later not in used
    back = changing(client, later, do="use instead", reason="no, it was not")
    assert "Used instead" in back.text
    assert later in shop.assessor("small").verdict("clearance").readings
    both = changing(client, later, do="keep both", reason="the journal is out of round there")
    assert both.status_code == 422 or "kept" in both.text


def test_readings_set_apart_are_used_again_all_together(asking, told, changing):
    story = small_story()
    read_clearance(story)
    before = story.verdict("clearance").readings
    story.says(TakingOut(part="shell", position="shell"))
    story.says(Fitting(part="shell", position="shell"))
    shop = told(story)
    client = asking(shop)
    entry = next(each.entry for each in shop.assessor("small").verdict("clearance").unused)
    page = client.get(f"{SMALL}?reading={entry}").text
    assert "Use again, with all that stand like it" in page
    answer = changing(client, entry, do="use again", reason="same shell, same torque")
    assert "Used again" in answer.text
    assert shop.assessor("small").verdict("clearance").readings == before


def test_a_reworked_part_offers_no_using_again(looking, shown_shop):
    unused = shown_shop.assessor(CODE).verdict("main.4.running_clearance").unused[0].entry
    page = looking.get(f"{FIT}?reading={unused}").text
    assert "Leave it as it is" in page
    assert "Use again" not in page


def test_a_blade_is_corrected(asking, told, changing):
    story = small_story()
    entry = story.tries("gap", None, "F:0.05", "goes")
    shop = told(story)
    client = asking(shop)
    fit = "/builds/small/fits/end_float"
    typed = {"blades": "F:0.06", "answer": "drags", "reason": "took the wrong one", "do": "correct"}
    answer = changing(client, entry, fit, **typed)
    assert "Reading corrected" in answer.text
    observation = shop.bench("small").build.readings[reading(shop, "gap")].body.observation
    assert (observation.blades, observation.answer) == (("F:0.06",), "drags")


def test_a_form_sent_twice_counts_once_and_an_old_one_is_refused(asking, clearance, changing):
    client, entry = asking(clearance), reading(clearance, "fitted")
    page = client.get(f"{SMALL}?reading={entry}").text
    sent = form_of(page, "reading changing") | {"do": "withdraw", "reason": "wrong part"}
    first, second = (client.post(f"{SMALL}/readings", data=sent) for _ in range(2))
    assert first.status_code == 200
    kept = [each for each in clearance.record.entries(build="small") if each.kind == "withdrawal"]
    assert len(kept) == 1
    assert (
        re.search(r"Kept as entry (\d+)", first.text)[1] == re.search(r"Kept as entry (\d+)", second.text)[1]
    )
    stale = client.post(f"{SMALL}/readings", data=sent | {"token": "old", "entry_id": ""})
    assert stale.status_code == 403
    assert "earlier run of the bench" in stale.text


@pytest.mark.parametrize(
    "typed, said",
    [
        ({"do": "burn"}, "is not said"),
        ({"do": "bring back", "reason": "x"}, "not withdrawn"),
        ({"do": "correct", "reason": "x"}, "No value was typed"),
        ({"do": "withdraw", "reason": "x", "person": "nobody"}, "Nobody here"),
        ({"do": "withdraw", "reason": "x", "reading": "f" * 32}, "No reading"),
    ],
)
def test_what_is_not_plain_is_refused_and_nothing_kept(asking, clearance, changing, typed, said):
    head = clearance.record.head()
    answer = changing(asking(clearance), reading(clearance, "fitted"), **typed)
    assert answer.status_code == 422
    assert said in words(answer.text)
    assert clearance.record.head() == head


def test_a_page_that_shows_what_is_so_asks_for_nothing_new(client, shop):
    page, other = client.get(FIT).text, client.get(FIT.replace("main.4", "main.5")).text
    fresh = re.search(r'id="now" hx-get="([^"]+)"', page)[1].replace("&amp;", "&")
    asked = client.get(fresh, headers={"hx-request": "true"})
    assert asked.headers["hx-reswap"] == "none"
    assert asked.text == ""
    sent = form_of(page) | {"place": "main.4.fitted_bore|front", "setting": "S-035", "value": "56.0450"}
    assert "Kept as entry" in client.post(f"/builds/{CODE}/readings", data=sent).text
    assert "hx-reswap" not in client.get(fresh, headers={"hx-request": "true"}).headers
    fresh = re.search(r'id="now" hx-get="([^"]+)"', other)[1].replace("&amp;", "&")
    assert client.get(fresh, headers={"hx-request": "true"}).headers["hx-reswap"] == "none"


def test_hostile_words_in_a_reason_stay_words(asking, clearance, changing):
    client = asking(clearance)
    hostile = '"><script>alert(1)</script>'
    answer = changing(client, reading(clearance, "fitted"), value="55.501", reason=hostile, do="correct")
    for page in (answer.text, client.get(SMALL).text, client.get(f"{SMALL}/history").text):
        assert "<script>alert" not in page
    assert "&lt;script&gt;alert(1)" in client.get(SMALL).text
