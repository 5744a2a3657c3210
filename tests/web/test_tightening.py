"""The page of a tightening group: all of a pass in one touch, one by one, beside the sheet, on paper."""

import re
from dataclasses import replace
from html import unescape

import pytest

from fitwright.records.kinds import HeatCycle, Tightening, TighteningCheck, Withdrawal
from fitwright.web.pages.assembly import (
    effect,
    fastener_lines,
    group,
    group_facts,
    on_paper,
    pictures,
    tighten_form,
)
from tests.support.assembly_shop import CODE, Workshop
from tests.support.contexts import unread
from tests.web.test_assembly import hidden_of, last, plain, section

GROUPS = f"/builds/{CODE}/assembly/groups"


@pytest.fixture
def workshop(opened, tmp_path):
    return Workshop.open(opened(tmp_path / "small"))


@pytest.fixture
def small(asking, workshop):
    """A client of the small shop."""
    return asking(workshop.shop)


def fields_of(text):
    """What a browser would send of the form of a group, without a button."""
    form = text[text.index('<form id="tighten"') :]
    form = form[: form.index("</form>")]
    found = {
        name: unescape(value)
        for name, value in re.findall(r'<input type="hidden" name="([\w:.,=\- ]+)" value="([^"]*)"', form)
    }
    for select in re.findall(r"<select name=.*?</select>", form):
        name = re.match(r'<select name="(\w+)"', select)[1]
        chosen = re.search(r'value="([^"]*)" data-unit="[^"]*" selected|value="([^"]*)" selected', select)
        found[name] = next(filter(None, chosen.groups()), "") if chosen else ""
    chosen = re.search(r'name="what" value="(\w+)" checked', form)
    return found | ({"what": chosen[1]} if chosen else {})


def open_form(client, name="caps", **asked):
    return fields_of(client.get(f"{GROUPS}/{name}", params=asked).text)


def press(client, name="caps", *, at=None, asked=(), **typed):
    """Press the button for all, or enter one fastener."""
    fields = open_form(client, name, **dict(asked), **({"at": at} if at else {}))
    button = {"one": "yes"} if at else {"all": "yes"}
    data = fields | {"person": "builder", "wrench": "T3"} | button | typed
    return client.post(f"{GROUPS}/{name}/tighten", data=data)


def answered(client, answer, name="caps"):
    """Keep what was typed, as often as something is asked."""
    while 'name="question"' in answer.text:
        fields = fields_of(answer.text) | {"answer_to_question": "keep"}
        form = answer.text[answer.text.index('<form id="tighten"') :]
        typed = re.search(r'id="typed" name="value"[^>]* value="([^"]*)"', form)
        fields |= {"one": "yes", "value": typed[1]} if typed else {"all": "yes"}
        answer = client.post(f"{GROUPS}/{name}/tighten", data=fields)
    return answer


# All of a pass.


def test_all_of_a_pass_is_one_touch_and_one_entry(workshop, small):
    page = small.get(f"{GROUPS}/caps").text
    assert "All of pass 1: to 25 N·m" in plain(page)
    answer = press(small)
    assert answer.status_code == 200
    (entry,) = last(workshop.shop)
    assert entry.kind == Tightening.kind
    assert entry.body["fasteners"] == ["c1", "c2", "c3", "c4"]
    assert (entry.body["number"], entry.body["wrench"]) == (1, "T3")
    assert (entry.body["torque"]["typed"], entry.body["torque"]["si"]) == ("25 N·m", 25.0)
    assert "All of pass 2: to 45 N·m" in plain(answer.text)


def test_a_new_set_of_bolts_is_named_as_it_is_tightened(workshop, small):
    assert "New set of bolts" in small.get(f"{GROUPS}/caps").text
    answer = press(small, bolts="B2")
    (entry,) = last(workshop.shop)
    assert entry.body["members"] == {each: f"B2-{each}" for each in ("c1", "c2", "c3", "c4")}
    form = answer.text[answer.text.index('<form id="tighten"') :]
    assert re.search(r'name="bolts"[^>]* value=""', form), "the next pass is of the same bolts"


