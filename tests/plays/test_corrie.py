"""The Corrie Five from an empty shop to the end of its scenario, as two people would do it in the browser."""

from collections import Counter

import pytest

from fitwright.assess.results import State
from fitwright.examples import sheet_text
from fitwright.formats.sheet import read_sheet
from fitwright.records.entry import NewEntry
from tests.plays import slips
from tests.plays.bench_day import SHELF, gauges, readings_shipped, settings_shipped, verdicts_shipped
from tests.plays.entering import Entering, start_from_example
from tests.plays.measuring import Measuring
from tests.plays.person import person_at
from tests.plays.served_shop import shop_with
from tests.plays.two_people import read_and_watch, read_together, undone_here_only
from tests.support.examples import measured

pytestmark = pytest.mark.long

EXAMPLE = "corrie-five"
SLIPS = {
    ("main.1.housing_bore", "front/0"): slips.point_misplaced,
    ("main.2.journal", "rear/0"): slips.undone,
    ("rod.1.housing_bore", "60"): slips.one_place_too_far,
    ("cylinder.1.bore", "upper/90"): slips.instead,
    ("valve.1.inlet.a.cam_gap", "whole"): slips.contradicted,
}
SWAPPED_BEFORE, SHELLS = "T-05", ("main.2.shell_upper", "main.3.shell_upper")
"""After the fitted bores were read, two shells change places, and back again."""
WATCHED = "T-07"
"""While two people read the crank pins, each waits now and then until the other's reading shows."""
MUCH = 12
"""From so many readings at one station on, two people read them from both ends."""
NEW_DAYS = ("T-21", "T-24", "T-29")
"""Reworks begin in sittings of their own."""
IN_SET_UP = (*SHELF, "build started")
SERIALS_AT, LABEL = ("mains", "pump"), "box label, main shells"
"""Where codes and serials are entered by the form for a whole station; a label for a box of shells."""
FORMS_EACH = 2
"""Of each kind so many are entered by its form; the others at another device."""
ALWAYS = ("state", "part", "fitting", "taking out", "blade set", "B1", "J2", "U1", "W1", "C-W1")
"""What is entered by its form each time: what changes parts, and gauges unlike the others."""


@pytest.fixture(scope="module")
def served(tmp_path_factory):
    with shop_with(tmp_path_factory.mktemp("corrie")) as shop:
        yield shop


