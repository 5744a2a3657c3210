"""What was tightened: passes, torques and stretch as recorded, preload with its band, bolt patterns."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from fitwright.assess.assembly.results import FastenerPass, FastenerStanding, GroupStanding, Preload
from fitwright.assess.words import HOT_NOT_JUDGED
from fitwright.dossier.sections.teller import Teller, listed
from fitwright.dossier.tree import Block, Column, Drawing, Facts, Heading, Section, Table, Words
from fitwright.drawing.bolt_pattern import bolt_pattern
from fitwright.drawing.bolt_pattern.standing import shown_of
from fitwright.model.fastener import readable_names

CLAIM = (
    "Calculated preloads rest on friction that somebody chose; the maker's figure, lubricant and method "
    "govern. Not for fasteners tightened by angle or to yield."
)


def tightenings(teller: Teller) -> Section | None:
    """The chapter of the tightening groups."""
    groups = list(teller.standing.groups.values())
    if not groups:
        return None
    blocks: list[Block] = [_overview(teller, groups), Words(CLAIM, "small")]
    for each in groups:
        if each.started and (teller.complete or _wants_looking(each)):
            blocks += list(_group(teller, each))
    return Section("tightenings", "Tightening", tuple(blocks), opens_page=teller.complete)


def _wants_looking(found: GroupStanding) -> bool:
    """Whether the owner is shown it: something is open, odd, or accepted."""
    accepted = any(each.under is not None for each in found.fasteners)
    return (accepted and found.group.critical) or bool(found.odd) or not found.complete


def _overview(teller: Teller, groups: Iterable[GroupStanding]) -> Table:
    columns = (
        Column("Group", 1.9),
        Column("Thread", 1.2, mono=True),
        Column("To be brought to", 1.9),
        Column("Preload calculated", 1.9, mono=True),
        Column("Stands", 2.3),
    )
    return Table("Tightening groups", columns, tuple(_row(teller, each) for each in groups))


def _row(teller: Teller, found: GroupStanding) -> tuple[str, ...]:
    reason = teller.standing.not_in_this_job.get(found.id)
    thread = " ".join(each for each in (found.group.thread, found.group.property_class or "") if each)
    return (
        f"{found.title}, {len(found.fasteners)}{' (critical)' if found.group.critical else ''}",
        thread,
        "; ".join(teller.tightening_reader.pass_words(each.asks) for each in found.passes) or "–",
        _range(teller, [each.preload for each in found.fasteners if each.preload is not None]),
        f"not in this job: {reason}" if reason else found.words,
    )


def _range(teller: Teller, preloads: list[Preload]) -> str:
    if not preloads:
        return "–"
    low, high = min(each.low for each in preloads), max(each.high for each in preloads)
    return teller.tightening_reader.preload_between(low, high)


def _group(teller: Teller, found: GroupStanding) -> Iterator[Block]:
    yield Heading(found.title)
    picture = bolt_pattern(found.group, shown_of(found, teller.tightening_reader, is_next=False), width=780.0)
    yield Drawing(
        picture.svg,
        f"{found.title}, seen on the heads: {found.words}",
        "",
        share=0.8 if teller.complete else 0.55,
    )
    rows = list(_facts(teller, found))
    if rows:
        yield Facts(f"About {found.title}", tuple(rows))
    if teller.complete:
        columns = (
            Column("Fastener", 2.0),
            Column("Pass", 0.4, "right", mono=True),
            Column("As recorded", 1.75, mono=True),
            Column("Preload, band, share of yield", 3.2, mono=True),
            Column("By, with", 1.05),
            Column("Stands", 1.6),
        )
        yield Table(f"{found.title}, fastener by fastener", columns, tuple(_fasteners(teller, found)))


def _facts(teller: Teller, found: GroupStanding) -> Iterator[tuple[str, str]]:
    group = found.group
    if group.lubricant and teller.complete:
        yield "Lubricant", teller.known.lubricant_title(group.lubricant)
    if found.intended is not None:
        band = found.intended
        yield "Preload of the sheet's figure", _band(teller, band)
    if found.not_computed:
        yield "No preload", found.not_computed
    for warm in found.warm if teller.complete else ():
        yield f"Warm, {warm.title}", f"{teller.tightening_reader.preload(warm.preload)}, {HOT_NOT_JUDGED}"
    if found.missing:
        yield "Still missing", "; ".join(found.missing)
    for words in found.remarks:
        yield "Remark", words
    for each in found.odd:
        yield f"Odd one out, {readable_names(group)[each.id]}", each.odd or ""
    names = readable_names(group)
    under = [f"{names[each.id]} ({each.under})" for each in found.fasteners if each.under]
    if under:
        yield "Accepted under", listed(under)
    if group.caution:
        yield "Caution", group.caution


def _fasteners(teller: Teller, found: GroupStanding) -> Iterator[tuple[str, ...]]:
    names = readable_names(found.group)
    for fastener in found.fasteners:
        name = f"{names[fastener.id]}{f', {fastener.part}' if fastener.part else ''}"
        if not fastener.passes:
            yield name, "–", "–", "–", "–", fastener.words
        for each in fastener.passes:
            last = each is fastener.passes[-1]
            yield (
                name,
                str(each.number),
                _recorded(teller, each),
                _preload(teller, each.preload),
                _by(teller, each),
                _stands(fastener, each, last=last),
            )


def _recorded(teller: Teller, found: FastenerPass) -> str:
    reader, parts = teller.tightening_reader, []
    if found.torque is not None:
        parts.append(f"{reader.torque_of(found.torque)}{' peak' if found.read == 'peak' else ''}")
    if found.angle is not None:
        parts.append(reader.angle_of(found.angle))
    if found.stretch is not None:
        parts.append(f"stretch {reader.stretch_of(found.stretch)}")
    return ", ".join(parts) or "–"


def _preload(teller: Teller, found: Preload | None) -> str:
    if found is None:
        return "–"
    share = found.yield_utilisation
    of_yield = f", {teller.tightening_reader.share(share)}" if share is not None else ""
    return f"{_band(teller, found)}{of_yield}"


def _band(teller: Teller, found: Preload) -> str:
    reader = teller.tightening_reader
    return f"{reader.preload(found.preload)} ({reader.preload_between(found.low, found.high)})"


def _by(teller: Teller, found: FastenerPass) -> str:
    wrench = f", {found.wrench.code}" if found.wrench is not None else ""
    return f"{teller.person(found.performed_by)}{wrench}"


def _stands(fastener: FastenerStanding, found: FastenerPass, *, last: bool) -> str:
    outside = found.outside_words or ""
    said_below = last and outside in fastener.words
    words = ["" if said_below else outside, "before the pass before was complete" if found.early else ""]
    if found.wrench is not None:
        words += found.wrench.words
    if last:
        words += [fastener.words, *fastener.remarks, "marked" if fastener.marked else ""]
    return "; ".join(dict.fromkeys(each for each in words if each)) or "–"
