"""Paper: stations printed as sheets of boxes, part labels, and what was written typed in, place by place."""

from __future__ import annotations

import html
import re
import uuid
from xml.etree import ElementTree as ET

import pytest
import segno

from fitwright.bench.order import stops
from fitwright.drawing.qr import QUIET, qr_drawing
from fitwright.web import paper_head, paper_tables, paper_taking
from fitwright.web.pages import bench_forms, labels, paper_entry
from tests.support.contexts import unread
from tests.support.pictures import picture
from tests.web.test_browser import page_of

CODE = "corrie-five"
MAINS = f"/builds/{CODE}/paper/mains"
HEAD = {
    "measured_by": "builder",
    "person": "apprentice",
    "taken_on": "2025-02-10",
    "taken_time": "08:30",
    "temperature": "19.5 °C",
    "gauge:bore gauge": "B1",
    "setting:bore gauge": "S-034",
    "gauge:outside micrometer": "M3",
    "setting:outside micrometer": "S-033",
}
HOUSING = "main.2.housing_bore|front/0"
JOURNAL = "main.2.journal|rear/90"


def fresh(client, address=MAINS, **typed):
    """A form as the page gives it, with what is typed into it."""
    page = client.get(address).text
    hidden = re.findall(r'<input type="hidden" name="([^"]+)" value="([^"]*)"', page)
    return {html.unescape(name): html.unescape(value) for name, value in hidden} | HEAD | typed


def sent_again(page):
    """Everything that stands in the form of a page, as a browser would send it."""
    form = page[page.index('<form class="paper-form"') : page.index("</form>")]
    found = dict(
        re.findall(r'<input type="(?:hidden|text|date|time)"[^>]*?name="([^"]+)" value="([^"]*)"', form)
    )
    for name, options in re.findall(r'<select name="([^"]+)">(.*?)</select>', form, re.DOTALL):
        chosen = re.search(r'value="([^"]*)" selected', options)
        found[name] = chosen[1] if chosen else ""
    return {html.unescape(name): html.unescape(value) for name, value in found.items()}


def from_paper(shop):
    return [
        each.body
        for each in shop.record.entries(build=CODE)
        if each.kind == "reading" and each.body["origin"] == "paper"
    ]


# Printed.


def test_the_stations_can_be_chosen(looking):
    page = looking.get(f"/builds/{CODE}/forms?paper=letter").text
    assert page.count('name="station"') == len(set(re.findall(r'name="station" value="(\w+)"', page)))
    assert "88 places" in page
    assert re.search(r'value="letter" checked', page)


@pytest.mark.parametrize("station", ["mains", "pump", "pump_on_crank", "rings"])
def test_every_place_of_a_station_has_its_boxes(looking, shown_shop, station):
    page = looking.get(f"/builds/{CODE}/forms/{station}").text
    sheet = shown_shop.bench(CODE).sheet
    wanted = 0
    for stop in stops(sheet, station):
        kinds = {*sheet.dimensions[stop.dimension].instruments} - {"straight-edge"}
        blades = bool(kinds & {"feeler blades", "plug gauge"})
        wanted += 3 * blades + (not kinds or bool(kinds - {"feeler blades", "plug gauge"}))
    assert page.count('<span class="box">') == wanted


def test_leading_digits_are_printed_where_last_digits_are_enough(looking):
    page = looking.get(f"/builds/{CODE}/forms/mains").text
    assert page.count('<span class="lead">55.9</span><span class="blanks">__</span>') == 24
    assert "from 55.984 mm to 56.000 mm" in page
    assert "Main 1 to 6 journal" in page
    assert "job 25-07; sheet Corrie Five, revision A" in page
    assert "Lock the engine stand" in page
    assert page.count('class="part-place"') == page.count('<section class="boxes')


def test_several_stations_print_together_and_none_is_said(looking):
    page = looking.get(f"/builds/{CODE}/forms/-chosen?station=rings&station=lash&paper=letter").text
    assert page.count('<section class="paper-sheet">') == 2
    assert "/static/paper_letter.css" in page
    none = looking.get(f"/builds/{CODE}/forms/-chosen")
    assert none.status_code == 404
    assert "Choose at least one station to print." in none.text


@pytest.mark.parametrize("rest", ["forms/nowhere", "paper/nowhere", "forms/-chosen?station=mains&station=x"])
def test_an_unknown_station_is_said(looking, rest):
    assert looking.get(f"/builds/{CODE}/{rest}").status_code == 404


@pytest.mark.parametrize("rest", ["forms", "forms/mains", "labels", "paper/mains"])
def test_an_unknown_build_is_said(looking, rest):
    assert looking.get(f"/builds/nobody/{rest}").status_code == 404


