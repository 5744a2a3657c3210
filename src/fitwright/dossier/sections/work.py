"""The order of work: what was done and released, by whom, and what has changed since."""

from __future__ import annotations

from collections.abc import Iterator

from fitwright.assess.assembly.results import Deed, StepStanding, StepState
from fitwright.dossier.sections.families import named_families
from fitwright.dossier.sections.teller import Teller, counted, day_of, deed_day
from fitwright.dossier.tree import Block, Column, Heading, Points, Section, Table, Words
from fitwright.model.step import PointKind

_TELLING = frozenset({StepState.CHANGED_SINCE, StepState.HELD, StepState.CAN_BE_DONE})

_COLUMNS = (
    Column("Step", 2.7),
    Column("Point", 1.0),
    Column("State", 1.7),
    Column("Done", 1.7),
    Column("Released", 1.8),
)


def work(teller: Teller) -> Section | None:
    """The chapter of the order of work."""
    steps = list(teller.standing.steps.values())
    if not steps:
        return None
    blocks: list[Block] = [Words(_counts(teller), "lead")]
    shown = [each for each in steps if teller.complete or _is_telling(each)]
    if shown:
        blocks.append(Table("Steps by stage", _COLUMNS, tuple(_rows(teller, shown))))
    for words, done in (("Also done", True), ("Not done yet", False)):
        names = [each.title for each in steps if each not in shown and (each.done is not None) is done]
        if names:
            blocks.append(Words(f"{words}: {'; '.join(named_families(names))}."))
    blocks += list(_remarks(teller, steps))
    if teller.complete:
        blocks += [*_consumables(teller), *_one_time(teller), *_eye_checks(teller)]
    return Section("work", "Order of work", tuple(blocks), opens_page=teller.complete)


def _is_telling(found: StepStanding) -> bool:
    """Whether a step says more than that it was done, or that nobody has come to it."""
    reached = found.done is not None or found.released is not None
    return (reached and found.point is not None) or found.state in _TELLING


def _rows(teller: Teller, shown: list[StepStanding]) -> Iterator[tuple[str, ...]]:
    stage = ""
    for each in shown:
        if each.stage != stage:
            stage = each.stage
            yield (stage,)
        yield _row(teller, each)


def _counts(teller: Teller) -> str:
    standing = teller.standing
    counts = [f"{standing.count(state)} {state.value}" for state in StepState if standing.count(state)]
    words = f"{counted(len(standing.steps), 'step', 'steps')}: {', '.join(counts)}."
    if standing.alone:
        words += " The shop has one person: whoever did the work released it."
    return words


def _row(teller: Teller, found: StepStanding) -> tuple[str, ...]:
    reason = teller.standing.not_in_this_job.get(found.id)
    released = _deed(teller, found.released)
    if found.released is not None and found.lone:
        released += ", by the only person" + (", who looked again later" if found.later else "")
    if found.released is None and found.point is PointKind.WITNESS and found.witness is not None:
        released = f"{found.witness.invited}: {found.witness.answer}"
    return (
        found.title,
        found.point.value if found.point is not None else "–",
        f"not in this job: {reason}" if reason else found.words,
        _deed(teller, found.done),
        released,
    )


def _deed(teller: Teller, deed: Deed | None) -> str:
    if deed is None:
        return "–"
    return f"{teller.person(deed.person)}, {deed_day(deed)}"


def _remarks(teller: Teller, steps: list[StepStanding]) -> Iterator[Block]:
    changes = tuple(f"{each.title}: {change.words}" for each in steps for change in each.changes)
    if changes:
        yield Heading("Changed since")
        yield Points(changes)
    odd = tuple(f"{each.title}: {words}" for each in steps for words in each.out_of_order)
    if odd:
        yield Heading("Recorded out of order")
        yield Points(odd)
    hidden = tuple(
        f"{each.title} hides {thing.title}: {thing.words}"
        for each in steps
        for thing in each.hides
        if thing.open and (each.done is not None or teller.complete)
    )
    if hidden:
        yield Heading("Hidden by a step, and open")
        yield Points(hidden)


def _consumables(teller: Teller) -> Iterator[Block]:
    rows = tuple(
        (each.title, use.batch or "not recorded", use.expires or "–", _deed(teller, use.deed), use.words)
        for each in teller.standing.consumables.values()
        for use in each.uses
    )
    if rows:
        columns = (
            Column("Consumable", 1.8),
            Column("Batch", 1.2, mono=True),
            Column("Good until", 1.0),
            Column("Used", 1.5),
            Column("Stands", 2.2),
        )
        yield Table("Consumables", columns, rows)


def _one_time(teller: Teller) -> Iterator[Block]:
    rows = tuple(
        (each.title, each.part or "–", "new" if each.new else "not new", each.words)
        for each in teller.standing.one_time_parts
    )
    if rows:
        columns = (
            Column("One-time-use part", 2.0),
            Column("Part", 1.2, mono=True),
            Column("New", 0.8),
            Column("In words", 2.6),
        )
        yield Table("One-time-use parts", columns, rows)
    moves = tuple(each.words for each in teller.standing.moves)
    if moves:
        yield Heading("Parts that changed places")
        yield Points(moves)


def _eye_checks(teller: Teller) -> Iterator[Block]:
    rows = tuple(
        (
            teller.title(body.check),
            "yes" if body.answer else "no",
            body.words or "–",
            teller.person(entry.person),
            day_of(entry.client_time or entry.committed_at),
        )
        for entry, body in teller.known.state.eye_checks
    )
    if rows:
        columns = (
            Column("Eye check", 2.6),
            Column("Answer", 0.7),
            Column("Words", 2.2),
            Column("By", 1.0),
            Column("Day", 1.0, mono=True),
        )
        yield Table("Eye checks", columns, rows)
