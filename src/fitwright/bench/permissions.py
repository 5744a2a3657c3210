"""Concessions and deviation permits as a person types them: what is accepted, from what to what, and why.

What it leads to is worked out elsewhere and passed in as words: it is kept with the permission.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from fitwright.assess.subjects import subjects_of
from fitwright.bench.asking import Answered
from fitwright.bench.context import Bench, near
from fitwright.bench.errors import CannotEnterError, EmptyPositionError, UnknownNameError
from fitwright.bench.fastener_lists import fastener_named
from fitwright.bench.shelf import next_code
from fitwright.bench.sittings import person_named
from fitwright.bench.taking import typed
from fitwright.bench.tightened import members_of_fasteners
from fitwright.bench.work_taking import (
    WorkTaken,
    WorkTaking,
    check_correction,
    first_open,
    why,
    words_wanted,
    work_taken,
)
from fitwright.bench.work_words import work_words
from fitwright.model.fastener import TighteningMethod
from fitwright.model.slips import Question
from fitwright.records.kinds import Concession, DeviationPermit
from fitwright.units import Family, Quantity, parse_quantity, shop_unit
from fitwright.units.senses import DIMENSION_OF

Permission = type[Concession] | type[DeviationPermit]


@dataclass(frozen=True, slots=True, kw_only=True)
class PermissionTyped:
    """A concession or deviation permit as it was typed, text by text; empty where nothing was said.

    `subject` is a fit, a dimension or `group/fastener`; `lowest` and `highest` say what is accepted.
    """

    subject: str
    lowest: str = ""
    highest: str = ""
    because: str = ""
    granted_by: str = ""
    until: str = ""
    code: str = ""


@dataclass(frozen=True, slots=True)
class Accepted:
    """What a permission is about: its subject, the unit of its amounts, and the parts that it is for."""

    subject: str
    dimension: str
    unit: str
    parts: Mapping[str, str]


def grant_concession(
    bench: Bench, said: PermissionTyped, taking: WorkTaking, *, consequence: Sequence[str] = ()
) -> WorkTaken | Question:
    """Permission, afterwards, to accept what does not meet a limit; `consequence` is what was shown then.

    Raises
    ------
    BenchError
        If its subject or its person is not there, no reason is given, or the range is upside down.
    QuantityError
        If a text is no amount.
    """
    return _granted(bench, Concession, said, taking, consequence)


def grant_permit(
    bench: Bench, said: PermissionTyped, taking: WorkTaking, *, consequence: Sequence[str] = ()
) -> WorkTaken | Question:
    """Permission, beforehand, to depart from a limit or a stated value; otherwise like a concession."""
    return _granted(bench, DeviationPermit, said, taking, consequence)


def accepted_of(bench: Bench, subject: str, family: Family) -> Accepted:
    """What a permission about a subject speaks of, and in which unit a number without one is read.

    Raises
    ------
    UnknownNameError
        If it is no fit, no dimension and no fastener of a group.
    """
    name = subject.strip()
    if "/" in name:
        return _of_fastener(bench, name, family)
    found = subjects_of(bench.sheet).get(name)
    sense = found.sense if found is not None else None
    if sense is None and name in bench.sheet.dimensions:
        sense = bench.sheet.dimensions[name].sense
    if sense is None:
        known = [*bench.sheet.fits, *bench.sheet.dimensions]
        raise UnknownNameError("fit, dimension or GROUP/FASTENER", name, near(name, known))
    dimension = DIMENSION_OF[sense]
    largest = _size_of(bench, name)
    return Accepted(name, dimension, shop_unit(dimension, family, largest), _parts_of(bench, name))


def next_permission_code(bench: Bench, kind: Permission) -> str:
    """A code that no concession (C-1, C-2) or no deviation permit (P-1, P-2) of this build has yet."""
    held = bench.build.ledger.recorded.values()  # withdrawn ones too: their code is not given again
    taken = (each.body.code for each in held if isinstance(each.body, kind))
    return next_code("C-" if kind is Concession else "P-", taken)


def _granted(
    bench: Bench, kind: Permission, said: PermissionTyped, taking: WorkTaking, consequence: Sequence[str]
) -> WorkTaken | Question:
    check_correction(bench, kind, taking)
    what = accepted_of(bench, said.subject, taking.family)
    lowest, highest = _amount(said.lowest, what), _amount(said.highest, what)
    if lowest is not None and highest is not None and lowest.si > highest.si:
        raise CannotEnterError(f"{lowest.typed} is above {highest.typed}", "exchange the two")
    who = person_named(bench.shop, said.granted_by or taking.person)
    body = kind.model_validate(
        {
            "code": said.code.strip() or next_permission_code(bench, kind),
            "subject": what.subject,
            "parts": dict(what.parts),
            "lowest": typed(lowest) if lowest is not None else None,
            "highest": typed(highest) if highest is not None else None,
            "granted_by": who,
            "because": words_wanted(said.because, f"A {kind.kind}", "the reason"),
            "consequence": tuple(consequence),
            "until": said.until.strip() or None,
            **why(taking),
        }
    )
    answered: list[Answered] = []
    question = first_open(bench, _questions(body), what.subject, "", taking, answered)
    if question is not None:
        return question
    return work_taken(
        bench,
        body,
        work_words(body, bench.sheet),
        replace(taking, person=who),
        about=what.subject,
        answered=answered,
        signed_by=who,
    )


def _questions(body: Concession | DeviationPermit) -> Iterator[Question]:
    if body.lowest is None and body.highest is None:
        text = f"No range was said: {body.code} would cover whatever value it comes to. Keep it so?"
        yield Question(f"no-range:{body.subject}:{body.code}", text)


def _amount(text: str, what: Accepted) -> Quantity | None:
    """An amount accepted; of a fastener it may be a torque, an angle or a length, whatever unit was typed."""
    if not text.strip():
        return None
    if "/" not in what.subject:
        return parse_quantity(text, default_unit=what.unit, dimension=what.dimension)
    found = parse_quantity(text, default_unit=what.unit)
    if found.dimension not in ("torque", "angle", "length"):
        wrong = f'"{text.strip()}" is a {found.dimension.replace("_", " ")}'
        raise CannotEnterError(wrong, "type a torque, an angle or a stretch")
    return found


def _of_fastener(bench: Bench, name: str, family: Family) -> Accepted:
    group_id, _, fastener = name.partition("/")
    group = bench.sheet.tightening_groups.get(group_id)
    if group is None:
        known = bench.sheet.tightening_groups
        raise UnknownNameError("tightening group", group_id, near(group_id, known) or list(known))
    found = fastener_named(group, fastener)
    by_stretch = group.method is TighteningMethod.STRETCH
    dimension = "length" if by_stretch else "torque"
    parts = members_of_fasteners(bench, group, [found], {})
    return Accepted(f"{group_id}/{found}", dimension, shop_unit(dimension, family, 1e-4), parts)


def _size_of(bench: Bench, subject: str) -> float:
    """A size that says whether an inch shop reads the subject in thou or in inches."""
    found = subjects_of(bench.sheet).get(subject)
    ends = [each.si for limit in found.limits for each in (limit.lower, limit.upper) if each] if found else []
    dimension = bench.sheet.dimensions.get(subject)
    if dimension is not None and dimension.nominal is not None:
        ends.append(dimension.nominal.si)
    return max(map(abs, ends), default=0.0)


def _parts_of(bench: Bench, subject: str) -> dict[str, str]:
    """Which parts the subject rests on now (position -> part): with another one, it holds no longer."""
    found = subjects_of(bench.sheet).get(subject)
    names = found.dimensions() if found is not None else (subject,)
    parts: dict[str, str] = {}
    for name in names:
        try:
            parts |= bench.members(bench.sheet.dimensions[name])
        except EmptyPositionError:
            continue
    return parts