def test_paper_serves_a_build_of_which_nothing_is_known(asking, begun_shop):
    client = asking(begun_shop)
    station = next(iter(begun_shop.bench("first").sheet.stations))
    assert client.get("/builds/first/forms").status_code == 200
    assert '<span class="box">' in client.get(f"/builds/first/forms/{station}").text
    assert "Nobody is entered in this shop yet" in client.get(f"/builds/first/paper/{station}").text
    assert '<div class="label">' in client.get("/builds/first/labels").text


# Labels.


@pytest.mark.parametrize("content", ["corrie-five/main-shell-1u", "b/é", "x" * 120])
def test_a_qr_code_is_drawn_module_by_module(content):
    svg = ET.fromstring(qr_drawing(content, "code"))
    path = next(each for each in svg if each.get("class") == "qr-dark").get("d")
    dark = set()
    for x, y, length in re.findall(r"M(\d+) (\d+)h(\d+)v1h-\d+z", path):
        dark |= {(int(x) + step, int(y)) for step in range(int(length))}
    matrix = segno.make(content, error="m", micro=False).matrix
    wanted = {(x + QUIET, y + QUIET) for y, row in enumerate(matrix) for x, cell in enumerate(row) if cell}
    assert dark == wanted
    assert svg.get("viewBox") == f"0 0 {len(matrix) + 2 * QUIET} {len(matrix) + 2 * QUIET}"


def test_labels_say_part_code_and_job(looking, shown_shop):
    page = looking.get(f"/builds/{CODE}/labels").text
    bench = shown_shop.bench(CODE)
    fitted = [bench.build.occupant(position) for position in bench.sheet.parts]
    for code in filter(None, fitted):
        assert f'<span class="mono">{code}</span>' in page, code
    assert page.count("<span>job 25-07</span>") == page.count('<div class="label">')


def test_labels_can_begin_on_a_sheet_that_is_partly_used(looking):
    page = looking.get(f"/builds/{CODE}/labels?group=main&start=20&paper=a4").text
    sheets = page.split('<section class="label-sheet"')[1:]
    assert [each.count('class="label empty"') for each in sheets] == [19, 0]
    assert [each.count('<div class="label">') for each in sheets] == [5, 7]
    assert "/static/labels_a4.css" in page


@pytest.mark.parametrize("start", ["0", "-1", "99", "x", "²"])
def test_a_first_label_that_no_sheet_has_is_the_first(looking, start):
    assert 'class="label empty"' not in looking.get(f"/builds/{CODE}/labels", params={"start": start}).text


# Typed in.


def test_what_is_clear_is_kept_with_both_times(client, shop):
    form = fresh(client, **{f"size|{HOUSING}": "12", f"size|{JOURNAL}": "55.9905"})
    answer = client.post(MAINS, data=form)
    assert answer.status_code == 200
    assert "2 readings kept" in answer.text
    housing, journal = from_paper(shop)
    assert housing["observation"]["value"]["typed"] == "60.5[12] mm"
    assert housing["observation"]["value"]["si"] == pytest.approx(0.060512)
    assert housing["observation"]["setting"] == "S-034"
    assert journal["observation"]["value"]["typed"] == "55.9905"
    for body in (housing, journal):
        assert body["taken_at"] == "2025-02-10T08:30"
        assert (body["measured_by"], body["typed_by"]) == ("builder", "apprentice")
        assert body["sitting"] == "T-37"
    entry = [each for each in shop.record.entries(build=CODE) if each.kind == "reading"][-1]
    assert entry.committed_at > "2025-02-11"
    assert shop.bench(CODE).build.sittings["T-37"].body.temperature == pytest.approx(292.65)
    assert f'data-kept="size|{HOUSING}"' in answer.text


def test_last_digits_stand_behind_those_printed(client, shop):
    """On paper 55.9 and 02 are 55.902, not the size nearest to the one expected."""
    client.post(MAINS, data=fresh(client, **{f"size|{JOURNAL}": "02"}))
    (body,) = from_paper(shop)
    assert body["observation"]["value"]["typed"] == "55.9[02] mm"
    assert body["observation"]["value"]["si"] == pytest.approx(0.055902)


def test_a_doubt_stays_at_its_place_and_its_answer_is_kept(client, shop):
    form = fresh(client, **{f"size|{HOUSING}": "60.512", f"size|{JOURNAL}": "5.599"})
    asked = client.post(MAINS, data=form).text
    assert len(from_paper(shop)) == 1
    assert "1 reading kept" in asked
    assert "1 place is not kept yet" in asked
    assert 'value="5.599"' in asked
    again = sent_again(asked)
    assert f"size|{HOUSING}" not in again
    second = client.post(MAINS, data=again | {f"answer|{JOURNAL}": "keep"}).text
    assert "Nothing is kept yet" in second  # it is also beyond the reach of its gauge
    answered = client.post(MAINS, data=sent_again(second) | {f"answer|{JOURNAL}": "keep"})
    assert "1 reading kept" in answered.text
    kept = from_paper(shop)
    assert [body["observation"]["value"]["typed"] for body in kept] == ["60.512", "5.599"]
    assert kept[0]["sitting"] == kept[1]["sitting"]
    assert [each.body.answer for each in shop.bench(CODE).build.questions[-2:]] == ["keep", "keep"]


