"""Which fasteners differ from their like in torque against stretch."""

from __future__ import annotations

from collections.abc import Iterator

from fitwright.assess.assembly import figures
from fitwright.assess.assembly.asked import stretch_of
from fitwright.assess.assembly.job import Job
from fitwright.assess.assembly.tightened import final_record
from fitwright.assess.assembly.tightenings import alike
from fitwright.model.fastener import TighteningGroup


def odd_ones(job: Job) -> dict[str, dict[str, str]]:
    """For each group what is odd of some of its fasteners; those of alike groups are judged together."""
    groups = list(job.sheet.tightening_groups.values())
    found: dict[str, dict[str, str]] = {}
    seen: set[str] = set()
    for group in groups:
        if group.id in seen:
            continue
        family = alike(groups, group)
        seen.update(each.id for each in family)
        for name, fastener, words in _odd_of(job, family):
            found.setdefault(name, {})[fastener] = words
    return found


def _odd_of(job: Job, family: list[TighteningGroup]) -> Iterator[tuple[str, str, str]]:
    read = {
        f"{group.id}/{name}": (group.id, name, torque, stretch)
        for group in family
        for name, torque, stretch in _pairs(job, group)
    }
    if not read:
        return
    from fitwright.physics.fasteners.group import TightenedFastener, judge_group

    judged = judge_group([TightenedFastener(key, each[2], each[3]) for key, each in read.items()])
    for each in judged.odd:
        group, name, _, _ = read[each.name]
        yield group, name, f"{each.oddness.value}: {figures.share(abs(each.deviation))} off the middle one"


def _pairs(job: Job, group: TighteningGroup) -> Iterator[tuple[str, float, float]]:
    for life in job.tightenings.lives(group).by_id.values():
        record = final_record(life, len(group.passes))
        if record is None or record.body.torque is None:
            continue
        stretch = stretch_of(record.body)
        if stretch is not None and stretch > 0.0 and record.body.torque.si > 0.0:
            yield life.id, record.body.torque.si, stretch
