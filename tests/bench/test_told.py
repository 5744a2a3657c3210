"""Every kind of entry is told in one line, of a build or of the shop, by titles or by codes."""

import pytest

from fitwright.bench.told import told
from fitwright.records.registry import KINDS, body_of
from tests.support.any_entries import AnyEntries
from tests.support.story import Story

ENOUGH = 600
NEVER = {"code": "c", "instrument": "M1", "standard_uncertainty": 0.0, "never": True}
TAKEN_OVER = {"sheet": "a", "previous_sheet": "b", "differences": ["x"]}
ANSWERED = {"question": "k", "text": "Sure?", "answer": "yes"}


@pytest.fixture(scope="module")
def story():
    """An example that goes on with entries of every kind, sensible or not."""
    story = Story.of("brackengill-eleven")
    more = AnyEntries(story, seed=7, odd=0.1)
    for _ in range(ENOUGH):
        more.add()
    return story


def test_every_kind_is_told_in_one_line(story):
    bench, seen = story.bench(), set()
    for entry in story.new:
        body = body_of(entry.kind, entry.kind_version, entry.body)
        for at in (bench, None):
            words = told(body, at)
            assert words.strip(), entry
        seen.add(entry.kind)
    assert seen == set(KINDS)


def test_things_are_called_by_title_with_a_bench_and_by_code_without(story):
    bench = story.bench()
    read = bench.build.readings.values()
    reading = next(each for each in read if each.dimension and each.moved_by is None)
    title = bench.sheet.dimensions[reading.dimension].title
    assert told(reading.body, bench).startswith(title)
    assert told(reading.body, None).startswith(reading.dimension)


@pytest.mark.parametrize(
    "kind, body, words",
    [
        ("person", {"code": "p", "name": "Builder", "role": "builder"}, "person p: Builder, builder"),
        ("shop setting", {"name": "units", "value": "mm"}, "shop setting, units: mm"),
        ("calibration", NEVER, "calibration c of M1: never calibrated"),
        ("revision taken over", TAKEN_OVER, "revision of the sheet taken over, 1 difference"),
        ("question answered", ANSWERED, "asked: Sure? Answered: yes"),
        ("sitting", {"code": "S", "measured_by": "p", "words": "cold"}, "sitting S: p measures, cold"),
    ],
)
def test_the_words(kind, body, words):
    assert told(body_of(kind, 1, body), None) == words
