"""A shop that builds in inches, from the first page on: inches where no unit stands, and no unit mixed up."""

import re

import pytest

from fitwright.records.kinds import BuildStarted, Person
from fitwright.starter.errors import AnswerError
from fitwright.starter.questions import answers_from_words
from fitwright.starter.sheet import write_sheet
from fitwright.web.sheet_text import stations_of
from tests.web.test_shop_pages import Client

VEE = {"name": "Vee eight", "units": "inch", "arrangement": "vee", "valve_train": "pushrod", "bore": "4 1/8"}
CODE = "vee"
IN_INCHES = 'aria-current="true">inch<'
IN_MILLIMETRES = 'aria-current="true">mm<'


def words(page):
    return " ".join(re.sub(r"<[^>]+>", " ", page).split())


@pytest.fixture
def inch(asking, empty_shop):
    sheet = write_sheet(answers_from_words(VEE))
    empty_shop.start_build(CODE, sheet, BuildStarted(code=CODE, title="Vee eight", sheet=""))
    empty_shop.write([empty_shop.entry(Person(code="builder", name="Builder"))])
    return Client(asking(empty_shop), empty_shop)


def test_the_shop_and_the_sums_are_in_inches_where_all_builds_are(inch):
    people = words(inch.http.get("/shop/people").text)
    assert re.search(r"a blade drags from 0\.118 thou \(0\.0030* mm\), known to 0\.0787 thou", people), people
    gauge = "/shop/instruments?kind=bore+gauge"
    assert inch.form(gauge, "instrument")["resolution"] == "0.0001 in"
    assert "as bore gauge 2 to 3 in" in words(inch.http.get(gauge).text)
    assert IN_INCHES in inch.http.get("/sums/blades").text
    assert IN_MILLIMETRES in inch.http.get("/sums/blades?units=mm").text


def test_a_shop_with_builds_of_both_kinds_stays_in_millimetres(looking):
    assert IN_MILLIMETRES in looking.get("/sums/blades").text


@pytest.mark.parametrize("unit, markings", [("in", ".002 .003"), ("mm", "0.05 0.06")])
def test_the_uncertainty_of_blades_is_read_in_the_unit_of_its_field(inch, unit, markings):
    address = "/shop/blades?list=inch-26"
    assert inch.form(address, "blades")["uncertainty"] == "0.12 thou"
    inch.send(address, "blades", unit=unit, blades=markings, uncertainty=".0001")
    held = inch.state.blade_sets["F1"].body
    assert held.blades[0].standard_uncertainty == pytest.approx(2.54e-6)
    change = inch.form("/shop/blades/F1", "change")
    assert change["uncertainty"] == ("0.0001 in" if unit == "in" else "0.00254 mm")


def test_a_hand_is_said_in_thou(inch):
    assert inch.form("/shop/people", "person")["drag"] == "0.12 thou"
    inch.send("/shop/people", "person", name="Apprentice", drag="0.2")
    assert inch.state.people["apprentice"].body.drag == pytest.approx(0.2 * 25.4e-6)
    assert inch.form("/shop/people/apprentice", "change")["drag"] == "0.2 thou"


def test_who_was_entered_goes_back_to_measure(inch):
    page = inch.send("/shop/people", "person", name="Apprentice")
    assert f'<a href="/builds/{CODE}/measure?units=inch">Measure Vee eight</a>' in page


def test_a_master_is_said_as_finely_as_it_is_made(inch):
    inch.send("/shop/instruments?kind=bore+gauge", "instrument", title="Bore gauge 2 to 3 in")
    page = inch.send("/shop/settings?gauge=B1", "setting", size="2 1/2", against="ring")
    assert "set to 2.5 in (63.500 mm)" in words(page)


def test_the_only_person_measures_at_a_temperature_in_fahrenheit(inch):
    page = inch.http.get(f"/builds/{CODE}/measure/mains").text
    assert "in °F, or °C if you say so" in page
    assert page.count('<option value="builder" selected>') == 2
    assert 'value="68.0 °F"' in page


def test_a_form_on_paper_says_inches_in_words(inch):
    page = words(inch.http.get(f"/builds/{CODE}/forms/mains").text)
    assert "; in inches" in page
    assert "in in " not in page


def test_one_of_a_thing_is_one_and_two_rods_are_rods(inch):
    sheet = inch.shop.bench(CODE).sheet
    titles = [each.title for each in sheet.fits.values()]
    assert "Crankpin 1, side clearance of rods 1 and 2" in titles
    said = {each.words for each in stations_of(sheet)}
    assert "1 size, 1 place" in said
    assert not any(re.search(r"\b1 (sizes|places)", each) for each in said)


def test_a_size_that_cannot_be_is_refused_in_inches():
    with pytest.raises(AnswerError, match=r'"0.1 in" is no such size; answer 0.7874 in to 23.62 in'):
        answers_from_words(VEE | {"bore": "0.1"})
    with pytest.raises(AnswerError, match=r'answer it as "2\.641 in"'):
        answers_from_words(VEE | {"bore": "about four"})
