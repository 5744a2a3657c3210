"""Which readings speak for a dimension in a state, which do not, and why not.

A reading belongs to a part, or to the set of parts through which it was taken. It counts as
received until an entry reworks that dimension of that part. When a member of a set changes, the
reading is kept but not used, until a person chooses to use it again with the set put back.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from fitwright.assess.gauges import Gauges
from fitwright.assess.results import State, Unused
from fitwright.assess.setting_chains import Gauge
from fitwright.model.dimension import Dimension
from fitwright.model.sheet import Sheet
from fitwright.records.projection import BuildState, ReadingRecord, StatedSizeRecord


@dataclass(frozen=True, slots=True)
class Member:
    """One member of what a dimension is taken on: its position, and the feature that counts.

    `feature` None: the whole part counts. A rework of it then retires the reading if it names no
    dimension at all, or one that makes up the same fit.
    """

    position: str
    feature: str | None


@dataclass(frozen=True, slots=True)
class Evidence:
    """Readings in use for one dimension, in order of entry; the unused ones; stated sizes."""

    dimension: Dimension
    used: tuple[ReadingRecord, ...]
    unused: tuple[Unused, ...]
    stated: tuple[StatedSizeRecord, ...]

    @property
    def changed(self) -> bool:
        """Whether a place has lost its readings because something changed since."""
        read = {record.place for record in self.used}
        return any(unused.changed and unused.place not in read for unused in self.unused)


def drift_words(setting: str) -> str:
    """Why a reading in a setting that drifted does not count."""
    return f"setting {setting} found drifted since"


def members_of(sheet: Sheet, dimension: Dimension) -> tuple[Member, ...]:
    """The positions and features that a dimension rests on."""
    if dimension.part is not None:
        return (Member(dimension.part, dimension.feature),)
    return tuple(_through(sheet, name) for name in dimension.through)


def _through(sheet: Sheet, name: str) -> Member:
    other = sheet.dimensions.get(name)
    if other is None:
        return Member(name, None)
    if other.part is None:
        return Member(name, None)
    return Member(other.part, other.feature)


def occupants(sheet: Sheet, build: BuildState, dimension: Dimension, state: State) -> dict[str, str] | None:
    """Position -> part code for all members, or None when a position is empty."""
    found: dict[str, str] = {}
    for member in members_of(sheet, dimension):
        part = occupant(build, member.position, state)
        if part is None:
            return None
        found[member.position] = part
    return found


def occupant(build: BuildState, position: str, state: State) -> str | None:
    """The part in a position in a state; None where none sits there."""
    if state is State.AS_RECEIVED:
        return build.original_occupant(position)
    return build.occupant(position)


def gather(
    gauges: Gauges, dimension: Dimension, state: State, same_fit: frozenset[str] = frozenset()
) -> Evidence:
    """The evidence for one dimension in one state; `same_fit` names what makes up the same fits."""
    build = gauges.build
    records = build.readings_of(dimension.feature)
    stated = build.stated_sizes_of(dimension.feature)
    if not records and not stated:
        return Evidence(dimension, (), (), ())
    gatherer = _Gatherer(gauges, dimension, state, same_fit)
    used: list[ReadingRecord] = []
    unused: list[Unused] = []
    for record in records:
        why = gatherer.why_unused(record)
        if why is None:
            used.append(record)
        elif why.words:
            unused.append(
                Unused(record.entry.id, dimension.id, record.place, why.words, why.changed, why.by_choice)
            )
    kept = tuple(each for each in stated if gatherer.speaks_of_these_parts(each))
    return Evidence(dimension, tuple(used), tuple(unused), kept)


@dataclass(frozen=True, slots=True)
class _Why:
    """Why a reading is not used; empty words mean that it is about other parts altogether."""

    words: str
    changed: bool = False
    by_choice: bool = False


_ELSEWHERE = _Why("")


class _Gatherer:
    """The questions asked of each reading of one dimension, in the order that matters."""

    def __init__(self, gauges: Gauges, dimension: Dimension, state: State, same_fit: frozenset[str]) -> None:
        self.same_fit = same_fit
        self.gauges, self.build = gauges, gauges.build
        self.dimension, self.state = dimension, state
        self.members = members_of(gauges.sheet, dimension)
        self.now = occupants(gauges.sheet, gauges.build, dimension, state)
        self.single = dimension.part is not None
        self.titles = {member.position: _title(gauges.sheet, member.position) for member in self.members}

    def why_unused(self, record: ReadingRecord) -> _Why | None:
        """None when the reading counts; otherwise why it does not."""
        if not self._about_this(record):
            return _ELSEWHERE
        if record.superseded_by is not None:
            return _Why("superseded by a later entry")
        if record.withdrawn_by is not None:
            return _Why("withdrawn")
        if record.body.during_rework:
            return _Why("read during rework")
        return (
            self._other_sheet(record)
            or self._other_parts(record)
            or self._reworked(record)
            or self._set_apart(record)
            or self._gauge_lets_it_count(record)
            or self._not_chosen(record)
        )

    def _other_sheet(self, record: ReadingRecord) -> _Why | None:
        """A later revision may have taken the place away, or ask for the part in another condition."""
        if self.dimension.place(record.place) is None:
            return _Why(f"the sheet has no place {record.place} here any more")
        if record.moved_by is not None or record.body.condition == self.dimension.condition:
            return None
        revision = max((held.entry.seq for held in self.build.revisions), default=0)
        if self._used_again(record, after=revision):
            return None
        was = record.body.condition or "no condition"
        words = f"read in {was}, where the sheet now says {self.dimension.condition or 'none'}"
        return _Why(f"{words}; used again only by choice", changed=True, by_choice=True)

    def speaks_of_these_parts(self, stated: StatedSizeRecord) -> bool:
        """Whether a stated size is about the parts that are in place, as they were in this state."""
        if not stated.effective or self.now is None:
            return False
        if set(stated.members.values()) != set(self.now.values()):
            return False
        if self.state is State.AS_RECEIVED:
            return not self._retiring_changes(upto=stated.order)
        return self._retiring_change(stated.order) is None

    def _about_this(self, record: ReadingRecord) -> bool:
        if self.single:
            in_place = self.now is not None and set(record.members.values()) == set(self.now.values())
            return in_place or record.dimension == self.dimension.id
        return record.dimension == self.dimension.id

    def _other_parts(self, record: ReadingRecord) -> _Why | None:
        if self.now is None:
            empty = [
                self.titles[m.position]
                for m in self.members
                if occupant(self.build, m.position, self.state) is None
            ]
            return _Why(f"{_list(empty)} taken out since", changed=True)
        if self.single:
            same = set(record.members.values()) == set(self.now.values())
            return None if same else self._another_part(record, self.now)
        if dict(record.members) == self.now:
            return None
        return self._another_part(record, self.now)

    def _another_part(self, record: ReadingRecord, now: dict[str, str]) -> _Why:
        if self.state is State.AS_RECEIVED:
            return _Why("taken through parts that were fitted later")
        changed = [
            self.titles[position]
            for position, part in now.items()
            if record.members.get(position, part) != part or position not in record.members
        ]
        names = _list(changed) if changed else self.titles[self.members[0].position]
        return _Why(f"{names} changed since", changed=True)

    def _reworked(self, record: ReadingRecord) -> _Why | None:
        if self.state is State.AS_RECEIVED:
            before = self._retiring_changes(upto=record.order)
            return _Why(f"taken after {before[0].code}") if before else None
        after = self._retiring_change(record.order)
        if after is None:
            return None
        return _Why(f"{after.change} {after.code} since: {after.words}", changed=True)

    def _retiring_changes(self, *, upto: int) -> list[_Retiring]:
        return [change for change in self._all_retiring() if change.seq < upto]

    def _retiring_change(self, seq: int) -> _Retiring | None:
        later = [change for change in self._all_retiring() if change.seq > seq]
        return later[-1] if later else None

    def _all_retiring(self) -> list[_Retiring]:
        found: list[_Retiring] = []
        for member in self.members:
            part = occupant(self.build, member.position, self.state)
            if part is not None:
                found.extend(self._retiring_of(part, member))
        return sorted(found, key=lambda change: change.seq)

    def _retiring_of(self, part: str, member: Member) -> Iterator[_Retiring]:
        names = {self.dimension.id, self.dimension.feature, member.feature}
        if member.feature is None:
            names |= self.same_fit
        for change in self.build.changes(part):
            if not change.dimensions or names.intersection(change.dimensions):
                yield _Retiring(change.order, change.code, change.change, change.words)

    def _set_apart(self, record: ReadingRecord) -> _Why | None:
        if self.single or self.state is State.AS_RECEIVED:
            return None
        events = [
            event
            for member in self.members
            for event in self.build.arrangement_events(member.position)
            if event.seq > record.order
        ]
        if not events:
            return None
        last = max(event.seq for event in events)
        if self._used_again(record, after=last):
            return None
        names = _list(
            sorted(
                {
                    self.titles[member.position]
                    for member in self.members
                    for event in self.build.arrangement_events(member.position)
                    if event.seq > record.order
                }
            )
        )
        words = f"{names} taken out and put back since; used again only by choice"
        return _Why(words, changed=True, by_choice=True)

    def _gauge_lets_it_count(self, record: ReadingRecord) -> _Why | None:
        absent = self.gauges.absent(record)
        if absent is not None:
            return _Why(f"{absent} is not in the shop: enter it there")
        gauge = self.gauges.gauge(record)
        if gauge is None:
            return None
        if gauge.unset:
            return _Why(f"{gauge.instrument.title} has no setting recorded")
        if gauge.setting is not None and gauge.set_otherwise:
            return _Why(f"setting {gauge.setting.code} is one of {gauge.setting.instrument}")
        return self._setting_lets_it_count(record, gauge)

    def _setting_lets_it_count(self, record: ReadingRecord, gauge: Gauge) -> _Why | None:
        unsound = self.gauges.unsound(gauge)
        if unsound is not None:
            return _Why(unsound)
        found = self.gauges.drifted(gauge)
        if found is None or self._used_again(record, after=found.entry.seq):
            return None
        return _Why(drift_words(found.body.setting), changed=True, by_choice=True)

    def _used_again(self, record: ReadingRecord, *, after: int) -> bool:
        return any(
            entry.seq > after and choice.choice == "use again" and record.entry.id in choice.entries
            for entry, choice in self.build.choices_for(record.entry.id)
        )

    def _not_chosen(self, record: ReadingRecord) -> _Why | None:
        """The last choice about a reading counts."""
        choices = self.build.choices_for(record.entry.id)
        if choices and record.entry.id in choices[-1].body.instead_of:
            return _Why("another reading was chosen instead")
        return None


@dataclass(frozen=True, slots=True)
class _Retiring:
    seq: int
    code: str
    change: str
    words: str


def _title(sheet: Sheet, position: str) -> str:
    part = sheet.parts.get(position)
    return part.title if part is not None else position


def _list(names: list[str]) -> str:
    if len(names) < 2:
        return "".join(names)
    return ", ".join(names[:-1]) + " and " + names[-1]
