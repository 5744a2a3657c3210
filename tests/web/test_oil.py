"""The page Oil: every state of it, what-ifs in the address, figures with their differences, readings, oil."""

import re
from dataclasses import replace
from urllib.parse import parse_qs, urlsplit

import pytest

from fitwright.assess.oil.desk import OilDesk
from fitwright.assess.oil.results import StopValue
from fitwright.assess.oil.stops import CROSSED
from fitwright.assess.oil.words import NOT_MODELLED
from fitwright.model.circuit import StopAction
from fitwright.records.kinds import OilChosen, PressureReading, Withdrawal
from fitwright.web.oil_work import OilWork
from fitwright.web.pages import oil
from fitwright.web.pages.oil import (
    card,
    entering,
    known,
    moving,
    parts,
    pictures,
    rotors,
    show,
    start_readings,
    telling,
)
from tests.support.contexts import unread
from tests.support.oil_bands import banded_at_once
from tests.support.oil_unmeasured import shop_not_measured, shop_without_limits

pytestmark = pytest.mark.long

CODE, THOU = "corrie-five", "brackengill-eleven"
OIL = f"/builds/{CODE}/oil"
WHAT_IF = {"units": "mm", "w.mains": "0.020"}


@pytest.fixture
def shop(shop):
    """The demo before its first start: what the example read of pressures then is taken back."""
    while read := shop.bench(CODE).build.pressure_readings:  # a correction gone brings back what it corrected
        back = [Withdrawal(entry=each.entry.id, reason="before the first start") for each in read]
        shop.write([shop.entry(body, build=CODE) for body in back])
    return shop


def lead(text):
    """The pressure at the gauge that leads the page, and the difference beside it."""
    found = re.search(
        r'<dd class="number">([\d.]+) (?:bar|psi)(?: <span class="oil-change">(.*?)</span>)?', text
    )
    return float(found[1]), found[2] or ""


def rows(text, table):
    """The rows of one table of figures: name, then its cells."""
    whole = re.search(rf'id="{table}".*?</table>', text, re.DOTALL)[0]
    found = re.findall(r"<tr[^>]*><th scope=\"row\">(.*?)</th>(.*?)</tr>", whole, re.DOTALL)
    return {
        re.sub(r"<span.*?</span>|<[^>]+>", "", name): re.findall(r'<td class="number">(.*?)</td>', cells)
        for name, cells in found
    }


def form(text, number):
    """The hidden fields of the page's form for a reading (0) or for the oil (1)."""
    whole = re.findall(r'<form class="record oil-enter".*?</form>', text, re.DOTALL)[number]
    return dict(re.findall(r'<input type="hidden" name="([\w:.-]+)" value="([^"]*)"', whole))


# What there is.


@pytest.mark.parametrize("code, unit", [(CODE, "bar"), (THOU, "psi")])
def test_the_page_leads_with_the_pressure_in_the_units_of_the_shop(looking, code, unit):
    text = looking.get(f"/builds/{code}/oil").text
    assert 'data-state="ready"' in text
    assert lead(text)[0] > 0.0
    assert f"{unit} at the gauge" in text
    assert "A prediction, not a limit" in text
    assert all(each.replace("'", "&#39;") in text for each in NOT_MODELLED)


def test_it_stands_beside_fits_in_the_row_of_pages(looking):
    assert re.search(
        r'/fits\?units=mm">Fits</a><a href="/builds/corrie-five/oil\?units=mm"', looking.get(OIL).text
    )


def test_a_sheet_without_a_circuit_says_how_to_describe_one(asking, begun_shop):
    text = asking(begun_shop).get("/builds/first/oil").text
    assert 'data-state="empty"' in text
    assert "No oil circuit in the sheet" in text
    assert 'href="/builds/first/sheet"' in text
    assert "oil-lead" not in text


def test_while_the_computation_is_made_ready_the_page_says_so_and_comes_by_itself(client, monkeypatch):
    monkeypatch.setattr(OilWork, "answer", lambda *_args, **_more: None)
    text = client.get(OIL, params=WHAT_IF).text
    assert "Getting ready." in text
    part = re.search(r'<div id="oil-all"[^>]*>', text)[0]
    assert "load delay" in part
    assert "w.mains=0.020" in part
    fragment = client.get(f"{OIL}/answer", params=WHAT_IF).text
    assert "Getting ready." in fragment
    assert f'hx-get="{OIL}/answer?' in fragment


