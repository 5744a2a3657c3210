"""What one run of `measure` holds: where it writes to, and what it has written so far."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from fitwright.bench.context import Bench
from fitwright.bench.order import Stop
from fitwright.bench.withdrawing import Undo
from fitwright.cli.showing import concerned, verdict_lines
from fitwright.cli.terminal import Terminal
from fitwright.records.entry import NewEntry
from fitwright.units.families import Family
from fitwright.wiring import Shop


@dataclass(frozen=True, slots=True)
class With:
    """With what one reads: person, sitting, and the gauge and setting where they were named."""

    person: str
    sitting: str
    instrument: str | None = None
    setting: str | None = None
    blade_set: str | None = None


class Ended(Exception):  # noqa: N818  (no error: the person is done)
    """There is nothing more to read from the terminal."""


class Session:
    """One person at one station of one build; every entry is durable before it is spoken of."""

    def __init__(
        self, shop: Shop, build: str, order: Sequence[Stop], using: With, family: Family, terminal: Terminal
    ) -> None:
        self.shop, self.build, self.order = shop, build, list(order)
        self.using, self.family, self.terminal = using, family, terminal
        self.undo = Undo()
        self.taken: list[str] = []
        shop.assessor(build)

    @property
    def bench(self) -> Bench:
        """What is open on the bench, with everything acknowledged so far."""
        return self.shop.bench(self.build)

    def say(self, text: str) -> None:
        """Print a line."""
        self.terminal.say(text)

    def line(self, prompt: str) -> str:
        """The next line typed.

        Raises
        ------
        Ended
            If there is none any more.
        """
        return self.answered(self.terminal.ask(prompt))

    def answered(self, answer: str | None) -> str:
        """An answer that was given; where there is none any more, the run has ended."""
        if answer is None:
            raise Ended
        return answer

    def write(self, entries: Sequence[NewEntry], words: str) -> None:
        """Write entries, say so once they are durable, and show the verdicts that they touched."""
        written = self.shop.write(entries)
        if words:
            self.say(f"{words}, entry {written.acknowledgements[0].seq}")
        touched = written.touched & concerned(self.shop, self.build, entries)
        for line in verdict_lines(self.shop, self.build, touched, self.family):
            self.say(line)

    def count(self) -> str:
        """How many readings of this run stand."""
        held = self.bench.build.readings
        count = sum(1 for each in self.taken if each in held and held[each].effective)
        return f"{count} {'reading' if count == 1 else 'readings'} kept."
