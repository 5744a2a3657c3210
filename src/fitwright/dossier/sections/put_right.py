"""What was put right, with the sizes before and after, and what was accepted although it meets no limit."""

from __future__ import annotations

from collections.abc import Iterator

from fitwright.assess.assembly.results import ConcessionStanding, ReworkStanding
from fitwright.dossier.sections.fits import reworked_from, scale_of
from fitwright.dossier.sections.teller import MARKS, Teller, amount_typed, at_of, day_of, deed_day
from fitwright.dossier.tree import Block, Column, Heading, Points, Scales, Section, Table, Words
from fitwright.records.kinds import Concession, DeviationPermit
from fitwright.units.senses import DIMENSION_OF


def put_right(teller: Teller) -> Section | None:
    """The chapter of reworks, concessions and deviation permits."""
    blocks = [*_accepted(teller), *_changes(teller), *_orders(teller)]
    if not blocks:
        return None
    return Section("put-right", "Put right, and accepted as it is", tuple(blocks))


def _accepted(teller: Teller) -> Iterator[Block]:
    found = teller.standing.concessions
    if not found:
        return
    yield Heading("Concessions and deviation permits")
    columns = (
        Column("Code", 0.8),
        Column("Of what", 1.8),
        Column("Accepted", 1.5, mono=True),
        Column("Because", 2.2),
        Column("Granted by", 1.2),
        Column("Stands", 1.7),
    )
    yield Table("Accepted by name, with a reason", columns, tuple(_permit(teller, each) for each in found))
    consequences = tuple(
        f"{each.code}, as it was shown then: {words}" for each in found for words in each.consequence
    )
    if consequences and teller.complete:
        yield Points(consequences)


def _permit(teller: Teller, found: ConcessionStanding) -> tuple[str, ...]:
    stands = "in force" if found.in_force else f"not in force: {found.why_not or found.words}"
    if found.in_force and not found.needed:
        stands = "in force, not needed any more"
    until = f", until {found.until}" if found.until else ""
    return (
        f"{found.code}, {found.kind}",
        found.title,
        _span(teller, found),
        found.because,
        f"{teller.person(found.granted_by)}, {deed_day(found.granted)}",
        f"{stands}{until}",
    )


def _span(teller: Teller, found: ConcessionStanding) -> str:
    """What is accepted, as it was typed: a last digit more or less would be another permission."""
    body = teller.known.state.ledger.recorded[found.granted.entry].body
    assert isinstance(body, Concession | DeviationPermit)  # noqa: S101 - it stands as one
    low, high = body.lowest, body.highest
    if low is None and high is None:
        return "as it is"
    if low is None or high is None:
        return f"up to {amount_typed(high)}" if low is None else f"from {amount_typed(low)}"
    return " to ".join(dict.fromkeys((amount_typed(low), amount_typed(high))))


def _changes(teller: Teller) -> Iterator[Block]:
    """Each rework with the fits that it changed, before and after."""
    changes = teller.known.changes
    if not changes:
        return
    yield Heading("Reworked, repaired, replaced")
    rows = tuple(
        (
            body.code,
            body.change,
            _part(teller, body.part),
            body.words,
            teller.person(entry.person),
            day_of(at_of(entry)),
        )
        for entry, body in changes
    )
    columns = (
        Column("Code", 0.7),
        Column("What", 1.0),
        Column("Part", 1.6),
        Column("What was done", 3.0),
        Column("By", 1.0),
        Column("Day", 1.0, mono=True),
    )
    yield Table("Work on parts since they came", columns, rows)
    yield from _before_and_after(teller)


def _before_and_after(teller: Teller) -> Iterator[Block]:
    """Fits that this work touched: drawn in the complete one, in a line each in the owner's."""
    touched = [
        (each, before)
        for each in teller.known.assessment.verdicts.values()
        if (before := reworked_from(teller, each)) is not None
    ]
    if touched and teller.complete:
        words = "Fits that this work touched: as received above the brackets, as it is between them."
        yield Words(words, "small")
        yield Scales("Before and after", tuple(scale_of(teller, each) for each, _ in touched))
    rows = tuple(
        (
            each.name,
            teller.reader.limits(each),
            f"{MARKS[before.verdict]} {teller.reader.value(before)}",
            f"{MARKS[each.verdict]} {teller.reader.value(each)}",
        )
        for each, before in touched
        if before.verdict is not each.verdict
    )
    if rows and not teller.complete:
        columns = (
            Column("Fit", 1.9),
            Column("Limits", 1.55, mono=True),
            Column("As received", 2.75, mono=True),
            Column("As it is", 2.75, mono=True),
        )
        yield Table("Before and after", columns, rows)


def _part(teller: Teller, code: str) -> str:
    held = teller.known.state.parts.get(code)
    return f"{held.body.title} ({code})" if held is not None else teller.title(code)


def _orders(teller: Teller) -> Iterator[Block]:
    orders = teller.standing.reworks
    if not teller.complete:
        orders = tuple(each for each in orders if not each.closed)
    if not orders:
        return
    yield Heading("Rework orders" if teller.complete else "Rework orders that are not closed")
    columns = (
        Column("Order", 1.0),
        Column("Part", 1.5),
        Column("Ordered", 2.2),
        Column("Sizes before and after", 2.4),
        Column("Stands", 1.8),
    )
    yield Table("Rework orders and what they led to", columns, tuple(_order(teller, each) for each in orders))
    open_items = tuple(
        f"{each.code}: {item.title}, {item.verdict_words or 'nobody looked at it since'}"
        for each in orders
        for item in each.open_items
    )
    if open_items:
        yield Words("These feed on what was reworked, and nobody has looked at them since:")
        yield Points(open_items)


def _order(teller: Teller, found: ReworkStanding) -> tuple[str, ...]:
    sizes = "; ".join(
        f"{each.title}: {_size(teller, each.dimension, each.before)} → "
        f"{_size(teller, each.dimension, each.after) if each.read_again else 'not read again'}"
        for each in found.dimensions
    )
    by = teller.person(found.ordered.person)
    return (
        f"{found.code}, {found.change}",
        found.part_title,
        f"{found.order_words} ({by})",
        sizes or "–",
        found.words,
    )


def _size(teller: Teller, name: str, value: float | None) -> str:
    if value is None:
        return "not read"
    dimension = teller.known.sheet.dimensions.get(name)
    kind = DIMENSION_OF[dimension.sense] if dimension is not None else "length"
    return teller.amount(value, kind, 1e-6 if kind == "length" else None)