def test_what_is_not_known_is_named_with_what_to_do(asking, opened, tmp_path):
    text = asking(shop_without_limits(opened(tmp_path / "unknown"))).get("/builds/second/oil").text
    assert 'data-state="problem"' in text
    assert "Nothing is predicted" in text
    assert "/builds/second/measure" in text


def test_a_build_of_which_nothing_is_measured_has_a_prediction_without_its_name(asking, opened, tmp_path):
    text = asking(shop_not_measured(opened(tmp_path / "begun"))).get("/builds/second/oil").text
    title = re.search(r"<h1>(.*?)</h1>", text)[1]
    assert "not measured" in title
    assert "Corrie" not in title
    assert lead(text)[0] > 0.0
    assert text.count("anywhere from") > 10
    assert "critical" in text


# Where one looks.


def test_another_operating_point_is_a_link(looking):
    text = looking.get(OIL).text
    links = re.findall(r'<a href="([^"]*at=pull-4000[^"]*)"', text)
    there = looking.get(links[0].replace("&amp;", "&")).text
    assert lead(there)[0] > lead(text)[0]
    assert "4000 rev/min, oil 110 °C" in there


def test_a_point_of_ones_own_is_asked_by_speed_and_temperature(looking):
    own = {"units": "mm", "at": "chosen", "speed": "900", "temperature": "110"}
    assert lead(looking.get(OIL, params=own).text) == lead(looking.get(OIL).text)
    fahrenheit = {"units": "inch", "at": "chosen", "speed": "900 rpm", "temperature": "230 degF"}
    assert lead(looking.get(OIL, params=fahrenheit).text)[0] == pytest.approx(14.5038 * 2.5, rel=0.2)


@pytest.mark.parametrize("wrong", ["", "fast", "-900", "900000", "1e400", "½"])
def test_a_point_that_is_none_leaves_hot_idle(looking, wrong):
    own = {"units": "mm", "at": "chosen", "speed": wrong, "temperature": "110"}
    assert lead(looking.get(OIL, params=own).text) == lead(looking.get(OIL).text)


# What if.


def test_a_what_if_in_the_address_says_the_difference_beside_each_figure(looking):
    measured, changed = looking.get(OIL).text, looking.get(OIL, params=WHAT_IF).text
    before, after = rows(measured, "pressures"), rows(changed, "pressures")
    assert lead(measured)[1] == ""
    idle = float(after["hot idle"][0].split()[0]) - float(before["hot idle"][0].split()[0])
    assert lead(changed)[1].startswith("\N{MINUS SIGN}")
    said = float(after["hot idle"][2].replace("\N{MINUS SIGN}", "-").split()[0])
    assert said == pytest.approx(idle, abs=0.11)  # the figures themselves are rounded by their bands
    assert "mains +0.020 mm" in changed
    assert 'class="fig chart pressure-speed"' in changed
    assert "ch-what-if" in changed
    assert "ch-what-if" not in measured


def test_what_stands_as_measured_moves_nothing(looking):
    text = looking.get(OIL).text
    now = dict(re.findall(r'name="(w\.[^"]+)" type="text" inputmode="text" value="([^"]*)"', text))
    assert len(now) > 8
    answer = looking.get(OIL, params={"units": "mm", **now}).text
    assert lead(answer) == lead(text)
    assert "oil-changed" not in answer


def test_millimetres_and_thou_ask_the_same(looking):
    text = looking.get(OIL, params=WHAT_IF).text
    inch = re.search(r'<a href="([^"]*)">inch</a>', text)[1].replace("&amp;", "&")
    asked = parse_qs(urlsplit(inch).query)
    assert asked["units"] == ["inch"]
    assert float(asked["w.mains"][0]) == pytest.approx(0.020 / 0.0254, abs=0.03)
    assert lead(looking.get(inch).text)[0] == pytest.approx(14.5038 * lead(text)[0], rel=0.01)


