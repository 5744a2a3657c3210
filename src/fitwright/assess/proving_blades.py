"""What a set of blades or plugs can prove of each fit that is read with it, before anything is tried."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import lru_cache

from fitwright.assess.judging import Judge
from fitwright.assess.results import FitVerdict
from fitwright.assess.settling import BLADES, PLUGS, blades_of, limits_of
from fitwright.assess.subjects import Subject
from fitwright.physics.metrology.blade_sets import SetCapability, blade_set_can_prove
from fitwright.physics.metrology.conformity import DecisionRule
from fitwright.physics.metrology.readings import Blade
from fitwright.records.kinds import BladeSet


@dataclass(frozen=True, slots=True)
class ProvableByBlades:
    """A fit held against a set; `likes` counts others of its family with the same limits."""

    build: str
    subject: str
    title: str
    likes: int
    lower: float | None
    upper: float | None
    governs: bool
    capability: SetCapability


def provable_by_blades(
    judge: Judge, build: str, verdicts: Mapping[str, FitVerdict], blade_set: BladeSet
) -> list[ProvableByBlades]:
    """Every fit with limits that blades (or plugs) read directly, families gathered."""
    kind = PLUGS if blade_set.plugs else BLADES
    gathered: dict[tuple[object, ...], ProvableByBlades] = {}
    for found in verdicts.values():
        subject = judge.subjects[found.id]
        lower, upper, governs = limits_of(found)
        if (lower is None and upper is None) or not _is_read_with(judge, subject, kind):
            continue
        key = (_family(subject), lower, upper, governs, subject.limit_class)
        known = gathered.get(key)
        if known is not None:
            gathered[key] = replace(known, likes=known.likes + 1)
            continue
        capability = _capability(
            lower,
            upper,
            tuple(blades_of(blade_set)),
            judge.rules.of(subject.limit_class),
            1 if blade_set.plugs else 2,
        )
        gathered[key] = ProvableByBlades(build, found.id, found.name, 0, lower, upper, governs, capability)
    return list(gathered.values())


@lru_cache(maxsize=512)
def _capability(
    lower: float | None, upper: float | None, blades: tuple[Blade, ...], rule: DecisionRule, largest: int
) -> SetCapability:
    """Worked out once for each set and limits: it tries every pair of blades."""
    return blade_set_can_prove(lower, upper, blades, rule, largest_stack=largest)


def _is_read_with(judge: Judge, subject: Subject, kind: str) -> bool:
    direct = [route.chain[0].dimension for route in subject.routes if len(route.chain) == 1]
    return any(kind in judge.sheet.dimensions[name].instruments for name in direct)


def _family(subject: Subject) -> str:
    family = subject.fit.family if subject.fit is not None else None
    family = family or (subject.dimension.family if subject.dimension is not None else None)
    return family or subject.id
