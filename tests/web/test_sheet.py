"""Sheet: checked as one types, changed by a form with its comments kept, taken over on purpose."""

import re
from html import unescape

import pytest

from fitwright.examples import sheet_text as example_text
from fitwright.formats.sheet import read_sheet
from fitwright.formats.sheet.changing import changeable
from fitwright.records.kinds import Person
from fitwright.web import sheet_change, sheet_looked, sheet_text
from fitwright.web.pages import sheet
from tests.support.contexts import unread

CODE = "corrie-five"
AT = f"/builds/{CODE}/sheet"
TEXT = example_text("corrie-five")
JOURNAL, CLEARANCE = "main.{1..6}.journal", "main.{1..6}.running_clearance"
LATER = TEXT.replace('revision = "A"', 'revision = "B"')
LATER = LATER.replace('upper = "0.065 mm"', 'upper = "0.070 mm"', 1)
HOUSING = LATER.index('[dimensions."main.{1..6}.housing_bore"]')


def in_housing(old, new):
    """The later revision with something else in the table of the main housings."""
    return LATER[:HOUSING] + LATER[HOUSING:].replace(old, new, 1)


OTHER_SENSE = in_housing('sense = "diametral"', 'sense = "linear"')
ONE_PLANE = in_housing('planes = ["front", "rear"]', 'planes = ["front"]')


def form_of(client, address=AT):
    return dict(re.findall(r'<input type="hidden" name="(\w+)" value="([^"]*)"', client.get(address).text))


def post(client, do, text=TEXT, **fields):
    return client.post(AT, data=form_of(client) | {"do": do, "text": text} | fields)


def said(answer):
    found = re.search(r'<div id="outcome".*?</div>', answer.text, re.DOTALL)[0]
    return unescape(re.sub(r"<[^>]+>", "", found)).strip()


def text_in(answer):
    return unescape(re.search(r"<textarea[^>]*>\n(.*?)</textarea>", answer.text, re.DOTALL)[1])


def section(answer, name):
    return unescape(re.search(rf'<section id="{name}".*?</section>', answer.text, re.DOTALL)[0])


def test_the_page_shows_the_build_s_own_text_to_the_letter(looking):
    page = looking.get(AT)
    assert text_in(page) == TEXT
    assert "It says the same as the build's revision" in unescape(page.text)
    assert "revision A since" in page.text


def test_it_can_be_downloaded(looking):
    answer = looking.get(f"{AT}.toml")
    assert answer.text == TEXT
    assert answer.headers["content-disposition"] == 'attachment; filename="corrie-five.toml"'
    assert looking.get("/builds/none/sheet.toml").status_code == 404


def test_every_problem_is_marked_at_its_line(looking):
    wrong = TEXT.replace('sense = "diametral"', 'sense = "sideways"', 2)
    answer = looking.post(AT, data={"do": "look", "text": wrong}, headers={"hx-request": "true"})
    lines = [int(each) for each in re.findall(r'<li data-line="(\d+)"', answer.text)]
    assert lines == [n for n, line in enumerate(wrong.split("\n"), 1) if "sideways" in line]
    assert "<textarea" not in answer.text  # only what was found comes back


def test_leading_lines_keep_their_numbers(looking):
    answer = looking.post(AT, data={"do": "look", "text": "\n\n\nformat = x"}, headers={"hx-request": "true"})
    assert '<li data-line="4"' in answer.text


def test_without_script_a_text_is_checked_and_stays(looking):
    answer = looking.post(AT, data={"do": "look", "text": "format = <1>"})
    assert text_in(answer) == "format = <1>"
    assert "1 to mend" in answer.text


def test_what_differs_is_said_in_words(looking):
    found = section(looking.post(AT, data={"do": "look", "text": LATER}), "findings")
    assert "engine: revision A -> B" in found
    assert "upper limit 0.065 mm -> 0.070 mm" in found
    assert "still calls itself" not in found
    same = section(looking.post(AT, data={"do": "look", "text": LATER.replace('"B"', '"A"')}), "findings")
    assert "It still calls itself revision A" in same


def test_readings_that_would_fall_out_are_named_before(looking, shown_shop):
    found = section(looking.post(AT, data={"do": "look", "text": ONE_PLANE}), "findings")
    rear = [
        each
        for each in shown_shop.bench(CODE).build.readings.values()
        if each.effective and each.place.startswith("rear/") and each.feature.endswith("housing_bore")
    ]
    mains = [each for each in rear if (each.dimension or "").startswith("main.")]
    assert f"In no verdict any more: {len(mains)}" in found
    assert "the sheet has no such place any more" in found


def test_the_section_is_drawn_from_the_text(looking):
    page = looking.get(AT).text
    assert 'class="engine-section"' in page or "engine-s" in page
    answer = looking.post(AT, data={"do": "look", "text": "x"}, headers={"hx-request": "true"})
    assert "The drawing shows again" in answer.text


def test_a_limit_is_changed_with_all_else_kept(client):
    fields = {"lower": "0.045 mm", "upper": "0.070 mm", "at": "p. A-31", "governs": "yes"}
    answer = post(
        client, "change:0", subject=CLEARANCE, **{f"limit-0-{name}": each for name, each in fields.items()}
    )
    text = text_in(answer)
    before, after = TEXT.split("\n"), text.split("\n")
    assert len(before) == len(after)
    assert sum(one != other for one, other in zip(before, after, strict=True)) == 1
    assert read_sheet(text).fits["main.3.running_clearance"].limits[0].upper.written == "0.070 mm"
    assert said(answer).startswith("Written into the text; the build keeps its revision")


