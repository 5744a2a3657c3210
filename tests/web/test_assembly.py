"""The page Assembly: what can be done now, what is held, what changed; Done, Release, witness, undo."""

import re

import pytest

from fitwright.records.kinds import (
    ConsumableUsed,
    Fitting,
    Loosening,
    NotInThisJob,
    Part,
    StepDone,
    StepReleased,
    TakingOut,
    Withdrawal,
    WitnessInvited,
)
from fitwright.web import pins, work_line
from fitwright.web.pages.assembly import (
    conditions,
    show,
    step,
    steps,
    surroundings,
    timers,
)
from tests.support.assembly_shop import CODE, Workshop
from tests.support.contexts import unread

ASSEMBLY = f"/builds/{CODE}/assembly"


@pytest.fixture
def workshop(opened, tmp_path):
    return Workshop.open(opened(tmp_path / "small"))


@pytest.fixture
def small(asking, workshop):
    """A client of the small shop."""
    return asking(workshop.shop)


def plain(text):
    """A page as one reads it: without tags, one space between words."""
    text = re.sub(r"<(script|style|svg|title|desc).*?</\1>", " ", text, flags=re.DOTALL)
    return re.sub(r"\s+", " ", re.sub(r"<[^>]+>", " ", text)).replace("&#39;", "'").replace(" ,", ",")


def hidden_of(text, after):
    """The hidden fields of the first form behind some words."""
    form = text[text.index(after) :]
    form = form[form.index("<form") : form.index("</form>")]
    return dict(re.findall(r'<input type="hidden" name="([\w:.]+)" value="([^"]*)"', form))


def send(client, step_, do, **typed):
    """Send a form of a step as a person fills it in."""
    page = client.get(f"{ASSEMBLY}/steps/{step_}", params={"do": do}).text
    fields = hidden_of(page, 'id="entry"') | {"person": "builder"} | typed
    return client.post(f"{ASSEMBLY}/steps/{step_}/do/{do}", data=fields)


def last(shop, count=1):
    return list(shop.record.entries())[-count:]


def section(text, name):
    """What stands under a heading."""
    start = text.index(f'id="{name}"')
    return plain(text[start : text.index("</section>", start)])


# Looking.


def test_a_sheet_without_steps_says_how_to_add_them(asking, begun_shop):
    page = asking(begun_shop).get("/builds/first/assembly")
    assert page.status_code == 200
    assert "This engine sheet has no order of work. Write steps into the sheet" in plain(page.text)
    assert 'href="/builds/first/sheet"' in page.text


def test_what_can_be_done_now_comes_first_with_what_it_still_wants(small):
    page = small.get(ASSEMBLY).text
    assert "Nothing of the assembly was recorded yet." in page
    assert page.index('id="can"') < page.index('id="stage-1"')
    can = section(page, "can")
    assert can.startswith('id="can"> Can be done now') or "Can be done now" in can
    assert "Nothing yet: each step waits for something" in can
    assert "Nothing is left to do" not in can
    assert "Arrows of the caps" not in section(page, "stage-1")
    assert re.search(r"Fit the rods.*?waits for Lay the crank in", section(page, "stage-1"))


def test_a_step_in_front_names_its_cautions_and_the_page_says_them(workshop, small):
    workshop.laid_in()
    workshop.says(Loosening(group="caps", fasteners=("c2",), because="a shell was looked at"))
    page = plain(small.get(ASSEMBLY).text)
    assert "Cautions below: Tightening and breaking" in page
    assert "Stop at the value of the engine maker's manual" in page


def test_conditions_lead_to_where_they_are_seen_to(small):
    page = small.get(f"{ASSEMBLY}/steps/crank_in").text
    for address in (
        "/builds/small/fits/clearance?",
        "/builds/small/assembly/groups/caps?",
        "do=eye&amp;check=bench.turns",
        "do=photo&amp;subject=crank_in%2Farrows",
        "do=used&amp;consumable=paste",
    ):
        assert address in page, address


def test_a_step_says_what_it_hides_and_what_of_that_is_open(small):
    hides = section(small.get(f"{ASSEMBLY}/steps/cover_on").text, "hides")
    assert re.search(r"open: *Running clearance", hides)
    assert re.search(r"open: *Main caps", hides)


