"""How the assembly of a build stands at a moment: everything put together."""

from __future__ import annotations

from datetime import datetime

from fitwright.assess.assembly.concessions import concessions_of
from fitwright.assess.assembly.consumables import consumables_of
from fitwright.assess.assembly.fastener_results import GroupStanding
from fitwright.assess.assembly.groups import group_of, groups_of
from fitwright.assess.assembly.job import Job, last_moment
from fitwright.assess.assembly.moves import moves_of
from fitwright.assess.assembly.one_time import one_time_parts
from fitwright.assess.assembly.open_points import Parts, open_points_of
from fitwright.assess.assembly.past import Past
from fitwright.assess.assembly.results import Standing
from fitwright.assess.assembly.rework import reworks_of
from fitwright.assess.assembly.steps import steps_of
from fitwright.assess.assembly.then import NOW
from fitwright.assess.assembly.tightness import rules_at
from fitwright.assess.assessment import Assessor


def standing_of(assessor: Assessor, *, now: datetime | None = None, past: Past | None = None) -> Standing:
    """How the assembly of a build stands.

    Parameters
    ----------
    assessor : Assessor
        The verdicts of the build in its current state.
    now : datetime, optional
        What curing and days are held against; by default when the last entry was committed.
    past : Past, optional
        What fits were at earlier moments, as far as it was worked out before; it grows.

    Returns
    -------
    Standing
        Steps, groups, permissions, rework, consumables, parts and open points.
    """
    build, shop = assessor.judge.build, assessor.judge.gauges.shop
    job = Job(assessor, now or last_moment(build, shop))
    sheet = job.sheet
    absent = {
        name: reason
        for name in (*sheet.steps, *sheet.tightening_groups)
        if (reason := job.not_here(name)) is not None
    }
    past = past if past is not None else Past()
    parts = Parts(
        steps=steps_of(job, past),
        groups=groups_of(job, past),
        concessions=concessions_of(job),
        reworks=reworks_of(job, past),
        consumables=consumables_of(job),
        one_time_parts=one_time_parts(job, rules_at(job, NOW)),
    )
    return Standing(
        build=build.build,
        sheet=sheet.digest,
        head=max(build.seq, shop.seq),
        now=job.now,
        alone=job.alone,
        steps=parts.steps,
        groups=parts.groups,
        concessions=parts.concessions,
        reworks=parts.reworks,
        consumables=parts.consumables,
        one_time_parts=parts.one_time_parts,
        moves=moves_of(job),
        open_points=open_points_of(job, parts),
        not_in_this_job=absent,
    )


def group_standing_of(
    assessor: Assessor, group: str, *, now: datetime | None = None, past: Past | None = None
) -> GroupStanding:
    """How one tightening group stands, without everything else: for the answer to an entry at the bench."""
    build, shop = assessor.judge.build, assessor.judge.gauges.shop
    job = Job(assessor, now or last_moment(build, shop))
    return group_of(job, past if past is not None else Past(), group)
