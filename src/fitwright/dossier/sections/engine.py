"""The engine as it was described, the parts in it with their serials, and what the owner said."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from fitwright.dossier.sections.families import named_together, pattern_of
from fitwright.dossier.sections.teller import Teller, counted
from fitwright.dossier.tree import Block, Column, Facts, Section, Table, Words
from fitwright.model.engine import Engine


def engine(teller: Teller) -> Section:
    """The chapter of the engine and its parts."""
    sheet, started = teller.known.sheet, teller.known.started
    rows = [("Sheet", f"{sheet.engine.id}, revision {sheet.engine.revision}")]
    rows += [("Duty", words) for words in (started.duty or sheet.engine.duty,) if words]
    rows += list(_layout(teller, sheet.engine))
    rows += [(name.replace("_", " ").capitalize(), words) for name, words in sheet.engine.facts.items()]
    blocks: list[Block] = [Facts("The engine as its sheet describes it", tuple(rows))]
    blocks += list(_told(teller))
    if words := _not_named(teller):
        blocks.append(Words(words, "small"))
    blocks += list(_elsewhere(teller)) if teller.complete else []
    return Section("engine", "The engine and its parts", tuple(blocks), opens_page=teller.complete)


def _elsewhere(teller: Teller) -> Iterator[Block]:
    """Parts that sit in no position now: taken out, or never put in."""
    state = teller.known.state
    rows = tuple(
        (code, held.body.title, held.body.serial or "–", held.body.origin or "–")
        for code, held in state.parts.items()
        if state.location(code) is None or state.location(code) not in teller.known.sheet.parts
    )
    if rows:
        columns = (
            Column("Part", 1.6, mono=True),
            Column("What", 2.0),
            Column("Serial", 1.3),
            Column("Origin", 1.8),
        )
        yield Table("Parts recorded that sit in no position", columns, rows)


def _layout(teller: Teller, engine: Engine) -> Iterator[tuple[str, str]]:
    layout = engine.layout
    yield (
        "Layout",
        (
            f"{layout.arrangement}, {counted(layout.cylinders, 'cylinder', 'cylinders')}, "
            f"{counted(layout.mains, 'main bearing', 'main bearings')}"
        ),
    )
    if layout.bore is not None and layout.stroke is not None:
        sizes = (teller.amount(each.si, "length", 1e-5) for each in (layout.bore, layout.stroke))
        yield "Bore by stroke", " × ".join(sizes)
    if layout.firing_order:
        yield "Firing order", layout.firing_order
    for name, words in (
        ("Cooling", engine.cooling),
        ("Aspiration", engine.aspiration),
        ("Pistons", engine.piston),
    ):
        if words:
            yield name, words


def _told(teller: Teller) -> Iterator[Block]:
    """The parts; in the owner's copy those without a serial in one sentence."""
    rows = list(_parts(teller))
    if not teller.complete:
        rows = list(_together(rows))
    named = [row for row in rows if teller.complete or row[2] != "–"]
    if named:
        columns = (
            Column("Position", 2.0),
            Column("Part", 1.6, mono=True),
            Column("Serial", 1.3),
            Column("Origin", 1.8),
        )
        yield Table("Parts in their positions", columns, tuple(named))
    others = [f"{row[0]} ({row[3]})" for row in rows if row not in named]
    if others:
        yield Words(f"Other parts, without a serial: {'; '.join(others)}.", "small")


def _together(rows: Iterable[tuple[str, ...]]) -> Iterator[tuple[str, ...]]:
    """Parts that differ in their number only as one."""
    groups: dict[tuple[str, str], list[tuple[str, ...]]] = {}
    for row in rows:
        groups.setdefault((pattern_of(row[0]), row[3]), []).append(row)
    for (_, origin), mine in groups.items():
        serials = [row[2] for row in mine if row[2] != "–"]
        parts = [row[1] for row in mine]
        named = f"{parts[0]} … {parts[-1]}" if len(parts) > 2 else ", ".join(parts)
        yield named_together([row[0] for row in mine]), named, ", ".join(serials) or "–", origin


def _parts(teller: Teller) -> Iterator[tuple[str, ...]]:
    """The parts that somebody named, where they sit; the owner's copy without those that say nothing more."""
    state = teller.known.state
    for position in teller.known.sheet.parts.values():
        code = state.occupant(position.id)
        held = state.parts.get(code or "")
        if code is None:
            yield position.title, "empty", "–", "–"
        elif held is not None:
            body = held.body
            if not (teller.complete or body.serial or body.origin or body.used):
                continue
            origin = ", ".join(each for each in (body.origin or "", "used" if body.used else "") if each)
            yield position.title, body.code, body.serial or "–", origin or "–"


def _not_named(teller: Teller) -> str:
    state = teller.known.state
    named = [each for each in teller.known.sheet.parts if (state.occupant(each) or "") in state.parts]
    count = len(teller.known.sheet.parts) - len(named)
    if not count and teller.complete:
        return ""
    if not count:
        return "Parts without serial or origin are named in the complete dossier only."
    every = len(teller.known.sheet.parts)
    return f"Nobody recorded which part sits in {count} of the {every} positions of the sheet."
