"""Quick sums: the index, every sum as a page, answers by address, JSON, slips, grids, blades."""

import json
import re
from html import unescape
from urllib.parse import parse_qsl, urlencode

import pytest

from fitwright.sums import SUMS, run
from fitwright.sums.exchange import as_object, schema
from fitwright.web.app import create_app
from fitwright.web.pages import sums
from fitwright.web.pages.sums import answering, fields, index, page, pictures, query
from tests.support.contexts import unread
from tests.support.serving import serving
from tests.web.test_browser import page_of

every_sum = pytest.mark.parametrize("name", SUMS)


def words(text):
    """The text of a page, without its markup."""
    return unescape(" ".join(re.sub(r"<[^>]+>", " ", text).split()))


def address(name, **inputs):
    return f"/sums/{name}?{urlencode(inputs)}"


def example_of(name):
    return query.sum_address(name, query.example_inputs(SUMS[name]), "mm")


# The index


def test_every_sum_stands_in_the_index_with_its_picture(looking):
    found = looking.get("/sums").text
    for asked in SUMS.values():
        assert f'<a href="/sums/{asked.name}">{asked.title}</a>' in found
        assert asked.text in unescape(found)
    assert found.count("<svg") == len(SUMS)


@pytest.mark.parametrize(
    "find, name",
    [
        ("press fit", "interference"),
        ("valve guide", "interference"),
        ("bushing", "interference"),
        ("gage", "gauge-study"),
        ("oil pump", "centring"),
        ("thou", "convert"),
        ("cSt", "viscosity"),
        ("rotor end clearance", "end-leakage"),
        ("oil gallery", "inlet-edge-loss"),
        ("cube law", "slot-leakage"),
        ("feeler", "blade-stack"),
        ("crow-foot", "wrench-extension"),
        ("clamp", "tightening"),
        ("rod bolt", "stretch"),
        ("helical insert", "stripping"),
        ("moly", "equal-preload"),
    ],
)
def test_a_sum_is_found_by_words_of_either_side_of_the_sea(looking, find, name):
    found = looking.get("/sums", params={"find": find}).text
    assert f'href="/sums/{name}"' in found
    assert found.count("<article") < len(SUMS)


def test_what_no_sum_answers_to_leads_back_to_all(looking):
    found = looking.get("/sums", params={"find": "<b>nothing of the kind"}).text
    assert "No sum answers to “&lt;b&gt;nothing of the kind”" in found
    assert "Show all" in found


# Every sum


@every_sum
def test_an_empty_sum_says_what_to_do_and_shows_its_picture(looking, name):
    found = looking.get(f"/sums/{name}")
    assert found.status_code == 200
    assert "Type the numbers you have" in found.text
    assert "With the numbers of the example" in found.text
    assert "<svg" in found.text
    assert "Working" not in words(found.text)
    for each in SUMS[name].inputs:
        assert f'"{each.key}' in found.text  # as a field, or as the fields of its items


@every_sum
@pytest.mark.parametrize("family", ["mm", "inch"])
def test_the_example_is_answered_as_the_command_answers_it(looking, name, family):
    found = words(looking.get(example_of(name).replace("units=mm", f"units={family}")).text)
    result = run(name, SUMS[name].example)
    for step in result.working:
        assert step.title in found
        assert " ".join(step.formula.split()) in found
    for caution in result.cautions:
        assert caution in found
    for output in SUMS[name].outputs:
        figure = result.results[output.key]
        exists = figure is not None and figure.value is not None and figure.value != ()
        if exists and not output.columns:
            text = answering.figure_text(figure, family, interval=output.is_interval)
            assert text in found, output.key


@every_sum
def test_the_example_is_filled_in_by_one_tap(looking, name):
    link = re.search(r'href="([^"]+)">Fill in the example', looking.get(f"/sums/{name}").text)[1]
    assert looking.get(unescape(link)).text.count("Source: ") >= 1 or name == "blade-stack"
    assert "Working" in looking.get(unescape(link)).text


@every_sum
def test_json_is_what_the_command_writes(looking, name):
    given = looking.get(example_of(name) + "&json")
    wanted = json.loads(json.dumps(as_object(run(name, SUMS[name].example))))
    assert given.headers["content-type"] == "application/json"
    assert given.json() == wanted
    assert looking.get(f"/sums/{name}?json").json() == json.loads(json.dumps(schema(SUMS[name])))


