"""A whole build assessed, and assessed again after one more entry without starting anew."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from contextlib import AbstractContextManager
from dataclasses import dataclass
from threading import RLock

from fitwright.assess.chains import Member
from fitwright.assess.judging import Judge
from fitwright.assess.not_on_sheet import not_on_sheet
from fitwright.assess.not_recorded import not_recorded
from fitwright.assess.results import Assessment, FitVerdict, State
from fitwright.assess.settling import Settling, settling_of
from fitwright.assess.subjects import Subject
from fitwright.model.limit import LimitClass
from fitwright.model.sheet import Sheet
from fitwright.physics.numerics.errors import PhysicsError
from fitwright.records.entry import Entry, NewEntry
from fitwright.records.projection import BuildState, ShopState
from fitwright.records.registry import WORK_KINDS

_LOCAL_KINDS = frozenset({"reading"})
_SILENT_KINDS = frozenset(
    {
        "note",
        "photo",
        "question answered",
        "eye check",
        "not measured",
        "pressure reading",
        "oil chosen",
    }
    | WORK_KINDS
)


def assess(sheet: Sheet, shop: ShopState, build: BuildState, state: State = State.CURRENT) -> Assessment:
    """Judge every fit and limited dimension of a build in one state."""
    return Assessor(sheet, shop, build, state).assessment()


@dataclass(frozen=True, slots=True)
class Reached:
    """Verdicts, and what is known of dimensions, as an assessor has worked them out so far."""

    verdicts: Mapping[str, FitVerdict]
    members: Mapping[str, Member]


class Assessor:
    """Holds the verdicts of one build in one state and renews those that an entry touches.

    May be asked from several threads at once: `lock` is the one under which the states themselves are
    brought up to date, so that no verdict on an older state outlives its renewal. `reached` is what another
    assessor reached from the same entries.
    """

    def __init__(
        self,
        sheet: Sheet,
        shop: ShopState,
        build: BuildState,
        state: State,
        *,
        lock: AbstractContextManager[object] | None = None,
        reached: Reached | None = None,
    ) -> None:
        self._lock = lock if lock is not None else RLock()
        self._sheet, self._shop, self._build, self._state = sheet, shop, build, state
        self._judge = Judge(sheet, shop, build, state, reached.members if reached is not None else None)
        self._verdicts: dict[str, FitVerdict] = dict(reached.verdicts) if reached is not None else {}
        self._settling: dict[str, tuple[FitVerdict, Settling | None]] = {}
        self._by_feature: dict[str, set[str]] = defaultdict(set)
        for subject in self._judge.subjects.values():
            for name in self._rests_on(subject):
                self._by_feature[sheet.dimensions[name].feature].add(subject.id)

    @property
    def judge(self) -> Judge:
        """The judge behind the verdicts, for workings and for what would settle them."""
        return self._judge

    @property
    def reached(self) -> Reached:
        """What was asked for and still holds."""
        with self._lock:
            return Reached(dict(self._verdicts), dict(self._judge.members))

    @property
    def to_judge(self) -> int:
        """How many subjects nobody has asked about yet, or not since an entry touched them."""
        with self._lock:
            return len(self._judge.subjects) - len(self._verdicts)

    def verdict(self, subject_id: str) -> FitVerdict:
        """One verdict, judged when first asked for."""
        with self._lock:
            found = self._verdicts.get(subject_id)
            if found is None:
                found = self._judge.verdict(self._judge.subjects[subject_id])
                self._verdicts[subject_id] = found
            return found

    def settling(self, subject_id: str) -> Settling | None:
        """What would settle one subject; worked out when first asked for."""
        with self._lock:
            found = self.verdict(subject_id)
            held = self._settling.get(subject_id)
            if held is None or held[0] is not found:
                held = (found, self._settling_of(found))
                self._settling[subject_id] = held
            return held[1]

    def _settling_of(self, found: FitVerdict) -> Settling | None:
        """Nothing where its limits contradict each other: then no reading settles it."""
        try:
            return settling_of(self._judge, found)
        except PhysicsError:
            return None

    def touched_by(self, entry: Entry | NewEntry) -> frozenset[str]:
        """The subjects whose verdict an entry may change (after the projections have taken it)."""
        if entry.kind in _SILENT_KINDS:
            return frozenset()
        if entry.kind in _LOCAL_KINDS:
            return frozenset().union(*(self._by_feature.get(each, ()) for each in self._features(entry)))
        return frozenset(self._judge.subjects)

    def _features(self, entry: Entry | NewEntry) -> tuple[str, ...]:
        """What a reading is of. A correction may say that a size was another's: both are touched."""
        corrected = self._build.readings.get(entry.body.get("supersedes") or "")
        return (entry.body.get("feature", ""), *([corrected.feature] if corrected is not None else []))

    def renew(self, entries: Iterable[Entry]) -> frozenset[str]:
        """Forget the verdicts that these entries touch; returns which."""
        touched: frozenset[str] = frozenset()
        read: set[str] = set()
        for entry in entries:
            touched |= self.touched_by(entry)
            if entry.kind in _LOCAL_KINDS:
                read.update(self._features(entry))
        if len(touched) == len(self._judge.subjects):
            self._judge = Judge(self._sheet, self._shop, self._build, self._state)
            self._verdicts.clear()
        else:
            self._judge.forget(touched)
            self._judge.forget_features(read)
            for subject_id in touched:
                self._verdicts.pop(subject_id, None)
        return touched

    def assessment(self) -> Assessment:
        """All verdicts, with what is not recorded."""
        absent = {
            subject_id: reason
            for subject_id in self._judge.subjects
            if (reason := self._build.not_in_this_job(subject_id)) is not None
        }
        every = {
            subject_id: self.verdict(subject_id)
            for subject_id in self._judge.subjects
            if subject_id not in absent
        }
        unlimited = {
            subject_id: found for subject_id, found in every.items() if not self._is_judged(subject_id)
        }
        verdicts = {subject_id: found for subject_id, found in every.items() if subject_id not in unlimited}
        return Assessment(
            build=self._build.build,
            state=self._state,
            sheet=self._sheet.digest,
            head=self._build.seq,
            verdicts=verdicts,
            unlimited=unlimited,
            not_recorded=not_recorded(self._judge, every),
            not_on_sheet=not_on_sheet(self._sheet, self._build),
            not_in_this_job=absent,
        )

    def _rests_on(self, subject: Subject) -> Iterator[str]:
        """Its own dimensions, and those of the clearance in which a centred crank lies low."""
        yield from subject.dimensions()
        centring = subject.fit.centring if subject.fit is not None else None
        other = self._judge.subjects.get(centring.clearance or "") if centring is not None else None
        if other is not None:
            yield from other.dimensions()

    def _is_judged(self, subject_id: str) -> bool:
        subject = self._judge.subjects[subject_id]
        return bool(subject.limits) or subject.limit_class is LimitClass.CRITICAL