def test_what_is_wrong_is_said_at_its_place_and_nothing_is_lost(client, shop):
    form = fresh(client, **{f"size|{HOUSING}": "12", f"size|{JOURNAL}": "fifty", "note": "by lamp light"})
    answer = client.post(MAINS, data=form)
    assert len(from_paper(shop)) == 1
    page = html.unescape(answer.text)
    assert 'value="fifty"' in page
    assert re.search(r"<strong>Main 2 journal, rear plane, 90°\.</strong> .*fifty", page)
    assert 'aria-invalid="true"' in page
    assert shop.bench(CODE).build.sittings["T-37"].body.words == "by lamp light"
    assert sent_again(page)["taken_on"] == "2025-02-10"


@pytest.mark.parametrize(
    "changed, words",
    [
        ({"taken_on": ""}, "When it was written is missing"),
        ({"taken_on": "2025-02-31"}, "is no date"),
        ({"taken_on": "2199-01-01"}, "lies ahead"),
        ({"measured_by": ""}, "Who measured is not said"),
        ({"person": "nobody"}, 'Nobody here is "nobody"'),
        ({"temperature": "warm"}, "warm"),
        ({"setting:bore gauge": "S-033"}, "S-033"),
        ({"token": "of another run"}, "from an earlier run of the bench"),
    ],
)
def test_a_head_that_is_wrong_keeps_nothing_and_loses_nothing(client, shop, changed, words):
    before = len(list(shop.record.entries(build=CODE)))
    answer = client.post(MAINS, data=fresh(client, **{f"size|{HOUSING}": "12"}) | changed)
    assert answer.status_code in (403, 422)
    page = html.unescape(answer.text)
    assert words in page
    assert sent_again(page)[f"size|{HOUSING}"] == "12"
    assert len(list(shop.record.entries(build=CODE))) == before


def test_an_empty_paper_is_said(client, shop):
    answer = client.post(MAINS, data=fresh(client))
    assert answer.status_code == 422
    assert "No box was filled in" in answer.text
    assert from_paper(shop) == []


def test_a_form_sent_twice_counts_once(client, shop):
    form = fresh(client, **{f"size|{HOUSING}": "12"})
    assert client.post(MAINS, data=form).status_code == 200
    assert client.post(MAINS, data=form).status_code == 200
    assert len(from_paper(shop)) == 1
    assert list(shop.bench(CODE).build.sittings)[-1] == "T-37"


def test_a_table_may_have_been_read_in_another_setting(client, shop):
    bore = "main.3.fitted_bore|front"
    typed = {f"size|{HOUSING}": "12", f"size|{bore}": "56.049", "set|main.1.fitted_bore": "S-035"}
    client.post(MAINS, data=fresh(client, **typed))
    found = {body["dimension"]: body["observation"]["setting"] for body in from_paper(shop)}
    assert found == {"main.2.housing_bore": "S-034", "main.3.fitted_bore": "S-035"}


def test_blades_on_paper_are_two_readings(client, shop):
    rings = f"/builds/{CODE}/paper/rings"
    gap = "ring.1.top.gap|whole"
    typed = {f"goes|{gap}": "0.30", f"does not go|{gap}": "0.50", "gauge:feeler blades": "F1"}
    answer = client.post(rings, data=fresh(client, rings, **typed))
    assert "2 readings kept" in answer.text, re.findall(r'class="said.*?</div>', answer.text, re.DOTALL)
    found = [(body["observation"]["blades"], body["observation"]["answer"]) for body in from_paper(shop)]
    assert found == [(["F1:0.30"], "goes"), (["F1:0.50"], "does not go")]
    unknown = client.post(rings, data=fresh(client, rings, **{f"goes|{gap}": "0.335"}))
    assert unknown.status_code == 422
    assert "0.335" in unknown.text


def test_a_paper_goes_into_a_sitting_that_is_there(client, shop):
    sitting = list(shop.bench(CODE).build.sittings)[-1]
    form = fresh(client, **{f"size|{JOURNAL}": "55.991", "sitting": sitting, "measured_by": ""})
    client.post(MAINS, data=form | {"note": "page 12"})
    (body,) = from_paper(shop)
    assert body["note"] == "page 12"
    assert body["sitting"] == sitting
    assert list(shop.bench(CODE).build.sittings)[-1] == sitting


