"""The oil system of one build asked by one command: at which point, and what is otherwise."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import Self

from fitwright.assess.oil.chosen import card_points
from fitwright.assess.oil.desk import OilDesk
from fitwright.assess.oil.points import OilPoint, named_points
from fitwright.assess.oil.what_if import WhatIf
from fitwright.assess.results import State
from fitwright.cli.errors import UsageError
from fitwright.cli.oil_asking import OilAsking, OilFlags
from fitwright.cli.oil_otherwise import what_if_words
from fitwright.cli.oil_report import OilShown
from fitwright.drawing.oil_figures import OilReader
from fitwright.formats.oil_prediction import RestsOn
from fitwright.units.families import Family
from fitwright.wiring import Shop


@dataclass(frozen=True, slots=True)
class AskedOil:
    """One desk with what it is asked."""

    desk: OilDesk
    rests_on: RestsOn
    facts: str
    family: Family
    point: OilPoint | None = None
    what_if: WhatIf = field(default_factory=WhatIf)

    @classmethod
    def of(cls, shop: Shop, build: str, state: State, family: Family) -> Self:
        """The desk of a build, with what it rests on at one moment."""
        with shop.held():
            started, engine = shop.bench(build).build, shop.bench(build).sheet.engine
            job = shop.builds().get(build)
            desk, head = shop.oil(build, state), shop.record.head()
        rests_on = RestsOn(
            build=build,
            state=state.value,
            sheet=started.sheet or "",
            entry=head.seq if head is not None else None,
            entry_hash=head.hash if head is not None else None,
        )
        facts = [
            f"job {job.job_number}" if job is not None and job.job_number else f"build {build}",
            f"sheet {engine.id} revision {engine.revision}",
            f"record up to entry {head.seq} ({head.hash[:12]})" if head is not None else "",
            "sizes as received" if state is State.AS_RECEIVED else "",
        ]
        return cls(desk, rests_on, ", ".join(each for each in facts if each), family)

    def with_words(self, speed: str, temperature: str, flags: OilFlags) -> Self:
        """The same asked at a point, and with something otherwise; words that cannot be are refused."""
        if self.desk.case.problem:
            raise UsageError(f"{self.rests_on.build}: {self.desk.case.problem}")
        asking = OilAsking(self.desk, self.family)
        return replace(self, point=asking.point(speed, temperature), what_if=asking.what_if(flags))

    def shown(self, *, grid: bool, base_bands: bool) -> OilShown:
        """The answer with its bands; `grid`: also at the points of the card.

        `base_bands`: the build as measured, which a what-if is held against, has its bands too.
        """
        circuit = self.desk.circuit
        mine = (self.point,) if self.point is not None else ()
        also = (*mine, *(card_points(circuit) if grid and circuit is not None else ()))
        found = self.desk.banded(self.what_if, also)
        if found.problem:
            raise UsageError(f"{self.rests_on.build}: {found.problem}")
        ask = self.desk.banded if base_bands else self.desk.best
        named = len(named_points(circuit)) if circuit is not None else 0
        return OilShown(
            desk=self.desk,
            found=found,
            base=None if self.what_if.changes_nothing else ask(None, also),
            named=named + len(mine),
            focus=named if mine else 0,
            facts=self.facts,
            otherwise="; ".join(what_if_words(self.desk, self.what_if, self.family)),
            reader=OilReader(self.family),
        )
