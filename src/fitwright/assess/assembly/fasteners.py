"""One fastener of a group: its passes with wrench and preload, its checks, what is to be said of it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from fitwright.assess.assembly import figures, preloads
from fitwright.assess.assembly.asked import answer_of, stretch_of, torque_window
from fitwright.assess.assembly.fastener_results import (
    FastenerPass,
    FastenerStanding,
    FastenerState,
    Preload,
    Side,
)
from fitwright.assess.assembly.job import Job
from fitwright.assess.assembly.joint import Joint
from fitwright.assess.assembly.reckoning import Reckoned, Rules, decides_by_stretch, set_beyond
from fitwright.assess.assembly.tightened import Life, Record
from fitwright.assess.assembly.times import when
from fitwright.assess.assembly.wrenches import wrench_used
from fitwright.model.fastener import Pass, TighteningGroup
from fitwright.records.kinds import TighteningCheck


@dataclass(frozen=True)
class Fasteners:
    """Puts the fasteners of one group together.

    Attributes
    ----------
    job : Job
        The build at a moment.
    rules : Rules
        What fasteners are reckoned by.
    joint : Joint
        The group as physics sees it.
    odd : dict
        What is odd of some, by their id.
    """

    job: Job
    rules: Rules
    joint: Joint
    odd: dict[str, str]

    @property
    def group(self) -> TighteningGroup:
        """The group."""
        return self.joint.group

    def standing(self, life: Life) -> FastenerStanding:
        """One fastener."""
        found = self.rules.reckon(self.group, life.id)
        said: dict[int, list[str]] = {}
        for fault in found.faults:
            said.setdefault(fault.number, []).append(fault.words)
        passes = tuple(self._pass(life, number, said.get(number, [])) for number in sorted(life.records))
        checked = [_person(each.body, each.entry.person) for each in life.checks_since_tightened("checked")]
        by = {each.performed_by for each in passes}
        odd = None if life.checks_since_tightened("stands as it is") else self.odd.get(life.id)
        return FastenerStanding(
            id=life.id,
            state=found.state,
            part=life.part,
            passes=passes,
            preload=passes[-1].preload if passes else None,
            odd=odd,
            under=found.under,
            marked=bool(life.checks_since_tightened("marked")),
            checked_by=tuple(dict.fromkeys(checked)),
            second_person=any(each not in by for each in checked),
            times=self.rules.tightenings.times(life),
            permanent_set=life.permanent_set,
            set_beyond=set_beyond(self.group, life),
            new=self.rules.is_new(life) if self.group.one_time_use else None,
            missing=found.missing,
            remarks=tuple(self._remarks(life, passes)),
            words=_words(found, odd),
        )

    # One pass.

    def _pass(self, life: Life, number: int, said: list[str]) -> FastenerPass:
        record = life.records[number]
        entry, body = record.entry, record.body
        asks = self.group.passes[number - 1] if number <= len(self.group.passes) else Pass()
        answer = answer_of(asks, body)
        torque = body.torque.si if body.torque is not None else None
        other = self.rules.other_lubricant(self.group, body.lubricant)
        at = when(entry)
        return FastenerPass(
            number=number,
            entry=entry.id,
            seq=entry.seq,
            at=at,
            performed_by=body.performed_by or entry.person,
            torque=torque,
            read=body.read,
            angle=body.angle.si if body.angle is not None else None,
            stretch=stretch_of(body),
            free_length=body.free_length.si if body.free_length is not None else None,
            tightened_length=body.tightened_length.si if body.tightened_length is not None else None,
            lubricant=body.lubricant or self.group.lubricant,
            other_lubricant=other,
            equal_torque=self._equal_torque(asks, body.lubricant) if other else None,
            wrench=wrench_used(self.job.shop, body.wrench, torque, at, entry.seq),
            preload=self._preload(life, number),
            outside=answer.side or (Side.OTHERWISE if other and not decides_by_stretch(self.group) else None),
            outside_words="; ".join(said) or None,
            early=record.early,
            note=body.note,
        )

    def _equal_torque(self, asks: Pass, used: str | None) -> float | None:
        window = torque_window(asks)
        if window is None:
            return None
        return preloads.equal_torque(self.joint, 0.5 * sum(window), self.group.lubricant, used)

    def _preload(self, life: Life, number: int) -> Preload | None:
        """By stretch where one was read, by angle past its torque, else by torque."""
        body = life.records[number].body
        snug, angle = _turned(self.group, life, number)
        torque = body.torque.si if body.torque is not None else None
        key = (stretch_of(body), snug if angle is not None else torque, angle, body.lubricant)
        if key not in self.joint.preloads:
            self.joint.preloads[key] = self._computed(*key)
        return self.joint.preloads[key]

    def _computed(
        self, stretch: float | None, torque: float | None, angle: float | None, used: str | None
    ) -> Preload | None:
        lubricant = used or self.group.lubricant
        if stretch is not None:
            return preloads.by_stretch(self.joint, stretch, lubricant)
        if torque is None:
            return None
        if angle is not None:
            return preloads.by_angle(self.joint, torque, angle, lubricant)
        return preloads.by_torque(self.joint, torque, lubricant)

    # What is to be said.

    def _remarks(self, life: Life, passes: tuple[FastenerPass, ...]) -> Iterator[str]:
        last = len(self.group.passes)
        for each in passes:
            if last and each.number > last:
                yield f"pass {each.number} is not in the sheet"
                continue
            if each.early:
                yield f"pass {each.number} was recorded before pass {each.number - 1} was complete"
            yield from self._of_pass(life, each)
        if passes and self.group.one_time_use and self.rules.is_new(life) is None:
            yield "made for one use; nobody recorded that it is new"
        yield from self._of_the_other(passes)

    def _of_pass(self, life: Life, each: FastenerPass) -> Iterator[str]:
        asks = self.group.passes[each.number - 1] if self.group.passes else Pass()
        answer = answer_of(asks, life.records[each.number].body)
        if answer.doubtful is not None:
            yield f"pass {each.number}: {answer.doubtful}"
        if each.outside in (Side.BELOW, Side.ABOVE) and each.outside_words is None:
            yield f"pass {each.number} lies {each.outside.value} the sheet's figure"
        if asks.after_heat and not self._heated_before(life, life.records[each.number]):
            yield f"pass {each.number} is for after a heat cycle; none was recorded before it"
        if each.wrench is not None:
            yield from (f"pass {each.number}, {each.wrench.title}: {words}" for words in each.wrench.words)

    def _heated_before(self, life: Life, record: Record) -> bool:
        cold = [
            life.records[number].order
            for number, asks in enumerate(self.group.passes, 1)
            if not asks.after_heat and number in life.records
        ]
        return any(max(cold, default=-1) < heat < record.order for heat in self.rules.tightenings.heats)

    def _of_the_other(self, passes: tuple[FastenerPass, ...]) -> Iterator[str]:
        """What another lubricant does: the preload beside the sheet's, and the torque that would equal it."""
        last = passes[-1] if passes else None
        if last is None or not last.other_lubricant or last.preload is None:
            return
        meant = preloads.by_torque(self.joint, last.torque or 0.0, self.group.lubricant)
        if meant is not None and last.torque is not None and not decides_by_stretch(self.group):
            used = self.rules.tightenings.lubricant_title(last.lubricant)
            yield (
                f"with {used} {figures.torque(last.torque)} give {figures.force(last.preload.preload)} "
                f"instead of {figures.force(meant.preload)}"
            )
        if last.equal_torque is not None:
            yield (
                f"by calculation {figures.torque(last.equal_torque)} would give the sheet's preload with it; "
                "the maker's figure for that lubricant goes before it"
            )


