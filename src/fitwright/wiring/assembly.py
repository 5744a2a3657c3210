"""How the assembly of a build stands, kept until an entry or the clock changes it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import datetime
from typing import TYPE_CHECKING

from fitwright.assess.assessment import Assessor

if TYPE_CHECKING:
    from fitwright.assess.assembly.past import Past
    from fitwright.assess.assembly.results import Standing


@dataclass(slots=True)
class KeptStanding:
    """The standing of one build as it was last worked out, and what fits were at earlier moments."""

    position: int = -1
    standing: Standing | None = None
    past: Past | None = field(default=None)

    def at(self, assessor: Assessor, position: int, now: datetime) -> Standing:
        """The standing at an entry of the record and a moment."""
        kept = self.standing
        if kept is None or self.position != position or _clock_changes(kept, now):
            from fitwright.assess.assembly.past import Past
            from fitwright.assess.assembly.standing import standing_of

            self.past = self.past or Past()
            kept = standing_of(assessor, now=now, past=self.past)
            self.position, self.standing = position, kept
        return kept


def _clock_changes(kept: Standing, now: datetime) -> bool:
    """Whether something has cured, or a day went over, since a standing was worked out."""
    if kept.now is None or now < kept.now or now.date() != kept.now.date():
        return True
    return any(kept.now < moment <= now for moment in _moments(kept))


def _moments(kept: Standing) -> Iterator[datetime]:
    for step in kept.steps.values():
        yield from (each.until for each in step.conditions if each.until is not None)
    for consumable in kept.consumables.values():
        yield from (each.cured_from for each in consumable.uses if each.cured_from is not None)
