"""Tightening groups: their passes, their fasteners, what the order asks for next, what is missing."""

from __future__ import annotations

from collections.abc import Iterator

from fitwright.assess.assembly import figures, preloads
from fitwright.assess.assembly.asked import torque_window
from fitwright.assess.assembly.fastener_results import (
    FastenerStanding,
    FastenerState,
    GroupStanding,
    PassStanding,
    Preload,
    WarmPreload,
)
from fitwright.assess.assembly.fasteners import Fasteners
from fitwright.assess.assembly.job import Job
from fitwright.assess.assembly.joint import Joint
from fitwright.assess.assembly.odd_ones import odd_ones
from fitwright.assess.assembly.past import Past
from fitwright.assess.assembly.reckoning import Rules, due_passes
from fitwright.assess.assembly.then import NOW
from fitwright.assess.assembly.tightened import Lives
from fitwright.assess.assembly.tightness import rules_at
from fitwright.model.fastener import Pass, TighteningGroup
from fitwright.physics.fasteners.warm import preload_at_temperature
from fitwright.physics.metrology.temperature import REFERENCE_TEMPERATURE

STEEL_EXPANSION = 11.5e-6
"""Expansion coefficient of fastener steel [1/K]."""


def groups_of(job: Job, past: Past) -> dict[str, GroupStanding]:
    """All groups of this job, in the order of the sheet."""
    odd = odd_ones(job)
    rules = rules_at(job, NOW)
    return {
        name: _standing(job, rules, past.joint(job.sheet, group), odd.get(name, {}))
        for name, group in job.sheet.tightening_groups.items()
        if job.not_here(name) is None
    }


def group_of(job: Job, past: Past, name: str) -> GroupStanding:
    """One group alone."""
    joint = past.joint(job.sheet, job.sheet.tightening_groups[name])
    return _standing(job, rules_at(job, NOW), joint, odd_ones(job).get(name, {}))


def _standing(job: Job, rules: Rules, joint: Joint, odd: dict[str, str]) -> GroupStanding:
    group = joint.group
    lives = job.tightenings.lives(group)
    making = Fasteners(job, rules, joint, odd)
    fasteners = tuple(making.standing(life) for life in lives.by_id.values())
    passes = tuple(_passes(rules, group, lives))
    following = next((each for each in passes if each.due and not each.complete), None)
    missing = tuple(_missing(fasteners))
    complete = not missing
    intended = intended_preload(joint)
    return GroupStanding(
        group=group,
        fasteners=fasteners,
        passes=passes,
        complete=complete,
        started=any(each.passes for each in fasteners),
        next_pass=following.number if following is not None else None,
        next_fastener=following.missing[0] if following is not None else None,
        intended=intended,
        warm=tuple(_warm(job, joint, intended)),
        words=_words(fasteners, passes, missing),
        missing=missing,
        remarks=tuple(_remarks(job, group, lives, fasteners)),
        not_computed=_why_none(joint) if intended is None else None,
    )


# Passes.


def _passes(rules: Rules, group: TighteningGroup, lives: Lives) -> Iterator[PassStanding]:
    due = {name: due_passes(rules, group, life) for name, life in lives.by_id.items()}
    for number, asks in enumerate(group.passes, 1):
        done = tuple(name for name, life in lives.by_id.items() if number in life.records)
        wanted = [name for name in lives.by_id if number in due[name]]
        yield PassStanding(
            number=number,
            asks=asks,
            words=asks_words(asks),
            due=bool(wanted),
            done=done,
            missing=tuple(name for name in lives.by_id if name not in done),
            early=tuple(
                name
                for name, life in lives.by_id.items()
                if number in life.records and life.records[number].early
            ),
        )


def asks_words(asks: Pass) -> str:
    """What a pass asks for, as the sheet writes it."""
    said = []
    if asks.stretch_low is not None or asks.stretch_high is not None:
        ends = [each.written for each in (asks.stretch_low, asks.stretch_high) if each is not None]
        said.append(f"stretch {' to '.join(ends)}")
    if asks.torque is not None:
        upto = f" to {asks.upto.written}" if asks.upto is not None else ""
        check = "cross-check " if said else ""
        said.append(f"{check}{asks.torque.written}{upto}")
    if asks.angle is not None:
        said.append(f"{'then ' if said else ''}by {asks.angle.written}")
    heat = ", after a heat cycle" if asks.after_heat else ""
    return f"{', '.join(said) or 'no value stated'}{heat}"


# What is intended.


def intended_preload(joint: Joint) -> Preload | None:
    """The preload that the sheet's last pass gives with its own lubricant; in the middle of its window."""
    cold = [each for each in joint.group.passes if not each.after_heat]
    if not cold:
        return None
    last, lubricant = cold[-1], joint.group.lubricant
    ends = [each.si for each in (last.stretch_low, last.stretch_high) if each is not None]
    if ends:
        return preloads.by_stretch(joint, sum(ends) / len(ends), lubricant)
    if last.angle is not None:
        return _by_angle(joint, cold)
    window = torque_window(last)
    return preloads.by_torque(joint, 0.5 * sum(window), lubricant) if window is not None else None


