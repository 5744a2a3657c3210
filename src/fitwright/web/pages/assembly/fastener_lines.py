"""Each fastener of a group as its page lists it: what it got, in which passes, what is to be said of it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from markupsafe import Markup

from fitwright.assess.assembly.results import FastenerPass, FastenerStanding, FastenerState, GroupStanding
from fitwright.drawing.bolt_pattern.standing import verdict_of, word_of
from fitwright.drawing.marks import mark_drawing
from fitwright.model.fastener import readable_names
from fitwright.records.kinds import Tightening
from fitwright.web.addresses import put_right_address, record_address
from fitwright.web.pages.assembly.group_facts import Figure, PreloadPart, preload_part
from fitwright.web.pages.assembly.opened import Opened


@dataclass(frozen=True, slots=True)
class PassLine:
    """What was recorded of a fastener in one pass."""

    number: int
    got: str
    how: str
    notes: tuple[str, ...]
    entry: int
    record: str


@dataclass(frozen=True, slots=True)
class FastenerLine:
    """One fastener; `choose` opens the form for it alone, `concede` the way to accept what is outside."""

    order: int
    name: str
    mark: Markup
    word: str
    chosen: bool
    part: str
    passes: tuple[PassLine, ...]
    preload: PreloadPart | None
    facts: tuple[Figure, ...]
    odd: str
    remarks: tuple[str, ...]
    missing: tuple[str, ...]
    choose: str
    concede: str


def fastener_lines(opened: Opened, group: GroupStanding, chosen: str) -> tuple[FastenerLine, ...]:
    """All fasteners in the order of tightening."""
    return tuple(
        _line(opened, group, each, order, each.id == chosen)
        for order, each in enumerate(group.fasteners, start=1)
    )


def _line(
    opened: Opened,
    group: GroupStanding,
    found: FastenerStanding,
    order: int,
    chosen: bool,  # noqa: FBT001
) -> FastenerLine:
    outside = found.state is FastenerState.OUTSIDE and found.under is None
    subject = f"{group.id}/{found.id}"
    return FastenerLine(
        order=order,
        name=readable_names(group.group)[found.id],
        mark=Markup(mark_drawing(verdict_of(found))),  # noqa: S704  (our own drawing)
        word=word_of(group, found),
        chosen=chosen,
        part=found.part or "",
        passes=tuple(_pass(opened, each) for each in found.passes),
        preload=preload_part(opened, found.preload) if found.preload is not None else None,
        facts=tuple(_facts(opened, group, found)),
        odd=found.odd or "",
        remarks=found.remarks,
        missing=found.missing if found.passes or found.state is FastenerState.LOOSENED else (),
        choose=opened.group_address(group.id, at=found.id),
        concede=put_right_address(opened.code, opened.family, do="grant", subject=subject) if outside else "",
    )


def _pass(opened: Opened, found: FastenerPass) -> PassLine:
    held = opened.bench.build.ledger.recorded.get(found.entry)
    body = held.body if held is not None and isinstance(held.body, Tightening) else None
    return PassLine(
        number=found.number,
        got=", ".join(_got(opened, found, body)),
        how=", ".join(_how(opened, found)),
        notes=tuple(_notes(opened, found)),
        entry=found.seq,
        record=record_address(opened.code, entry=found.seq),
    )


def _got(opened: Opened, found: FastenerPass, body: Tightening | None) -> Iterator[str]:
    """The amounts as they were typed."""
    reader = opened.reader
    if found.stretch is not None:
        typed = body.stretch if body is not None else None
        yield f"stretch {reader.length(typed) if typed is not None else reader.stretch_of(found.stretch)}"
    if body is not None and body.free_length is not None and body.tightened_length is not None:
        yield f"{reader.length(body.free_length)} free, {reader.length(body.tightened_length)} tightened"
    if found.angle is not None:
        yield f"by {reader.angle_of(found.angle)}"
    if found.torque is not None:
        typed = body.torque if body is not None else None
        yield reader.torque(typed) if typed is not None else reader.torque_of(found.torque)
    if found.read == "peak":
        yield "peak"


def _how(opened: Opened, found: FastenerPass) -> Iterator[str]:
    """With which wrench and lubricant, by whom, when."""
    if found.wrench is not None:
        yield f"with {found.wrench.code}"
    if found.other_lubricant and found.lubricant:
        yield f"on {found.lubricant}"
    yield opened.name_of(found.performed_by)
    if when := opened.when(found.entry):
        yield when


def _notes(opened: Opened, found: FastenerPass) -> Iterator[str]:
    """What is to be said of it: beside the sheet, early, another lubricant, a wrench not in order."""
    if found.outside_words:
        yield found.outside_words
    if found.early:
        yield f"recorded before pass {found.number - 1} was complete"
    if found.other_lubricant and found.equal_torque is not None:
        torque = opened.reader.torque_of(found.equal_torque)
        yield f"another lubricant than the sheet's: {torque} would give the sheet's preload"
    if found.wrench is not None and not found.wrench.in_order:
        yield from found.wrench.words
    if found.note:
        yield found.note


def _facts(opened: Opened, group: GroupStanding, found: FastenerStanding) -> Iterator[Figure]:
    if found.times:
        most = group.group.most_tightenings
        yield Figure("tightened", f"{found.times} of at most {most} times" if most else _times(found.times))
    if found.permanent_set is not None:
        beyond = ", too much" if found.set_beyond else ""
        yield Figure("stayed longer by", f"{opened.reader.stretch_of(found.permanent_set)}{beyond}")
    if found.marked:
        yield Figure("marked", "yes")
    if found.checked_by:
        names = ", ".join(map(opened.name_of, found.checked_by))
        yield Figure("checked by", names if found.second_person else f"{names}, who tightened it")
    if found.under is not None:
        yield Figure("accepted under", found.under)


def _times(count: int) -> str:
    return "once" if count == 1 else f"{count} times"
