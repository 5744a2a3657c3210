"""Concessions and deviation permits as a list: for what, by whom, and whether they are in force."""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.assess.assembly.results import ConcessionStanding, Standing
from fitwright.bench.context import Bench
from fitwright.bench.errors import UnknownNameError
from fitwright.bench.permissions import accepted_of
from fitwright.records.kinds import Concession, DeviationPermit
from fitwright.units import both_units
from fitwright.web.addresses import put_right_address, record_address
from fitwright.web.view import View
from fitwright.web.whose import at_the_shop


@dataclass(frozen=True, slots=True)
class PermissionLine:
    """One permission; `standing` says whether it is in force, and why not where it is not."""

    anchor: str
    code: str
    kind: str
    title: str
    standing: str
    in_force: bool
    accepted: str
    parts: str
    until: str
    because: str
    consequence: tuple[str, ...]
    who: str
    seq: int
    record: str
    back: str


def permission_lines(bench: Bench, view: View, standing: Standing) -> tuple[PermissionLine, ...]:
    """All of them, those in force first, each kind in the order in which they were granted."""
    every = sorted(standing.concessions, key=lambda each: (not each.in_force, each.granted.seq))
    return tuple(_line(bench, view, each) for each in every)


def _line(bench: Bench, view: View, each: ConcessionStanding) -> PermissionLine:
    person = bench.shop.people.get(each.granted_by)
    name = person.body.name if person is not None else each.granted_by
    at = each.granted.at
    when = at_the_shop(bench.shop, at.isoformat()) if at is not None else ""
    back = put_right_address(view.code, view.family, do="back", entry=each.granted.entry)
    return PermissionLine(
        anchor=f"permission-{each.code}",
        code=each.code,
        kind=each.kind,
        title=each.title,
        standing=_standing(each),
        in_force=each.in_force,
        accepted=_accepted(bench, view, each),
        parts=", ".join(dict.fromkeys(each.parts.values())),
        until=each.until or "",
        because=each.because,
        consequence=each.consequence,
        who=", ".join(words for words in (name, when) if words),
        seq=each.granted.seq,
        record=record_address(view.code, entry=each.granted.seq),
        back=back,
    )


def _standing(each: ConcessionStanding) -> str:
    if not each.in_force:
        return f"not in force: {each.why_not}" if each.why_not else "not in force"
    return "in force" if each.needed else "in force, and not needed: the limit is met without it"


def _accepted(bench: Bench, view: View, each: ConcessionStanding) -> str:
    """What is accepted, in both units; as typed where the sheet has no such subject any more."""
    try:
        what = accepted_of(bench, each.subject, view.family)
    except UnknownNameError:
        low, high = _as_typed(bench, each)
    else:
        low, high = (
            both_units(end, each.amount or what.dimension, prefer=view.family) if end is not None else ""
            for end in (each.lowest, each.highest)
        )
    if low and high:
        return f"from {low} to {high}"
    return f"from {low}" if low else f"up to {high}" if high else "whatever value it comes to"


def _as_typed(bench: Bench, each: ConcessionStanding) -> tuple[str, str]:
    body = bench.build.ledger.recorded[each.granted.entry].body
    assert isinstance(body, Concession | DeviationPermit)  # noqa: S101 - it stands as one
    low, high = (f"{end.typed} {end.unit}" if end is not None else "" for end in (body.lowest, body.highest))
    return low, high