def test_a_step_that_is_not_there_is_said(small):
    answer = small.get(f"{ASSEMBLY}/steps/nothing%3Cb%3E")
    assert answer.status_code == 404
    assert "<b>" not in answer.text


# Doing.


def test_done_is_one_touch_once_nothing_is_missing(workshop, small):
    everything_for_the_first_step(workshop)
    page = small.get(ASSEMBLY).text
    fields = hidden_of(page, 'class="step-card"')
    assert fields["person"] == "builder"
    answer = small.post(f"{ASSEMBLY}/steps/{fields['step']}/do/done", data=fields)
    assert answer.status_code == 200
    (entry,) = last(workshop.shop)
    assert (entry.kind, entry.body["step"], entry.body["done_by"]) == (StepDone.kind, "crank_in", "builder")
    again = small.post(f"{ASSEMBLY}/steps/{fields['step']}/do/done", data=fields)
    assert again.status_code == 200
    assert last(workshop.shop) == [entry]


def test_a_step_that_waits_offers_no_button_and_a_forged_one_is_refused(workshop, small):
    page = small.get(f"{ASSEMBLY}/steps/rods_on").text
    assert 'action="/builds/small/assembly/steps/rods_on/do/done' not in page
    before = workshop.shop.position
    answer = send(small, "rods_on", "done")
    assert answer.status_code == 422
    assert "Lay the crank in" in plain(answer.text)
    assert workshop.shop.position == before


def held(workshop):
    """Everything up to the hold point, which is done and not released."""
    return held_after(workshop.laid_in())


def held_after(workshop):
    """From the first step to the hold point."""
    story = workshop.story
    story.rods()
    story.does("rods_on")
    story.answers("bench.leaks", yes=False)
    story.does("bottom_end")
    return workshop.tell()


def test_a_lone_builder_releases_without_a_pin_and_the_page_says_so(workshop, small):
    held(workshop)
    page = small.get(ASSEMBLY).text
    assert "Release the bottom end" in section(page, "held")
    assert "must release it before work goes on" in section(page, "held")
    form = small.get(f"{ASSEMBLY}/steps/bottom_end").text
    assert 'name="pin"' not in form
    assert "You are the only person of this shop" in form
    answer = send(small, "bottom_end", "release", later="yes")
    assert answer.status_code == 200
    (entry,) = last(workshop.shop)
    assert entry.kind == StepReleased.kind
    assert entry.body["later"] is True
    assert "the shop's only person" in plain(answer.text)


def test_once_there_are_two_a_release_wants_the_pin_of_who_releases(workshop, small):
    held(workshop).hires("second", "Second Builder")
    page = small.get(f"{ASSEMBLY}/steps/bottom_end").text
    assert 'name="pin"' in page
    before = workshop.shop.position
    assert send(small, "bottom_end", "release", person="second").status_code == 422
    assert workshop.shop.position == before
    set_up = {"person": "second", "pin_new": "492817", "pin_again": "492817"}
    answer = send(small, "bottom_end", "release", **set_up)
    assert answer.status_code == 200, plain(answer.text)
    assert last(workshop.shop)[0].body["released_by"] == "second"
    assert "492817" not in answer.text


def test_a_witness_is_invited_and_the_work_goes_on(workshop, small):
    workshop.story.closes()
    workshop.tell()
    answer = send(small, "fill", "witness", invited="The customer", answer="invited")
    assert answer.status_code == 200
    assert last(workshop.shop)[0].kind == WitnessInvited.kind
    assert "The customer: invited (Builder" in plain(answer.text)


def test_changed_since_says_what_changed_with_its_entry(workshop, small):
    workshop.laid_in()
    loosened = workshop.says(Loosening(group="caps", fasteners=("c2",), because="a shell was looked at"))
    seq = next(each.seq for each in last(workshop.shop) if each.id == loosened)
    page = small.get(ASSEMBLY).text
    assert "Changed since: 1" in section(page, "changed")
    assert f'href="/builds/small/record/{seq}"' in page
    assert "Changed since:" in plain(small.get(f"{ASSEMBLY}/steps/crank_in").text)


