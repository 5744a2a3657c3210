"""Which entries may change what a fit is: a superset, by what each entry is about."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterator

from fitwright.assess.assembly.job import Job
from fitwright.assess.evidence import members_of
from fitwright.records import kinds
from fitwright.records.entry import Entry
from fitwright.records.kinds import Body
from fitwright.records.registry import WORK_KINDS

_SILENT = (WORK_KINDS - {kinds.Concession.kind, kinds.DeviationPermit.kind}) | {
    noun.kind
    for noun in (
        kinds.Note,
        kinds.Photo,
        kinds.QuestionAnswered,
        kinds.EyeCheck,
        kinds.NotMeasured,
        kinds.PressureReading,
        kinds.OilChosen,
        kinds.BuildStarted,
        kinds.PinSet,
        kinds.GaugeStudy,
    )
}

_KEPT = (kinds.Person, kinds.Instrument, kinds.Setting, kinds.BladeSet, kinds.Sitting)
"""What readings refer to by a code: only a newer state of it says something new of them."""


class Touching:
    """For some fits the entries after a seq that may have changed what they are."""

    def __init__(self, job: Job, subjects: Collection[str], after: int) -> None:
        self._job, self._subjects = job, frozenset(subjects)
        self._seen: set[tuple[str, str]] = set()
        self._by_feature: dict[str, set[str]] = defaultdict(set)
        self._by_position: dict[str, set[str]] = defaultdict(set)
        for subject in subjects:
            self._rest(subject)
        self.of: dict[str, list[Entry]] = {subject: [] for subject in subjects}
        self._collect(after)

    def _rest(self, subject: str) -> None:
        judge = self._job.assessor.judge
        found = judge.subjects.get(subject)
        names = list(found.dimensions()) if found is not None else [subject]
        fit = self._job.sheet.fits.get(subject)
        if fit is not None and fit.centring is not None and fit.centring.clearance in judge.subjects:
            names.extend(judge.subjects[fit.centring.clearance].dimensions())
        for name in names:
            dimension = self._job.sheet.dimensions.get(name)
            if dimension is not None:
                self._by_feature[dimension.feature].add(subject)
                for member in members_of(self._job.sheet, dimension):
                    self._by_position[member.position].add(subject)

    def _collect(self, after: int) -> None:
        recorded = (*self._job.build.ledger.recorded.values(), *self._job.shop.ledger.recorded.values())
        self._seen = {
            (held.body.kind, held.body.code)
            for held in recorded
            if held.entry.seq <= after and isinstance(held.body, _KEPT)
        }
        later = [held for held in recorded if held.entry.seq > after and held.entry.kind not in _SILENT]
        for entry, body in sorted(later, key=lambda held: held.entry.seq):
            new = self._is_new(body)
            for subject in self._touched(entry, body, new=new):
                if not self.of[subject] or self.of[subject][-1].seq != entry.seq:
                    self.of[subject].append(entry)

    def _is_new(self, body: Body) -> bool:
        """Whether the thing that an entry describes was not there before: then nothing rests on it yet."""
        if not isinstance(body, _KEPT) or body.supersedes is not None:
            return False
        new = (body.kind, body.code) not in self._seen
        self._seen.add((body.kind, body.code))
        return new

    def _touched(self, entry: Entry, body: Body, *, new: bool) -> frozenset[str] | set[str]:
        found = self._by_body(entry, body, new=new)
        if isinstance(body, kinds.Withdrawal):
            return found
        target = self._job.build.ledger.recorded.get(body.supersedes or "")
        return found | self._touched(target.entry, target.body, new=False) if target is not None else found

    def _by_body(self, entry: Entry, body: Body, *, new: bool) -> frozenset[str] | set[str]:  # noqa: PLR0911
        match body:
            case kinds.Reading() | kinds.StatedSize():
                return self._by_feature.get(body.feature, set())
            case kinds.ReadingsMoved():
                return self._of_moves(body)
            case kinds.Choice():
                named = (*body.entries, *body.instead_of)
                return frozenset().union(*(self._of_entry(each) for each in named))
            case kinds.Withdrawal():
                return self._of_entry(body.entry)
            case kinds.Concession() | kinds.DeviationPermit() | kinds.LimitAdopted():
                return {body.subject} & self._subjects
            case kinds.Fitting() | kinds.TakingOut() | kinds.Part() | kinds.State():
                return self._of_arrangement(entry, body)
            case _ if isinstance(body, _KEPT):
                return frozenset() if new else self._subjects
        return self._subjects

    def _of_entry(self, entry_id: str) -> frozenset[str] | set[str]:
        held = self._job.build.ledger.recorded.get(entry_id)
        if held is None:
            return self._subjects
        return frozenset() if held.entry.kind in _SILENT else self._touched(*held, new=False)

    def _of_moves(self, body: kinds.ReadingsMoved) -> set[str]:
        features = {move.feature for move in body.moves}
        for move in body.moves:
            held = self._job.build.ledger.recorded.get(move.entry)
            if held is not None and isinstance(held.body, kinds.Reading):
                features.add(held.body.feature)
        return {subject for each in features for subject in self._by_feature.get(each, ())}

    def _of_arrangement(self, entry: Entry, body: Body) -> frozenset[str] | set[str]:
        found = set(self._positions(entry, body))
        if not found and not self._job.build.ledger.effective(entry.id):
            return self._subjects
        return {subject for position in found for subject in self._by_position.get(position, ())}

    def _positions(self, entry: Entry, body: Body) -> Iterator[str]:
        """Where an entry put parts in or took them out, and where the part it is about ever sat."""
        part = str(getattr(body, "part", None) or getattr(body, "code", ""))
        named = getattr(body, "position", None)
        if isinstance(named, str):
            yield named
        yield part
        for position, events in self._job.arranged:
            if part in self._job.parts_seen[position] or any(e.entry.id == entry.id for e in events):
                yield position
