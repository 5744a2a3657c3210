"""The form "New set" of a tightening group: its fields, what it would do, what it writes, its undo."""

import pytest

from fitwright.records.kinds import Part, Withdrawal
from tests.support.assembly_shop import CODE, TEXT, Workshop
from tests.support.new_set_sheet import POSITIONS
from tests.web.test_assembly import hidden_of, last, plain

GROUPS = f"/builds/{CODE}/assembly/groups"


@pytest.fixture
def workshop(opened, tmp_path):
    found = Workshop.open(opened(tmp_path / "small"), TEXT + POSITIONS)
    found.story.caps()
    return found.tell()


@pytest.fixture
def small(asking, workshop):
    return asking(workshop.shop)


def filled(small, name="caps", **typed):
    page = small.get(f"{GROUPS}/{name}", params={"do": "new-set"}).text
    return hidden_of(page, 'id="entry"') | {"person": "builder"} | typed


def test_it_is_offered_where_the_fasteners_are_positions(small):
    for name in ("caps", "flywheel"):
        assert "do=new-set" in small.get(f"{GROUPS}/{name}").text, name
    rods = small.get(f"{GROUPS}/rods", params={"do": "new-set"}).text
    assert "do=new-set" not in rods
    assert "A new set of fasteners" not in rods


def test_the_form_asks_which_what_they_are_called_and_where_they_come_from(small):
    page = small.get(f"{GROUPS}/caps", params={"do": "new-set"}).text
    form = page[page.index('data-keep="new-set"') :]
    form = form[: form.index("</form>")]
    assert form.count('name="fasteners"') == form.count('name="fasteners" value="c') == 4
    assert form.count(" checked") >= 4
    for name in ("stem", "origin", "words", "person"):
        assert f'name="{name}"' in form, name
    assert "which tightenings count no longer, before it is written" in plain(form)
    assert "Stop at the value of the engine maker's manual" in plain(form)


def test_it_says_before_what_counts_no_longer(workshop, small):
    position = workshop.shop.position
    asked = {"group": "caps", "fasteners": ["c1", "c2"], "stem": "RB2"}
    answer = plain(small.get(f"{GROUPS}/caps/do/new-set/effects", params=asked).text)
    assert "The tightening of 2 fasteners then no longer counts." in answer
    assert "Main caps c1 and c2, tightened with the parts that come out" in answer
    assert workshop.shop.position == position


def test_all_are_written_at_once_and_taken_back_at_once(workshop, small):
    fasteners = ["c1", "c2", "c3", "c4"]
    fields = filled(small, fasteners=fasteners, stem="RB2", origin="packet 7", words="one use each")
    answer = small.post(f"{GROUPS}/caps/do/new-set", data=fields)
    assert answer.status_code == 200, plain(answer.text)
    assert "The tightening of 4 fasteners now no longer counts." in plain(answer.text)
    found = last(workshop.shop, 4)
    assert [(each.kind, each.body["code"], each.body["position"]) for each in found] == [
        (Part.kind, f"RB2-{number}", name) for number, name in enumerate(fasteners, 1)
    ]
    assert {(each.person, each.body["origin"], each.body["reason"]) for each in found} == {
        ("builder", "packet 7", "one use each")
    }
    assert "0 of 4 complete" in plain(small.get(f"/builds/{CODE}/assembly").text)
    position = workshop.shop.position
    assert small.post(f"{GROUPS}/caps/do/new-set", data=fields).status_code == 200  # the same form twice
    assert workshop.shop.position == position
    back = small.post(f"{GROUPS}/caps/do/back", data=hidden_of(answer.text, 'class="said kept"'))
    assert back.status_code == 200, plain(back.text)
    assert [each.kind for each in last(workshop.shop, 4)] == [Withdrawal.kind] * 4
    assert workshop.shop.assembly(CODE).groups["caps"].complete


def test_a_code_that_is_there_is_refused_in_a_sentence(workshop, small):
    small.post(f"{GROUPS}/caps/do/new-set", data=filled(small, fasteners=["c1"], stem="RB2"))
    position = workshop.shop.position
    fields = filled(small, fasteners=["c1", "c2"], stem="RB2", origin="packet 8")
    answer = small.post(f"{GROUPS}/caps/do/new-set", data=fields)
    assert answer.status_code == 422
    assert "RB2-1 is there already: call the new set otherwise." in plain(answer.text)
    assert "packet 8" in answer.text  # what was typed is kept
    assert workshop.shop.position == position


def test_a_group_without_positions_refuses_one_that_is_sent(workshop, small):
    position = workshop.shop.position
    fields = filled(small, fasteners=["c1"], stem="RB2") | {"group": "rods", "fasteners": ["1a"]}
    answer = small.post(f"{GROUPS}/rods/do/new-set", data=fields)
    assert answer.status_code == 422
    assert "The sheet has no position for 1a of Rod bolts" in plain(answer.text)
    assert workshop.shop.position == position


def test_one_part_entered_by_itself_says_the_same_of_its_tightening(small):
    asked = {"position": "c1", "code": "RB9"}
    answer = plain(small.get(f"/builds/{CODE}/parts/part/effects", params=asked).text)
    assert "The tightening of 1 fastener then no longer counts." in answer
