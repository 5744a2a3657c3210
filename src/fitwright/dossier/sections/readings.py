"""Every reading as it was taken, those that count no longer among them, and what people decided."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from fitwright.bench.entry_words import said
from fitwright.dossier.sections.teller import Teller, amount_typed, at_of, counted, when
from fitwright.dossier.tree import Block, Column, Heading, Section, Table, Words
from fitwright.records import kinds
from fitwright.records.kinds import BladeObservation, Reading
from fitwright.records.projection import ReadingRecord, Recorded

_COLUMNS = (
    Column("Size", 1.8),
    Column("Place, as taken (entry)", 4.0, mono=True),
    Column("With, by whom, when (UTC)", 1.7),
    Column("Counts", 1.4),
)
NO_BREAK: Final = "\u00a0"


def readings(teller: Teller) -> Section | None:
    """The chapter of all readings, station by station; in the complete dossier only."""
    if not teller.complete:
        return None
    records = list(teller.known.state.readings.values())
    blocks: list[Block] = [
        Words(
            f"{counted(len(records), 'reading', 'readings')} as taken, in the unit in which they were taken. "
            "Nothing recorded is ever overwritten: a correction is an entry of its own, and what it corrects "
            "stays here."
        )
    ]
    unused = _unused(teller)
    for title, here in _by_station(teller, records):
        blocks.append(Table(title, _COLUMNS, tuple(_rows(teller, here, unused))))
    blocks += list(_stated(teller))
    blocks += list(_sittings(teller))
    return Section("readings", "Readings", tuple(blocks), opens_page=teller.complete)


def _by_station(teller: Teller, records: list[ReadingRecord]) -> Iterator[tuple[str, list[ReadingRecord]]]:
    sheet = teller.known.sheet
    groups: dict[str | None, list[ReadingRecord]] = {name: [] for name in sheet.stations}
    for each in records:
        dimension = sheet.dimensions.get(each.dimension or "")
        station = dimension.station if dimension is not None and dimension.station in sheet.stations else None
        groups.setdefault(station, []).append(each)
    for name, here in groups.items():
        if here:
            yield sheet.stations[name].title if name is not None else "Elsewhere", here


def _unused(teller: Teller) -> dict[str, str]:
    """Why readings that stand are not used."""
    found = teller.known.assessment
    every = (*found.verdicts.values(), *found.unlimited.values())
    return {each.entry: each.why for verdict in every for each in verdict.unused}


@dataclass(frozen=True, slots=True)
class _Alike:
    """What readings must share to stand in one row: all but where, what, at which minute and which entry."""

    size: str
    day: str
    used: str
    person: str
    counts: str


def _rows(teller: Teller, here: list[ReadingRecord], unused: dict[str, str]) -> Iterator[tuple[str, ...]]:
    """A row for the readings of one size that were taken alike: all places of a bore together."""
    alike: dict[_Alike, list[ReadingRecord]] = {}
    for each in here:
        alike.setdefault(_alike(teller, each, unused), []).append(each)
    for shared, found in alike.items():
        values = ", ".join(_place_and_value(each) for each in found)
        times = sorted(_taken(each) for each in found)
        taken = f"{shared.used}; {shared.person}; {_between(times[0], times[-1])}"
        yield shared.size, values, taken, shared.counts


def _alike(teller: Teller, found: ReadingRecord, unused: dict[str, str]) -> _Alike:
    return _Alike(
        size=teller.title(found.dimension) if found.dimension else found.feature,
        day=_taken(found)[:10],
        used=_with(teller, found.body),
        person=teller.person(_who(teller, found)),
        counts="; ".join((_counts(teller, found, unused), *_beside(teller, found.body))),
    )


def _place_and_value(found: ReadingRecord) -> str:
    """In one piece: a line breaks between readings."""
    place = "" if found.place == "whole" else f"{found.place} "
    return f"{place}{observed(found.body)} ({found.entry.seq})".replace(" ", NO_BREAK)


def _taken(found: ReadingRecord) -> str:
    return when(found.body.taken_at or at_of(found.entry))


def _between(begun: str, ended: str) -> str:
    """From the first reading to the last; the day said once."""
    if begun == ended:
        return begun
    day, _, _ = begun.partition(" ")
    return f"{begun} to {ended.removeprefix(f'{day} ')}"


def observed(body: Reading) -> str:
    """What was read, as it was typed."""
    observation = body.observation
    if isinstance(observation, BladeObservation):
        return f"{' + '.join(observation.blades)} {observation.answer}"
    return amount_typed(observation.value)


def _with(teller: Teller, body: Reading) -> str:
    if isinstance(body.observation, BladeObservation):
        return "–"
    held = teller.known.state.sittings.get(body.sitting or "")
    dimension = teller.known.sheet.dimensions.get(body.dimension or "")
    chosen = held.body.instruments if held is not None else {}
    kinds_wanted = dimension.instruments if dimension is not None else ()
    instrument = body.observation.instrument or next(
        (chosen[each] for each in kinds_wanted if each in chosen), ""
    )
    settings = held.body.settings if held is not None else {}
    setting = body.observation.setting or settings.get(instrument, "")
    return ", ".join(each for each in (instrument, setting) if each) or "–"


def _who(teller: Teller, found: ReadingRecord) -> str | None:
    held = teller.known.state.sittings.get(found.body.sitting or "")
    return (
        found.body.measured_by or (held.body.measured_by if held is not None else None) or found.entry.person
    )


def _counts(teller: Teller, found: ReadingRecord, unused: dict[str, str]) -> str:
    for word, by in (("corrected", found.superseded_by), ("taken back", found.withdrawn_by)):
        if by is not None:
            return f"no: {word} by entry {by.seq}{_because(by.body.get('reason'))}"
    if found.entry.id in unused:
        return f"kept, not used: {unused[found.entry.id]}"
    if _is_retired(teller, found):
        return "as received: reworked since"
    return "yes"


def _is_retired(teller: Teller, found: ReadingRecord) -> bool:
    state = teller.known.state
    changes = (state.last_change(part, found.dimension or "") for part in found.members.values())
    return any(change is not None and change.order > found.order for change in changes)


def _because(reason: object) -> str:
    return f", {reason}" if reason else ""


def _beside(teller: Teller, body: Reading) -> Iterator[str]:
    dimension = teller.known.sheet.dimensions.get(body.dimension or "")
    if body.origin != "bench":
        yield f"from {body.origin}"
    if body.during_rework:
        yield "in the middle of a rework"
    if body.condition and (dimension is None or dimension.condition != body.condition):
        condition = teller.known.sheet.conditions.get(body.condition)
        yield condition.title if condition is not None else body.condition
    if body.note:
        yield body.note


def _stated(teller: Teller) -> Iterator[Block]:
    rows = tuple(
        (
            str(each.entry.seq),
            teller.title(each.dimension) if each.dimension else each.feature,
            _stated_size(each.body),
            each.body.stated_by,
            "yes" if each.effective else "no",
        )
        for each in teller.known.state.stated_sizes.values()
    )
    if rows:
        columns = (
            Column("Entry", 0.6, "right", mono=True),
            Column("Size", 2.6),
            Column("Stated", 1.6, mono=True),
            Column("By", 2.2),
            Column("Counts", 0.7),
        )
        yield Heading("Stated sizes, never counted as readings")
        yield Table("Stated sizes", columns, rows)


def _stated_size(body: kinds.StatedSize) -> str:
    either_way = f" ± {amount_typed(body.tolerance)}" if body.tolerance is not None else ""
    return f"{amount_typed(body.size)}{either_way}"


def _sittings(teller: Teller) -> Iterator[Block]:
    rows = tuple(
        (
            code,
            teller.person(held.body.measured_by),
            teller.amount(held.body.temperature, "temperature", 0.1),
            ", ".join(f"{name} {gauge}" for name, gauge in held.body.instruments.items()) or "–",
            when(at_of(held.entry)),
            held.body.words or "–",
        )
        for code, held in teller.known.state.sittings.items()
    )
    if rows:
        columns = (
            Column("Sitting", 0.8, mono=True),
            Column("Who", 1.0),
            Column("Room", 0.8, mono=True),
            Column("Instruments", 2.2),
            Column("Begun, UTC", 1.3, mono=True),
            Column("Words", 1.8),
        )
        yield Heading("Sittings")
        yield Table("Sittings", columns, rows)


_DECIDED = (
    kinds.QuestionAnswered,
    kinds.LimitAdopted,
    kinds.NotMeasured,
    kinds.NotInThisJob,
    kinds.Choice,
    kinds.ReadingsMoved,
    kinds.Withdrawal,
    kinds.Note,
)


def decisions(teller: Teller) -> Section | None:
    """Notes and decisions; in the owner's copy only what bears on a limit or leaves something out."""
    wanted = _DECIDED if teller.complete else (kinds.LimitAdopted, kinds.NotMeasured, kinds.NotInThisJob)
    ledger = teller.known.state.ledger
    rows = tuple(
        (str(held.entry.seq), _said(teller, held), teller.person(held.entry.person), when(at_of(held.entry)))
        for held in ledger.in_order()
        if isinstance(held.body, wanted) and (teller.complete or ledger.effective(held.entry.id))
    )
    if not rows:
        return None
    columns = (
        Column("Entry", 0.6, "right", mono=True),
        Column("What", 5.0),
        Column("By", 1.0),
        Column("When, UTC", 1.3, mono=True),
    )
    blocks = (Table("Decided and noted", columns, rows),)
    return Section("decisions", "Decisions and notes", blocks, opens_page=teller.complete)


def _said(teller: Teller, held: Recorded[kinds.Body]) -> str:
    body, ledger = held.body, teller.known.state.ledger
    if isinstance(body, kinds.Note):
        words = f"note{f' on {teller.title(body.subject)}' if body.subject else ''}: {body.text}"
    elif isinstance(body, kinds.QuestionAnswered):
        words = f"asked: {body.text} Answered: {body.answer}"
    else:
        words = said(body, teller.known.bench)
    return words if ledger.effective(held.entry.id) else f"{words} (does not count any more)"
