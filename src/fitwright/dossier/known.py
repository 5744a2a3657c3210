"""What a dossier is made from: the entries that it carries, played again and judged.

The same function makes a dossier and verifies one, from the same entries, so that what is printed
follows from what travels with it and from nothing else: no clock, no other entry of the shop.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime
from functools import cached_property
from typing import TYPE_CHECKING, Final

from fitwright.assess.assessment import Assessor, Reached
from fitwright.assess.results import Assessment, FitVerdict, State
from fitwright.bench.context import Bench
from fitwright.bench.first_start_view import PressureLine, pressure_lines
from fitwright.dossier.errors import NothingToTellError
from fitwright.model.sheet import Sheet
from fitwright.records import kinds
from fitwright.records.entry import Entry
from fitwright.records.kinds import BuildStarted
from fitwright.records.projection import BuildState, ShopState
from fitwright.records.projection.ledger import Recorded
from fitwright.records.times import moment_of

if TYPE_CHECKING:
    from fitwright.assess.assembly.past import Past
    from fitwright.assess.assembly.results import ConcessionStanding, Standing
    from fitwright.assess.oil.desk import OilDesk
    from fitwright.assess.oil.points import OilPoint
    from fitwright.assess.oil.results import Prediction

Desk = Callable[["OilDesk"], "OilDesk"]
"""Gives a desk that says as much and may have answered before."""


@dataclass(frozen=True, slots=True)
class AtHand:
    """What the shop where a dossier is made has worked out already, from the same entries.

    Whoever verifies one has nothing at hand, and works out everything anew.
    """

    desk: Desk = lambda fresh: fresh
    reached: Mapping[State, Reached] = field(default_factory=dict)
    past: Past | None = None


NOTHING_AT_HAND: Final = AtHand()


@dataclass(frozen=True)
class Known:
    """A build as its dossier knows it, at the last entry that it carries."""

    build: str
    entries: tuple[Entry, ...]
    sheets: Mapping[str, Sheet]
    shop: ShopState
    state: BuildState
    at_hand: AtHand = NOTHING_AT_HAND

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
        return self._assessor(State.CURRENT)

    @cached_property
    def received(self) -> Assessor:
        """Judges the build as it came, asked only for what was reworked."""
        return self._assessor(State.AS_RECEIVED)

    def _assessor(self, state: State) -> Assessor:
        reached = self.at_hand.reached.get(state)
        return Assessor(self.sheet, self.shop, self.state, state, reached=reached)

    @cached_property
    def assessment(self) -> Assessment:
        """All current verdicts."""
        return self.current.assessment()

    @cached_property
    def oil(self) -> OilDesk:
        """The oil system as its sizes are known."""
        from fitwright.assess.oil.desk import OilDesk, oil_case

        return self.at_hand.desk(OilDesk(oil_case(self.current.judge, self.received.judge)))

    @cached_property
    def prediction(self) -> Prediction:
        """What is predicted of it, with bands, at the points of the sheet and of the card."""
        from fitwright.assess.oil.chosen import card_points

        circuit = self.oil.circuit
        asked = (*card_points(circuit), *self.start_points) if circuit is not None else ()
        return self.oil.banded(also=asked)

    @cached_property
    def start_lines(self) -> tuple[PressureLine, ...]:
        """What was read at the first start."""
        return pressure_lines(self.bench)

    @property
    def start_points(self) -> tuple[OilPoint, ...]:
        """The points of the first start at which bands are asked for."""
        from fitwright.assess.oil.points import OilPoint

        return tuple(
            OilPoint("first start", each.angular_speed, each.oil_temperature) for each in self.start_lines
        )

    @cached_property
    def standing(self) -> Standing:
        """How the assembly stands at that moment."""
        from fitwright.assess.assembly.standing import standing_of

        return standing_of(self.current, now=self.now, past=self.at_hand.past)

    @cached_property
    def reworked(self) -> frozenset[str]:
        """The dimensions that some work since it came has changed."""
        parts = (held.body.part for held in self.changes)
        return frozenset(
            name for part in parts for each in self.state.changes(part) for name in each.dimensions
        )

    @cached_property
    def changes(self) -> tuple[Recorded[kinds.State], ...]:
        """What was reworked, repaired or replaced, in order."""
        ledger = self.state.ledger
        return tuple(
            Recorded(entry, body)
            for entry, body in ledger.in_order()
            if isinstance(body, kinds.State) and ledger.effective(entry.id)
        )

    def permit_of(self, subject: str) -> ConcessionStanding | None:
        """The concession or deviation permit in force for a subject."""
        return self.standing.permitted.get(subject)

    @property
    def photos(self) -> tuple[Recorded[kinds.Photo], ...]:
        """The photos that count, in order."""
        return tuple(self.state.photos)

    def lubricant_title(self, name: str) -> str:
        """A lubricant of the sheet or of the tables by its title."""
        from fitwright.data.fasteners import lubricants

        consumable = self.sheet.consumables.get(name)
        if consumable is not None:
            return consumable.title
        known = lubricants().get(name)
        return known.title if known is not None else name

    def name_of(self, person: str | None) -> str:
        """A person by name, else by code."""
        held = self.shop.people.get(person or "")
        return held.body.name if held is not None else person or ""

    def before(self, subject: str) -> FitVerdict | None:
        """The verdict on a subject as received."""
        return self.received.verdict(subject) if subject in self.received.judge.subjects else None


def known_from(
    build: str,
    entries: Sequence[Entry],
    sheets: Mapping[str, Sheet],
    at_hand: AtHand = NOTHING_AT_HAND,
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
    return Known(build, tuple(entries), dict(sheets), shop, state, at_hand)
