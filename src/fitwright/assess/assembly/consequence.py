"""What accepting something outside would mean, worked out before anybody puts his name to it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime

from fitwright.assess.assembly import figures
from fitwright.assess.assembly.asked import stretch_of
from fitwright.assess.assembly.fasteners import Fasteners
from fitwright.assess.assembly.groups import intended_preload
from fitwright.assess.assembly.job import Job, last_moment
from fitwright.assess.assembly.joint import Joint
from fitwright.assess.assembly.permissions import amount_of_unit, as_typed
from fitwright.assess.assembly.then import NOW
from fitwright.assess.assembly.tightened import final_record
from fitwright.assess.assembly.tightness import rules_at
from fitwright.assess.assembly.torque_effect import (
    against_words,
    stripping_words,
    torque_effect,
    utilisation_words,
)
from fitwright.assess.assessment import Assessor
from fitwright.assess.results import BoundVerdict, FitVerdict, Verdict
from fitwright.assess.words import HOT_NOT_JUDGED
from fitwright.model.circuit import Reference, given_sizes
from fitwright.model.fastener import TighteningGroup
from fitwright.records.kinds import Typed


@dataclass(frozen=True, slots=True)
class Figure:
    """An amount that a consequence speaks of: what it is, its value in SI, and the SI unit."""

    name: str
    value: float
    unit: str


@dataclass(frozen=True, slots=True)
class Consequence:
    """One sentence about what would be accepted, and its figures."""

    words: str
    figures: tuple[Figure, ...] = ()


def consequences_of(
    assessor: Assessor,
    subject: str,
    *,
    lowest: Typed | None = None,
    highest: Typed | None = None,
    now: datetime | None = None,
) -> tuple[Consequence, ...]:
    """What a concession or a deviation permit for a subject would accept, as it stands now.

    Parameters
    ----------
    assessor : Assessor
        The verdicts of the build in its current state.
    subject : str
        A fit, a dimension, or `group/fastener`.
    lowest, highest : Typed, optional
        Between what it is to be accepted.
    now : datetime, optional
        The moment; by default when the last entry was committed.
    """
    build, shop = assessor.judge.build, assessor.judge.gauges.shop
    job = Job(assessor, now or last_moment(build, shop))
    group = subject.partition("/")[0]
    if group in job.sheet.tightening_groups:
        return tuple(_of_fastener(job, group, subject.partition("/")[2], (lowest, highest)))
    if subject not in assessor.judge.subjects:
        return (Consequence(f"{job.title(subject)} has no limit that could be departed from."),)
    return tuple(_of_fit(job, assessor.verdict(subject), lowest, highest))


def consequence_of(assessor: Assessor, subject: str, *, now: datetime | None = None) -> tuple[str, ...]:
    """The same as sentences, as a concession keeps them."""
    return tuple(each.words for each in consequences_of(assessor, subject, now=now))


# Fits and dimensions.


def _of_fit(
    job: Job, found: FitVerdict, lowest: Typed | None, highest: Typed | None
) -> Iterator[Consequence]:
    governing = [each for each in found.bounds if each.governs]
    yield from (_beyond(found, each) for each in governing if each.verdict is Verdict.OUTSIDE)
    if found.verdict is Verdict.WITHIN:
        yield Consequence("It is within its limits: there is nothing to accept.")
    if found.verdict is Verdict.UNPROVEN:
        yield Consequence(f"It is {found.words}.")
    yield from _value(found)
    yield from _range(found, governing, lowest, highest)
    yield from (_hot(found, case.title, case.value) for case in found.hot)
    yield from _shared(job, found.id)
    yield from _waiting(job, found.id)


def _beyond(found: FitVerdict, bound: BoundVerdict) -> Consequence:
    value = bound.value if bound.value is not None else found.value or 0.0
    over = abs(value - bound.limit)
    side = "below the lower" if bound.side == "lower" else "above the upper"
    place = f", {bound.place_in_source}" if bound.place_in_source else ""
    words = (
        f"{_amount(over, bound)} {side} limit of {_amount(bound.limit, bound)} "
        f"({bound.source_kind}: {bound.source}{place})."
    )
    given = (Figure("beyond", over, found.unit), Figure("limit", bound.limit, found.unit))
    return Consequence(words, given)


def _value(found: FitVerdict) -> Iterator[Consequence]:
    if found.value is None:
        yield Consequence("There is no value: nothing was measured that one follows from.")
        return
    bound = next(iter(found.bounds), None)
    wide = 2.0 * (found.standard_uncertainty or 0.0)
    words = f"It is {_amount(found.value, bound)}, give or take {_amount(wide, bound)} (k = 2)."
    yield Consequence(words, (Figure("value", found.value, found.unit), Figure("U", wide, found.unit)))


def _range(
    found: FitVerdict, governing: list[BoundVerdict], lowest: Typed | None, highest: Typed | None
) -> Iterator[Consequence]:
    for end, side in ((lowest, "lower"), (highest, "upper")):
        bound = next((each for each in governing if each.side == side), None)
        if end is None or bound is None:
            continue
        over = (bound.limit - end.si) if side == "lower" else (end.si - bound.limit)
        if over > 0.0:
            words = f"It would be accepted as far as {_amount(over, bound)} beyond the {side} limit."
            yield Consequence(words, (Figure("accepted beyond", over, found.unit),))
    if found.value is not None and _misses(found.value, lowest, highest):
        yield Consequence("The value now does not lie in what would be accepted.")


def _misses(value: float, lowest: Typed | None, highest: Typed | None) -> bool:
    return (lowest is not None and value < lowest.si) or (highest is not None and value > highest.si)


def _hot(found: FitVerdict, case: str, value: float) -> Consequence:
    words = f"At {case} {_amount(value, next(iter(found.bounds), None))}; {HOT_NOT_JUDGED}."
    return Consequence(words, (Figure(case, value, found.unit),))


def _shared(job: Job, subject: str) -> Iterator[Consequence]:
    judged = job.assessor.judge.subjects[subject]
    names = [name for name in job.feeding.of(judged.dimensions()) if name != subject]
    fits = [job.title(name) for name in names if name in job.sheet.fits]
    if fits:
        yield Consequence(f"Its dimensions are also part of: {figures.listed(fits)}.")
    if _in_circuit(job, {subject, *judged.dimensions()}):
        yield Consequence("It is a size of the oil circuit: the oil prediction shows what it does.")


def _in_circuit(job: Job, names: set[str]) -> bool:
    circuit = job.sheet.circuit
    if circuit is None:
        return False
    parts = (part for _, _, each in circuit.parts() for part in each)
    sizes = (size for part in parts for _, size, _ in given_sizes(part))
    return any(isinstance(size, Reference) and size.subject in names for size in sizes)


def _waiting(job: Job, subject: str) -> Iterator[Consequence]:
    steps = [step.title for step in job.sheet.steps.values() if subject in step.fits]
    if steps:
        yield Consequence(f"These steps rest on it: {figures.listed(steps)}.")
    hiding = [step.title for step in job.sheet.steps.values() if subject in step.hides]
    if hiding:
        yield Consequence(f"Nobody sees it again after: {figures.listed(hiding)}.")


def _amount(value: float, bound: BoundVerdict | None) -> str:
    """An amount in both families where it is a length, else in the unit of the limit."""
    number = re.match(r"\s*([-+]?\d*\.?\d+)\s*(.*)", bound.written) if bound is not None else None
    unit = number[2] if number else ""
    if bound is None or unit in ("mm", "um", "µm", "in", "thou", "", "m", "cm"):
        return figures.length(value)
    scale = float(number[1]) / bound.limit if number and bound.limit else 1.0
    return f"{value * scale:.4g} {unit}"


# Fasteners.


def _of_fastener(
    job: Job, name: str, fastener: str, ends: tuple[Typed | None, Typed | None]
) -> Iterator[Consequence]:
    group = job.sheet.tightening_groups[name]
    rules, joint = rules_at(job, NOW), Joint(job.sheet, group)
    life = job.tightenings.lives(group).by_id.get(fastener)
    yield from _at_the_ends(job, group, ends)
    if life is None:
        yield Consequence(f"It would be for all fasteners of {group.title}.")
        return
    reckoned = rules.reckon(group, fastener)
    yield from (Consequence(f"{each.words[:1].upper()}{each.words[1:]}.") for each in reckoned.faults)
    record = final_record(life, len(group.passes))
    if record is None:
        if ends == (None, None):
            yield Consequence(f"It is {reckoned.state.value}: there is nothing to accept.")
        return
    standing = Fasteners(job, rules, joint, {}).standing(life)
    preload, intended = standing.preload, intended_preload(joint)
    if preload is None:
        yield Consequence("No preload can be computed: the sheet does not say enough of it.")
        return
    used = preload.yield_utilisation
    if used is not None:
        yield Consequence(utilisation_words(preload), (Figure("share of yield", used, "1"),))
    if preload.stripping_margin is not None:
        margin = Figure("stripping margin", preload.stripping_margin, "1")
        yield Consequence(stripping_words(preload), (margin,))
    if intended is not None:
        pair = (Figure("preload", preload.preload, "N"), Figure("sheet's", intended.preload, "N"))
        yield Consequence(against_words(preload, intended), pair)
    stretch = stretch_of(record.body)
    if stretch is not None:
        yield Consequence(f"Stretch {figures.length(stretch)}.", (Figure("stretch", stretch, "m"),))
    yield from (Consequence(words) for words in preload.words)


def _at_the_ends(
    job: Job, group: TighteningGroup, ends: tuple[Typed | None, Typed | None]
) -> Iterator[Consequence]:
    """What the lowest and the highest that is to be accepted would do, before it is done."""
    for end in ends:
        if end is None:
            continue
        kind = amount_of_unit(end.unit)
        given = (
            {"torque": end.si} if kind == "torque" else {"angle" if kind == "angle" else "stretch": end.si}
        )
        found = torque_effect(job.sheet, group, **given)  # type: ignore[arg-type]
        if found.preload is None:
            yield Consequence(f"At {as_typed(end)}: {found.not_computed}.")
            continue
        said = [utilisation_words(found.preload)] if found.preload.yield_utilisation is not None else []
        if found.preload.stripping_margin is not None:
            said.append(stripping_words(found.preload))
        if found.intended is not None:
            said.append(against_words(found.preload, found.intended))
        figure = Figure("preload", found.preload.preload, "N")
        yield Consequence(f"At {as_typed(end)}: {' '.join(said)}", (figure,))
