"""Tables of the work: reworks, permissions, tightenings, steps, consumables, signatures."""

from __future__ import annotations

from collections.abc import Iterator

from fitwright.assess.assembly.results import FastenerPass
from fitwright.formats.subjects.told import Row, Told, force_unit, moment, yes
from fitwright.records import kinds
from fitwright.units.families import shop_unit


def reworks(told: Told) -> Iterator[Row]:
    """The rows of: reworks."""
    ledger = told.bench.build.ledger
    for entry, body in ledger.in_order():
        if isinstance(body, kinds.State) and ledger.effective(entry.id):
            dimensions = " ".join(body.dimensions)
            yield (
                str(entry.seq),
                body.code,
                body.change,
                body.part,
                body.words,
                dimensions,
                entry.person or "",
            )


def rework_orders(told: Told) -> Iterator[Row]:
    """The rows of: rework orders."""
    for each in told.standing.reworks:
        items = "; ".join(item.title for item in each.open_items)
        yield each.code, each.part, each.change, each.order_words, each.words, yes(each.closed), items


def concessions(told: Told) -> Iterator[Row]:
    """The rows of: concessions."""
    for each in told.standing.concessions:
        yield (
            each.code,
            each.kind,
            each.subject,
            each.title,
            each.granted_by,
            moment(each.granted.at),
            each.because,
            "; ".join(each.consequence),
            each.until or "",
            yes(each.in_force),
            each.why_not or "",
        )


def groups(told: Told) -> Iterator[Row]:
    """The rows of: groups."""
    for each in told.standing.groups.values():
        group = each.group
        unit = force_unit(told)
        intended = each.intended.preload if each.intended is not None else None
        yield (
            each.id,
            each.title,
            group.thread,
            group.property_class or "",
            group.lubricant or "",
            str(len(each.fasteners)),
            yes(each.complete),
            unit,
            told.number(intended, unit, "force"),
            each.words,
            each.not_computed or "",
        )


def tightenings(told: Told) -> Iterator[Row]:
    """The rows of: tightenings."""
    for group in told.standing.groups.values():
        for fastener in group.fasteners:
            for each in fastener.passes:
                yield group.id, fastener.id, fastener.part or "", *_pass(told, each), fastener.words


def _pass(told: Told, found: FastenerPass) -> Row:
    torque, force = shop_unit("torque", told.family), force_unit(told)
    length = "mm" if told.family == "mm" else "thou"
    preload = found.preload
    band = (preload.preload, preload.low, preload.high) if preload is not None else (None, None, None)
    return (
        str(found.number),
        str(found.seq),
        moment(found.at),
        found.performed_by or "",
        torque,
        told.number(found.torque, torque, "torque"),
        told.number(found.angle, "deg", "angle"),
        length,
        told.number(found.stretch, length, "length"),
        force,
        *(told.number(each, force, "force") for each in band),
        found.lubricant or "",
        found.wrench.code if found.wrench is not None else "",
        found.outside_words or "",
    )


def steps(told: Told) -> Iterator[Row]:
    """The rows of: steps."""
    for each in told.standing.steps.values():
        done, released = each.done, each.released
        yield (
            each.id,
            each.stage,
            each.title,
            each.point.value if each.point is not None else "",
            each.state.value,
            each.words,
            (done.person or "") if done is not None else "",
            moment(done.at) if done is not None else "",
            (released.person or "") if released is not None else "",
            moment(released.at) if released is not None else "",
            "; ".join(change.words for change in each.changes),
        )


def consumables(told: Told) -> Iterator[Row]:
    """The rows of: consumables."""
    for each in told.standing.consumables.values():
        for use in each.uses:
            applied = moment(use.applied_at or use.deed.at)
            batch, expires = use.batch or "", use.expires or ""
            yield (
                each.id,
                each.title,
                use.step or "",
                batch,
                expires,
                applied,
                use.deed.person or "",
                use.words,
            )


def signatures(told: Told) -> Iterator[Row]:
    """The rows of: signatures."""
    for entry, body in told.bench.build.work.signatures:
        yield str(entry.seq), body.signed_by, body.meaning, body.subject, str(body.seq), body.hash