def test_a_size_that_disagrees_with_one_before_is_asked_about_and_answered(client, shop):
    first = client.post(MAINS, data=fresh(client, **{f"size|{JOURNAL}": "55.991"})).text
    sitting = sent_again(first)["sitting"]
    asked = client.post(MAINS, data=fresh(client, **{f"size|{JOURNAL}": "55.985", "sitting": sitting})).text
    assert "2 readings kept" not in asked
    look = re.search(r'name="(look\|\w+)" value="use instead"', asked)
    assert look, re.findall(r'class="said.*?</div>', asked, re.DOTALL)
    answered = client.post(MAINS, data=sent_again(asked) | {look[1]: "use instead"})
    assert "Answer kept" in answered.text
    assert shop.bench(CODE).build.choices


def test_a_photo_of_the_page_is_kept_and_named_by_its_readings(client, shop):
    form = fresh(client, **{f"size|{HOUSING}": "12"})
    files = {"photo": ("page.png", picture(), "image/png")}
    shown = client.post(f"{MAINS}/photos", data=form, files=files)
    assert "Photo of the page kept" in shown.text
    again = sent_again(shown.text)
    assert again[f"size|{HOUSING}"] == "12"
    client.post(MAINS, data=again)
    (body,) = from_paper(shop)
    assert shop.photo(body["page_photo"])
    assert shop.bench(CODE).build.photos[-1].body.digest == body["page_photo"]
    refused = client.post(f"{MAINS}/photos", data=form, files={"photo": ("a.png", b"<svg/>", "image/png")})
    assert refused.status_code == 422
    assert sent_again(refused.text)[f"size|{HOUSING}"] == "12"


def test_a_photo_that_is_not_there_is_refused(client, shop):
    form = fresh(client, **{f"size|{HOUSING}": "12", "photo_kept": "0" * 64})
    answer = client.post(MAINS, data=form)
    assert answer.status_code == 422
    assert from_paper(shop) == []


def test_what_is_typed_is_escaped(client):
    hostile = '"><script>alert(1)</script>'
    page = client.post(MAINS, data=fresh(client, **{f"size|{HOUSING}": hostile, "note": hostile})).text
    assert "<script>alert" not in page


def test_every_field_of_every_part_is_shown(client, read):
    for rest in ("forms", "forms/mains", "forms/rings", "labels?start=3", "paper/rings"):
        assert client.get(f"/builds/{CODE}/{rest}").status_code == 200
    asked = client.post(MAINS, data=fresh(client, **{f"size|{JOURNAL}": "5.599"})).text
    again = sent_again(asked) | {f"earlier:{uuid.uuid4().hex}|{JOURNAL}": "keep"}
    client.post(MAINS, data=again)
    client.post(MAINS, data=fresh(client, **{f"size|{HOUSING}": "12", f"size|{JOURNAL}": "x"}))
    assert not unread([bench_forms, labels, paper_entry, paper_head, paper_tables, paper_taking], read)


# In a browser.


def test_a_paper_is_typed_in_with_the_keyboard(client, shop, browser):
    with page_of(browser, viewport={"width": 390, "height": 844}) as (page, errors):
        page.goto(f"{client.base_url}{MAINS}")
        page.select_option('select[name="measured_by"]', "builder")
        page.fill('input[name="taken_on"]', "2025-02-10")
        page.select_option('select[name="gauge:outside micrometer"]', "M3")
        page.select_option('select[name="setting:outside micrometer"]', "S-033")
        page.focus('input[name="size|main.1.journal|front/0"]')
        for digits in ("92", "93"):
            page.keyboard.type(digits)
            page.keyboard.press("Enter")
        page.click("text=Keep what is typed")
        page.wait_for_selector("text=2 readings kept")
        assert page.locator("[data-kept]").count() == 2
        assert page.evaluate("document.documentElement.scrollWidth") == 390
        page.goto(f"{client.base_url}{MAINS}")
        assert page.input_value('input[name="size|main.1.journal|front/0"]') == ""
        assert errors == []
    typed = [body["observation"]["value"]["typed"] for body in from_paper(shop)]
    assert typed == ["55.9[92] mm", "55.9[93] mm"]


def test_a_sheet_prints_on_the_paper_chosen(looking, browser):
    for paper, size in (("a4", (595, 842)), ("letter", (612, 792))):
        with page_of(browser) as (page, errors):
            page.goto(f"{looking.base_url}/builds/{CODE}/forms/mains?paper={paper}")
            pdf = page.pdf(prefer_css_page_size=True)
            assert errors == []
        boxes = {
            tuple(round(float(each)) for each in found)
            for found in re.findall(rb"/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]", pdf)
        }
        (box,) = boxes
        assert box == pytest.approx(size, abs=1)
