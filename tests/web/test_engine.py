"""The page Engine: every station on the section with its state, along and across, cold and hot."""

import re

import pytest

from fitwright.assess.results import State, Verdict

BUILDS = ["corrie-five", "brackengill-eleven"]


@pytest.mark.parametrize("build", BUILDS)
@pytest.mark.parametrize("view", ["along", "across"])
@pytest.mark.parametrize("temperature", ["cold", "hot"])
@pytest.mark.parametrize("attitude", ["upright", "stand"])
def test_every_station_stands_on_the_section_once_and_leads_to_measuring(
    looking, shown_shop, build, view, temperature, attitude
):
    asked = {"view": view, "temperature": temperature, "attitude": attitude}
    page = looking.get(f"/builds/{build}", params=asked).text
    drawing = page.partition('class="section-scroll"')[2].partition("</svg>")[0]
    for station in shown_shop.bench(build).sheet.stations:
        assert len(re.findall(rf'href="/builds/{build}/measure/{re.escape(station)}\?', drawing)) == 1, (
            station
        )


def test_a_station_says_how_many_of_its_fits_are_in_which_state(looking, shown_shop):
    found = shown_shop.assessment("corrie-five", State.CURRENT).verdicts.values()
    unproven = [each for each in found if each.verdict is Verdict.UNPROVEN]
    page = looking.get("/builds/corrie-five").text
    title = shown_shop.bench("corrie-five").sheet.stations[unproven[0].station].title
    assert f'aria-label="{title}: {len(unproven)} unproven' in page
    assert re.search(rf">{re.escape(title)}</a> <span>{len(unproven)} unproven", page)


def test_hot_is_said_to_be_estimated(looking):
    page = looking.get("/builds/corrie-five", params={"temperature": "hot"}).text
    assert re.search(r"\d+ estimated", page)
    assert "not judged" in page


def test_the_choices_keep_each_other(looking):
    page = looking.get("/builds/corrie-five", params={"view": "across", "temperature": "hot"}).text
    assert "view=across&amp;temperature=hot&amp;attitude=stand" in page


def test_an_empty_build_shows_its_engine_with_nothing_measured(asking, begun_shop):
    client = asking(begun_shop)
    page = client.get("/builds/first").text
    assert "<svg" in page
    assert "not measured" in page
    assert "Nothing is read yet" in client.get("/builds/first").text


def test_a_build_with_readings_says_nothing_of_beginning(looking):
    assert "Nothing is read yet" not in looking.get("/builds/corrie-five").text


def test_a_sheet_that_states_no_geometry_is_drawn_and_says_so(asking, begun_shop):
    page = asking(begun_shop).get("/builds/first").text
    assert "scale" in page