@pytest.mark.parametrize("typed", ["wide", "9 mm", "-5", "0.02 bar", "<b>"])
def test_what_cannot_be_moved_so_far_is_said_at_its_field(looking, typed):
    text = looking.get(OIL, params={"units": "mm", "w.mains": typed}).text
    assert 'aria-invalid="true"' in text
    assert "<b>" not in text
    assert lead(text) == lead(looking.get(OIL).text)


def test_a_part_of_the_page_answers_while_one_moves_and_then_the_bands(looking, monkeypatch):
    monkeypatch.setattr(OilWork, "there", lambda *_args: None)
    answer = looking.get(f"{OIL}/answer", params={"units": "mm", "w.big ends": "0.011"}).text
    assert "<html" not in answer
    assert lead(answer)[1]
    assert "Working the band out" in answer
    assert 'id="oil-rest"' not in answer
    monkeypatch.undo()
    bands = re.search(r'hx-get="([^"]*bands=1)"', answer)[1].replace("&amp;", "&")
    banded = looking.get(bands).text
    assert "95 % band" in banded
    assert 'id="oil-rest"' in banded
    assert "Working the band out" not in banded
    assert lead(banded)[0] == pytest.approx(lead(answer)[0], abs=0.051)  # bands take digits


def test_two_what_ifs_are_held_against_each_other(looking):
    text = looking.get(OIL, params=WHAT_IF).text
    keep = re.search(r'<a href="([^"]*)">Keep this as A', text)[1].replace("&amp;", "&")
    address = keep.replace("w.mains=0.020", "w.mains=0.040")
    assert address != keep
    text = looking.get(address).text
    assert "Full lines: what-if A" in text
    table = re.search(r"<caption>A: (.*?)</caption>.*?</table>", text, re.DOTALL)
    assert "mains +0.020 mm" in table[1]
    idle = re.search(r'<th scope="row">hot idle</th>(.*?)</tr>', table[0], re.DOTALL)[1]
    measured, first, second, change = re.findall(r'<td class="number">(.*?)</td>', idle)
    assert float(measured.split()[0]) > float(first.split()[0]) > float(second.split()[0])
    assert change.startswith("\N{MINUS SIGN}")
    again = re.search(r'<a href="([^"]*)">No comparison', text)[1].replace("&amp;", "&")
    assert "a.mains" not in again
    assert "w.mains=0.040" in again


def test_everything_goes_back_to_as_measured(looking):
    text = looking.get(OIL, params={**WHAT_IF, "a.mains": "0.01", "at": "pull-4000"}).text
    reset = re.search(r'<a href="([^"]*)">As measured</a>', text)[1].replace("&amp;", "&")
    assert parse_qs(urlsplit(reset).query) == {"units": ["mm"], "at": ["pull-4000"]}


def test_nothing_of_a_what_if_is_recorded(client, shop):
    before = shop.position
    client.get(OIL, params=WHAT_IF)
    client.get(f"{OIL}/answer", params={**WHAT_IF, "bands": "1"})
    client.get(f"{OIL}/card")
    assert shop.record.head().seq == before


# Readings of a first start.


def read_by(client, **typed):
    text = client.get(OIL).text
    fields = {"person": "builder", "speed": "900", "temperature": "110", "gauge": "2.5", "zero": "0.0"}
    return client.post(f"{OIL}/readings?units=mm", data=form(text, 0) | fields | typed)


def test_a_reading_is_kept_and_stands_on_the_band(client, shop):
    predicted = lead(client.get(OIL).text)[0]
    answer = read_by(client, gauge=f"{predicted:.2f}", step="reference idle", seconds="6")
    assert answer.status_code == 200
    assert "Kept as entry" in answer.text
    entry = list(shop.record.entries())[-1]
    assert entry.kind == PressureReading.kind
    assert entry.person == "builder"
    assert "inside the band" in answer.text
    assert "reference idle" in answer.text
    assert "ch-reading" in answer.text


