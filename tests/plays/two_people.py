"""Two people at two browsers on one build: at the same time, and each seeing what the other reads."""

from __future__ import annotations

import time
from collections.abc import Iterator, Sequence
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


def read_together(one: Measuring, other: Measuring, lines: Sequence[Line]) -> None:
    """Two people read the places of one station from both ends; both type before either looks."""
    for mine, others in _meeting(one, other, lines):
        _at_once((one, mine), (other, others))


def read_and_watch(one: Measuring, other: Measuring, lines: Sequence[Line]) -> list[float]:
    """The same, while each now and then waits for the other's reading; after how many seconds it showed."""
    seen = []
    for number, (mine, others) in enumerate(_meeting(one, other, lines)):
        if number % 3 == 1 and mine is not None and others is not None:
            seen += [seen_after(one, other.person, mine), seen_after(other, one.person, others)]
        else:
            _at_once((one, mine), (other, others))
    return seen


def _meeting(
    one: Measuring, other: Measuring, lines: Sequence[Line]
) -> Iterator[tuple[Line | None, Line | None]]:
    """Both at the station, and what each reads next: from both ends to the middle, place by place."""
    station = one.station_of(lines[0])
    one.goes_to(station)
    other.person.measures_at(station, **{"from": "end"})
    numbers = one.person.sees().numbers
    places: dict[str, list[Line]] = {}
    for line in lines:
        places.setdefault("|".join(stop_of(line)), []).append(line)
    order = sorted(places, key=numbers.index)
    middle = (len(order) + 1) // 2
    mine = [line for place in order[:middle] for line in places[place]]
    others = [line for place in reversed(order[middle:]) for line in places[place]]
    return zip_longest(mine, others)


def _at_once(*people: tuple[Measuring, Line | None]) -> None:
    """Each types a line before either looks; what goes wrong is put right by oneself first."""
    busy = [(measuring, line, measuring.is_plain(line)) for measuring, line in people if line is not None]
    for measuring, line, is_plain in busy:
        if not is_plain:
            measuring.reads(stop_of(line), line)
    plain = [(measuring, line) for measuring, line, is_plain in busy if is_plain]
    texts = [measuring.ready(stop_of(line), line) for measuring, line in plain]
    for (measuring, _), text in zip(plain, texts, strict=True):
        measuring.person.types(text, enter=measuring.enter)
        measuring.readings += 1
    for measuring, _ in plain:
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
    assert line is not lines[0]
    other.reads(seen.stop, line)
    assert _shown(one.person, stop_of(lines[0])) == before
    one.line("/")
    one.readings, other.readings = one.readings - 1, other.readings - 1


def stop_of(line: Line) -> Stop:
    """Where a reading is taken."""
    return line["body"]["dimension"], line["body"]["place"]


def _shown(person: Person, stop: Stop) -> str:
    return str(person.page.evaluate(SHOWN, "|".join(stop)))
