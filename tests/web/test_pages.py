"""Pages at no build, at a build without readings, and at the demo; pages for what goes wrong."""

import re

import pytest

from fitwright.assess.results import State, Verdict
from fitwright.records.kinds import NotMeasured
from fitwright.web.pages import builds
from fitwright.web.security import HEADERS, LARGEST_FORM

FIT = "/builds/corrie-five/fits/main.4.running_clearance"


def articles(page):
    return re.findall(r'<article class="fit is-([\w-]+)" id="fit-([^"]+)"', page)


def words(page):
    """The text of a page, without its markup."""
    return " ".join(re.sub(r"<[^>]+>", " ", page).split())


def test_without_a_build_the_page_says_how_to_begin(asking, empty_shop):
    page = asking(empty_shop).get("/")
    assert page.status_code == 200
    assert "No build yet" in page.text
    assert "from a few questions about the engine" in page.text


def test_a_build_without_readings_says_what_to_do_next(asking, begun_shop):
    client = asking(begun_shop)
    page = client.get("/builds/first/fits").text
    assert "Nothing is measured yet" in page
    assert articles(page)
    assert {verdict for verdict, _ in articles(page)} <= {"not-measured", "unproven"}
    assert "There is nothing" not in words(page)
    assert client.get("/").text.count("<article") == 1
    for _, subject in articles(page):
        fit = client.get(f"/builds/first/fits/{subject}")
        assert fit.status_code == 200
        assert "No reading yet" in fit.text or "Working" in fit.text


def test_the_page_of_a_build_shows_every_verdict_once(looking, shown_shop):
    for code in ("corrie-five", "brackengill-eleven"):
        for state in State:
            found = shown_shop.assessment(code, state)
            page = looking.get(f"/builds/{code}/fits", params={"state": state.value}).text
            shown = articles(page)
            every = {**found.verdicts, **found.unlimited}
            assert sorted(shown) == sorted((each.verdict.value, name) for name, each in every.items())
            assert "nothing to judge" in page or not found.unlimited
            assert f"Not recorded: {len(found.not_recorded)}" in page
            for each in found.not_recorded:
                assert each.title in page


@pytest.mark.parametrize("verdict", list(Verdict))
def test_a_filter_shows_only_its_verdict(looking, shown_shop, verdict):
    found = shown_shop.assessment("corrie-five", State.AS_RECEIVED)
    asked = {"state": "as-received", "only": verdict.value}
    page = looking.get("/builds/corrie-five/fits", params=asked).text
    wanted = [name for name, each in found.verdicts.items() if each.verdict is verdict]
    assert sorted(name for _, name in articles(page)) == sorted(wanted)
    assert f"{len(wanted)}</a>" in page
    assert ("No fit is" in page) == (not wanted)


def test_a_filter_that_holds_for_nothing_leads_back_to_all(looking, shown_shop):
    assert shown_shop.assessment("corrie-five").count(Verdict.OUTSIDE) == 0
    page = looking.get("/builds/corrie-five/fits?only=outside").text
    assert "No fit is outside" in page
    assert "Show all fits" in page


def test_stations_are_jumped_to_by_anchors_that_are_there(looking, shown_shop):
    page = looking.get("/builds/corrie-five/fits").text
    jumps = re.findall(r'<a href="#(station-[\w-]+)">', page)
    assert jumps == re.findall(r'<section class="station" id="(station-[\w-]+)"', page)
    assert len(jumps) == len(
        {each.station for each in shown_shop.assessment("corrie-five").verdicts.values()}
    )


def test_both_states_stand_side_by_side_where_they_are_not_within_in_both(looking, shown_shop):
    before = shown_shop.assessment("corrie-five", State.AS_RECEIVED).verdicts
    after = shown_shop.assessment("corrie-five", State.CURRENT).verdicts
    within = {name for name in after if before[name].verdict is after[name].verdict is Verdict.WITHIN}
    page = looking.get("/builds/corrie-five/fits?state=both").text
    for name, each in after.items():
        assert (f"<strong>{each.name}</strong>" in page) == (name not in within)
    assert f"{len(within)} fits that are within in both states are not listed" in page


def test_a_build_is_shown_in_the_units_of_its_sheet_or_in_those_asked_for(looking):
    assert " thou" in looking.get("/builds/brackengill-eleven/fits").text
    assert " thou" not in looking.get("/builds/brackengill-eleven/fits?units=mm").text
    assert " thou" not in looking.get("/builds/corrie-five/fits").text
    assert " thou" in looking.get("/builds/corrie-five/fits?units=inch").text