def _turned(group: TighteningGroup, life: Life, number: int) -> tuple[float | None, float | None]:
    """The snug torque [N m] and all angles [rad] turned past it up to a pass; no angle where it has none."""
    angle = life.records[number].body.angle
    if angle is None:
        return None, None
    total = 0.0
    for each in range(number, 0, -1):
        record = life.records.get(each)
        if record is None:
            continue
        asks = group.passes[each - 1] if each <= len(group.passes) else Pass()
        total += record.body.angle.si if record.body.angle is not None else 0.0
        if record.body.torque is not None and (asks.torque is not None or record.body.angle is None):
            return record.body.torque.si, total
    return None, total


def _person(body: object, entered_by: str | None) -> str:
    assert isinstance(body, TighteningCheck)  # noqa: S101 - only checks are asked for
    return body.checked_by or entered_by or ""


def _words(found: Reckoned, odd: str | None) -> str:
    """The state in one phrase, with the first thing that stands in its way."""
    accepted = [each for each in found.faults if each.under is not None]
    match found.state:
        case FastenerState.OUTSIDE:
            first = next(each for each in found.faults if each.under is None)
            return f"outside: {first.words}"
        case FastenerState.COMPLETE if accepted:
            return f"outside, accepted under {found.under}: {accepted[0].words}"
        case FastenerState.PART_WAY | FastenerState.TO_TIGHTEN_AGAIN:
            return f"{found.state.value}: {found.missing[0]}"
    return found.state.value if odd is None else f"{found.state.value}, and odd: {odd}"
