"""A later revision of the sheet taken over: nothing is gone, and nothing means something else."""

from __future__ import annotations

import httpx
import pytest

from fitwright.assess.results import Reason, Verdict
from fitwright.bench.revising import ChangedSenseError
from fitwright.bench.taking import Taken, Taking, take_value
from fitwright.formats.sheet import read_sheet
from fitwright.records.kinds import BuildStarted, Choice, RevisionTakenOver, StatedSize, Typed
from fitwright.web.app import create_app
from fitwright.wiring import open_shop
from tests.assess.test_any_record import ask_everything
from tests.support import small_sheet
from tests.support.serving import serving
from tests.support.small_sheet import SHEET, read_clearance, small_story

JOURNAL = '[dimensions.journal]\ntitle = "Journal"\npart = "crank"\nsense = "diametral"'
RENAMED = SHEET.replace("[dimensions.journal]", "[dimensions.pin]").replace("- journal", "- pin")
OTHER_PLACES = SHEET.replace('["front", "rear"]', '["a", "rear"]')
WITHOUT_SEAT = (
    SHEET[: SHEET.index("[dimensions.seat_bore]")]
    .replace('[parts.seat]\ntitle = "Valve seat"\nmaterial = "steel"\n', "")
    .replace('seat = "200 degC"\n', "")
)
RADIAL = (
    SHEET.replace(JOURNAL, JOURNAL.replace("diametral", "radial"))
    .replace("- journal", "- 2 * journal")
    .replace('"55.450 mm"', '"27.725 mm"')
)
TIGHTENED = SHEET.replace(JOURNAL, f'{JOURNAL}\ncondition = "tight"').replace(
    "[parts.block]", '[conditions.tight]\ntitle = "tightened"\nkind = "tightened"\n[parts.block]', 1
)


@pytest.fixture
def shop(tmp_path):
    """A shop with a build to the small sheet, nothing read."""
    shop = open_shop(tmp_path / "shop")
    shop.write([shop.entry(body) for body in small_sheet.shop()])
    shop.start_build("b", SHEET, BuildStarted(code="b", title="b", sheet=""))
    yield shop
    shop.close()


def read_journal(shop):
    taking = Taking(instrument="M", setting="S-M")
    taken = take_value(shop.bench("b"), "journal", "front", "55.450", taking)
    assert isinstance(taken, Taken)
    shop.write(taken.entries)


def read_story():
    story = small_story()
    read_clearance(story)
    story.reads("seat_bore", None, "40.000", instrument="B", setting="S-BR")
    story.reads("seat_diameter", None, "40.080", instrument="M", setting="S-M")
    size = Typed(typed="55.45", unit="mm", decimals=2, si=0.05545)
    story.says(StatedSize(dimension="journal", feature="journal", members={}, size=size, stated_by="maker"))
    return story


def taken_over(text):
    story = read_story()
    sheet = read_sheet(text)
    story.says(RevisionTakenOver(sheet=sheet.digest, previous_sheet=story.sheet.digest))
    story.sheet = sheet
    return story


NO_DIMENSION, NO_PLACE = "the sheet has no such dimension any more", "the sheet has no such place any more"


@pytest.mark.parametrize(
    "text, homeless",
    [
        (
            RENAMED,
            [
                ("55.450 mm", "front", NO_DIMENSION),
                ("55.450 mm", "rear", NO_DIMENSION),
                ("stated 55.45 mm", "whole", NO_DIMENSION),
            ],
        ),
        (OTHER_PLACES, [("55.450 mm", "front", NO_PLACE)]),
        (WITHOUT_SEAT, [("40.000 mm", "whole", NO_DIMENSION), ("40.080 mm", "whole", NO_DIMENSION)]),
        (SHEET, []),
    ],
)
def test_what_the_sheet_has_no_place_for_any_more_is_shown_as_such(text, homeless):
    story = taken_over(text)
    found = story.assessor().assessment().not_on_sheet
    assert [(each.words, each.place, each.why) for each in found] == homeless
    ask_everything(story)
    back = story.sheet
    story.sheet = read_sheet(SHEET)
    assert story.assessor().assessment().not_on_sheet == ()
    assert story.verdict("clearance").verdict is Verdict.WITHIN, back


def test_a_reading_in_another_condition_is_used_again_only_by_choice():
    story = taken_over(TIGHTENED)
    found = story.verdict("clearance")
    assert (found.verdict, found.reason) == (Verdict.UNPROVEN, Reason.CHANGED_SINCE)
    why = "read in no condition, where the sheet now says tight; used again only by choice"
    assert {each.why for each in found.unused} == {why}
    unused = tuple(each.entry for each in found.unused)
    story.says(Choice(choice="use again", entries=unused, reason="they were tightened"))
    assert story.verdict("clearance").verdict is Verdict.WITHIN


def test_a_revision_that_would_make_a_diameter_of_a_radius_is_not_taken_over(shop):
    shop.take_over("b", RADIAL, [])
    shop.take_over("b", SHEET, [])
    read_journal(shop)
    before = shop.record.head()
    with pytest.raises(
        ChangedSenseError, match="journal was read as diametral, and this revision states it as radial"
    ):
        shop.take_over("b", RADIAL, [])
    assert shop.record.head() == before


def test_the_page_of_the_build_shows_them(shop):
    read_journal(shop)
    shop.take_over("b", RENAMED, [])
    with serving(create_app(shop)) as address:
        page = httpx.get(f"{address}/builds/b/fits").text
    seq = shop.assessment("b").not_on_sheet[0].seq
    assert "Recorded, and in no verdict: 1" in page
    assert f"entry {seq}: 55.450 mm at journal front; {NO_DIMENSION}" in page