def test_no_page_says_that_an_engine_is_good(looking):
    for address in ("/", "/builds/corrie-five/fits", "/builds/brackengill-eleven/fits", FIT):
        said = words(looking.get(address).text).lower()
        for claim in ("engine is good", "engine is sound", "passed", "all good", "approved"):
            assert claim not in said
    assert "engine maker's manual and local codes govern" in words(
        looking.get("/builds/corrie-five/fits").text
    )


def test_metal_is_not_to_come_off_before_a_second_reading(looking):
    sentence = "Before metal comes off: read again with a fresh setting"
    assert sentence in looking.get("/builds/corrie-five/fits?state=as-received").text
    assert sentence in looking.get(f"{FIT}?state=as-received").text
    assert sentence not in looking.get(FIT).text


def test_what_was_left_out_on_purpose_says_why(client, shop):
    body = NotMeasured(subject="valve.1.inlet.lash", because="the head is still at the seat cutter")
    shop.write([shop.entry(body, build="brackengill-eleven")])
    page = client.get("/builds/brackengill-eleven/fits").text
    assert "not measured, because the head is still at the seat cutter" in page


@pytest.mark.parametrize(
    "address",
    [
        "/nowhere",
        "/builds/none/fits",
        "/builds/none/fits?state=both",
        "/builds/corrie-five/fits/main.4.runing_clearance",
        "/static/none.js",
    ],
)
def test_what_is_not_there_is_said_and_what_to_do(looking, address):
    answer = looking.get(address)
    assert answer.status_code == 404
    assert "All builds" in answer.text
    if "runing" in address:
        assert "Did you mean main.4.running_clearance?" in answer.text


def test_a_page_cannot_be_written_to(looking):
    answer = looking.delete("/builds/corrie-five")
    assert answer.status_code == 405
    assert "Nothing was taken" in answer.text
    assert "GET" in answer.headers["allow"]


@pytest.mark.parametrize("told", [True, False], ids=["length told", "length not told"])
def test_a_form_larger_than_any_reading_is_refused(looking, shown_shop, told):
    body = b"note=" + b"x" * LARGEST_FORM
    kind = {"content-type": "application/x-www-form-urlencoded"}
    before = shown_shop.record.head()
    answer = looking.post(
        "/builds/corrie-five/readings", content=body if told else iter([body]), headers=kind
    )
    assert answer.status_code == 413
    assert "larger than any reading can be; nothing was taken" in answer.text
    assert shown_shop.record.head() == before


def test_a_fault_of_the_program_says_what_is_safe(client, monkeypatch):
    def faulty(*_, **__):
        message = "a mistake of ours"
        raise ZeroDivisionError(message)

    monkeypatch.setattr(builds, "_context", faulty)
    answer = client.get("/")
    assert answer.status_code == 500
    assert "is safe in the record" in answer.text
    assert "a mistake of ours" not in answer.text
    assert answer.headers["content-security-policy"] == HEADERS["content-security-policy"]


def test_within_a_page_in_use_a_problem_goes_where_answers_go(looking):
    answer = looking.post("/builds/none/readings", headers={"hx-request": "true"})
    assert answer.status_code == 404
    assert answer.headers["hx-retarget"] == "#answer"
    assert "<html" not in answer.text


@pytest.mark.parametrize("address", ["/", "/builds/corrie-five/fits", FIT, "/nowhere", "/static/bench.css"])
def test_every_answer_carries_the_strict_policy(looking, address):
    answer = looking.get(address)
    for name, value in HEADERS.items():
        assert answer.headers[name] == value
    policy = answer.headers["content-security-policy"]
    assert "unsafe" not in policy
    assert "default-src 'none'" in policy


def test_pages_are_not_kept_by_a_browser(looking):
    assert looking.get(FIT).headers["cache-control"] == "no-store"


def test_no_page_has_script_or_style_of_its_own_or_from_elsewhere(looking):
    for address in (
        "/",
        "/builds/corrie-five/fits?state=as-received",
        "/builds/corrie-five/fits?state=both",
        FIT,
    ):
        page = looking.get(address).text
        assert not re.search(r"<script(?![^>]*\bsrc=)", page)
        assert not re.search(r"<style|\sstyle=|\son\w+=", page)
        assert not re.search(r'(?:src|href|action)="(?:https?:)?//', page)