def test_the_wrench_of_last_time_is_chosen(workshop, small):
    assert open_form(small)["wrench"] == ""
    press(small)
    assert open_form(small)["wrench"] == "T3"
    assert open_form(small, "head")["wrench"] == "T3"


def test_the_same_touch_twice_counts_once(workshop, small):
    fields = open_form(small) | {"person": "builder", "wrench": "T3", "all": "yes"}
    first = small.post(f"{GROUPS}/caps/tighten", data=fields)
    position = workshop.shop.position
    again = small.post(f"{GROUPS}/caps/tighten", data=fields)
    assert (first.status_code, again.status_code) == (200, 200)
    assert "This had reached the record already." in again.text
    assert workshop.shop.position == position


def test_an_exception_leaves_the_others_to_one_touch(workshop, small):
    answer = answered(small, press(small, at="c1", value="25"))
    assert "The other 3 of pass 1: to 25 N·m" in plain(answer.text)
    press(small)
    assert last(workshop.shop)[0].body["fasteners"] == ["c2", "c3", "c4"]


def test_after_one_fastener_the_next_of_the_order_is_in_hand(small):
    answer = press(small, at="c1", value="25")
    assert 'name="at" value="c2"' in answer.text
    answer = answered(small, press(small, at="c4", value="25"))
    assert 'name="at" value="c2"' in answer.text  # c1 has had it, c2 comes before what else is left


def test_an_inch_reader_sends_and_reads_pound_feet(workshop, small):
    page = small.get(f"{GROUPS}/caps", params={"units": "inch"}).text
    assert "All of pass 1: to 18.4 lbf·ft" in plain(page)
    form = page[page.index('<form id="tighten"') : page.index("</form>", page.index('<form id="tighten"'))]
    assert "N·m" not in plain(form).partition("Wrench")[0]
    data = fields_of(page) | {"person": "builder", "wrench": "", "all": "yes"}
    answer = small.post(f"{GROUPS}/caps/tighten", params={"units": "inch"}, data=data)
    assert answer.status_code == 200
    body = last(workshop.shop)[0].body
    assert body["torque"]["unit"] == "lbf ft"
    assert 'class="small">not confirmed' not in answer.text
    assert small.get(f"{GROUPS}/caps").text.count("outside") == 0


# One by one, beside the sheet.


def test_a_torque_beside_the_sheet_is_asked_about_then_outside_until_conceded(workshop, small):
    for _ in range(2):
        press(small)
    answer = press(small, at="c1", value="60")
    assert answer.status_code == 200
    position = workshop.shop.position
    assert "60 N·m is above the sheet" in plain(answer.text)
    assert 'name="value" type="text"' in answer.text
    assert 'value="60"' in answer.text  # what was typed stands there
    answer = answered(small, answer)
    assert workshop.shop.position > position
    page = small.get(f"{GROUPS}/caps").text
    assert "outside" in section(page, "each")
    assert "do=grant&amp;subject=caps%2Fc1" in page


def test_what_a_torque_would_do_is_said_before_it_is_taken(small):
    def effect_of(**asked):
        usual = {"at": "c1", "what": "torque", "number": "3", "wrench": "T3"}
        return plain(small.get(f"{GROUPS}/caps/effect", params=usual | asked).text)

    as_stated = effect_of(value="52")
    assert "= 52 N·m (38 lbf·ft)" in as_stated
    assert "preload between" in as_stated
    assert "outside" not in as_stated
    above = effect_of(value="80")
    assert "Above the sheet's value." in above
    assert "of yield" in above
    assert "The maker's figure, lubricant and method govern." in above
    assert "deviation permit" in above
    assert "Below the sheet's value." in effect_of(value="30")
    assert "Not as the sheet says." in effect_of(value="52", lubricant="dry_degreased")
    for nothing in ("", "5x", "1,2,3"):
        assert effect_of(value=nothing).strip() == ""


def test_a_slip_of_the_unit_is_asked_about_and_mended(workshop, small):
    for _ in range(2):
        press(small)
    answer = press(small, at="c1", value="38 lbf ft")  # 52 N m
    assert 'name="question"' not in answer.text
    assert last(workshop.shop)[0].body["torque"]["typed"] == "38 lbf ft"


