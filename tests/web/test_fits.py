"""The page Fits: filters that combine and live in the address, search, order, hot line, what is sent."""

import re
import time
from dataclasses import replace
from statistics import median

import pytest
from starlette.datastructures import QueryParams

from fitwright.assess.results import Reason, State, Verdict
from fitwright.drawing.figures import Reader
from fitwright.records.kinds import Note, Photo
from fitwright.web import changing_form, fit_lines
from fitwright.web.filters import Filters, least_in_hand
from fitwright.web.pages import both, choices, fit_behind, fit_evidence, fit_history, panel
from tests.support.contexts import unread
from tests.support.serving import form_of
from tests.support.small_sheet import SHEET, read_clearance, small_story

CODE = "corrie-five"
FITS = f"/builds/{CODE}/fits"


def shown(page):
    """The fits on a page, in their order."""
    return re.findall(r'<article class="fit[^"]*" id="fit-([^"]+)"', page)


def words(page):
    return " ".join(re.sub(r"<[^>]+>", " ", page).split())


def hits(page):
    return re.search(r'id="hits"[^>]*>([^<]*)<', page)[1]


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
def open_shop_small(told):
    """Unproven for several reasons: too coarse, no limit adopted, incomplete."""
    story = small_story()
    read_clearance(story)
    story.tries("gap", None, "F:0.05", "goes")
    story.reads("seat_diameter", None, "40.085", instrument="M", setting="S-M")
    return told(story)


def test_each_filter_shows_what_it_says_and_its_count(asking, open_shop_small):
    client = asking(open_shop_small)
    found = open_shop_small.assessment("small").verdicts
    asked = {
        "only=unproven": {n for n, v in found.items() if v.verdict is Verdict.UNPROVEN},
        "why=no-limit-adopted": {n for n, v in found.items() if v.reason is Reason.NO_LIMIT_ADOPTED},
        "why=incomplete": {n for n, v in found.items() if v.reason is Reason.INCOMPLETE},
        "critical=1": {n for n, v in found.items() if v.limit_class == "critical"},
        "thumb=1": {"end_float", "side"},
        "critical=1&thumb=1": {"end_float"},
        "critical=1&q=end+play": {"end_float"},
    }
    assert asked["why=no-limit-adopted"]
    assert asked["why=incomplete"] == {"seat_grip"}
    for query, expected in asked.items():
        page = client.get(f"/builds/small/fits?{query}").text
        assert set(shown(page)) == expected, query
        assert hits(page).startswith(f"{len(expected)} of {len(found)} fits")


def test_every_count_of_a_choice_is_what_the_choice_shows(asking, open_shop_small):
    client = asking(open_shop_small)
    page = client.get("/builds/small/fits?critical=1").text
    narrowing = page.partition('class="narrowing"')[2].partition("</div>\n</div>")[0]
    links = re.findall(r'<a href="([^"]+)"[^>]*>([^<]*?) (\d+)</a>', narrowing)
    assert len(links) >= 6
    for address, label, count in links:
        if label in ("critical", "rule of thumb") and "critical" in label:
            continue  # it is chosen: its link lets go of it
        other = client.get(address.replace("&amp;", "&")).text
        assert len(shown(other)) == int(count), label


def test_a_filter_that_is_chosen_lets_go(asking, open_shop_small):
    client = asking(open_shop_small)
    page = client.get("/builds/small/fits?critical=1").text
    address = re.search(r'<a href="([^"]+)" aria-current="true">critical', page)[1]
    assert "critical" not in address


@pytest.mark.parametrize(
    "query", ["only=nonsense", "why=nonsense", "station=nowhere", "sort=x", "hot=x", "after=x"]
)
def test_what_means_nothing_is_passed_over(looking, query):
    page = looking.get(f"{FITS}?{query}")
    assert page.status_code == 200
    assert len(shown(page.text)) == 195


