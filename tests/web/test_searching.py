"""Search in British and American words; what each word of the trade finds on a sheet that uses the other."""

import pytest

from fitwright.assess.subjects import subjects_of
from fitwright.data.trade_words import trade_words, wanted_in, words_of
from fitwright.examples import sheet_text
from fitwright.formats.sheet import read_sheet
from fitwright.web.searching import Searches

ASKED = {
    "big end": "rod.4.running_clearance",
    "rod bearing 4": "rod.4.running_clearance",
    "crankpin": "rod.4.pin_taper",
    "rod journal": "rod.4.pin_taper",
    "gudgeon pin": "piston.2.pin_clearance",
    "wrist pin": "piston.2.pin_clearance",
    "wrist pin bushing": "rod.1.small_end_clearance",
    "end play": "crank.end_float",
    "crankshaft endplay": "crank.end_float",
    "end float": "crank.end_float",
    "oil pan": "pickup.floor_gap",
    "strainer": "pickup.floor_gap",
    "oil pickup": "pickup.floor_gap",
    "valve clearance": "valve.1.inlet.a.lash",
    "tappet clearance": "valve.1.inlet.a.lash",
    "intake": "valve.1.inlet.a.lash",
    "backlash": "pump.drive_clearance",
    "saddle 4": "main.4.running_clearance",
    "housing": "main.4.running_clearance",
    "ring end gap": "cylinder.4.top_ring_gap",
    "quench": "cylinder.1.squish",
    "main.4": "main.4.running_clearance",
    "piston to bore": "cylinder.1.piston_to_wall",
    "turbo": "turbocharger.axial_movement",
    "MAIN 4 RUN": "main.4.running_clearance",
    "oil clearance": "main.4.running_clearance",
}


@pytest.fixture(scope="module")
def corrie():
    sheet = read_sheet(sheet_text("corrie-five"))
    subjects, searches = subjects_of(sheet), Searches()
    return lambda query: searches.found(query, sheet, subjects)


@pytest.mark.parametrize("query", ASKED)
def test_a_word_of_the_trade_finds_what_the_sheet_calls_otherwise(corrie, query):
    assert ASKED[query] in corrie(query)


def test_what_finds_everything_or_nothing(corrie):
    assert len(corrie("")) == len(corrie("  ,. ")) > 190
    assert corrie("zz") == frozenset()
    assert corrie("main 4 turbo") == frozenset()


def test_a_search_narrows(corrie):
    found = corrie("end play")
    assert {"crank.end_float", "camshaft.inlet.end_float"} <= found
    assert not any("running_clearance" in name for name in found)
    assert corrie("crank end play") < found
    assert "main.4.running_clearance" not in corrie("backlash")
    assert "valve.1.inlet.a.lash" not in corrie("backlash")


def test_a_number_is_asked_for_whole(corrie):
    assert {name for name in corrie("cylinder 1") if "bore_taper" in name} == {"cylinder.1.bore_taper"}
    assert corrie("main 14") == frozenset()


def test_limits_are_found_in_the_unit_they_are_written_in():
    sheet = read_sheet(sheet_text("brackengill-eleven"))
    subjects = subjects_of(sheet)
    assert "main.1.running_clearance" in Searches().found("1.5 thou", sheet, subjects)
    assert "main.1.running_clearance" in Searches().found("1.5 mil", sheet, subjects)


def test_the_table_is_symmetric_and_says_nothing_twice():
    table = trade_words()
    for phrase, alternatives in table.items():
        assert len(alternatives) > 1, phrase
        assert len(set(alternatives)) == len(alternatives)
        for alternative in alternatives:
            if len(alternative) == 1:
                assert (phrase,) in table[alternative[0]], (phrase, alternative)


@pytest.mark.parametrize(
    "query, things", [("wrist pin", 1), ("rod journal 4", 2), ("big end rod bearing", 2)]
)
def test_the_longest_phrase_is_one_thing(query, things):
    assert len(list(wanted_in(query))) == things


def test_words_of_hostile_text_are_words():
    assert words_of('"><script>alert(1)</script>') == ("script", "alert", "1", "script")
    assert words_of("0.045 mm, .5") == ("0.045", "mm", "5")
