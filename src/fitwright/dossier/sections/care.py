"""How the engine is to be treated: only what the record and the sheet say, and who knows better."""

from __future__ import annotations

from collections.abc import Iterator

from fitwright.assess.assembly.results import FastenerState
from fitwright.bench.entry_words import oil_words
from fitwright.data.cautions import cautions_of
from fitwright.dossier.sections.teller import Teller
from fitwright.dossier.tree import Block, Column, Points, Section, Table, Words

_ALWAYS = ("lifting", "priming", "first_start", "hot_oil", "rotating_parts", "release_to_service")


def care(teller: Teller) -> Section:
    """The chapter for whoever takes the engine over."""
    items = tuple(_items(teller))
    blocks: list[Block] = [
        Words(
            "Only what the record and the engine sheet say; the engine maker's manual governs, and a "
            "qualified person decides."
        )
    ]
    if items:
        blocks.append(Points(items))
    rows = tuple(
        (each.title, each.words) for each in cautions_of((*_ALWAYS, *_of_items(teller), *_of_steps(teller)))
    )
    blocks.append(Table("What can hurt somebody", (Column("Work", 1.0), Column("Caution", 4.0)), rows))
    return Section("care", "Care and cautions", tuple(blocks))


def _of_items(teller: Teller) -> Iterator[str]:
    """What goes with being told to tighten again, and with a water jacket."""
    if any(_again(teller)):
        yield "over_tightening"
    if teller.known.sheet.engine.cooling == "water":
        yield "cooling_system"


def _of_steps(teller: Teller) -> Iterator[str]:
    if teller.complete:
        for step in teller.known.sheet.steps.values():
            yield from step.cautions


def _items(teller: Teller) -> Iterator[str]:
    known = teller.known
    if oil := " ".join(_oil(teller)):
        yield oil
    yield from _again(teller)
    for each in known.standing.concessions:
        if each.until and each.in_force:
            what = each.title
            yield f"{what}: {each.kind} {each.code} holds until {each.until}."
    for note in known.state.notes:
        if note.body.subject in ("care", "run-in", "next check"):
            yield f"{note.body.subject.capitalize()}: {note.body.text}"


def _oil(teller: Teller) -> Iterator[str]:
    """What it was filled with, and which oil the expected pressures are for."""
    known = teller.known
    if known.state.oils_chosen:
        chosen = known.state.oils_chosen[-1].body
        reason = f": {chosen.reason}" if chosen.reason else ""
        yield f"Oil: filled with {oil_words(chosen, known.sheet.oils)}{reason}."
    elif known.sheet.oil is not None:
        yield f"Oil: the sheet plans {known.sheet.oil.title}; what it was filled with is not recorded."
    used = known.prediction.oil
    if used is not None:
        yield f"The expected pressures are for {used.title}."


def _again(teller: Teller) -> Iterator[str]:
    """Groups that are to be tightened again after heat."""
    for group in teller.known.standing.groups.values():
        wanted = [each for each in group.passes if each.asks.after_heat]
        due = [each for each in group.fasteners if each.state is FastenerState.TO_TIGHTEN_AGAIN]
        if due:
            yield f"To be tightened again: {group.title}, {', '.join(each.id for each in due)}."
        elif any(each.missing for each in wanted):
            words = ", ".join(teller.tightening_reader.pass_words(each.asks) for each in wanted)
            yield f"To be tightened again after heat: {group.title}, {words}."