def test_filters_survive_units_and_states_and_the_search_form(looking):
    page = looking.get(f"{FITS}?critical=1&station=mains&hot=full_load&sort=in-hand&q=main").text
    for link in re.findall(r'<a href="(/builds/corrie-five/fits\?[^"#]+)"', page):
        if "units=inch" in link or "state=both" in link:
            for part in ("critical=1", "station=mains", "hot=full_load", "sort=in-hand", "q=main"):
                assert part in link
    form = page.partition('role="search"')[2].partition("</form>")[0]
    carried = dict(re.findall(r'type="hidden" name="([^"]+)" value="([^"]+)"', form))
    assert carried == {"state": "current", "units": "mm", "critical": "1", "hot": "full_load"}
    assert 'value="main"' in form
    assert re.search(r'<option value="mains" selected>', form)


def test_a_search_that_finds_nothing_says_so_and_leads_back(looking):
    page = looking.get(f"{FITS}?q=zz+top&only=outside").text
    assert "No fit is outside, called &#34;zz top&#34;" in page
    assert "Show all fits" in page
    assert shown(page) == []


def test_the_least_in_hand_comes_first_as_a_share_of_the_limits(looking, shown_shop):
    found = shown_shop.assessment(CODE, State.AS_RECEIVED).verdicts
    page = looking.get(f"{FITS}?state=as-received&sort=in-hand").text
    order = shown(page)
    assert order == [each.id for each in least_in_hand(found.values())]
    outside = {name for name, each in found.items() if each.verdict is Verdict.OUTSIDE}
    assert set(order[: len(outside)]) == outside
    assert set(order[-1:]) <= {n for n, v in found.items() if v.in_hand is None}


def test_the_hot_line_can_be_chosen_or_left_out(looking):
    pages = {hot: looking.get(f"{FITS}?hot={hot}").text for hot in ("", "full_load", "none")}
    bars = {hot: page.count('class="bar-hot"') for hot, page in pages.items()}
    assert bars[""] == bars["full_load"] > 50
    assert bars["none"] == 0
    assert pages[""] != pages["full_load"]
    assert "not judged" in pages[""]


def test_the_size_wanted_of_a_missing_member_is_said(asking, told):
    story = small_story()
    for place in ("front", "rear"):
        story.reads("journal", place, "55.450", instrument="M", setting="S-M")
    shop = told(story)
    client = asking(shop)
    wanted = shop.assessor("small").verdict("clearance").size_wanted
    page = words(client.get("/builds/small/fits").text)
    said = re.search(r"Fitted bore: ([\d.]+) to ([\d.]+) mm, read with B, would be within", page)
    low, high = (float(each) * 1e-3 for each in said.groups())
    assert wanted.low <= low < high <= wanted.high
    for fitted, verdict in (
        (low, "within"),
        (high, "within"),
        (low - 2e-6, "unproven"),
        (high + 2e-6, "unproven"),
    ):
        again = small_story()
        read_clearance(again, fitted=f"{fitted * 1e3:.4f}")
        assert again.verdict("clearance").verdict.value == verdict


def test_both_states_are_filtered_by_either(looking, shown_shop):
    before = shown_shop.assessment(CODE, State.AS_RECEIVED).verdicts
    page = looking.get(f"{FITS}?state=both&only=outside").text
    outside = [each.name for each in before.values() if each.verdict is Verdict.OUTSIDE]
    assert re.findall(r'<div role="rowheader"><strong>([^<]+)</strong>', page) == outside
    assert page.count('class="limit-scale"') == len(outside)


def test_only_lines_that_changed_are_drawn_again(client, shop):
    first = client.get(FITS).text
    at = re.search(r'data-position="(\d+)"', first)[1]
    same = client.get(f"{FITS}?after={at}").text
    assert shown(same) == shown(first)
    assert same.count("data-same") == 195
    assert len(same) < len(first) / 8
    lash = f"/builds/{CODE}/fits/valve.1.inlet.a.lash"
    form = form_of(client.get(lash).text)
    sent = form | {"place": "valve.1.inlet.a.cam_gap|whole", "blade": "F3:0.20", "answer": "does not go"}
    answer = client.post(f"/builds/{CODE}/readings", data=sent)
    assert "Kept as entry" in answer.text
    changed = client.get(f"{FITS}?after={at}").text
    fresh = [name for name in shown(changed) if f'id="fit-{name}" data-same' not in changed]
    assert fresh == ["valve.1.inlet.a.lash"]
    assert shop.position > int(at)


