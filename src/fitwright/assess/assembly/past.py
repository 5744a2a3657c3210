"""What fits were at earlier moments of the record: whether work that was done rested on something."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from fitwright.assess.assembly.fits import FitHeld, fit_held
from fitwright.assess.assembly.job import Job
from fitwright.assess.assembly.joint import Joint
from fitwright.assess.assembly.permissions import Permissions
from fitwright.assess.assembly.sizes import NOT_READ, Size, size_of
from fitwright.assess.assembly.times import moment
from fitwright.assess.assessment import Assessor
from fitwright.assess.results import State
from fitwright.model.fastener import TighteningGroup
from fitwright.model.sheet import Sheet
from fitwright.records.entry import Entry

Moment = tuple[str, int]
"""A fit, and the seq of the entry after which one looks at it."""


class Past:
    """Remembers what stays true: what fits were at earlier moments, and the sums of a sheet's joints.

    May be kept as long as the record of one build only grows. What was is held against the limits of the
    sheet as it is now.
    """

    def __init__(self) -> None:
        self._held: dict[tuple[str, str, str], FitHeld] = {}
        self._sizes: dict[tuple[str, str, str], Size] = {}
        self._joints: dict[tuple[str, str], Joint] = {}

    def look(self, job: Job, wanted: Iterable[Moment], after: Mapping[str, int] | None = None) -> None:
        """Work out what is not known yet, in one walk through the record.

        A fit that does not hold at a moment past `after` is not looked at any further: it has ended.
        """
        unknown = {each for each in wanted if self._key(job, each) not in self._held}
        fresh = sorted(unknown, key=lambda each: each[1])
        if fresh:
            walk, ended = _Walk(job, fresh[0][1]), set[str]()
            for subject, seq in fresh:
                if subject not in ended:
                    found = self._held[self._key(job, (subject, seq))] = walk.held(subject, seq)
                    if not found.holds and after is not None and seq > after[subject]:
                        ended.add(subject)

    def look_at_sizes(self, job: Job, wanted: Iterable[Moment]) -> None:
        """The same for the sizes of dimensions."""
        known = (each for each in wanted if each[1] in job.by_seq)
        unknown = {each for each in known if self._key(job, each) not in self._sizes}
        fresh = sorted(unknown, key=lambda each: each[1])
        if fresh:
            walk = _Walk(job, fresh[0][1])
            for each in fresh:
                self._sizes[self._key(job, each)] = walk.size(*each)

    def size(self, job: Job, dimension: str, seq: int) -> Size:
        """What was read of a dimension after an entry; before the first, nothing was."""
        if seq not in job.by_seq:
            return NOT_READ
        self.look_at_sizes(job, [(dimension, seq)])
        return self._sizes[self._key(job, (dimension, seq))]

    def joint(self, sheet: Sheet, group: TighteningGroup) -> Joint:
        """A group of a sheet as physics sees it, with the preloads that were computed of it."""
        found = self._joints.get((sheet.digest, group.id))
        if found is None or found.group is not group:
            found = self._joints[sheet.digest, group.id] = Joint(sheet, group)
        return found

    def remember(self, job: Job, subject: str, seq: int, held: FitHeld) -> None:
        """Keep what a fit is now, where nothing has touched it since an entry."""
        self._held.setdefault(self._key(job, (subject, seq)), held)

    def at(self, job: Job, subject: str, seq: int) -> FitHeld:
        """What a fit was after an entry."""
        self.look(job, [(subject, seq)])
        return self._held[self._key(job, (subject, seq))]

    def _key(self, job: Job, wanted: Moment) -> tuple[str, str, str]:
        """By the entry, not its seq: entries that were only supposed are followed by others."""
        subject, seq = wanted
        return subject, job.by_seq[seq].id, job.sheet.digest


class _Walk:
    """The states of build and shop, brought forward from one moment to the next."""

    def __init__(self, job: Job, seq: int) -> None:
        self._sheet = job.sheet
        self._build, self._shop = job.build.as_of(seq), job.shop.as_of(seq)
        self._later = [job.by_seq[each] for each in sorted(job.by_seq, reverse=True) if each > seq]
        self._assessor = Assessor(self._sheet, self._shop, self._build, State.CURRENT)
        self._permissions = Permissions(self._build)
        self._now = moment(job.by_seq[seq].committed_at)

    def held(self, subject: str, seq: int) -> FitHeld:
        """What a fit was after an entry that is not before the last one asked about."""
        self._go_to(seq)
        return fit_held(self._assessor, self._permissions, subject, self._now)

    def size(self, dimension: str, seq: int) -> Size:
        """What was read of a dimension then."""
        self._go_to(seq)
        return size_of(self._assessor.judge, dimension)

    def _go_to(self, seq: int) -> None:
        entries = []
        while self._later and self._later[-1].seq <= seq:
            entries.append(self._later.pop())
        if entries:
            self._go_on(entries)

    def _go_on(self, entries: Sequence[Entry]) -> None:
        for entry in entries:
            self._build.apply(entry)
            self._shop.apply(entry)
        self._assessor.renew(entries)
        self._permissions = Permissions(self._build)
        self._now = moment(entries[-1].committed_at) or self._now
