"""What is asked about a tightening as a whole: its gauges, its place in the order, what was done before."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from fitwright.assess.assembly.tightened import Life
from fitwright.bench.context import Bench
from fitwright.bench.fastener_lists import fastener_words
from fitwright.bench.plausible import Amounts
from fitwright.bench.tightened import lives_of, times_tightened
from fitwright.bench.tightening_amounts import Gauges, pass_of
from fitwright.bench.tightening_effects import effect_questions
from fitwright.bench.work_taking import WorkTaking
from fitwright.bench.wrenches import calibration_questions
from fitwright.model.fastener import TighteningGroup
from fitwright.model.group_cautions import has_threadlocker
from fitwright.model.slips import Question
from fitwright.model.step import ConsumableKind
from fitwright.records.kinds import Tightening

AGAIN = "again"


@dataclass(frozen=True, slots=True)
class Tightened:
    """Which fasteners were brought to which pass, and the amounts typed."""

    fasteners: tuple[str, ...]
    number: int
    amounts: Amounts


def questions_about(
    bench: Bench, group: TighteningGroup, body: Tightening, gauges: Gauges, taking: WorkTaking
) -> Iterator[Question]:
    """What is asked before a tightening is taken; a correction is not asked about its place in the order."""
    for gauge in (gauges.wrench, gauges.angle_gauge):
        if gauge is not None:
            yield from calibration_questions(bench, gauge, taking.now)
    if taking.supersedes is None:
        lives = lives_of(bench, group)
        yield from _again(group, body, lives, taking)
        yield from _begun_early(group, body, lives)
        yield from _out_of_order(group, body, lives)
        yield from _locked_again(bench, group, body, lives)
        yield from _too_often(bench, group, body, lives)
    yield from effect_questions(bench.sheet, group, body, taking.family)


def _again(
    group: TighteningGroup, body: Tightening, lives: Mapping[str, Life], taking: WorkTaking
) -> Iterator[Question]:
    """Passes that are entered already: this entry would count in the place of the one before."""
    said: dict[str, tuple[int, list[str]]] = {}
    for name in body.fasteners:
        held = lives[name].records.get(body.number)
        if held is not None and held.entry.id != taking.entry_id:
            said.setdefault(held.entry.id, (held.entry.seq, []))[1].append(name)
    for entry_id, (seq, names) in said.items():
        which = fastener_words(group, names)
        text = f"Pass {body.number} of {which} was entered already (entry {seq}). Let this one count instead?"
        yield Question(f"{AGAIN}:{entry_id}", text)


def _begun_early(group: TighteningGroup, body: Tightening, lives: Mapping[str, Life]) -> Iterator[Question]:
    """A pass begun before the one before is complete on every fastener of the group."""
    before = body.number - 1
    wanting = [name for name, each in lives.items() if before not in each.records] if before else []
    if wanting and not any(body.number in each.records for each in lives.values()):
        which = fastener_words(group, wanting)
        text = f"Pass {before} is not complete: {which} wanting. Begin pass {body.number} all the same?"
        yield Question(f"begun-early:{body.number}", text)


def _out_of_order(group: TighteningGroup, body: Tightening, lives: Mapping[str, Life]) -> Iterator[Question]:
    """Fasteners before which, in the order of the sheet, others still want this pass."""
    done = {name for name, each in lives.items() if body.number in each.records} | set(body.fasteners)
    order = list(lives)
    last = max(order.index(name) for name in body.fasteners)
    passed = [name for name in order[:last] if name not in done]
    if passed:
        later = [name for name in body.fasteners if order.index(name) > order.index(passed[0])]
        text = (
            f"In the order of the sheet {fastener_words(group, passed)} of pass {body.number} "
            f"{'comes' if len(passed) == 1 else 'come'} before {fastener_words(group, later)}. "
            "Was it done in another order?"
        )
        yield Question(f"order:{body.number}:{passed[0]}:{later[0]}", text)


def _locked_again(
    bench: Bench, group: TighteningGroup, body: Tightening, lives: Mapping[str, Life]
) -> Iterator[Question]:
    """Threadlocker on a joint that is tightened again: what has set is broken by turning it."""
    again = [name for name in body.fasteners if lives[name].cycles and not lives[name].records]
    if not again and not (pass_of(group, body.number).after_heat and body.number > 1):
        return
    if has_threadlocker(group, bench.sheet) or _locker_used(bench, group, body):
        text = (
            f"{group.title}: threadlocker that has set breaks when the joint is tightened again. "
            "Was the thread cleaned, and fresh threadlocker put on?"
        )
        yield Question(f"locked-again:{body.number}:{len(lives[body.fasteners[0]].cycles)}", text)


def _locker_used(bench: Bench, group: TighteningGroup, body: Tightening) -> bool:
    """Whether a threadlocker went on these threads, by what was recorded of the steps that tighten them."""
    sheet = bench.sheet
    lockers = {each.id for each in sheet.consumables.values() if each.kind is ConsumableKind.THREADLOCKER}
    if body.lubricant in lockers:
        return True
    steps = {step.id for step in sheet.steps.values() if group.id in step.tightens}
    used = bench.build.work.consumables_used
    return any(held.body.step in steps for name in lockers for held in used.get(name, ()))


def _too_often(
    bench: Bench, group: TighteningGroup, body: Tightening, lives: Mapping[str, Life]
) -> Iterator[Question]:
    """Bolts that this would tighten more often than they may be."""
    most = 1 if group.one_time_use else group.most_tightenings
    begun = [name for name in body.fasteners if not lives[name].records]
    if most is None:
        return
    over = [name for name in begun if times_tightened(bench, group, name, body.members.get(name)) >= most]
    if over:
        may = "once" if most == 1 else f"{most} times"
        verb = "was" if len(over) == 1 else "were"
        text = (
            f"{group.title}: a bolt may be tightened {may}, and {fastener_words(group, over)} {verb} before. "
            "Are these the same bolts?"
        )
        times = times_tightened(bench, group, over[0], body.members.get(over[0]))
        yield Question(f"too-often:{over[0]}:{times}", text)