@pytest.mark.parametrize(
    "typed, words",
    [
        ({"value": ""}, "Nothing was typed"),
        ({"value": "tight"}, "tight"),
        ({"value": "25", "wrench": "M"}, "a torque wrench"),
        ({"value": "25", "person": "nobody"}, "Nobody here is"),
    ],
)
def test_what_cannot_be_read_is_refused_in_place_and_stays_typed(workshop, small, typed, words):
    position = workshop.shop.position
    answer = press(small, at="c1", **typed)
    assert answer.status_code == 422
    assert words in plain(answer.text)
    assert workshop.shop.position == position
    assert f'value="{typed["value"]}"' in answer.text


def test_undo_takes_the_tightening_back(workshop, small):
    answer = press(small)
    undo = hidden_of(answer.text, 'id="came"')
    back = small.post(f"{GROUPS}/caps/do/back", data=undo)
    assert back.status_code == 200
    assert last(workshop.shop)[0].kind == Withdrawal.kind
    assert "0 of 4 complete" in plain(small.get(f"/builds/{CODE}/assembly").text)


# Stretch.


def test_stretch_is_read_of_each_fastener_and_the_odd_one_is_named(workshop, small):
    page = plain(small.get(f"{GROUPS}/rods", params={"pass": 2}).text)
    assert "Stretch is read of each fastener by itself." in page
    workshop.story.rods(b3a=(58.0, 0.121))
    workshop.tell()
    page = small.get(f"{GROUPS}/rods").text
    assert "Odd one out: 3a," in plain(page)
    assert "torque-stretch" in page
    assert "5 (3a) stands apart" in page
    assert "bp-apart" in page


def test_two_lengths_make_a_stretch(workshop, small):
    press(small, "rods")
    lengths = {"what": "tightened_length", "free_length": "38.000", "value": "38.150", "also": "46"}
    answer = answered(small, press(small, "rods", at="1a", **lengths), "rods")
    assert answer.status_code == 200
    body = last(workshop.shop)[0].body if last(workshop.shop)[0].kind == Tightening.kind else None
    entries = [each for each in last(workshop.shop, 3) if each.kind == Tightening.kind]
    body = body or entries[-1].body
    assert body["free_length"]["si"] == pytest.approx(0.038, rel=1e-12)
    assert body["torque"]["si"] == 46.0
    assert "38.000 mm free, 38.150 mm tightened" in plain(answer.text)


# What else is recorded and said.


def test_marking_and_loosening_are_forms_of_the_group(workshop, small):
    for _ in range(3):
        press(small)

    def send(do, **typed):
        page = small.get(f"{GROUPS}/caps", params={"do": do}).text
        fields = hidden_of(page, 'id="entry"') | {"person": "builder"} | typed
        return small.post(f"{GROUPS}/caps/do/{do}", data=fields)

    assert send("check", fasteners=["c1", "c2"], check="marked").status_code == 200
    assert last(workshop.shop)[0].kind == TighteningCheck.kind
    answer = send("loosen", fasteners=["c3"], because="cap turned round", breakaway_torque="61")
    assert answer.status_code == 200, plain(answer.text)
    page = small.get(f"{GROUPS}/caps").text
    assert "loosened" in section(page, "each")
    assert "c3, loosened" in page  # in the drawing's words too


def test_left_hand_threads_castle_nuts_and_blind_holes_are_said_large(small):
    damper = small.get(f"{GROUPS}/damper").text
    assert "Left-hand thread: tighten anticlockwise" in damper
    assert "Castle nut: on to the next slot within the window, never back." in damper
    assert "to 60 N·m, up to 75 N·m" in damper
    assert "Left-hand" not in small.get(f"{GROUPS}/caps").text
    assert "Blind holes: look that each is clean and dry" in small.get(f"{GROUPS}/head").text


def test_over_tightening_is_cautioned_on_every_group(small, workshop):
    for name in workshop.story.sheet.tightening_groups:
        page = plain(small.get(f"{GROUPS}/{name}").text)
        assert "Stop at the value of the engine maker's manual" in page, name