@pytest.mark.parametrize(
    "typed, stands, words",
    [
        ({"gauge": "1.2"}, "below the band", "Low at hot idle"),
        ({"gauge": "1.2", "zero": ""}, "below the band", "its zero was not read"),
        ({"gauge": "6.5", "speed": "4000"}, "above the band", "stuck or shimmed"),
        ({"gauge": "2", "speed": "4000"}, "below the band", "Low at speed"),
        ({"gauge": "0.1", "speed": "250", "temperature": "18"}, "below the band", "not primed"),
        ({"gauge": "1", "speed": "1500", "temperature": "20"}, "below the band", "Low on cold oil"),
    ],
)
def test_a_reading_outside_the_band_says_where_to_look_the_gauge_first(client, typed, stands, words):
    text = read_by(client, **typed).text
    assert stands in text
    look = re.search(r'<li value="1" class="outside">(.*?)</li>', text, re.DOTALL)[1]
    assert look.index("First the gauge") < look.index(words) or words.startswith("its zero")
    assert words in look


@pytest.mark.parametrize("beyond, stands", [(-0.04, "at the edge of the band"), (-0.06, "below the band")])
def test_half_of_the_last_digit_typed_is_no_difference(client, shop, beyond, stands):
    low = shop.oil(CODE).banded().points[0].gauge_pressure.low
    shown = round(low / 1e5, 1)
    answer = read_by(client, gauge=f"{shown:.1f}", zero=f"{shown - low / 1e5 - beyond:.5f}")
    assert stands in answer.text


def test_a_slip_is_asked_about_and_its_answer_kept(client, shop):
    answer = read_by(client, temperature="230")
    assert "A question first" in answer.text
    assert "did you mean" in answer.text
    fields = form(answer.text, 0) | {
        "person": "builder",
        "speed": "900",
        "temperature": "230",
        "gauge": "2.5",
    }
    before = shop.position
    kept = client.post(f"{OIL}/readings?units=mm", data=fields | {"answer_to_question": "keep"})
    assert "Kept as entr" in kept.text
    assert shop.position == before + 2


def test_a_reading_is_corrected_with_a_reason(client, shop):
    text = read_by(client, gauge="3.5").text
    address = re.search(r'<a href="([^"]*correct=[^"]*)"', text)[1].replace("&amp;", "&")
    asked = client.get(address).text
    assert 'name="gauge" value="3.5"' in asked
    fields = form(asked, 0) | {"person": "builder", "speed": "900", "temperature": "110", "gauge": "2.5"}
    refused = client.post(f"{OIL}/readings?units=mm", data=fields)
    assert refused.status_code == 422
    assert "reason" in refused.text
    fields = form(refused.text, 0) | fields | {"reason": "misread"}
    assert "Kept as entry" in client.post(f"{OIL}/readings?units=mm", data=fields).text
    assert [each.body.gauge_reading.typed for each in shop.bench(CODE).build.pressure_readings] == ["2.5"]


def test_what_is_refused_stands_in_the_form(client, shop):
    before = shop.position
    answer = read_by(client, gauge="2,5 quarts")
    assert answer.status_code == 422
    assert 'value="2,5 quarts"' in answer.text
    stale = read_by(client, token="x")
    assert stale.status_code == 403
    assert shop.position == before


def test_the_same_form_twice_counts_once(client, shop):
    fields = form(client.get(OIL).text, 0)
    fields |= {"person": "builder", "speed": "900", "temperature": "110", "gauge": "2.5"}
    for _ in range(2):
        assert client.post(f"{OIL}/readings?units=mm", data=fields).status_code == 200
    assert len(shop.bench(CODE).build.pressure_readings) == 1


# The oil.


def test_the_oil_is_said_and_the_prediction_follows_it(client, shop):
    text = client.get(OIL).text
    fields = form(text, 1) | {"person": "builder", "grade": "SAE 30"}
    answer = client.post(f"{OIL}/filled?units=mm", data=fields)
    assert "Kept as entry" in answer.text
    assert list(shop.record.entries())[-1].kind == OilChosen.kind
    assert "Computed for <strong>SAE 30</strong>" in answer.text
    assert lead(answer.text)[0] < lead(text)[0]


def test_readings_on_another_oil_are_not_held_against_the_band(client):
    assert "below the band" in read_by(client, gauge="1.2").text
    fields = form(client.get(OIL).text, 1) | {"person": "builder", "grade": "30"}
    text = client.post(f"{OIL}/filled?units=mm", data=fields).text
    assert "not held against the band: it was read on another oil" in text
    assert "below the band" not in text


