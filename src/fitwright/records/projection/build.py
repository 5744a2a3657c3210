"""The state of one build: everything its entries say, as far as they count."""

from __future__ import annotations

from collections.abc import Iterable
from functools import singledispatchmethod
from typing import Self

from fitwright.records import kinds
from fitwright.records.entry import Entry, NewEntry, as_if_written
from fitwright.records.kinds import Body
from fitwright.records.projection.arrangement import Arrangement, ArrangementEvent
from fitwright.records.projection.changes import Changes, StateChange
from fitwright.records.projection.ledger import Ledger, Recorded
from fitwright.records.projection.readings import (
    ReadingRecord,
    Readings,
    StatedSizeRecord,
    moves_in_force,
)
from fitwright.records.projection.work import Work
from fitwright.records.registry import SHELF_KINDS, SHOP_KINDS, body_of


class BuildState:
    """One build, from its own entries and those on parts that are filed under no build.

    `apply` takes entries in order of `seq`; what belongs to other builds or to the shop is passed
    over. Readings and stated sizes are all here, with what became of them; everything else only as
    far as it is effective. Things with a `code` are in their newest state.
    """

    def __init__(self, build: str) -> None:
        self.build = build
        self.seq = 0
        self.ledger = Ledger()
        self._start_over()

    def _start_over(self) -> None:
        self._readings = Readings()
        self._arrangement = Arrangement()
        self._changes = Changes()
        self._choices: dict[str, list[Recorded[kinds.Choice]]] = {}
        self.started: Recorded[kinds.BuildStarted] | None = None
        self.sheet: str | None = None
        self.revisions: list[Recorded[kinds.RevisionTakenOver]] = []
        self.parts: dict[str, Recorded[kinds.Part]] = {}
        self.sittings: dict[str, Recorded[kinds.Sitting]] = {}
        self.eye_checks: list[Recorded[kinds.EyeCheck]] = []
        self.not_measured: dict[str, Recorded[kinds.NotMeasured]] = {}
        self.not_in_job: dict[str, Recorded[kinds.NotInThisJob]] = {}
        self.limits_adopted: dict[str, list[Recorded[kinds.LimitAdopted]]] = {}
        self.oils_chosen: list[Recorded[kinds.OilChosen]] = []
        self.pressure_readings: list[Recorded[kinds.PressureReading]] = []
        self.notes: list[Recorded[kinds.Note]] = []
        self.photos: list[Recorded[kinds.Photo]] = []
        self.questions: list[Recorded[kinds.QuestionAnswered]] = []
        self.choices: list[Recorded[kinds.Choice]] = []
        self.moves: list[Recorded[kinds.ReadingsMoved]] = []
        self.work = Work()

    @classmethod
    def replay(cls, build: str, entries: Iterable[Entry]) -> Self:
        """The state after all these entries, in order of `seq`."""
        state = cls(build)
        for entry in entries:
            if state._concerns(entry):
                state._add(entry)
        state._rebuild()
        return state

    def supposing(self, entries: Iterable[NewEntry], *, at: str = "") -> Self:
        """The state that it would be with these entries written (`at` a moment); this one stays as it is."""
        return self._with(self.build, self.ledger, entries, at)

    def as_of(self, seq: int) -> Self:
        """The state as it was after the entry with this seq; later entries may be applied to it."""
        return self._until(self.build, self.ledger, seq)

    @classmethod
    def _until(cls, build: str, ledger: Ledger, seq: int) -> Self:
        state = cls(build)
        for entry, body in ledger.recorded.values():
            if entry.seq <= seq:
                state.ledger.add(entry, body)
                state.seq = entry.seq
        state._rebuild()
        return state

    @classmethod
    def _with(cls, build: str, ledger: Ledger, entries: Iterable[NewEntry], at: str) -> Self:
        state = cls(build)
        for entry, body in ledger.recorded.values():
            state.ledger.add(entry, body)
            state.seq = entry.seq
        for new in entries:
            entry = as_if_written(new, state.seq + 1, at)
            if state._concerns(entry):
                state._add(entry)
        state._rebuild()
        return state

    def apply(self, entry: Entry) -> None:
        """Take the next entry."""
        if not self._concerns(entry):
            return
        body, refers = self._add(entry)
        if refers or isinstance(body, kinds.ReadingsMoved):
            self._rebuild()
        else:
            self._index(entry, body)

    # What the state can be asked.

    @property
    def readings(self) -> dict[str, ReadingRecord]:
        """All readings by entry id, effective or not."""
        return self._readings.by_id

    @property
    def stated_sizes(self) -> dict[str, StatedSizeRecord]:
        """All stated sizes by entry id, effective or not."""
        return self._readings.stated

    def readings_of(self, feature: str) -> list[ReadingRecord]:
        """All readings of a feature in order, effective or not, where moves put them."""
        return self._readings.by_feature.get(feature, [])

    def stated_sizes_of(self, feature: str) -> list[StatedSizeRecord]:
        """All stated sizes of a feature in order, effective or not."""
        return self._readings.stated_by_feature.get(feature, [])

    def occupant(self, position: str) -> str | None:
        """The part in a position now; its original part where nothing was ever recorded."""
        return self._arrangement.occupant(position)

    def original_occupant(self, position: str) -> str:
        """The first part that was ever in a position."""
        return self._arrangement.original_occupant(position)

    def location(self, part: str) -> str | None:
        """The position that a part sits in now."""
        return self._arrangement.location(part)

    def arrangement_events(self, position: str) -> list[ArrangementEvent]:
        """The effective events at a position, in order."""
        return self._arrangement.events.get(position, [])

    def changes(self, part: str) -> list[StateChange]:
        """The effective changes of a part, in order."""
        return self._changes.of(part)

    def last_change(self, part: str, dimension: str) -> StateChange | None:
        """The last effective change of a part that retires readings of this dimension."""
        return self._changes.last(part, dimension)

    def choices_for(self, entry_id: str) -> list[Recorded[kinds.Choice]]:
        """The effective choices that name an entry, for it or instead of it, in order."""
        return self._choices.get(entry_id, [])

    def is_used(self, part: str) -> bool:
        """Whether a part is declared used, so that wear limits apply."""
        held = self.parts.get(part)
        return held is not None and held.body.used

    def not_in_this_job(self, subject: str) -> str | None:
        """Why something is no part of this job, or None where it is part of it.

        What is said of `main.4` holds for `main.4.bore`, not for `main.40`.
        """
        steps = subject.split(".")
        for length in range(len(steps), 0, -1):
            held = self.not_in_job.get(".".join(steps[:length]))
            if held is not None:
                return held.body.reason or "no reason given"
        return None

    def not_measured_because(self, subject: str) -> str | None:
        """Why something was not measured, where somebody said so."""
        held = self.not_measured.get(subject)
        return None if held is None else held.body.because

    def adopted_limits(self, subject: str) -> list[Recorded[kinds.LimitAdopted]]:
        """The effective adoptions of limits for a fit or dimension, in order."""
        return self.limits_adopted.get(subject, [])

    # How entries become state.

    def _concerns(self, entry: Entry) -> bool:
        if entry.build is None:
            return entry.kind in SHELF_KINDS
        return entry.build == self.build and entry.kind not in SHOP_KINDS

    def _add(self, entry: Entry) -> tuple[Body, bool]:
        body = body_of(entry.kind, entry.kind_version, entry.body)
        self.seq = entry.seq
        return body, self.ledger.add(entry, body)

    def _rebuild(self) -> None:
        self.ledger.settle()
        self._start_over()
        everything = list(self.ledger.in_order())
        self.moves = [
            Recorded(held.entry, held.body)
            for held in everything
            if isinstance(held.body, kinds.ReadingsMoved) and self.ledger.effective(held.entry.id)
        ]
        moves = moves_in_force(self.moves, self.ledger)
        for entry, body in everything:
            if isinstance(body, kinds.Reading):
                self._readings.take(entry, body, self.ledger, moves.get(entry.id))
            else:
                self._index(entry, body)

    def _index(self, entry: Entry, body: Body) -> None:
        if isinstance(body, kinds.Reading):
            self._readings.take(entry, body, self.ledger, None)
        elif isinstance(body, kinds.StatedSize):
            self._readings.take_stated(entry, body, self.ledger)
        elif self.ledger.effective(entry.id):
            self._take(body, entry)

    @singledispatchmethod
    def _take(self, body: Body, entry: Entry) -> None:
        """Withdrawals and moves have had their effect in the ledger; the rest each has its place."""
        self.work.take(self.ledger.order(entry.id), entry, body)

    @_take.register
    def _(self, body: kinds.BuildStarted, entry: Entry) -> None:
        self.started = Recorded(entry, body)
        self.sheet = body.sheet

    @_take.register
    def _(self, body: kinds.RevisionTakenOver, entry: Entry) -> None:
        self.revisions.append(Recorded(entry, body))
        self.sheet = body.sheet

    @_take.register
    def _(self, body: kinds.Part, entry: Entry) -> None:
        self.parts[body.code] = Recorded(entry, body)
        self._arrangement.take(self.ledger.order(entry.id), entry, body)

    @_take.register(kinds.Fitting)
    @_take.register(kinds.TakingOut)
    def _(self, body: Body, entry: Entry) -> None:
        self._arrangement.take(self.ledger.order(entry.id), entry, body)

    @_take.register
    def _(self, body: kinds.State, entry: Entry) -> None:
        self._changes.take(self.ledger.order(entry.id), entry, body)

    @_take.register
    def _(self, body: kinds.Sitting, entry: Entry) -> None:
        self.sittings[body.code] = Recorded(entry, body)

    @_take.register
    def _(self, body: kinds.EyeCheck, entry: Entry) -> None:
        self.eye_checks.append(Recorded(entry, body))

    @_take.register
    def _(self, body: kinds.NotMeasured, entry: Entry) -> None:
        self.not_measured[body.subject] = Recorded(entry, body)

    @_take.register
    def _(self, body: kinds.NotInThisJob, entry: Entry) -> None:
        self.not_in_job[body.subject] = Recorded(entry, body)

    @_take.register
    def _(self, body: kinds.LimitAdopted, entry: Entry) -> None:
        self.limits_adopted.setdefault(body.subject, []).append(Recorded(entry, body))

    @_take.register
    def _(self, body: kinds.OilChosen, entry: Entry) -> None:
        self.oils_chosen.append(Recorded(entry, body))

    @_take.register
    def _(self, body: kinds.PressureReading, entry: Entry) -> None:
        self.pressure_readings.append(Recorded(entry, body))

    @_take.register
    def _(self, body: kinds.Note, entry: Entry) -> None:
        self.notes.append(Recorded(entry, body))

    @_take.register
    def _(self, body: kinds.Photo, entry: Entry) -> None:
        self.photos.append(Recorded(entry, body))

    @_take.register
    def _(self, body: kinds.QuestionAnswered, entry: Entry) -> None:
        self.questions.append(Recorded(entry, body))

    @_take.register
    def _(self, body: kinds.Choice, entry: Entry) -> None:
        held = Recorded(entry, body)
        self.choices.append(held)
        for named in dict.fromkeys((*body.entries, *body.instead_of)):
            self._choices.setdefault(named, []).append(held)
