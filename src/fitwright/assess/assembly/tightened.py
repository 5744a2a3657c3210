"""What happened to each fastener of a group, played through in order: the records that count."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from fitwright.records import kinds
from fitwright.records.entry import Entry
from fitwright.records.projection import Recorded, Tightened


@dataclass(frozen=True, slots=True)
class Event:
    """One entry about a group, and where it stands in the order."""

    order: int
    entry: Entry
    body: Tightened


@dataclass(frozen=True, slots=True)
class Exchange:
    """One entry by which another part came into the position of a fastener, or none; `out` sat there."""

    order: int
    entry: Entry
    fastener: str
    out: str | None
    part: str | None


@dataclass(frozen=True, slots=True)
class Record:
    """A fastener in one pass as the last entry says it; `early`: the pass before was not complete then."""

    order: int
    entry: Entry
    body: kinds.Tightening
    early: bool = False


@dataclass(slots=True)
class Cycle:
    """One tightening of one physical fastener, from loose to loose; `part` where somebody said which."""

    began: int
    part: str | None


@dataclass(slots=True)
class Life:
    """What happened to the fastener at one position.

    `records` are those of the tightening that stands, by pass. `free_length` is the first one read of the
    fastener that is in it, `permanent_set` what it had stayed longer when it was last loosened [m].
    """

    id: str
    part: str | None = None
    records: dict[int, Record] = field(default_factory=dict)
    cycles: list[Cycle] = field(default_factory=list)
    loosened: Event | None = None
    checks: list[Event] = field(default_factory=list)
    free_length: float | None = None
    permanent_set: float | None = None

    @property
    def last_order(self) -> int:
        """Where the latest of its records stands; -1 without any."""
        return max((each.order for each in self.records.values()), default=-1)

    def change(self) -> None:
        """Another fastener is in: what was recorded of the one before does not speak for it."""
        self.records.clear()
        self.checks.clear()
        self.free_length = self.permanent_set = None

    def checks_since_tightened(self, check: str) -> list[Event]:
        """The checks of a kind that were made after the last tightening."""
        last = self.last_order
        return [
            each
            for each in self.checks
            if each.order > last and isinstance(each.body, kinds.TighteningCheck) and each.body.check == check
        ]


class Lives:
    """The fasteners of one group as they stood after some entry; `exchanges` where they are positions."""

    def __init__(
        self,
        fasteners: Iterable[str],
        events: Sequence[Event],
        upto: int | None = None,
        exchanges: Sequence[Exchange] = (),
    ) -> None:
        self.by_id = {name: Life(name) for name in fasteners}
        self.unknown: list[Event] = []
        for each in merged(events, exchanges):
            if upto is not None and each.order > upto:
                continue
            if isinstance(each, Exchange):
                self._exchange(each)
            else:
                self._take(each)

    def _take(self, event: Event) -> None:
        names = [name for name in dict.fromkeys(event.body.fasteners) if name in self.by_id]
        if len(names) < len(set(event.body.fasteners)):
            self.unknown.append(event)
        match event.body:
            case kinds.Tightening() as body:
                self._tighten(event, body, names)
            case kinds.Loosening() as body:
                for name in names:
                    self._loosen(event, body, self.by_id[name])
            case _:
                for name in names:
                    self.by_id[name].checks.append(event)

    def _tighten(self, event: Event, body: kinds.Tightening, names: list[str]) -> None:
        before = [each for each in self.by_id.values() if body.number - 1 in each.records]
        early = body.number > 1 and len(before) < len(self.by_id)
        for name in names:
            life = self.by_id[name]
            part = body.members.get(name, life.part)
            if part != life.part and (life.part is not None or not life.records):
                life.change()
            if not life.records:
                life.cycles.append(Cycle(event.order, part))
                life.loosened = None
            life.part = life.cycles[-1].part = part
            life.records[body.number] = Record(event.order, event.entry, body, early)
            if body.free_length is not None and life.free_length is None:
                life.free_length = body.free_length.si

    def _exchange(self, event: Exchange) -> None:
        """What was recorded of the part that is out does not speak for the one that is in."""
        life = self.by_id[event.fastener]
        if event.part != (life.part or event.out):
            life.change()
            life.loosened = None
        life.part = event.part

    def _loosen(self, event: Event, body: kinds.Loosening, life: Life) -> None:
        life.records.clear()
        life.loosened = event
        life.part = body.members.get(life.id, life.part)
        if body.length_after is not None and life.free_length is not None:
            life.permanent_set = body.length_after.si - life.free_length


def events_of(recorded: Sequence[Recorded[Tightened]], orders: dict[str, int]) -> list[Event]:
    """The entries about a group, each where it stands in the order."""
    found = [Event(orders[held.entry.id], held.entry, held.body) for held in recorded]
    return sorted(found, key=_in_order)


def merged(events: Sequence[Event], exchanges: Sequence[Exchange]) -> Sequence[Event | Exchange]:
    """Both in the order in which they stand."""
    return sorted((*events, *exchanges), key=_in_order) if exchanges else events


def _in_order(each: Event | Exchange) -> tuple[int, int]:
    return each.order, each.entry.seq


def final_record(life: Life, passes: int) -> Record | None:
    """The record of the last pass of the sheet that was done; of any pass where the sheet states none."""
    numbers = [number for number in life.records if not passes or number <= passes]
    return life.records[max(numbers)] if numbers else None