def test_a_page_of_2000_readings_is_answered_fast_and_weighs_little(asking, opened, tmp_path):
    from benchmarks.large_build import large_shop

    large_shop(tmp_path / "large").close()
    client = asking(opened(tmp_path / "large"))
    address = "/builds/large/fits"
    page = client.get(address)
    assert len(shown(page.text)) == 263
    taken = []
    for query in ("", "?q=rod+bearing", "?sort=in-hand", "?after=99999") * 5:
        begun = time.perf_counter()
        assert client.get(address + query).status_code == 200
        taken.append(time.perf_counter() - begun)
    weight = page.num_bytes_downloaded / 1e3
    print(f"median of {len(taken)}: {1e3 * median(taken):.0f} ms, {weight:.0f} kB as sent")
    assert median(taken) < 0.1
    assert page.num_bytes_downloaded < 60_000


def test_filters_say_in_an_address_what_they_are(shown_shop):
    sheet = shown_shop.bench(CODE).sheet
    for text in (
        "",
        "only=outside",
        "why=too-coarse&critical=1",
        "thumb=1&station=mains&q=end+play&hot=none&sort=in-hand",
        "hot=full_load",
    ):
        filters = Filters.of(QueryParams(text), sheet)
        assert Filters.of(QueryParams(dict(filters.address())), sheet) == filters
        assert (filters.address() == {}) == (text == "")


def test_every_field_of_every_part_is_shown_somewhere(client, asking, shop, told, read):
    shop.write([shop.entry(Note(subject="main.4", text="Tang marks on the shell"), build=CODE)])
    subject = f"/builds/{CODE}/fits/main.4.running_clearance"
    digest = shop.keep_photo(PIXEL, "image/png")
    photo = Photo(digest=digest, media_type="image/png", caption="Shell 4", subject="main.4.journal")
    shop.write([shop.entry(photo, build=CODE)])
    verdict = shop.assessor(CODE).verdict("main.4.running_clearance")
    entry, unused = verdict.readings[0], verdict.unused[0].entry
    for address in (
        f"{FITS}?station=mains&critical=1",
        f"{FITS}?state=both",
        f"{FITS}?q=zz",
        f"{subject}?reading={entry}",
        f"{subject}?reading={unused}",
        f"{subject}/history",
        f"{subject}?state=as-received",
        f"/builds/{CODE}/fits/piston.2.pin_clearance",
    ):
        assert client.get(address).status_code == 200, address
    story = small_story()
    read_clearance(story)
    again = story.reads("journal", "front", "55.452", instrument="M", setting="S-M")
    blade = story.tries("gap", None, "F:0.05", "goes")
    small = asking(told(story))
    for address in (f"clearance?reading={again}", f"end_float?reading={blade}"):
        assert small.get(f"/builds/small/fits/{address}").status_code == 200, address
    form = form_of(small.get(f"/builds/small/fits/clearance?reading={again}").text, "reading changing")
    typed = {"value": "554.52", "reason": "x", "do": "correct", "answered-other": "keep"}
    small.post("/builds/small/fits/clearance/readings", data=form | typed)
    left = unread([fit_lines, both, choices, panel, fit_behind, fit_evidence, fit_history], read)
    assert left | unread([changing_form], read) == set()


PIXEL = bytes.fromhex(
    "89504e470d0a1a0a0000000d49484452000000010000000108060000001f15c4890000000d49444154789c6360606060"
    "0000000500015a4e5b390000000049454e44ae426082"
)


def test_what_is_to_be_read_is_called_as_the_sheet_calls_it(open_shop_small):
    with open_shop_small.held():
        assessor = open_shop_small.assessor("small")
        found = open_shop_small.assessment("small", State.CURRENT).verdicts.values()
        one = next(each for each in found if each.reason is Reason.INCOMPLETE)
        said = fit_lines.next_words(assessor, replace(one, size_wanted=None), Reader("inch"))
    assert said == f"read {assessor.judge.sheet.dimensions[one.missing[0]].title}"


def test_nothing_is_certain_to_settle_a_fit_before_it_is_read(looking):
    page = looking.get("/builds/corrie-five/fits").text
    assert "likely to settle it" in page
    assert "100% likely" not in page
    assert "in its window" not in page