def test_a_fit_read_again_and_outside_reopens_its_step(workshop, small):
    workshop.laid_in().read_outside()
    page = small.get(f"{ASSEMBLY}/steps/crank_in").text
    assert "changed since" in plain(page)
    assert 'action="/builds/small/assembly/steps/crank_in/do/done' not in page


def test_done_is_undone_by_one_touch(workshop, small):
    everything_for_the_first_step(workshop)
    answer = send(small, "crank_in", "done")
    undo = hidden_of(answer.text, 'class="after"')
    back = small.post(f"{ASSEMBLY}/steps/crank_in/do/back", data=undo)
    assert back.status_code == 200
    assert last(workshop.shop)[0].kind == Withdrawal.kind
    assert "can be done" in plain(small.get(f"{ASSEMBLY}/steps/crank_in").text)


def test_a_consumable_says_its_batch_and_counts_until_it_has_cured(workshop, small):
    answer = send(small, "cover_on", "used", consumable="sealant", batch="B-12", expires="2031-04")
    assert answer.status_code == 200, plain(answer.text)
    assert last(workshop.shop)[0].kind == ConsumableUsed.kind
    page = small.get(ASSEMBLY).text
    assert "B-12" in section(page, "consumables")
    assert re.search(r"cured in *(24 h|23 h 5\d min|1 d)", section(page, "consumables"))
    assert 'data-until="20' in page


@pytest.mark.parametrize(
    "seconds, words",
    [(1, "1 min"), (3600, "1 h"), (3661, "1 h 2 min"), (86400, "1 d"), (90000, "1 d 1 h"), (172799, "2 d")],
)
def test_times_left_are_said_in_whole_minutes(seconds, words):
    assert timers.left_words(seconds) == words


def test_the_order_of_work_stands_in_a_line_on_the_pages_engine_and_builds(workshop, small):
    assert "0 of 7 steps done; next Lay the crank in waits for" in plain(small.get("/builds/small").text)
    held(workshop)
    for address in ("/builds/small", "/?whole=yes"):
        assert "2 of 7 steps done; next Release the bottom end held" in plain(small.get(address).text)


# On paper.


def test_the_order_of_work_is_printed_with_boxes(small):
    page = small.get(f"{ASSEMBLY}/paper").text
    assert page.count('class="paper-step"') == 7
    assert "released by" in plain(page)
    assert "witness (the customer)" in plain(page)
    one = small.get(f"{ASSEMBLY}/paper", params={"stage": "Top end"}).text
    assert one.count('class="paper-step"') == 1
    assert small.get(f"{ASSEMBLY}/paper", params={"stage": "no such"}).status_code == 404


def everything_for_the_first_step(workshop):
    """All that the first step asks for, and not the step."""
    workshop.story.lays_crank_in()
    workshop.story.new.pop()
    workshop.tell()


def test_every_field_of_these_parts_is_shown(workshop, small, read):
    small.get(ASSEMBLY)
    everything_for_the_first_step(workshop)
    small.get(ASSEMBLY)
    workshop.hires("second", "Second Builder")
    small.get(ASSEMBLY)
    story = workshop.story
    story.does("crank_in")
    held_after(workshop)
    small.get(f"{ASSEMBLY}/steps/bottom_end")
    workshop.says(Loosening(group="caps", fasteners=("c2",), because="looked at"))
    workshop.says(NotInThisJob(subject="head_again", reason="the owner does it"))
    workshop.says(Part(code="G-2", title="Gasket, new", position="gasket"))
    workshop.says(TakingOut(part="G-2", position="gasket"))
    workshop.says(Fitting(part="G-2", position="gasket"))
    story.uses("sealant", "cover_on", mixed_at="2026-12-01T08:00:00+00:00")
    story.uses("sealant", "cover_on", expires="2020-01-01")
    workshop.tell()
    small.get(ASSEMBLY)
    small.get(f"{ASSEMBLY}?do=heat")
    for name in ("crank_in", "rods_on", "bottom_end", "cover_on", "fill"):
        small.get(f"{ASSEMBLY}/steps/{name}")
    small.get("/builds/small")
    left = unread([show, step, steps, conditions, surroundings, timers, work_line, pins], read)
    assert left == set()
