"""What a closing step hides, and what of that is not in order."""

from __future__ import annotations

from collections.abc import Iterator

from fitwright.assess.assembly.conditions import Conditions
from fitwright.assess.assembly.job import Job
from fitwright.assess.assembly.results import ConditionKind, Hidden
from fitwright.assess.assembly.then import NOW
from fitwright.model.step import Step


def hidden_by(job: Job, conditions: Conditions, step: Step) -> Iterator[Hidden]:
    """Everything that a step hides, then the photos that nobody can take any more once it is done."""
    for subject in step.hides:
        yield _hidden(job, conditions, step, subject)
    if step.hides:
        yield from _photos(job, conditions, step)


def _hidden(job: Job, conditions: Conditions, step: Step, subject: str) -> Hidden:
    title = job.title(subject)
    absent = job.not_here(subject)
    if absent is not None:
        return Hidden(subject, title, "not in this job", open=False, words=f"no part of this job: {absent}")
    if subject in job.sheet.tightening_groups:
        found = conditions.holds(step, ConditionKind.TIGHTENED, subject, NOW)
        return Hidden(subject, title, "tightening group", not found.holds, found.words)
    if subject in job.sheet.fits or subject in job.sheet.dimensions:
        held = job.fit(subject)
        kind = "fit" if subject in job.sheet.fits else "dimension"
        return Hidden(subject, title, kind, not held.holds or held.under is not None, held.words)
    return _position(job, conditions, step, subject)


def _position(job: Job, conditions: Conditions, step: Step, subject: str) -> Hidden:
    """A position: the limited fits and dimensions that rest on it, and whether a one-time part is new."""
    part = job.sheet.parts.get(subject)
    title = job.title(subject)
    if part is not None and part.one_time_use:
        found = conditions.holds(step, ConditionKind.REPLACED, subject, NOW)
        if not found.holds:
            return Hidden(subject, title, "part", open=True, words=found.words)
    held = {name: job.fit(name) for name in job.subjects_at.get(subject, ())}
    wrong = [f"{job.title(name)}: {each.words}" for name, each in held.items() if not each.holds]
    if not wrong:
        words = "nothing open" if held else "nothing is judged here"
        return Hidden(subject, title, "part", open=False, words=words)
    more = f" (and {len(wrong) - 1} more)" if len(wrong) > 1 else ""
    return Hidden(subject, title, "part", open=True, words=f"{wrong[0]}{more}")


def _photos(job: Job, conditions: Conditions, step: Step) -> Iterator[Hidden]:
    near = [job.sheet.steps[name] for name in conditions.steps.of(step) if name in job.sheet.steps]
    for other in (*sorted(near, key=lambda each: job.place_of_step[each.id]), step):
        if job.not_here(other.id) is not None:
            continue
        for photo in other.photos:
            subject = f"{other.id}/{photo.id}"
            if not conditions.holds(other, ConditionKind.PHOTO, subject, NOW).holds:
                yield Hidden(subject, photo.words, "photo", open=True, words="not photographed")
