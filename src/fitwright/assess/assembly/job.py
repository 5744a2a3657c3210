"""What a standing is worked out from: the verdicts, the records, the sheet and a moment."""

from __future__ import annotations

from bisect import bisect_left
from dataclasses import dataclass
from datetime import datetime
from functools import cached_property

from fitwright.assess.assembly.deeds import Deed
from fitwright.assess.assembly.feeds import Feeding
from fitwright.assess.assembly.fits import FitHeld, fit_held
from fitwright.assess.assembly.part_results import ConsumableUse
from fitwright.assess.assembly.permissions import Permissions
from fitwright.assess.assembly.reckoning import Reckoned
from fitwright.assess.assembly.reversals import Reversals
from fitwright.assess.assembly.tightenings import Tightenings
from fitwright.assess.assembly.times import moment, when
from fitwright.assess.assessment import Assessor
from fitwright.assess.evidence import members_of
from fitwright.assess.not_recorded import not_recorded
from fitwright.assess.results import FitVerdict, NotRecorded
from fitwright.model.sheet import Sheet
from fitwright.records.entry import Entry
from fitwright.records.kinds import (
    Body,
    EyeCheck,
    Loosening,
    Photo,
    StepDone,
    StepReleased,
    TighteningCheck,
)
from fitwright.records.projection import ArrangementEvent, BuildState, Recorded, ShopState, Work