def _why_none(joint: Joint) -> str | None:
    if not joint.group.passes:
        return "no preload: the sheet states no value yet"
    return preloads.why_no_preload(joint, joint.group.lubricant)


def _by_angle(joint: Joint, passes: list[Pass]) -> Preload | None:
    total = 0.0
    for each in reversed(passes):
        total += each.angle.si if each.angle is not None else 0.0
        window = torque_window(each)
        if window is not None:
            return preloads.by_angle(joint, 0.5 * sum(window), total, joint.group.lubricant)
    return None


def _warm(job: Job, joint: Joint, intended: Preload | None) -> Iterator[WarmPreload]:
    """At each temperature case. The fastener is taken to be as warm as what it clamps."""
    if intended is None or joint.resilience is None or not joint.layers:
        return
    for case in job.sheet.temperature_cases.values():
        material = joint.group.clamped
        parts = [part.id for part in job.sheet.parts.values() if part.material == material]
        warm = max((case.parts[part] for part in parts if part in case.parts), default=case.default)
        found = preload_at_temperature(
            intended.preload,
            joint.layers,
            [warm - REFERENCE_TEMPERATURE],
            bolt_expansion=STEEL_EXPANSION,
            bolt_warming=warm - REFERENCE_TEMPERATURE,
            resilience=joint.resilience,
        )
        yield WarmPreload(case.id, case.title, found.preload, found.change)


# What is missing, and what is to be said.


def _missing(fasteners: tuple[FastenerStanding, ...]) -> Iterator[str]:
    count = len(fasteners)
    for number, each in enumerate(fasteners, 1):
        if not each.complete:
            yield f"fastener {number} of {count} ({each.id}) is not confirmed: {each.words}"


def _remarks(
    job: Job, group: TighteningGroup, lives: Lives, fasteners: tuple[FastenerStanding, ...]
) -> Iterator[str]:
    if group.blind and not seen_dry(job, group):
        yield "the holes are blind, and nobody recorded that they were seen dry: oil in them cracks castings"
    for number in range(1, len(group.passes) + 1):
        if not _in_order(lives, number):
            yield f"pass {number} was recorded in another order than the sheet's"
    if not group.passes:
        yield "the sheet states no value for it"
    for event in lives.unknown:
        strange = [name for name in event.body.fasteners if name not in lives.by_id]
        yield f"recorded for {figures.listed(strange)}, which the sheet does not have"
    odd = [each.id for each in fasteners if each.odd is not None]
    if odd:
        verb = "does" if len(odd) == 1 else "do"
        yield f"{figures.listed(odd)} {verb} not go with the others in torque against stretch"


def seen_dry(job: Job, group: TighteningGroup) -> bool:
    """Whether somebody answered that blind holes are dry: an eye check of the group, or of its steps."""
    named = {f"{group.id}.dry"}
    for step in job.sheet.steps.values():
        if group.id in step.tightens:
            named.update(each for each in step.eye_checks if each.rpartition(".")[2].endswith("dry"))
    wanted = {check: job.questions.get(check, ("", True))[1] for check in named}
    return any(answers[-1].body.answer is wanted[check] for check in named if (answers := job.answers(check)))


def _in_order(lives: Lives, number: int) -> bool:
    """Whether a pass went round in the order of the sheet; fasteners of one entry have no order.

    One that was loosened and tightened again by itself comes when it comes.
    """
    done = [life for life in lives.by_id.values() if number in life.records]
    round_of_all = min((len(life.cycles) for life in done), default=0)
    orders = [life.records[number].order for life in done if len(life.cycles) == round_of_all]
    return orders == sorted(orders)


def _words(
    fasteners: tuple[FastenerStanding, ...], passes: tuple[PassStanding, ...], missing: tuple[str, ...]
) -> str:
    under = dict.fromkeys(each.under for each in fasteners if each.under is not None)
    if not missing:
        return "complete" if not under else f"complete, {figures.listed([f'under {each}' for each in under])}"
    outside = [each for each in fasteners if each.state is FastenerState.OUTSIDE]
    if outside:
        return f"{len(outside)} outside: {figures.listed([each.id for each in outside])}"
    if not any(each.passes for each in fasteners):
        loose = any(each.state is FastenerState.LOOSENED for each in fasteners)
        stands = "loosened" if loose else "not tightened"
        return stands if passes else f"no value yet, {stands}"
    again = [each for each in fasteners if each.state is FastenerState.TO_TIGHTEN_AGAIN]
    if len(again) == len(missing):
        return "to be tightened again after the heat cycle"
    following = next((each for each in passes if each.due and not each.complete), None)
    done = f"pass {following.number}: {len(following.done)} of {len(fasteners)}" if following else ""
    return done or f"{len(fasteners) - len(missing)} of {len(fasteners)} complete"
