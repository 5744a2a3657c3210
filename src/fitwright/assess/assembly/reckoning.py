"""How a fastener stands by what was recorded of it: what is missing, what is outside, by whose permission."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from datetime import datetime

from fitwright.assess.assembly import figures
from fitwright.assess.assembly.asked import PEAK_TOLERANCE, Answer, answer_of, torque_window
from fitwright.assess.assembly.fastener_results import FastenerState, Side
from fitwright.assess.assembly.permissions import Asked, Granted, Permissions
from fitwright.assess.assembly.tightened import Life, Lives, final_record
from fitwright.assess.assembly.tightenings import Tightenings
from fitwright.model.fastener import TighteningGroup
from fitwright.records.projection import BuildState


@dataclass(frozen=True, slots=True)
class Fault:
    """Something of a fastener that is not as the sheet says; `under` the permission that accepts it.

    `lasting`: no further pass mends it.
    """

    number: int
    words: str
    side: Side
    amount: str = ""
    value: float | None = None
    lasting: bool = True
    under: Granted | None = None


@dataclass(frozen=True, slots=True)
class Reckoned:
    """The state of a fastener with what stands behind it; `due` are the passes that it must have had."""

    state: FastenerState
    due: tuple[int, ...]
    missing: tuple[str, ...]
    faults: tuple[Fault, ...]

    @property
    def complete(self) -> bool:
        """Whether nothing is missing and nothing outside that nobody accepted."""
        return self.state is FastenerState.COMPLETE

    @property
    def under(self) -> str | None:
        """The code of the permission by which it is accepted."""
        return next((each.under.body.code for each in self.faults if each.under is not None), None)


@dataclass(frozen=True, slots=True)
class Rules:
    """What fasteners are reckoned by, in a build at a moment.

    `upto` looks at the record as it stood after an entry; `heats_upto` lets only heat cycles up to there
    make a pass due (all up to `upto` where it is None); `hot_wanted` asks for the passes after heat anyway.
    """

    tightenings: Tightenings
    permissions: Permissions
    build: BuildState
    now: datetime | None
    upto: int | None = None
    heats_upto: int | None = None
    hot_wanted: bool = False
    known: dict[tuple[object, ...], Reckoned] = field(default_factory=dict)

    def reckon(self, group: TighteningGroup, fastener: str) -> Reckoned:
        """How one fastener of a group stands; worked out once for each moment that differs for it."""
        key = (fastener, *self._moment(group))
        if key not in self.known:
            self.known[key] = self._reckon(group, fastener)
        return self.known[key]

    def _moment(self, group: TighteningGroup) -> tuple[object, ...]:
        """What tells the moments of a group apart: its events, heat cycles and permissions by then."""
        upto, last = self.upto, self.tightenings.last_order(group)
        heats = len(self.heats())
        permitted = self.permissions.of_group(group.id)
        at = (self.upto, self.now) if permitted else None
        return group.id, None if upto is None or upto >= last else upto, heats, self.hot_wanted, at

    def heats(self) -> list[int]:
        """Where the heat cycles that count stand in the order."""
        return self.tightenings.heats_upto(self.heats_upto if self.heats_upto is not None else self.upto)

    def _reckon(self, group: TighteningGroup, fastener: str) -> Reckoned:
        life = self.tightenings.lives(group, self.upto).by_id[fastener]
        if not life.records:
            state = FastenerState.LOOSENED if life.loosened is not None else FastenerState.NOT_TIGHTENED
            return Reckoned(state, due_passes(self, group, life), (state.value,), ())
        due = due_passes(self, group, life)
        missing = tuple(_missing(group, life, due))
        faults = tuple(self._permitted(group, fastener, each) for each in self._faults(group, life, due))
        return Reckoned(_state(group, life, due, missing, faults), due, missing, faults)

    def complete(self, group: TighteningGroup) -> bool:
        """Whether every fastener of a group is complete."""
        return all(self.reckon(group, each.id).complete for each in group.fasteners)

    def incomplete(self, group: TighteningGroup) -> list[str]:
        """The fasteners of a group that are not complete."""
        return [each.id for each in group.fasteners if not self.reckon(group, each.id).complete]

    def _permitted(self, group: TighteningGroup, fastener: str, fault: Fault) -> Fault:
        occupants = occupants_of(group, self.tightenings.lives(group, self.upto))
        for subject in (f"{group.id}/{fastener}", group.id):
            asked = Asked(subject, fault.value, fault.amount, occupants)
            granted = self.permissions.in_force(asked, self.now, self.upto)
            if granted is not None:
                return replace(fault, under=granted)
        return fault

    def _faults(self, group: TighteningGroup, life: Life, due: tuple[int, ...]) -> Iterator[Fault]:
        for number in counted(group, life, due):
            answer = answer_of(group.passes[number - 1], life.records[number].body)
            if answer.side is not None:
                last = number == max(due)
                yield Fault(number, outside_words(answer), answer.side, answer.amount, answer.value, last)
        if not group.passes:
            yield from self._without_value(life)
        yield from _overshot(group, life, counted(group, life, due))
        yield from self._other_lubricant(group, life)
        yield from self._used_too_often(group, life)
        if set_beyond(group, life):
            words = (
                f"it stayed {figures.length(life.permanent_set or 0.0)} longer, more than the sheet allows"
            )
            yield Fault(0, words, Side.ABOVE, "length", life.permanent_set)

    def _without_value(self, life: Life) -> Iterator[Fault]:
        """Where the sheet states no value yet, nothing that was recorded can be held against it."""
        record = final_record(life, 0)
        if record is not None:
            torque = record.body.torque.si if record.body.torque is not None else None
            words = "tightened, and the sheet states no value for it"
            yield Fault(record.body.number, words, Side.OTHERWISE, "torque", torque)

    def _other_lubricant(self, group: TighteningGroup, life: Life) -> Iterator[Fault]:
        """Where torque or angle decides, another lubricant is another tightening; a stretch does not mind."""
        record = final_record(life, len(group.passes))
        if record is None or record.body.torque is None or decides_by_stretch(group):
            return
        if not self.other_lubricant(group, record.body.lubricant):
            return
        used = self.tightenings.lubricant_title(record.body.lubricant)
        words = f"tightened with {used} instead of {self.tightenings.lubricant_title(group.lubricant)}"
        yield Fault(record.body.number, words, Side.OTHERWISE, "torque", record.body.torque.si)

    def other_lubricant(self, group: TighteningGroup, used: str | None) -> bool:
        """Whether another lubricant was used than the group's values are for."""
        if used is None or group.lubricant is None:
            return False
        names = self.tightenings.lubricant_name
        return names(used) != names(group.lubricant)

    def _used_too_often(self, group: TighteningGroup, life: Life) -> Iterator[Fault]:
        times = self.tightenings.times(life, self.upto)
        if group.most_tightenings is not None and times > group.most_tightenings:
            words = f"tightened {times} times, and the sheet allows {group.most_tightenings}"
            yield Fault(0, words, Side.ABOVE)
        elif group.one_time_use and self.is_new(life) is False:
            yield Fault(0, "made for one use, and it is not new", Side.OTHERWISE)

    def is_new(self, life: Life) -> bool | None:
        """Whether the fastener in a position was new when it was tightened; None where nobody said."""
        if life.part is not None:
            held = self.build.parts.get(life.part)
            used = held is not None and held.body.used
            return not used and self.tightenings.times(life, self.upto) <= 1
        return None if self.tightenings.times(life, self.upto) <= 1 else False