def test_two_oils_at_once_are_refused(client, shop):
    before = shop.position
    fields = form(client.get(OIL).text, 1) | {"person": "builder", "grade": "30", "title": "Mine"}
    answer = client.post(f"{OIL}/filled?units=mm", data=fields)
    assert answer.status_code == 422
    assert "More than one oil" in answer.text
    assert shop.position == before


# The card, the rotors.


def test_the_card_has_a_box_beside_every_figure_and_the_fixed_lines(looking):
    text = looking.get(f"{OIL}/card").text
    cells, boxes = text.count('<strong class="number">'), text.count('class="oil-blank"')
    assert cells == boxes > 20
    assert "bar</strong>" in text
    assert "psi</span>" in text
    assert 'No pressure within <span class="oil-fill">12</span> seconds' in text
    for words in (
        "A knock",
        "in a step",
        "One named person calls stop",
        "Second gauge",
        "Corrie works manual",
    ):
        assert words in text
    assert "Expected pressures: Oil of Corrie Five" in text
    assert "record up to entry" in text


def test_the_card_of_a_stop_value_above_the_prediction_says_not_to_start(client, monkeypatch):
    crossed = StopValue(
        "",
        "the shop's foreman",
        4e5,
        94.2,
        383.15,
        None,
        CROSSED[StopAction.STOP],
    )
    monkeypatch.setattr(OilDesk, "banded", lambda *args: replace(banded_at_once(*args), stops=(crossed,)))
    for address in (f"{OIL}/card", OIL):
        text = client.get(address).text
        assert "do not start before you know why" in text
        assert "the shop&#39;s foreman" in text
    assert "The seconds are the engine maker&#39;s" in client.get(f"{OIL}/card").text.replace("'", "&#39;")


def test_the_card_of_an_engine_with_a_critical_size_unmeasured_has_no_name(asking, opened, tmp_path):
    text = asking(shop_not_measured(opened(tmp_path / "begun"))).get("/builds/second/oil/card").text
    printed = text.partition("<section")[2]
    assert "an engine of this sheet" in printed
    assert "Corrie Five" not in printed


def test_the_rotors_turn(looking):
    first, turned, large = (
        looking.get(f"{OIL}/rotors", params={"angle": angle, **more}).text
        for angle, more in ((0, {}), (20, {}), (20, {"clearances": "enlarged"}))
    )
    assert "Internal rotor pump" in first
    assert len({first, turned, large}) == 3
    assert "turned by 20°" in turned
    assert looking.get(OIL, params={"angle": "20"}).text.count("turned by 20°") == 2


def test_no_build_no_page(looking):
    for rest in ("", "/answer", "/card", "/rotors"):
        assert looking.get(f"/builds/nobody/oil{rest}").status_code == 404


# Every field.


def test_every_field_of_every_part_is_shown_somewhere(client, asking, begun_shop, read):
    read_by(client, gauge="1.2")
    text = client.get(OIL).text
    correct = re.search(r'<a href="([^"]*correct=[^"]*)"', text)[1].replace("&amp;", "&")
    for address in (
        OIL,
        correct,
        f"{OIL}/card",
        f"{OIL}/rotors",
        f"{OIL}?w.mains=0.02&a.mains=0.01&w.fuel=5",
    ):
        assert client.get(address).status_code == 200
    assert client.get(f"{OIL}?w.mains=wide").status_code == 200
    read_by(client, temperature="230")
    fields = form(text, 1) | {"title": "x", "kinematic_viscosity_40": "9000", "kinematic_viscosity_100": "11"}
    client.post(f"{OIL}/filled?units=mm", data=fields)
    answered = {"answered-x": "keep"}
    read_by(client, temperature="230", **answered)
    asking(begun_shop).get("/builds/first/oil")
    assert asking(shop_not_measured(begun_shop)).get("/builds/second/oil").status_code == 200
    assert not unread([oil, card, entering, known, moving, parts], read)
    assert not unread([pictures, rotors, show, start_readings, telling], read)
