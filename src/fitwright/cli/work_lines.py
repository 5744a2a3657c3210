"""The order of work as lines of text: what can be done, what is held, what changed, what waits for what."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from fitwright.assess.assembly.results import (
    Condition,
    GroupStanding,
    Standing,
    StepStanding,
    StepState,
)
from fitwright.assess.assessment import Assessor
from fitwright.assess.consequences import consequences_of
from fitwright.bench.fastener_lists import fastener_words, short_names
from fitwright.data.cautions import cautions_of
from fitwright.records.entry import NewEntry

WAITING_SHOWN = 8
WAITING_LONG = 90
"""So many characters say what a step waits for; its own page says it all."""
MARKS = {
    StepState.CAN_BE_DONE: "→",
    StepState.WAITS_FOR: "–",
    StepState.HELD: "‖",
    StepState.DONE: "✓",
    StepState.RELEASED: "✓",
    StepState.CHANGED_SINCE: "?",
}
_IN_FRONT = frozenset({StepState.CHANGED_SINCE, StepState.HELD, StepState.CAN_BE_DONE})
"""Somebody works on these now, or looks at them: their cautions are shown in the list."""
_IN_TURN = (
    (StepState.CHANGED_SINCE, "Changed since"),
    (StepState.HELD, "Held"),
    (StepState.CAN_BE_DONE, "Can be done now"),
    (StepState.WAITS_FOR, "Waiting"),
)


def summary(standing: Standing) -> str:
    """How many steps stand how, in a sentence."""
    counts = [(each, standing.count(each)) for each in StepState]
    told = [f"{count} {_COUNTED.get(state, state.value)}" for state, count in counts if count]
    return f"{len(standing.steps)} steps: {', '.join(told)}."


_COUNTED = {StepState.WAITS_FOR: "waiting"}


def check_lines(standing: Standing, build: str) -> Iterator[str]:
    """The order of work in short, where only a look at it is wanted."""
    yield summary(standing)
    for state, heading in _IN_TURN[:3]:
        found = [each.title for each in standing.steps.values() if each.state is state]
        if found:
            more = f" and {len(found) - 3} more" if len(found) > 3 else ""
            yield f"  {heading}: {'; '.join(found[:3])}{more}"
    yield f"  `fitwright work {build}` says what waits for what."


def work_lines(standing: Standing, *, everything: bool) -> Iterator[str]:
    """What somebody at the bench wants to know, the most urgent first."""
    yield summary(standing)
    for state, heading in _IN_TURN:
        found = [each for each in standing.steps.values() if each.state is state]
        if found:
            yield ""
            yield f"{heading} ({len(found)})"
            shown = found if everything or state is not StepState.WAITS_FOR else found[:WAITING_SHOWN]
            yield from (f"  {line}" for each in shown for line in _step_lines(each))
            if len(shown) < len(found):
                yield f"  and {len(found) - len(shown)} more; --all shows them"
    if everything:
        yield from _past(standing)
    yield from _groups(standing)
    yield from _curing(standing)
    yield from _permissions(standing)


def step_lines(standing: StepStanding) -> Iterator[str]:
    """One step in full: what it asks for and how that stands, what it hides, what can hurt somebody."""
    yield f"{MARKS[standing.state]} {standing.title} ({standing.id}), {standing.stage}: {standing.words}"
    if standing.point is not None:
        invited = f", {standing.invited} invited" if standing.invited else ""
        yield f"  {standing.point.value}{invited}"
    yield from (f"! {each.title}: {each.words}" for each in cautions_of(standing.cautions))
    if standing.note:
        yield f"  {standing.note}"
    yield from _conditions("To begin it", [each for each in standing.conditions if each.kind.to_begin])
    yield from _conditions("To be done", [each for each in standing.conditions if not each.kind.to_begin])
    if standing.hides:
        yield "  Nobody sees again after it"
        yield from (f"    {'?' if each.open else '✓'} {each.title}: {each.words}" for each in standing.hides)
    yield from (f"  ? since then: {each.words}" for each in standing.changes)
    yield from (f"  ? out of order: {each}" for each in standing.out_of_order)


def group_line(group: GroupStanding) -> str:
    """A tightening group in a line, and what comes next."""
    called = short_names(group.group)
    number = group.next_pass
    if group.complete or number is None:
        return f"{group.title}: {group.words}"
    each = next((each for each in group.passes if each.number == number), None)
    wanted = f", {each.words}" if each is not None and each.words else ""
    at = f", beginning with {called[group.next_fastener]}" if group.next_fastener else ""
    return f"{group.title}: {group.words}; next is pass {number}{wanted}{at}"


def _step_lines(step: StepStanding) -> Iterator[str]:
    words = step.stage if step.state is StepState.CAN_BE_DONE else _shortened(step)
    yield f"{MARKS[step.state]} {step.title} ({step.id}): {words}"
    if step.state in _IN_FRONT:
        yield from (f"  ! {each.title}: {each.words}" for each in cautions_of(step.cautions))


def _shortened(step: StepStanding) -> str:
    """The words of a step; of one that waits so many that they stay in a line."""
    words = step.words
    if step.state is not StepState.WAITS_FOR or len(words) <= WAITING_LONG:
        return words
    return f"{words[:WAITING_LONG].rsplit(' ', 1)[0].rstrip(' :,;')} …"


def _past(standing: Standing) -> Iterator[str]:
    past = [each for each in standing.steps.values() if each.state in (StepState.DONE, StepState.RELEASED)]
    if past:
        yield ""
        yield f"Done ({len(past)})"
        yield from (f"  {line}" for each in past for line in _step_lines(each))
    if standing.not_in_this_job:
        yield ""
        yield f"Not in this job ({len(standing.not_in_this_job)})"
        yield from (f"  – {name}: {reason}" for name, reason in standing.not_in_this_job.items())


def _groups(standing: Standing) -> Iterator[str]:
    begun = [each for each in standing.groups.values() if each.started and not each.complete]
    if begun:
        yield ""
        yield f"Tightening begun and not complete ({len(begun)})"
        yield from (f"  {group_line(each)}" for each in begun)


def _curing(standing: Standing) -> Iterator[str]:
    soft = [each for each in standing.consumables.values() if each.uses and not each.cured]
    if soft:
        yield ""
        yield "Not cured yet"
        yield from (f"  {each.title}: {each.words}" for each in soft)


def _permissions(standing: Standing) -> Iterator[str]:
    over = [each for each in standing.concessions if not each.in_force and each.needed]
    if over:
        yield ""
        yield "Permissions no longer in force"
        yield from (f"  {each.code} for {each.title}: {each.why_not}" for each in over)
    open_orders = [each for each in standing.reworks if not each.closed]
    if open_orders:
        yield ""
        yield "Rework not followed up"
        yield from (f"  {each.code} of {each.part_title}: {each.words}" for each in open_orders)


def _conditions(heading: str, found: Sequence[Condition]) -> Iterator[str]:
    if found:
        yield f"  {heading}"
        for each in found:
            under = f", under {each.under}" if each.under else ""
            yield f"    {'✓' if each.holds else '–'} {each.title}: {each.words}{under}"


def exchanged_lines(assessor: Assessor, entries: Sequence[NewEntry]) -> Iterator[str]:
    """What parts that are put in take away: readings and tightenings of those that are out."""
    found = consequences_of(assessor, entries)
    if found.lost:
        readings = "1 reading is" if found.lost == 1 else f"{found.lost} readings are"
        yield f"{readings} kept and no longer used."
    for each in found.untightened:
        group = assessor.judge.sheet.tightening_groups[each.group]
        yield f"{group.title}, {fastener_words(group, each.fasteners)}: the tightening counts no longer."
