"""All tightenings of a build: the fasteners of each group as they stood after any entry."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Sequence
from functools import cached_property

from fitwright.assess.assembly.tightened import Event, Exchange, Life, Lives, events_of, merged
from fitwright.data.errors import DataError
from fitwright.data.fasteners import lubricant_of
from fitwright.model.fastener import TighteningGroup, position_of_fastener
from fitwright.model.sheet import Sheet
from fitwright.records.entry import Entry
from fitwright.records.projection import ArrangementEvent, BuildState


class Tightenings:
    """What was tightened on a build, held against the groups of its sheet."""

    def __init__(self, sheet: Sheet, build: BuildState) -> None:
        self._sheet, self._build = sheet, build
        self._events: dict[str, list[Event]] = {}
        self._exchanges: dict[str, list[Exchange]] = {}
        self._last: dict[str, int] = {}
        self._lives: dict[tuple[str, int | None], Lives] = {}
        self._lubricants: dict[str, str] = {}
        self.heats = sorted(build.work.orders[held.entry.id] for held in build.work.heat_cycles)

    def events(self, group: str) -> list[Event]:
        """The entries about a group in order."""
        if group not in self._events:
            work = self._build.work
            self._events[group] = events_of(work.tightened.get(group, ()), work.orders)
        return self._events[group]

    def exchanges(self, group: TighteningGroup) -> list[Exchange]:
        """The entries by which other parts came into the positions of its fasteners, one after the other."""
        if group.id not in self._exchanges:
            self._exchanges[group.id] = [
                Exchange(event.seq, event.entry, each.id, out, event.part)
                for each in group.fasteners
                for out, event in self._put_in(position_of_fastener(group, each.id, self._sheet.parts))
            ]
        return self._exchanges[group.id]

    def _put_in(self, position: str | None) -> Iterator[tuple[str | None, ArrangementEvent]]:
        """What happened at a position, each with the part that sat there before."""
        out = position
        for event in self._build.arrangement_events(position) if position is not None else ():
            yield out, event
            out = event.part

    def in_order(self, group: TighteningGroup) -> Sequence[Event | Exchange]:
        """The entries about a group, and those about the parts in its positions."""
        return merged(self.events(group.id), self.exchanges(group))

    def happened(self, group: TighteningGroup) -> list[tuple[int, Entry]]:
        """Where each of these entries stands in the order."""
        return [(each.order, each.entry) for each in self.in_order(group)]

    def last_order(self, group: TighteningGroup) -> int:
        """Where the last of these entries stands; -1 without any."""
        if group.id not in self._last:
            self._last[group.id] = max((order for order, _ in self.happened(group)), default=-1)
        return self._last[group.id]

    def lives(self, group: TighteningGroup, upto: int | None = None) -> Lives:
        """The fasteners of a group as they stand, or stood after an entry."""
        if upto is not None and self.last_order(group) <= upto:
            upto = None
        key = (group.id, upto)
        if key not in self._lives:
            fasteners = (each.id for each in group.fasteners)
            self._lives[key] = Lives(fasteners, self.events(group.id), upto, self.exchanges(group))
        return self._lives[key]

    def heats_upto(self, upto: int | None) -> list[int]:
        """Where the heat cycles stand in the order."""
        return [each for each in self.heats if upto is None or each <= upto]

    @cached_property
    def _begun(self) -> dict[str, list[int]]:
        """For each physical fastener where its tightenings began, in all groups."""
        found: dict[str, list[int]] = {}
        for group in self._sheet.tightening_groups.values():
            for life in self.lives(group).by_id.values():
                for cycle in life.cycles:
                    if cycle.part is not None:
                        found.setdefault(cycle.part, []).append(cycle.began)
        return found

    def times(self, life: Life, upto: int | None = None) -> int:
        """How often the fastener in a position was tightened; there, where nobody said which one it is."""
        if life.part is None:
            return sum(1 for cycle in life.cycles if cycle.part is None)
        return sum(1 for began in self._begun.get(life.part, ()) if upto is None or began <= upto)

    def first_of(self, part: str) -> int | None:
        """Where the first tightening of a physical fastener began."""
        return min(self._begun.get(part, ()), default=None)

    def parts(self) -> Collection[str]:
        """Every physical fastener of which somebody said that it was tightened."""
        return self._begun.keys()

    def lubricant_name(self, named: str | None) -> str | None:
        """The lubricant of the data behind a consumable or a name; the name itself where none is known."""
        if named is None:
            return None
        if named not in self._lubricants:
            self._lubricants[named] = self._resolved(named)
        return self._lubricants[named]

    def _resolved(self, named: str) -> str:
        consumable = self._sheet.consumables.get(named)
        text = consumable.friction or consumable.title if consumable is not None else named
        try:
            return lubricant_of(text).name
        except DataError:
            return text

    def lubricant_title(self, named: str | None) -> str:
        """What a reader calls a lubricant."""
        consumable = self._sheet.consumables.get(named or "")
        return consumable.title if consumable is not None else (named or "a lubricant not named")


def alike(groups: Iterable[TighteningGroup], group: TighteningGroup) -> list[TighteningGroup]:
    """The groups whose fasteners can be held against each other: same thread, class, grip, method, passes."""
    wanted = _signature(group)
    return [each for each in groups if _signature(each) == wanted]


def _signature(group: TighteningGroup) -> tuple[object, ...]:
    return (
        group.thread,
        group.property_class,
        group.method,
        group.lubricant,
        group.clamped,
        tuple((each.length.si, each.diameter.si if each.diameter else None) for each in group.grip),
        tuple((each.torque and each.torque.si, each.angle and each.angle.si) for each in group.passes),
    )
