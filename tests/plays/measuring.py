"""A person at the page Measure with the readings of an example before them: what is typed where, and how."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from decimal import Decimal

from fitwright.model.sheet import Sheet
from fitwright.units import format_value
from tests.plays.bench_day import Line
from tests.plays.person import Person, Seen

SIGNS: Mapping[str, str] = {"goes": "+", "goes freely": "+", "drags": "+-", "does not go": "-"}
"""How a numeric keypad says what a blade did."""
SHORT = 45
"""Last digits are typed for a size so many divisions at most from the one that the place shows."""
ON_A_KEYPAD = frozenset("0123456789.+-*/")

Stop = tuple[str, str]
Slip = Callable[["Measuring", Stop, Line], Seen]


@dataclass
class Measuring:
    """Someone who reads places of one engine, station by station.

    `gauges` says of which kind each gauge is, `slips` what goes wrong at which place, once each; `asked`
    are all questions that were put.
    """

    person: Person
    sheet: Sheet
    gauges: Mapping[str, str]
    enter: str = "NumpadEnter"
    slips: dict[Stop, Slip] = field(default_factory=dict)
    readings: int = 0
    asked: list[str] = field(default_factory=list)

    def line(self, text: str) -> Seen:
        """A line from the numeric keypad."""
        assert set(text) <= ON_A_KEYPAD, text
        seen = self.person.says(text, enter=self.enter)
        if seen.asks:
            self.asked.append(seen.question)
        return seen

    def takes(self, lines: Iterable[Line]) -> None:
        """Read these places, each station from its beginning on in measuring order."""
        stations: dict[str, dict[Stop, list[Line]]] = {}
        for line in lines:
            dimension, place = line["body"]["dimension"], line["body"]["place"]
            stations.setdefault(self.station_of(line), {}).setdefault((dimension, place), []).append(line)
        for station, places in stations.items():
            self.goes_to(station)
            self._along(places)

    def goes_to(self, station: str) -> None:
        """To a station: by its number from another one, from any other page through its address."""
        if "/measure/" not in self.person.page.url:
            self.person.measures_at(station)
        elif f"/measure/{station}?" not in self.person.page.url:
            self.line(f"*.{list(self.sheet.stations).index(station) + 1}")

    def to_place(self, stop: Stop) -> Seen:
        """To a place by the number that the page gives it, unless one is there."""
        seen = self.person.sees()
        at = "|".join(stop)
        return seen if seen.at == at else self.line(f"*{seen.numbers.index(at) + 1}")

    def _along(self, places: dict[Stop, list[Line]]) -> None:
        numbers = [tuple(each.split("|")) for each in self.person.sees().numbers]
        for stop in sorted(places, key=numbers.index):
            for line in places[stop]:
                self.reads(stop, line)

    def reads(self, stop: Stop, line: Line) -> Seen:
        """One reading at a place: its shortest text, and what is asked about it answered.

        One that corrects the reading before it is typed as what it is instead, wherever one is by then.
        """
        self.readings += 1
        if line["body"].get("supersedes"):
            return self.settles(self.line(f"/{self.short(self.person.sees(), line)}"))
        slip = self.slips.pop(stop, None)
        return slip(self, stop, line) if slip else self.settles(self.line(self.ready(stop, line)))

    def is_plain(self, line: Line) -> bool:
        """Whether nothing goes wrong at a reading, and it corrects none."""
        stop = (line["body"]["dimension"], line["body"]["place"])
        return stop not in self.slips and not line["body"].get("supersedes")

    def station_of(self, line: Line) -> str:
        """The station at which a reading is taken."""
        station = self.sheet.dimensions[line["body"]["dimension"]].station
        assert station is not None
        return station

    def ready(self, stop: Stop, line: Line) -> str:
        """At the place with the right gauge in hand: what to type."""
        seen = self.with_gauge(self.to_place(stop), line)
        if seen.during_rework is not line["body"]["during_rework"]:
            self.person.ticks_rework()
        return self.short(seen, line)

    def with_gauge(self, seen: Seen, line: Line) -> Seen:
        """The place with the gauge in hand: chosen by a tap where another one, or none, is chosen."""
        observation = line["body"]["observation"]
        kinds = self.sheet.dimensions[seen.stop[0]].instruments
        if "blades" in observation:
            wanted = observation["blades"][0].partition(":")[0]
            kind = next(each for each in kinds if each in ("feeler blades", "plug gauge"))
            return seen if seen.blade_set == wanted else self.person.changes(f"gauge:{kind}", wanted)
        wanted = observation["instrument"]
        if f"({wanted})" in seen.facts:
            return seen
        kind = self.gauges[wanted]
        return self.person.changes(f"gauge:{kind}", wanted)

    def settles(self, seen: Seen) -> Seen:
        """What is asked about a reading that was taken with care: it stands as it was typed."""
        while seen.asks:
            wanted = {"slip": "keep", "reading": ("yes" if "yes" in seen.answers else "keep both")}[seen.asks]
            if "places" in seen.question and "yes" in seen.answers:
                wanted = "no"
            seen = self.line(str(seen.answers.index(wanted) + 1))
        assert seen.state in ("kept", "unused", ""), seen.words
        return seen

    def short(self, seen: Seen, line: Line) -> str:
        """The fewest keys that say a reading at the place that one sees."""
        observation = line["body"]["observation"]
        if "blades" in observation:
            sets = {each.partition(":")[0] for each in observation["blades"]}
            assert sets == {seen.blade_set}, f"{seen.at}: {sets} are not the blades chosen, {seen.blade_set}"
            blades = "/".join(each.partition(":")[2] for each in observation["blades"])
            return f"{blades}{SIGNS[observation['answer']]}"
        text, unit = str(observation["value"]["typed"]), str(observation["value"]["unit"])
        shown = seen.pattern
        assert seen.unit == unit, f"{seen.at} reads in {seen.unit}, not in {unit}"
        nominal = self.sheet.dimensions[seen.stop[0]].nominal
        return text[-2:] if shown and nominal and _near(text, unit, shown, nominal.si) else text


def _near(text: str, unit: str, pattern: str, nominal: float) -> bool:
    """Whether the last digits are enough where a pattern like `55.9__`, made of the nominal, is shown."""
    decimals = len(text.partition(".")[2])
    expected = Decimal(format_value(nominal, unit, decimals).split()[0])
    if f"{expected:.{decimals}f}"[:-2] != pattern[:-2] or not pattern.endswith("__"):
        return False
    return abs(Decimal(text) - expected) <= SHORT * Decimal(1).scaleb(-decimals)
