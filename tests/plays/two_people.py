"""Two people at two browsers on one build: at the same time, and each seeing what the other reads."""

from __future__ import annotations

import time
from collections.abc import Sequence
from itertools import zip_longest

from tests.plays.bench_day import Line
from tests.plays.measuring import Measuring, Stop
from tests.plays.person import Person

NOTHING = "–"
"""What stands at a place that nobody read yet."""
SHOWN = """
(at) => {
  const places = [...document.querySelectorAll("#run .places li a")];
  const link = places.find((each) => new URL(each.href).searchParams.get("at") === at);
  return link ? link.parentElement.lastElementChild.innerText : "";
}
"""


def read_together(one: Measuring, other: Measuring, lines: Sequence[Line]) -> list[float]:
    """Two people read the places of one station from both ends; after how many seconds each saw the other's.

    Both type before either looks. Now and then one waits and watches until the other's reading shows.
    """
    station = one.sheet.dimensions[lines[0]["body"]["dimension"]].station
    assert station is not None
    one.goes_to(station)
    other.person.measures_at(station, **{"from": "end"})
    middle = (len(lines) + 1) // 2
    pairs = list(zip_longest(lines[:middle], reversed(lines[middle:])))
    seen = []
    for number, (mine, others) in enumerate(pairs):
        if number % 3 == 1 and others is not None:
            seen += [seen_after(one, other.person, mine), seen_after(other, one.person, others)]
        else:
            _at_once((one, mine), (other, others))
    return seen


def _at_once(*people: tuple[Measuring, Line | None]) -> None:
    busy = [(measuring, line) for measuring, line in people if line is not None]
    texts = [measuring.ready(stop_of(line), line) for measuring, line in busy]
    for (measuring, _), text in zip(busy, texts, strict=True):
        measuring.person.types(text, enter=measuring.enter)
        measuring.readings += 1
    for measuring, _ in busy:
        measuring.settles(measuring.person.waits())


def seen_after(reader: Measuring, watcher: Person, line: Line) -> float:
    """After how many seconds from Enter a reading shows at the other browser, which nobody touches."""
    stop = stop_of(line)
    text = reader.ready(stop, line)
    assert _shown(watcher, stop) == NOTHING
    began = time.monotonic()
    reader.person.types(text, enter=reader.enter)
    reader.readings += 1
    while _shown(watcher, stop) == NOTHING:
        watcher.page.wait_for_timeout(10)
        assert time.monotonic() - began < 10.0, f"{stop} does not show at the other browser"
    seconds = time.monotonic() - began
    reader.settles(reader.person.waits())
    return seconds


def undone_here_only(one: Measuring, other: Measuring, lines: Sequence[Line]) -> None:
    """One reads, the other takes back: their own reading, though it was not the last; and reads it again."""
    one.reads(stop_of(lines[0]), lines[0])
    before = _shown(one.person, stop_of(lines[0]))
    seen = other.line("/")
    assert "Taken back" in seen.words
    line = next(each for each in lines if stop_of(each) == seen.stop)
    assert line in lines[(len(lines) + 1) // 2 :]
    other.reads(seen.stop, line)
    assert _shown(one.person, stop_of(lines[0])) == before
    one.line("/")
    one.readings, other.readings = one.readings - 1, other.readings - 1


def stop_of(line: Line) -> Stop:
    """Where a reading is taken."""
    return line["body"]["dimension"], line["body"]["place"]


def _shown(person: Person, stop: Stop) -> str:
    return str(person.page.evaluate(SHOWN, "|".join(stop)))