def test_a_group_carries_the_cautions_of_the_steps_that_tighten_it(workshop):
    sheet = workshop.story.sheet
    step = next(each for each in sheet.steps.values() if "caps" in each.tightens)
    lifted = replace(sheet, steps={**sheet.steps, step.id: replace(step, cautions=("lifting",))})
    here = {
        name: [each.key for each in group_facts.cautions_here(sheet.tightening_groups[name], lifted)]
        for name in ("caps", "head")
    }
    assert here["caps"] == ["over_tightening", "lifting"]
    assert "lifting" not in here["head"]


def test_a_stripping_margin_says_for_which_thread(small):
    page = plain(press(small).text)
    assert re.search(r"[\d.]+ times the upper end to stripping, for a sound, clean, full-depth thread", page)


def test_an_engine_run_to_heat_is_cautioned(small):
    page = plain(small.get(f"/builds/{CODE}/assembly?do=heat").text)
    for words in ("Parts that turn:", "Hot oil:", "Hot cooling system:"):
        assert words in page


def test_a_pass_after_heat_waits_for_a_heat_cycle(workshop, small):
    page = small.get(f"{GROUPS}/head", params={"pass": 3}).text
    assert "Only after a heat cycle, and none was recorded." in page
    for _ in range(2):
        press(small, "head")
    workshop.says(HeatCycle(words="run an hour, cooled overnight"))
    page = small.get(f"{GROUPS}/head", params={"pass": 3}).text
    assert "Only after a heat cycle" not in page


def test_a_group_without_a_value_is_recorded_one_by_one(small):
    page = plain(small.get(f"{GROUPS}/cover").text)
    assert "The sheet states no value for this group yet." in page
    assert "All of pass" not in page


def test_the_calculated_preload_claims_no_more_than_it_may(small):
    words = section(small.get(f"{GROUPS}/caps").text, "preload")
    assert "Calculated from friction you chose; preload between" in words
    assert "The maker's figure, lubricant and method govern." in words
    assert "Not for fasteners tightened by angle or to yield." in words


def test_a_group_that_is_not_there_is_said(small):
    for rest in ("", "/paper", "/effect"):
        answer = small.get(f"{GROUPS}/nothing%3Cb%3E{rest}")
        assert answer.status_code == 404
        assert "<b>" not in answer.text
    assert small.post(f"{GROUPS}/nothing/tighten", data={}).status_code == 404


def test_a_group_is_printed_with_a_box_for_every_fastener_and_pass(small):
    page = small.get(f"{GROUPS}/caps/paper").text
    assert page.count('class="blank"') == 4 * (3 + 2)
    rods = small.get(f"{GROUPS}/rods/paper").text
    assert rods.count('class="blank"') == 10 * (2 + 2 + 2)
    assert "bolt-pattern" in rods


def test_without_the_token_nothing_is_taken(workshop, small):
    position = workshop.shop.position
    answer = press(small, token="stale")
    assert answer.status_code == 403
    assert workshop.shop.position == position


def test_every_field_of_these_parts_is_shown(workshop, small, read):
    answered(small, press(small, at="c1", value="60"))
    press(small, at="c2", value="25", wrench="T9", note="cold", lubricant="engine oil")
    answered(small, press(small, at="c2", value="25", wrench="T9", note="cold", lubricant="engine oil"))
    press(small, at="c3", value="90")
    entry = next(each for each in last(workshop.shop, 9) if each.kind == Tightening.kind)
    small.get(f"{GROUPS}/caps", params={"correct": entry.id, "at": "c1"})
    for name in ("caps", "rods", "head", "damper", "cover"):
        small.get(f"{GROUPS}/{name}")
        small.get(f"{GROUPS}/{name}/paper")
    workshop.story.rods(b3a=(58.0, 0.121))
    workshop.tell()
    small.get(f"{GROUPS}/rods", params={"at": "3a"})
    small.get(f"{GROUPS}/caps", params={"do": "loosen"})
    small.get(f"{GROUPS}/caps/effect", params={"at": "c1", "what": "torque", "value": "90", "number": "3"})
    small.get(f"/builds/{CODE}/assembly/paper")
    left = unread([effect, fastener_lines, group, group_facts, on_paper, pictures, tighten_form], read)
    assert left == set()
