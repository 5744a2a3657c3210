"""A crank of six mains and five big ends by last digits, from the keyboard alone."""

from decimal import Decimal
from itertools import groupby

import pytest

from fitwright.formats.sheet import read_sheet
from fitwright.starter.questions import answers_from_words
from fitwright.starter.sheet import write_sheet
from tests.plays.bench_day import first_values, shelf
from tests.plays.person import person_at
from tests.plays.served_shop import shop_with

pytestmark = pytest.mark.long

MOST_STROKES = 140
NOTED = "ERR_INTERNET_DISCONNECTED|status of 422"
"""What a browser notes of its own: that its network is cut, and an answer that refuses a line."""
DIMENSIONS = [*(f"main.{n}.journal" for n in range(1, 7)), *(f"rod.{n}.pin" for n in range(1, 6))]
ANSWERS = {
    "name": "Crank by last digits",
    "cylinders": "5",
    "bore": "83.5 mm",
    "stroke": "84 mm",
    "only": "bottom-end",
}


@pytest.fixture(scope="module")
def text():
    """A starter sheet of an inline five, as it comes."""
    return write_sheet(answers_from_words(ANSWERS))


@pytest.fixture(scope="module")
def sizes():
    """What the gauges say at the 44 places."""
    found = first_values("corrie-five", DIMENSIONS)
    assert len(found) == 44
    return found


@pytest.fixture(scope="module")
def lines(text, sizes):
    """The lines typed: the last two digits at each place, and the number of the second station."""
    sheet = read_sheet(text)
    stations = list(sheet.stations)
    found = []
    for station, places in groupby(sizes, key=lambda each: sheet.dimensions[each[0]].station):
        found += [f"*.{stations.index(station) + 1}"] if found else []
        found += [sizes[place][-2:] for place in places]
    return found


@pytest.fixture(scope="module")
def shop_served(tmp_path_factory):
    with shop_with(tmp_path_factory.mktemp("crank"), shelf("corrie-five")) as served:
        yield served


@pytest.fixture
def person(shop_served, browser, text, request):
    """Somebody at a build of this test's own, who has begun to measure."""
    code = request.node.name.replace("_", "-")
    shop_served.starts(code, text)
    with person_at(browser, shop_served.address, code, noted=NOTED) as person:
        begin_sitting(person)
        yield person


@pytest.fixture
def kept(shop_served, person):
    """Tells which readings the record holds of this build, in order: place and size in millimetres."""
    return lambda: [
        ((dimension, place), f"{float(size) * 1e3:.3f}")
        for dimension, place, size, *_ in shop_served.readings(person.build)
    ]


def begin_sitting(person):
    """Who measures, who types; every other thing as it is."""
    person.measures_at("mains")
    person.page.locator("select[name=measured_by]").select_option("builder")
    person.page.locator("form.begin button.take").click()
    person.page.locator("#sitting .line").wait_for()


def agree(found, sizes):
    """Every place once, in measuring order, each with its own size."""
    assert [place for place, _ in found] == list(sizes)
    assert [size for _, size in found] == list(sizes.values())


def test_a_crank_takes_at_most_140_key_strokes(person, kept, sizes, lines):
    places = iter(sizes)
    for line in lines:
        if not line.startswith("*"):
            assert person.looks().stop == next(places)
        assert not person.says(line).asks
    assert person.taps == 0
    assert person.strokes <= MOST_STROKES
    agree(kept(), sizes)
    person.tells("The crank by last digits", len(sizes))


def test_typed_without_looking_nothing_is_lost_or_misplaced(person, kept, sizes, lines):
    slowly(person, milliseconds=100)
    for line in lines:
        person.types(line, delay=15)
    assert person.page.locator("#outbox li").count() > 3, "the hand is well ahead of the bench"
    person.waits()
    agree(kept(), sizes)
    person.tells("Without looking", len(sizes))


def slowly(person, *, milliseconds):
    """Let the bench answer late, while the hand goes on."""

    def late(route):
        person.page.wait_for_timeout(milliseconds)
        route.continue_()

    person.page.route("**/measure/*?units=*", late)


def test_with_the_network_cut_all_wait_and_are_kept_once(person, kept, sizes, lines):
    for number, line in enumerate(lines):
        if number == 20:
            person.waits()
            person.context.set_offline(True)
        person.types(line)
        if number == 30:
            person.page.locator("#outbox .trouble").wait_for()
            assert "does not answer" in person.page.locator("#outbox .trouble").inner_text()
            assert person.waiting() == lines[20:31]
            assert len(kept()) == 20
            person.context.set_offline(False)
    person.waits()
    agree(kept(), sizes)
    person.tells("With the network cut", len(sizes))


def test_a_question_that_nobody_saw_holds_what_was_typed_after_it(person, kept, sizes):
    slowly(person, milliseconds=100)
    first, slip, *others = list(sizes.values())[:6]
    slipped = str(Decimal(slip) * 10)
    for line in (first, slipped, *others):
        person.types(line, delay=5)
    seen = person.waits_for_answer()
    assert (seen.asks, seen.stop) == ("slip", list(sizes)[1])
    assert person.waiting() == others
    guess = next(number for number, each in enumerate(seen.answers, 1) if each.startswith(slip))
    person.says(str(guess))
    agree(kept(), dict(list(sizes.items())[:6]))


def test_a_line_that_was_refused_unseen_holds_what_was_typed_after_it(person, kept, sizes):
    slowly(person, milliseconds=100)
    first, wrong, *others = list(sizes.values())[:6]
    for line in (first, wrong.replace(".", ".."), *others):
        person.types(line, delay=5)
    person.page.locator("#outbox .trouble").wait_for()
    assert person.waiting() == others
    person.says(f"/{wrong}")
    agree(kept(), dict(list(sizes.items())[:6]))