@every_sum
def test_the_address_of_an_answer_gives_the_same_answer_in_the_other_units(looking, name):
    first = looking.get(example_of(name)).text
    own = unescape(re.search(r'data-address="([^"]+)"', first)[1])
    for family in ("mm", "inch"):
        again = looking.get(own + f"&units={family}&json").json()
        assert again == looking.get(example_of(name) + "&json").json()
        assert unescape(re.search(r'data-address="([^"]+)"', looking.get(own).text)[1]) == own


@every_sum
def test_without_a_page_nothing_but_the_answer_comes(looking, name):
    found = looking.get(example_of(name), headers={"hx-request": "true"}).text
    assert "<html" not in found
    assert "<form" not in found
    assert found.lstrip().startswith('<div id="answer"')
    # Notes are sent only for fields that were sent, so that none misses its place.
    sent = {name for name, _ in parse_qsl(example_of(name).partition("?")[2])}
    notes = set(re.findall(r'<p id="([a-z0-9-]+)-note" hx-swap-oob', found))
    fields_sent = {fields._id(each) for each in sent}
    lists = {note for note in notes if note.startswith("list-")}
    items = {note for note in notes if re.fullmatch(r"[a-z-]+-\d+", note)}
    assert notes - lists - items <= fields_sent


@pytest.mark.parametrize("shop", ["empty_shop", "begun_shop"])
def test_sums_need_no_build(asking, request, shop):
    client = asking(request.getfixturevalue(shop))
    assert client.get("/sums").status_code == client.get(example_of("blades")).status_code == 200
    assert "Blades of this shop" not in client.get("/sums/blade-stack").text


def test_an_unknown_sum_is_said_with_the_nearest(looking):
    found = looking.get("/sums/interferense")
    assert found.status_code == 404
    assert "did you mean" in found.text
    assert "interference" in found.text


# Units and what is typed


def test_a_number_without_a_unit_is_in_the_unit_beside_its_field(looking):
    mm = {"lower_limit": "0.04", "answers.1.thickness": "0.06", "answers.1.answer": "goes", "units": "mm"}
    inch = mm | {"lower_limit": "1.5", "answers.1.thickness": "2.5", "units": "inch"}
    first = looking.get("/sums/blades", params=mm)
    assert "0.04 mm (2 thou)" in words(first.text)
    assert "lower_limit=0.04+mm" in first.text
    assert looking.get("/sums/blades", params=mm | {"json": ""}).json()["largest_that_goes"]["value"] == 6e-5
    assert "1.5 thou (0.038 mm)" in words(looking.get("/sums/blades", params=inch).text)


def test_sizes_are_typed_in_inches_and_fractions_of_them(looking):
    asked = {"shaft_diameter": "1 1/2", "interference": "2", "hub_outer_diameter": "2.5", "units": "inch"}
    asked |= {"hub_material": "steel", "shaft_material": "steel"}
    found = looking.get("/sums/interference", params=asked | {"json": ""}).json()
    assert found["interference"]["value"] == pytest.approx(2 * 2.54e-5, abs=1e-12)
    assert "1.5 in (38 mm)" in words(looking.get("/sums/interference", params=asked).text)


def test_this_browser_keeps_its_units(asking, empty_shop):
    client = asking(empty_shop)
    assert '<span class="sum-unit">mm</span>' in client.get("/sums/interference").text
    client.get("/sums/interference?units=inch")
    assert '<span class="sum-unit">in</span>' in client.get("/sums/interference").text


def test_all_that_is_wrong_stands_at_its_fields_at_once(looking):
    wrong = {"shaft_diameter": "thirty", "hub_outer_diameter": "4 bar", "length": "-3", "units": "mm"}
    found = looking.get("/sums/interference", params=wrong).text
    said = {
        name: words(error)
        for name, error in re.findall(r'id="([a-z-]+)-note"><strong class="sum-error">(.*?)</strong>', found)
    }
    assert set(said) == {"shaft-diameter", "hub-outer-diameter", "length"}
    assert "pressure where a length is wanted" in said["hub-outer-diameter"]
    assert "must be above 0 mm" in said["length"]
    assert all(each.endswith(".") for each in said.values())
    for value in wrong.values():
        assert f'value="{value}"' in found  # what was typed stands in the form


def test_what_is_only_missing_is_asked_for_and_is_no_error(looking):
    found = looking.get("/sums/interference", params={"shaft_diameter": "35 mm"}).text
    assert "Still needed" in found
    assert "Hub outer diameter" in found
    assert "sum-error" not in found


