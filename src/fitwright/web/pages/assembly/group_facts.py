"""What stands at the head of a tightening group's page: what it is, what can go wrong, what it wants."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from fitwright.assess.assembly.results import GroupStanding, Preload
from fitwright.data.cautions import Caution, cautions_of
from fitwright.model.fastener import Locking, TighteningGroup
from fitwright.model.group_cautions import group_cautions
from fitwright.model.sheet import Sheet
from fitwright.web.addresses import parts_address
from fitwright.web.pages.assembly.opened import Opened

OVER_TIGHTENING: Final = "over_tightening"
LEFT_HAND: Final = "LH"
STRIPPING: Final = "times the upper end to stripping, for a sound, clean, full-depth thread"
CASTLE_NUT: Final = "Castle nut: on to the next slot within the window, never back."
BLIND: Final = (
    "Blind holes: look that each is clean and dry to the bottom. Oil left in one can crack the casting."
)


@dataclass(frozen=True, slots=True)
class Figure:
    """A fact with its name."""

    name: str
    words: str


@dataclass(frozen=True, slots=True)
class PreloadPart:
    """A preload with its band, what it makes of fastener and thread, and what may be said of it."""

    best: str
    band: str
    by: str
    lubricant: str
    uses: tuple[Figure, ...]
    yields: bool
    claims: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class WarmLine:
    """The preload of the sheet at a temperature case."""

    title: str
    words: str


def facts_of(group: TighteningGroup, opened: Opened) -> tuple[Figure, ...]:
    """What the sheet says of the group."""
    return tuple(Figure(name, words) for name, words in _facts(group, opened) if words)


def _facts(group: TighteningGroup, opened: Opened) -> Iterator[tuple[str, str]]:
    yield "Thread", ", ".join(filter(None, (group.thread, group.property_class)))
    yield "Method", group.method.value
    yield "Values are for", lubricant_words(group, opened)
    yield "Locking", group.locking.value if group.locking is not None else ""
    yield "One-time use", "a new fastener each time" if group.one_time_use else ""
    most = group.most_tightenings
    yield "Tightened at most", f"{most} times" if most is not None else ""
    sources = opened.bench.sheet.sources
    source = sources.get(group.source or "")
    named = source.title if source is not None else group.source
    yield "Source", ", ".join(filter(None, (named, group.place_in_source)))


def lubricant_words(group: TighteningGroup, opened: Opened) -> str:
    """The lubricant that the sheet's values are for, by its name; that none is named is said."""
    if group.lubricant is None:
        return "no lubricant named: half a specification"
    consumable = opened.bench.sheet.consumables.get(group.lubricant)
    return consumable.title if consumable is not None else group.lubricant


def is_left_handed(group: TighteningGroup) -> bool:
    """Whether its fasteners tighten anticlockwise."""
    return group.thread.split()[-1] == LEFT_HAND


def warnings_of(group: TighteningGroup, opened: Opened) -> tuple[str, ...]:
    """What can go wrong with these fasteners in particular."""
    said = [BLIND] if group.blind else []
    said += [CASTLE_NUT] if group.locking is Locking.CASTLE_NUT else []
    return (*said, *group_cautions(group, opened.bench.sheet))


def dry_check(group: TighteningGroup, opened: Opened) -> str:
    """Where it is answered that its blind holes were seen dry, if the order of work asks for that."""
    if not group.blind:
        return ""
    steps = (each for each in opened.bench.sheet.steps.values() if group.id in each.tightens)
    asked = (name for step in steps for name in step.eye_checks if name.endswith("dry"))
    name = next(asked, "")
    return parts_address(opened.code, opened.family, do="eye", check=name) if name else ""


def cautions_here(group: TighteningGroup, sheet: Sheet) -> tuple[Caution, ...]:
    """What can hurt somebody who tightens it: tightening itself, and the work of its steps."""
    steps = (each for each in sheet.steps.values() if group.id in each.tightens)
    return tuple(cautions_of((OVER_TIGHTENING, *(key for step in steps for key in step.cautions))))


def intended_part(opened: Opened, group: GroupStanding) -> PreloadPart | None:
    """The preload that the sheet's own figure gives with its own lubricant."""
    return preload_part(opened, group.intended) if group.intended is not None else None


def preload_part(opened: Opened, found: Preload) -> PreloadPart:
    """A preload in the reader's units."""
    reader = opened.reader
    return PreloadPart(
        best=reader.preload(found.preload),
        band=" and ".join(reader.preload_ends(found.low, found.high)),
        by=found.by.value,
        lubricant=found.lubricant or "",
        uses=tuple(_uses(opened, found)),
        yields=found.yields,
        claims=found.words,
    )


def _uses(opened: Opened, found: Preload) -> Iterator[Figure]:
    reader = opened.reader
    if found.yield_utilisation is not None:
        yield Figure("of yield strength", reader.share(found.yield_utilisation))
    if found.proof_utilisation is not None:
        yield Figure("of proof stress", reader.share(found.proof_utilisation))
    if found.stripping_margin is not None:
        yield Figure(STRIPPING, f"{found.stripping_margin:.1f}")


def warm_lines(opened: Opened, group: GroupStanding) -> tuple[WarmLine, ...]:
    """The sheet's preload at temperature, estimated."""
    return tuple(
        WarmLine(each.title, f"{opened.reader.preload(each.preload)} ({_signed(opened, each.change)})")
        for each in group.warm
    )


def _signed(opened: Opened, change: float) -> str:
    return f"{'+' if change >= 0.0 else '−'}{opened.reader.preload(abs(change))}"
