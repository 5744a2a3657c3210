"""What a dossier is made from: the entries that it carries, played again and judged.

The same function makes a dossier and verifies one, from the same entries, so that what is printed
follows from what travels with it and from nothing else: no clock, no other entry of the shop.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from functools import cached_property
from typing import TYPE_CHECKING

from fitwright.assess.assessment import Assessor
from fitwright.assess.results import Assessment, FitVerdict, State
from fitwright.bench.context import Bench
from fitwright.dossier.errors import NothingToTellError
from fitwright.model.sheet import Sheet
from fitwright.records.entry import Entry
from fitwright.records.kinds import BuildStarted
from fitwright.records.projection import BuildState, ShopState
from fitwright.records.times import moment_of

if TYPE_CHECKING:
    from fitwright.assess.oil.desk import OilDesk
    from fitwright.assess.oil.results import Prediction

Desk = Callable[["OilDesk"], "OilDesk"]
"""Gives a desk that says as much and may have answered before."""


@dataclass(frozen=True)
class Known:
    """A build as its dossier knows it, at the last entry that it carries."""

    build: str
    entries: tuple[Entry, ...]
    sheets: Mapping[str, Sheet]
    shop: ShopState
    state: BuildState
    desk: Desk = lambda fresh: fresh

    @property
    def started(self) -> BuildStarted:
        """What was said when the build was started."""
        held = self.state.started
        if held is None:
            raise NothingToTellError(self.build)
        return held.body

    @property
    def sheet(self) -> Sheet:
        """The engine sheet in the revision that counts."""
        return self.sheets[self.state.sheet or ""]

    @property
    def bench(self) -> Bench:
        """The same as the bench has it, for words about entries."""
        return Bench(self.sheet, self.shop, self.state)

    @cached_property
    def as_of(self) -> str:
        """When the last entry that it rests on was kept [UTC]."""
        return self.entries[-1].committed_at

    @property
    def now(self) -> datetime:
        """The moment for which everything is told."""
        return moment_of(self.as_of)

    @cached_property
    def current(self) -> Assessor:
        """Judges the build as it is."""
        return Assessor(self.sheet, self.shop, self.state, State.CURRENT)

    @cached_property
    def received(self) -> Assessor:
        """Judges the build as it came, asked only for what was reworked."""
        return Assessor(self.sheet, self.shop, self.state, State.AS_RECEIVED)

    @cached_property
    def assessment(self) -> Assessment:
        """All current verdicts."""
        return self.current.assessment()

    @cached_property
    def oil(self) -> OilDesk:
        """The oil system as its sizes are known."""
        from fitwright.assess.oil.desk import OilDesk, oil_case

        return self.desk(OilDesk(oil_case(self.current.judge, self.received.judge)))

    @cached_property
    def prediction(self) -> Prediction:
        """What is predicted of it, with bands, at the points of the sheet and of the card."""
        from fitwright.assess.oil.chosen import card_points

        circuit = self.oil.circuit
        return self.oil.banded(also=card_points(circuit) if circuit is not None else ())

    def name_of(self, person: str | None) -> str:
        """A person by name, else by code."""
        held = self.shop.people.get(person or "")
        return held.body.name if held is not None else person or ""

    def before(self, subject: str) -> FitVerdict | None:
        """The verdict on a subject as received."""
        return self.received.verdict(subject) if subject in self.received.judge.subjects else None


def known_from(
    build: str, entries: Sequence[Entry], sheets: Mapping[str, Sheet], *, desk: Desk | None = None
) -> Known:
    """Play the entries of a dossier again.

    Raises
    ------
    NothingToTellError
        If they start no build.
    """
    state = BuildState.replay(build, entries)
    if state.started is None or state.sheet not in sheets:
        raise NothingToTellError(build)
    shop = ShopState.replay(entries)
    known = Known(build, tuple(entries), dict(sheets), shop, state)
    return known if desk is None else Known(build, known.entries, known.sheets, shop, state, desk)
