"""Predictions of the oil system kept for dossiers: they take longest, and most entries change none."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from fitwright.assess.oil.desk import OilDesk


@dataclass(slots=True)
class KeptDesks:
    """The desk that last answered for each build: it answers again where a new one would say the same."""

    desks: dict[str, OilDesk] = field(default_factory=dict)

    def instead_of(self, build: str, fresh: OilDesk) -> OilDesk:
        """A desk that says as much as a fresh one."""
        kept = self.desks.get(build)
        if kept is None or not kept.case.says_as_much_as(fresh.case):
            kept = self.desks[build] = fresh
        return kept
