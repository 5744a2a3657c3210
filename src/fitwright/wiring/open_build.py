"""One build held open: its state, an assessor for each state that was asked for, its oil, its assembly."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from contextlib import AbstractContextManager
from dataclasses import dataclass, field
from datetime import datetime
from typing import TYPE_CHECKING

from fitwright.assess.assessment import Assessor
from fitwright.assess.results import State
from fitwright.model.sheet import Sheet
from fitwright.records.entry import Entry, NewEntry
from fitwright.records.projection import BuildState, ShopState
from fitwright.records.times import utc_text
from fitwright.wiring.assembly import KeptStanding

if TYPE_CHECKING:
    from fitwright.assess.assembly.results import Standing
    from fitwright.assess.oil.desk import OilDesk

SOON_JUDGED = 20
"""So many verdicts are worked out before anybody notices."""


@dataclass(slots=True)
class OpenBuild:
    """A build as far as it was brought up to date; asked and changed only under the lock of its shop."""

    sheet: Sheet
    state: BuildState
    assessors: dict[State, Assessor] = field(default_factory=dict)
    work: KeptStanding = field(default_factory=KeptStanding)
    _oil: tuple[tuple[int, int], OilDesk] | None = None

    def assessor(self, shop: ShopState, state: State, lock: AbstractContextManager[object]) -> Assessor:
        """The assessor of one state; it stays up to date with what is taken up."""
        found = self.assessors.get(state)
        if found is None:
            found = Assessor(self.sheet, shop, self.state, state, lock=lock)
            self.assessors[state] = found
        return found

    def oil(self, position: int, assessor_of: Callable[[State], Assessor]) -> OilDesk:
        """The oil system as its sizes are known; an entry that changes none leaves the desk as it is."""
        from fitwright.assess.oil.desk import OilDesk, oil_case

        now = (self.state.seq, position)
        if self._oil is None or self._oil[0] != now:
            case = oil_case(*(assessor_of(each).judge for each in (State.CURRENT, State.AS_RECEIVED)))
            kept = self._oil[1] if self._oil is not None else None
            desk = kept if kept is not None and kept.case.says_as_much_as(case) else OilDesk(case)
            self._oil = (now, desk)
        return self._oil[1]

    def supposing(self, entries: Iterable[NewEntry], shop: ShopState, now: datetime) -> Standing:
        """How the assembly would stand with entries written at a moment."""
        from fitwright.assess.assembly.standing import standing_of

        supposed = self.state.supposing(entries, at=utc_text(now))
        return standing_of(Assessor(self.sheet, shop, supposed, State.CURRENT), now=now)

    @property
    def is_ready(self) -> bool:
        """Whether the current verdicts are all but worked out."""
        assessor = self.assessors.get(State.CURRENT)
        return assessor is not None and assessor.to_judge <= SOON_JUDGED

    def take_up(self, entries: Iterable[Entry], sheet_of: Callable[[str], Sheet]) -> frozenset[str]:
        """Take up entries that concern the build; returns the subjects whose verdicts they touched."""
        concerned = list(entries)
        for entry in concerned:
            self.state.apply(entry)
        if self.state.sheet != self.sheet.digest and self.state.sheet is not None:
            self.sheet = sheet_of(self.state.sheet)
            self.assessors.clear()
            self.work = KeptStanding()
        touched: frozenset[str] = frozenset()
        for assessor in self.assessors.values():
            touched |= assessor.renew(concerned)
        return touched