def test_a_slip_in_a_list_is_said_at_its_item(looking):
    rows = {"members.1.size": "54.02", "members.1.name": "housing", "members.3.size": "49.9x"}
    found = looking.get("/sums/missing-part", params=rows | {"upper_limit": "0.06"}).text
    assert re.search(r'id="members-3-size-note"><strong class="sum-error">', found)
    both = {"gaps.1.angle": "top", "gaps.1.gap": "0.1", "gaps.1.at_least": "0.1"}
    others = {f"gaps.{n}.{key}": value for n in (2, 3) for key, value in (("angle", "right"), ("gap", "0.1"))}
    found = looking.get("/sums/centring", params=both | others).text
    assert "Give either gap, or at least and less than." in words(found)
    found = looking.get("/sums/five-lift", params={"indications": "56.001; 56.0x; 56.002"}).text
    assert "Item 2:" in words(found)


def test_a_sum_without_an_answer_says_why(looking):
    asked = query.example_inputs(SUMS["interference"]) | {"hub_outer_diameter": "34 mm"}
    found = looking.get(query.sum_address("interference", asked, "mm"))
    assert found.status_code == 200
    assert '<p class="said refused"><strong>' in found.text
    assert looking.get(query.sum_address("interference", asked, "mm", "json")).status_code == 422


def test_what_is_typed_is_escaped(looking):
    evil = '"><script>alert(1)</script>'
    for name in SUMS:
        asked = {each.key: evil for each in SUMS[name].inputs}
        asked |= {"members.1.name": evil, "members.1.size": evil, "gaps.1.angle": evil}
        found = looking.get(f"/sums/{name}", params=asked).text
        assert "<script>alert" not in found
    named = query.example_inputs(SUMS["centring"]) | {"top_name": "<script>alert(1)"}
    found = looking.get(query.sum_address("centring", named, "mm")).text
    assert "<script>alert" not in found
    assert "&lt;script&gt;" in found


def test_what_no_input_is_called_is_passed_over(looking):
    found = looking.get(example_of("blades") + "&nothing=1&answers.1.nothing=2&members.1.size=3")
    assert "Working" in found.text


# Blades, and the shop's own sets


def test_a_set_of_the_shop_is_taken_as_a_whole(looking, shown_shop):
    assert "F1" in shown_shop.state.blade_sets
    found = looking.get(address("blade-stack", wanted_thickness="0.47 mm", set="F1")).text
    for each in shown_shop.state.blade_sets["F1"].body.blades:
        assert f"{each.thickness * 1e3:.4f} mm u {each.standard_uncertainty * 1e3:.4f} mm" in found
    assert "Working" in found


def test_contradictory_blades_are_shown_and_never_averaged(looking):
    asked = {"units": "mm", "answers.1.thickness": "0.07", "answers.1.answer": "goes", "upper_limit": "0.08"}
    asked |= {"answers.2.thickness": "0.05", "answers.2.answer": "does not go"}
    found = words(looking.get("/sums/blades", params=asked).text)
    assert "These answers cannot all be right" in found
    assert "0.07 mm goes" in found


# A study as a table


TABLE = """
\tbuilder\tbuilder\tapprentice\tapprentice
1\t55.991\t55.992\t55.993\t55.992
2\t55,985\t55,985\t55.986\t55.985
3\t55.998\t55.997\t55.999\t55.998
"""


def test_a_study_pasted_from_a_workbook_is_the_study_of_the_example(looking):
    asked = {"readings": TABLE, "limit_band": "0.020", "units": "mm", "json": ""}
    assert looking.get("/sums/gauge-study", params=asked).json() == json.loads(
        json.dumps(as_object(run("gauge-study", SUMS["gauge-study"].example)))
    )


def test_a_cell_that_is_missing_is_named(looking):
    gap = TABLE.replace("55.986", "")
    found = words(looking.get("/sums/gauge-study", params={"readings": gap, "units": "mm"}).text)
    assert "give apprentice, part 2, reading 1" in found
    slip = TABLE.replace("55.986", "55.98x6")
    found = words(looking.get("/sums/gauge-study", params={"readings": slip, "units": "mm"}).text)
    assert "55.98x6" in found
    assert "No answer yet" in found


def test_a_grid_of_names_alone_is_an_empty_form(looking):
    found = looking.get("/sums/gauge-study", params={"readings": ";builder;builder\n1;;\n2;;"}).text
    assert "Type the numbers you have" in found


# Contexts


def test_every_field_of_the_pages_of_sums_is_shown_somewhere(looking, read):
    for name in SUMS:
        looking.get(example_of(name))
        looking.get(example_of(name), headers={"hx-request": "true"})
    looking.get("/sums")
    looking.get("/sums/interference", params={"shaft_diameter": "35 mm"})
    assert not unread([sums, index, page, fields, answering, pictures, query], read)