class Play:
    """Who is at the bench, what the example's record says, and what of it waits to be read."""

    def __init__(self, served, builder, apprentice):
        self.served, self.builder, self.apprentice = served, builder, apprentice
        sheet, kinds = read_sheet(sheet_text(EXAMPLE)), gauges(EXAMPLE)
        self.entering = Entering(builder, "builder", gauges(EXAMPLE, "unit"))
        self.measuring = Measuring(builder, sheet, kinds, slips=dict(SLIPS))
        self.helping = Measuring(apprentice, sheet, kinds)
        self.entries = measured(EXAMPLE)
        self.first = [each for each in self.entries if is_there_at_first(each, self.entries)]
        self.waiting, self.watching, self.seen, self.entered = [], False, [], Counter()

    def sets_up(self):
        """The shop, a build of which nothing is measured, its parts and what their labels state."""
        for entry in self.entries:
            if entry["kind"] in SHELF:
                self.enters(entry)
        start_from_example(self.builder, EXAMPLE)
        parts = [each["body"] for each in self.first if each["kind"] == "part"]
        stated = [each["body"] for each in self.first if each["body"].get("stated_by") == LABEL]
        codes = [code for station in SERIALS_AT for code in self.entering.parts(parts, station)]
        self.entering.stated(stated)
        known = [each for each in self.first if each["body"].get("code") in codes or each["body"] in stated]
        assert len(known) > len(SERIALS_AT)
        self.elsewhere(*(each for each in self.first if each not in known))

    def enters(self, entry):
        """By its form, until each kind of form was used a few times; and always what changes parts."""
        kind = entry["kind"]
        self.entered[kind] += 1
        if kind in ALWAYS or entry["body"].get("code") in ALWAYS or self.entered[kind] <= FORMS_EACH:
            self.entering.enters(entry)
        else:
            self.elsewhere(entry)

    def elsewhere(self, *entries):
        """Entered at another device while the page is open."""
        self.served.shop.write([NewEntry(**each) for each in entries])

    def goes_on(self):
        """All the rest in the order of the record; readings wait until something else comes."""
        for entry in self.entries:
            if entry["kind"] == "reading":
                self.waiting.append(entry)
            elif entry not in self.first and entry["kind"] not in IN_SET_UP:
                self.reads()
                self.does(entry)
        self.reads()

    def does(self, entry):
        """What is no reading."""
        if entry["kind"] == "sitting":
            self.sits(entry["body"]["code"])
        elif entry["kind"] == "stated size":
            self.entering.stated([entry["body"]])
        elif entry["kind"] != "question answered":  # of a zero that the form does not doubt
            self.enters(entry)

    def reads(self):
        """Read what waits: much at one station two people at once, else one of them."""
        if self.watching and self.waiting:
            self.seen = read_and_watch(self.measuring, self.helping, self.waiting)
            undone_here_only(self.measuring, self.helping, self.waiting)
        elif len(self.waiting) >= MUCH and len({*map(self.measuring.station_of, self.waiting)}) == 1:
            read_together(self.measuring, self.helping, self.waiting)
        else:
            self.apprentice.puts_it_away()
            self.measuring.takes(self.waiting)
        self.waiting = []

    def sits(self, code):
        """Sit down at the beginning, and anew on the days of the reworks."""
        self.watching = code == WATCHED
        if code == "T-01":
            self.begins()
        elif code in NEW_DAYS:
            self.builder.measures_at("mains")
            self.builder.changes("measured_by", "builder")
        elif code == SWAPPED_BEFORE:
            self.swaps()

    def begins(self):
        """The one form that a sitting begins with."""
        self.builder.measures_at("mains")
        page = self.builder.page
        page.locator("select[name=measured_by]").select_option("builder")
        page.locator("select[name=typed_by]").select_option("apprentice")
        page.locator("input[name=temperature]").fill("20.5 degC")
        page.locator("form.begin button.take").click()
        page.locator("#sitting .line").wait_for()

    def swaps(self):
        """Two shells swapped: what was read through them speaks no longer; undone, it does again."""
        before = self.served.verdicts(EXAMPLE, State.CURRENT)
        self.entering.swap(*SHELLS)
        effects = self.builder.page.locator("#entry .effects li").all_inner_texts()
        for main in (2, 3):
            assert any(f"Main {main} running clearance" in each for each in effects), effects
        self.entering.undoes()
        assert self.served.verdicts(EXAMPLE, State.CURRENT) == before


def is_there_at_first(entry, entries):
    """Whether it is a part in its position, or a label, before anything is measured."""
    first_sitting = next(each for each in entries if each["kind"] == "sitting")
    return entry["kind"] in ("part", "stated size") and entries.index(entry) < entries.index(first_sitting)


def test_the_corrie_five(served, browser):
    with (
        person_at(browser, served.address, EXAMPLE) as builder,
        person_at(browser, served.address, EXAMPLE) as apprentice,
    ):
        play = Play(served, builder, apprentice)
        play.sets_up()
        builder.tells("The Corrie Five set up", 0)
        play.goes_on()
        readings = play.measuring.readings + play.helping.readings
        builder.tells("The Corrie Five", readings)
    assert not play.measuring.slips
    print(play.measuring.asked, play.helping.asked)
    seconds = sorted(play.seen)
    print(f"readings seen at the other browser after {', '.join(f'{each:.2f}' for each in seconds)} s")
    assert seconds[len(seconds) // 2] < 1.0
    assert readings == len(readings_shipped(EXAMPLE)) + 1  # one was corrected
    agree(served)


def agree(served):
    """The record holds the readings and settings of the shipped one, and proves the same."""
    held, shipped = served.readings(EXAMPLE), readings_shipped(EXAMPLE)
    unset = {(each[0], each[3]) for each in shipped if each[4] == ""}  # the page names a setting where it can
    known = Counter((*each[:4], "", *each[5:]) if (each[0], each[3]) in unset else each for each in held)
    assert known == Counter(shipped)
    assert served.settings() == settings_shipped(EXAMPLE)
    for state in State:
        assert served.verdicts(EXAMPLE, state) == verdicts_shipped(EXAMPLE, state)
