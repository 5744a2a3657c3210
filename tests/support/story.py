"""A record that goes on: entries added to an example, verdicts asked for in between."""

from __future__ import annotations

import itertools
from collections.abc import Iterable
from dataclasses import dataclass, field

from fitwright.assess.assessment import Assessor
from fitwright.assess.results import FitVerdict, State, Verdict
from fitwright.bench.context import Bench
from fitwright.bench.taking import Taken, Taking, take_blade, take_value
from fitwright.examples import sheet_text
from fitwright.formats.sheet import read_sheet
from fitwright.model.sheet import Sheet
from fitwright.records.entry import Entry, NewEntry
from fitwright.records.kinds import Body
from fitwright.records.projection import BuildState, ShopState
from tests.support.examples import before_assembly
from tests.support.record import sealed_chain

_numbers = itertools.count(1)


@dataclass
class Story:
    """A sheet, a build and all entries so far."""

    sheet: Sheet
    build: str
    new: list[NewEntry] = field(default_factory=list)

    @classmethod
    def of(cls, example: str) -> Story:
        """Begin with a shipped example as it was measured, before anything was assembled."""
        known = [NewEntry(**each) for each in before_assembly(example)]
        return cls(read_sheet(sheet_text(example)), example, known)

    def entries(self) -> list[Entry]:
        """All entries as a chain."""
        return sealed_chain(self.new)

    def says(self, body: Body, *, shop: bool = False) -> str:
        """Add an entry; returns its id."""
        entry_id = f"{next(_numbers):032x}"
        build = None if shop else self.build
        self.new.append(NewEntry(entry_id, build, body.kind, body.model_dump(mode="json")))
        return entry_id

    def bench(self) -> Bench:
        """What is open on the bench now."""
        entries = self.entries()
        return Bench(self.sheet, ShopState.replay(entries), BuildState.replay(self.build, entries))

    def reads(self, dimension: str, place: str | None, text: str, **taking: object) -> str:
        """Take a value; a question fails the test."""
        taken = take_value(self.bench(), dimension, place, text, Taking(**taking))  # type: ignore[arg-type]
        assert isinstance(taken, Taken), taken
        self.new.extend(taken.entries)
        return taken.reading.id

    def tries(self, dimension: str, place: str | None, blade: str, answer: str) -> str:
        """Try a blade."""
        taken = take_blade(self.bench(), dimension, place, blade, answer, Taking())
        self.new.extend(taken.entries)
        return taken.reading.id

    def assessor(self, state: State = State.CURRENT) -> Assessor:
        """An assessor over everything so far."""
        bench = self.bench()
        return Assessor(self.sheet, bench.shop, bench.build, state)

    def verdict(self, subject: str, state: State = State.CURRENT) -> FitVerdict:
        """The verdict on one subject now."""
        return self.assessor(state).verdict(subject)

    def verdicts(self, state: State = State.CURRENT) -> dict[str, FitVerdict]:
        """All verdicts now."""
        return dict(self.assessor(state).assessment().verdicts)


def changed(before: dict[str, FitVerdict], after: dict[str, FitVerdict]) -> set[str]:
    """The subjects whose verdict is another than before."""
    return {name for name in before if before[name].verdict is not after[name].verdict}


def ids(verdicts: Iterable[FitVerdict], verdict: Verdict) -> set[str]:
    """Ids of those with a verdict."""
    return {each.id for each in verdicts if each.verdict is verdict}