# In a browser


@pytest.fixture(scope="module")
def served_sums(shown_shop):
    with serving(create_app(shown_shop)) as address:
        yield address


@pytest.fixture
def tab(browser):
    with page_of(browser) as (opened, errors):
        yield opened
        assert errors == []


def test_the_answer_follows_as_one_types_and_the_hand_stays_in_the_field(tab, served_sums):
    tab.goto(f"{served_sums}/sums/blades?units=mm")
    tab.focus("#answers-1-thickness")
    tab.keyboard.type("0.06")
    tab.click(".sum-key:has-text('goes') >> nth=0")
    assert tab.evaluate("document.activeElement.id") == "answers-2-thickness"
    tab.keyboard.type("0.07")
    tab.click("[data-item] >> nth=1 >> .sum-key:has-text('does not go')")
    tab.fill("#upper-limit", "0.075")
    tab.wait_for_selector("#answer .sum-leads:has-text('within')")
    assert tab.evaluate("document.activeElement.id") == "upper-limit"
    assert "0.075 mm (3.0 thou)" in tab.inner_text("#upper-limit-note")
    assert "within" in tab.inner_text("#spoken")
    assert tab.locator("[data-item]").count() == 3
    tab.wait_for_url("**upper_limit=0.075+mm**")
    tab.reload()
    assert tab.input_value("#answers-2-thickness") == "0.07 mm"
    assert tab.is_checked("[data-item] >> nth=1 >> input[value='does not go']")
    tab.fill("#upper-limit", "0.0x")
    tab.wait_for_selector("#upper-limit-note .sum-error")
    assert tab.input_value("#upper-limit") == "0.0x"


def test_a_sum_is_printed_with_its_picture_and_working_and_without_the_form(tab, served_sums):
    tab.goto(served_sums + example_of("blades"))
    tab.emulate_media(media="print")
    for shown in (".sum-figure svg", ".sum-leads", ".steps table"):
        assert tab.is_visible(shown)
    for gone in ("#sum", ".sum-take", ".top"):
        assert not tab.is_visible(gone)


def test_the_way_back_leads_to_the_answer_before(tab, served_sums):
    tab.goto(f"{served_sums}/sums/convert")
    tab.fill("#amount", "2.5 thou")
    tab.press("#amount", "Enter")
    tab.wait_for_selector("#answer:has-text('0.0635 mm')")
    tab.fill("#amount", "10 thou")
    tab.press("#amount", "Enter")
    tab.wait_for_selector("#answer:has-text('0.254 mm')")
    tab.wait_for_url("**amount=10+thou**")
    tab.go_back()
    tab.wait_for_selector("#answer:has-text('0.0635 mm')")
    assert tab.input_value("#amount") == "2.5 thou"


def test_a_table_is_pasted_into_the_grid(tab, served_sums):
    tab.goto(f"{served_sums}/sums/gauge-study?units=mm")
    paste = """([words]) => {
      const carried = new DataTransfer();
      carried.setData("text", words);
      const cell = document.querySelector('[data-row="0"][data-column="0"]');
      const how = { clipboardData: carried, bubbles: true, cancelable: true };
      cell.dispatchEvent(new ClipboardEvent("paste", how));
    }"""
    tab.evaluate(paste, [TABLE])
    tab.wait_for_selector("#answer .sum-leads")
    assert tab.locator(".study-grid tr").count() == 4
    tab.fill('[data-row="2"][data-column="3"]', "")
    tab.wait_for_selector("#answer:has-text('apprentice, part 2, reading 1')")
    tab.fill('[data-row="2"][data-column="3"]', "55.986")
    tab.wait_for_selector("#answer .sum-leads")


def test_without_script_a_sum_is_answered_by_its_button(browser, served_sums):
    with page_of(browser, java_script_enabled=False) as (tab, _):
        tab.goto(f"{served_sums}/sums/blade-stack")
        tab.fill("#wanted-thickness", "0.47")
        tab.click("button:has-text('F1')")
        assert "Working" in tab.inner_text("#answer")
        assert "Blades" in tab.inner_text(".sum-leads")
        tab.goto(f"{served_sums}/sums/blades?units=mm")
        tab.fill("#answers-1-thickness", "0.06")
        tab.check("[data-item] >> nth=0 >> input[value='goes']", force=True)
        tab.click("button.take")
        assert "above" in tab.inner_text(".sum-leads")
        assert tab.locator("[data-item]").count() == 2