@dataclass(frozen=True)
class Job:
    """One build in its current state, at a moment.

    Attributes
    ----------
    assessor : Assessor
        Its verdicts.
    now : datetime, optional
        The moment; None where the record holds no time at all.
    """

    assessor: Assessor
    now: datetime | None

    @cached_property
    def sheet(self) -> Sheet:
        """The engine sheet."""
        return self.assessor.judge.sheet

    @cached_property
    def shop(self) -> ShopState:
        """The shop."""
        return self.assessor.judge.gauges.shop

    @cached_property
    def build(self) -> BuildState:
        """The build."""
        return self.assessor.judge.build

    @cached_property
    def work(self) -> Work:
        """The work recorded on the build."""
        return self.build.work

    @cached_property
    def permissions(self) -> Permissions:
        """Concessions and deviation permits."""
        return Permissions(self.build)

    @cached_property
    def verdicts(self) -> dict[str, FitVerdict]:
        """Every verdict of this job."""
        names = self.assessor.judge.subjects
        return {name: self.assessor.verdict(name) for name in names if self.not_here(name) is None}

    @cached_property
    def not_recorded(self) -> tuple[NotRecorded, ...]:
        """What of this job has no reading or answer."""
        return not_recorded(self.assessor.judge, self.verdicts)

    @cached_property
    def _fits(self) -> dict[str, FitHeld]:
        return {}

    def fit(self, subject: str) -> FitHeld:
        """A fit or dimension as a condition, as it is now."""
        if subject not in self._fits:
            self._fits[subject] = fit_held(self.assessor, self.permissions, subject, self.now)
        return self._fits[subject]

    @cached_property
    def reversals(self) -> Reversals:
        """Withdrawals and corrections, by what they take back."""
        return Reversals(self.build.ledger)

    @cached_property
    def by_seq(self) -> dict[int, Entry]:
        """All entries of the build and the shop by their seq."""
        found = {held.entry.seq: held.entry for held in self.shop.ledger.recorded.values()}
        return found | {held.entry.seq: held.entry for held in self.build.ledger.recorded.values()}

    @cached_property
    def feeding(self) -> Feeding:
        """What each dimension feeds."""
        return Feeding(self.sheet, self.assessor.judge.subjects)

    def seq_before(self, seq: int) -> int:
        """The seq of the entry before one, of the build or the shop."""
        place = bisect_left(self._seqs, seq)
        return self._seqs[place - 1] if place else 0

    @cached_property
    def _seqs(self) -> list[int]:
        return sorted(self.by_seq)

    @cached_property
    def reckoned(self) -> dict[tuple[object, ...], Reckoned]:
        """How fasteners stood at moments that were asked about."""
        return {}

    @cached_property
    def uses(self) -> dict[tuple[str, datetime | None], list[tuple[int, ConsumableUse]]]:
        """The uses of consumables as they were at moments that were asked about."""
        return {}

    @cached_property
    def tightenings(self) -> Tightenings:
        """What was tightened."""
        return Tightenings(self.sheet, self.build)

    @cached_property
    def arranged(self) -> list[tuple[str, list[ArrangementEvent]]]:
        """Every position of the sheet at which something happened, with what."""
        every = ((name, self.build.arrangement_events(name)) for name in self.sheet.parts)
        return [(name, events) for name, events in every if events]

    @cached_property
    def parts_seen(self) -> dict[str, set[str]]:
        """The parts that were ever put into each position."""
        return {name: {event.part for event in events if event.part} for name, events in self.arranged}

    @cached_property
    def loosened_parts(self) -> dict[str, list[tuple[int, str]]]:
        """For each physical fastener that was loosened where in the order, and the entry."""
        found: dict[str, list[tuple[int, str]]] = {}
        for group in self.sheet.tightening_groups.values():
            parts: dict[str, str] = {}
            for event in self.tightenings.events(group.id):
                if not isinstance(event.body, TighteningCheck):
                    parts |= event.body.members
                if isinstance(event.body, Loosening):
                    for name in event.body.fasteners:
                        if name in parts:
                            found.setdefault(parts[name], []).append((event.order, event.entry.id))
        return found

    @cached_property
    def joined(self) -> dict[str, int]:
        """When each person of the shop first stood in the record (a seq)."""
        found: dict[str, int] = {}
        for code, held in self.shop.people.items():
            found[code] = self.shop.ledger.order(held.entry.id)
        for entry, _ in self.shop.ledger.recorded.values():
            if entry.kind == "person" and entry.body["code"] in found:
                code = str(entry.body["code"])
                found[code] = min(found[code], entry.seq)
        return found

    @property
    def alone(self) -> bool:
        """Whether the shop has no more than one person."""
        return len(self.joined) < 2

    def was_alone(self, seq: int) -> bool:
        """Whether the shop had no more than one person then."""
        return sum(1 for joined in self.joined.values() if joined <= seq) < 2

    def order(self, entry: Entry) -> int:
        """Where an entry stands in the order: a correction where stood what it corrects."""
        return self.build.ledger.order(entry.id)

    def person(self, code: str | None) -> str:
        """A person's name; the code itself where the shop does not know it."""
        held = self.shop.people.get(code or "")
        return held.body.name if held is not None else (code or "somebody not named")

    def deed(self, entry: Entry, person: str | None, words: str | None = None) -> Deed:
        """An entry as a deed of a person; without one, of who wrote it."""
        return Deed(entry.id, entry.seq, person or entry.person, when(entry), words)

    def not_here(self, subject: str) -> str | None:
        """Why something is no part of this job; None where it is part of it."""
        return self.build.not_in_this_job(subject) if self.build.not_in_job else None

    def title(self, subject: str) -> str:
        """What a reader calls a thing of the sheet; its id where the sheet does not know it."""
        tables = (
            self.sheet.fits,
            self.sheet.dimensions,
            self.sheet.steps,
            self.sheet.tightening_groups,
            self.sheet.parts,
            self.sheet.consumables,
        )
        found = next((table[subject] for table in tables if subject in table), None)
        return found.title if found is not None else subject

    @cached_property
    def place_of_step(self) -> dict[str, int]:
        """Where each step stands in the sheet."""
        return {name: number for number, name in enumerate(self.sheet.steps)}

    @cached_property
    def questions(self) -> dict[str, tuple[str, bool]]:
        """Every eye check of the sheet: its question, and the answer wanted."""
        stations = self.sheet.stations.values()
        return {each.id: (each.question, each.wanted) for station in stations for each in station.eye_checks}

    @cached_property
    def _answers(self) -> dict[str, list[Recorded[EyeCheck]]]:
        found: dict[str, list[Recorded[EyeCheck]]] = {}
        for held in self.build.eye_checks:
            found.setdefault(held.body.check, []).append(held)
        return found

    def answers(self, check: str) -> list[Recorded[EyeCheck]]:
        """The answers to an eye check."""
        return self._answers.get(check, [])

    @cached_property
    def subjects_at(self) -> dict[str, list[str]]:
        """For each position the fits and limited dimensions that rest on the part there."""
        found: dict[str, list[str]] = {}
        for subject in self.assessor.judge.subjects.values():
            names = (self.sheet.dimensions[name] for name in subject.dimensions())
            positions = {each.position for name in names for each in members_of(self.sheet, name)}
            for position in positions:
                found.setdefault(position, []).append(subject.id)
        return found

    @cached_property
    def step_entries(self) -> dict[str, list[tuple[str, int]]]:
        """For each step every entry that it was done or released, counting now or not: kind and seq."""
        found: dict[str, list[tuple[str, int]]] = {}
        for entry, body in self.build.ledger.recorded.values():
            if isinstance(body, StepDone | StepReleased):
                found.setdefault(body.step, []).append((body.kind, entry.seq))
        return found

    @cached_property
    def photos(self) -> dict[str, list[Recorded[Photo]]]:
        """The photos by what they are of."""
        found: dict[str, list[Recorded[Photo]]] = {}
        for held in self.build.photos:
            found.setdefault(held.body.subject or "", []).append(held)
        return found


def last_moment(build: BuildState, shop: ShopState) -> datetime | None:
    """When the last entry of a build or its shop was committed; entries only supposed have no time yet."""
    found = [_last(list(ledger.recorded.values())) for ledger in (build.ledger, shop.ledger)]
    return max((each for each in found if each is not None), default=None)


def _last(recorded: list[Recorded[Body]]) -> datetime | None:
    written = (entry.committed_at for entry, _ in reversed(recorded) if entry.committed_at)
    return moment(next(written, None))