def occupants_of(group: TighteningGroup, lives: Lives) -> tuple[tuple[str, str | None], ...]:
    """Which physical fastener sits where, by the ways that a permission may name the place."""
    return tuple(
        (name, life.part) for life in lives.by_id.values() for name in (life.id, f"{group.id}/{life.id}")
    )


def decides_by_stretch(group: TighteningGroup) -> bool:
    """Whether the last pass of a group goes to a stretch."""
    return bool(group.passes) and (
        group.passes[-1].stretch_low is not None or group.passes[-1].stretch_high is not None
    )


def due_passes(rules: Rules, group: TighteningGroup, life: Life) -> tuple[int, ...]:
    """The passes that a fastener must have had: those after heat once it has been hot, or where wanted."""
    cold = [number for number, asks in enumerate(group.passes, 1) if not asks.after_heat]
    hot = [number for number, asks in enumerate(group.passes, 1) if asks.after_heat]
    tight = max((life.records[n].order for n in cold if n in life.records), default=None)
    heated = tight is not None and any(each > tight for each in rules.heats())
    recorded = any(number in life.records for number in hot)
    return tuple(cold + hot) if hot and (rules.hot_wanted or heated or recorded) else tuple(cold)


def counted(group: TighteningGroup, life: Life, due: tuple[int, ...]) -> list[int]:
    """The recorded passes that decide: the last, and where that turns by an angle all back to its torque."""
    done = [number for number in due if number in life.records]
    found: list[int] = []
    for number in reversed(done):
        found.append(number)
        if group.passes[number - 1].angle is None or group.passes[number - 1].torque is not None:
            break
    return found[::-1]


def _overshot(group: TighteningGroup, life: Life, counting: list[int]) -> Iterator[Fault]:
    """Once above every torque of the sheet stays so, whatever came after; only a loosening ends it."""
    most = max((window[1] for asks in group.passes if (window := torque_window(asks))), default=None)
    for number, record in life.records.items():
        value = record.body.torque.si if record.body.torque is not None else 0.0
        if most is not None and number not in counting and value > most * (1.0 + PEAK_TOLERANCE):
            words = f"{figures.torque(value)} in pass {number}, above every torque of the sheet"
            yield Fault(number, words, Side.ABOVE, "torque", value)


def set_beyond(group: TighteningGroup, life: Life) -> bool:
    """Whether a fastener stayed longer than the sheet allows."""
    kept, most = life.permanent_set, group.permanent_set
    return kept is not None and most is not None and kept > most.si * (1.0 + 1e-9)


def outside_words(answer: Answer) -> str:
    """By how much a record lies outside what was asked."""
    shown = {"torque": figures.torque, "angle": figures.angle, "length": figures.length}[answer.amount]
    bound = answer.low if answer.side is Side.BELOW else answer.high
    return f"{shown(answer.value or 0.0)}, {answer.side} the sheet's {shown(bound or 0.0)}"


def _missing(group: TighteningGroup, life: Life, due: tuple[int, ...]) -> Iterator[str]:
    for number in due:
        asks = group.passes[number - 1]
        record = life.records.get(number)
        if record is None:
            heat = " after the heat cycle" if asks.after_heat else ""
            yield f"pass {number} of {len(group.passes)}{heat} is not recorded"
            continue
        for name in answer_of(asks, record.body).missing:
            yield f"pass {number} has no {name}"


def _state(
    group: TighteningGroup,
    life: Life,
    due: tuple[int, ...],
    missing: tuple[str, ...],
    faults: tuple[Fault, ...],
) -> FastenerState:
    if any(each.under is None and (each.lasting or not missing) for each in faults):
        return FastenerState.OUTSIDE
    if not missing:
        return FastenerState.COMPLETE
    cold = [number for number in due if not group.passes[number - 1].after_heat]
    if all(number in life.records for number in cold) and len(cold) < len(due):
        return FastenerState.TO_TIGHTEN_AGAIN
    return FastenerState.PART_WAY