def test_a_limit_of_a_new_source_brings_the_source(client):
    source = {"source-title": "Leaflet 7", "source-kind": "parts maker"}
    fields = source | {"limit-new-source": "new", "limit-new-upper": "0.08 mm"}
    text = text_in(post(client, "change:new", subject=CLEARANCE, **fields))
    found = read_sheet(text)
    assert found.sources["leaflet_7"].title == "Leaflet 7"
    assert found.fits["main.1.running_clearance"].limits[-1].source == "leaflet_7"


@pytest.mark.parametrize(
    "do, fields, words",
    [
        ("change:new", {"subject": CLEARANCE}, "No source is chosen"),
        ("change:new", {"subject": CLEARANCE, "limit-new-source": "new"}, "new source has no title"),
        ("change:9", {"subject": CLEARANCE}, "not in the text any more"),
        ("change:new", {"subject": "nothing"}, "No fit or dimension is chosen"),
        ("change:nominal", {"subject": JOURNAL, "nominal": "56 bar"}, "The text is as it was"),
        (
            "change:places",
            {"subject": JOURNAL, "planes": "front", "angles": "0"},
            "is taken in one place only",
        ),
    ],
)
def test_a_change_that_cannot_be_leaves_the_text(client, do, fields, words):
    answer = post(client, do, **fields)
    assert answer.status_code == 422
    assert words in said(answer)
    assert text_in(answer) == TEXT


def test_nominal_and_places_are_written(client):
    text = text_in(post(client, "change:nominal", subject=JOURNAL, nominal="55.990 mm"))
    text = text_in(
        post(client, "change:places", text, subject=JOURNAL, planes="front, middle, rear", angles="0, 90")
    )
    found = read_sheet(text).dimensions["main.1.journal"]
    assert (found.nominal.written, len(found.places)) == ("55.990 mm", 6)


def test_every_fit_and_dimension_can_be_chosen(looking):
    page = looking.get(AT).text
    for each in changeable(TEXT):
        assert f'<option value="{each.key}">' in page


def test_a_revision_is_taken_over_by_a_person_with_a_reason(client, shop):
    answer = post(client, "take-over", LATER, person="builder", reason="wider on purpose")
    assert said(answer).startswith("Kept as entry")
    assert "at revision B" in said(answer)
    held = shop.bench(CODE).build.revisions[-1]
    assert (held.entry.person, held.body.reason) == ("builder", "wider on purpose")
    assert "engine: revision A -> B" in held.body.differences
    assert shop.record.sheet_text(held.body.sheet) == LATER
    assert "took it over" in client.get(AT).text
    assert text_in(client.get(AT)) == LATER


def test_sent_twice_it_is_taken_over_once(client, shop):
    form = form_of(client) | {"do": "take-over", "text": LATER}
    answers = [client.post(AT, data=form) for _ in range(2)]
    assert [said(each)[:13] for each in answers] == ["Kept as entry"] * 2
    assert len(shop.bench(CODE).build.revisions) == 1


def test_another_sense_is_refused_with_its_reason(client, shop):
    looked_at = unescape(post(client, "look", OTHER_SENSE).text)
    reason = "was read as diametral, and this revision states it as linear"
    assert "It cannot be taken over" in looked_at
    assert reason in looked_at
    before = shop.record.head()
    answer = post(client, "take-over", OTHER_SENSE)
    assert (answer.status_code, reason in said(answer)) == (422, True)
    assert text_in(answer) == OTHER_SENSE
    assert shop.record.head() == before


def test_nothing_is_taken_over_that_says_the_same_or_is_unsound(client, shop):
    before = shop.record.head()
    same = post(client, "take-over", TEXT + "\n# a comment\n", reason="none")
    assert (same.status_code, "nothing to take over" in said(same)) == (422, True)
    assert 'value="none"' in same.text
    unsound = post(client, "take-over", "format = 1")
    assert "mend it first" in said(unsound)
    assert text_in(unsound) == "format = 1"
    assert shop.record.head() == before


def test_a_stale_page_takes_nothing_over(client, shop):
    before = shop.record.head()
    answer = post(client, "take-over", LATER, token="old")
    assert answer.status_code == 403
    assert text_in(answer) == LATER
    assert shop.record.head() == before


def test_a_build_that_is_not_there_has_no_sheet(looking):
    assert looking.get("/builds/none/sheet").status_code == 404
    assert looking.post("/builds/none/sheet", data={}).status_code == 404


def test_an_empty_build_has_its_sheet(asking, begun_shop):
    begun_shop.write([begun_shop.entry(Person(code="p", name="Person"))])
    page = asking(begun_shop).get("/builds/first/sheet")
    assert page.status_code == 200
    assert text_in(page) == begun_shop.record.sheet_text(begun_shop.bench("first").sheet.digest)


def test_every_field_is_shown(client, read):
    post(client, "form", subject=JOURNAL)
    post(client, "form", subject=CLEARANCE)
    post(client, "look", "x")
    post(client, "look", ONE_PLANE)
    post(client, "look", OTHER_SENSE.replace('"B"', '"A"'))
    post(client, "take-over", "x")
    client.get("/builds/new/questions")
    assert not unread([sheet_change, sheet_looked, sheet_text, sheet], read)
