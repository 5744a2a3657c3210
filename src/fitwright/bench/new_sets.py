"""A new set of fasteners: one part for each position, all entered in one write and taken back in one."""

from __future__ import annotations

import uuid
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from fitwright.assess.assembly.tightenings import Tightenings
from fitwright.bench.context import Bench
from fitwright.bench.errors import CannotEnterError
from fitwright.bench.fastener_lists import fastener_words, fasteners_named
from fitwright.bench.parts import known_parts, new_change_codes, part_of, put_new
from fitwright.bench.together import ids_from
from fitwright.bench.work_taking import WorkTaken, WorkTaking, group_named, words_wanted, work_taken
from fitwright.model.fastener import TighteningGroup, position_of_fastener
from fitwright.model.sheet import Sheet
from fitwright.records.kinds import Body


@dataclass(frozen=True, slots=True, kw_only=True)
class NewSetTyped:
    """A new set as it was typed: `stem` is what it is called, RB2 for RB2-1, RB2-2 and so on."""

    group: str
    stem: str
    fasteners: str = "all"
    origin: str = ""
    words: str = ""


def takes_new_sets(sheet: Sheet, group: TighteningGroup) -> bool:
    """Whether every fastener of a group has a position in the sheet, into which a part can be put."""
    return all(position_of_fastener(group, each.id, sheet.parts) for each in group.fasteners)


def set_codes(stem: str, number: int) -> tuple[str, ...]:
    """The codes of so many new fasteners, in the order of tightening.

    >>> set_codes("RB2", 3)
    ('RB2-1', 'RB2-2', 'RB2-3')
    """
    return tuple(f"{stem}-{each}" for each in range(1, number + 1))


def take_new_set(bench: Bench, said: NewSetTyped, taking: WorkTaking) -> WorkTaken:
    """New fasteners in their positions, those before them out: the entries to append, together.

    Each goes in as a single new part does, so that what was read through the one before, and its
    tightening, count no longer.

    Raises
    ------
    BenchError
        If the group or a fastener is not there or is no position of the sheet, the set is not called
        anything, or one of its codes is taken.

    Examples
    --------
    >>> import tempfile
    >>> from pathlib import Path
    >>> from fitwright.records.kinds import BuildStarted
    >>> from fitwright.wiring import open_shop
    >>> sheet = '''
    ... format = 1
    ... engine.layout = { arrangement = "single", cylinders = 1, mains = 2 }
    ... engine.id = "beck"
    ... engine.name = "Beck"
    ... engine.revision = "A"
    ... engine.units = "mm"
    ... materials.steel = { title = "Steel", expansion = "11.5e-6 /K" }
    ... parts."rod.bolt.{a,b}" = { title = "Rod bolt {}", material = "steel" }
    ... tightening_groups.rod = { title = "Rod bolts", thread = "M8x1.0", fasteners = ["rod.bolt.{a,b}"] }
    ... '''
    >>> shop = open_shop(Path(tempfile.mkdtemp()) / "shop")
    >>> _ = shop.start_build("beck", sheet, BuildStarted(code="beck", title="Beck", sheet=""))
    >>> typed = NewSetTyped(group="rod", stem="RB2", origin="packet 7")
    >>> taken = take_new_set(shop.bench("beck"), typed, WorkTaking())
    >>> taken.words
    'Rod bolts, all 2: new set RB2-1 to RB2-2, packet 7'
    >>> [(each.kind, each.body["code"], each.body["position"]) for each in taken.entries]
    [('part', 'RB2-1', 'rod.bolt.a'), ('part', 'RB2-2', 'rod.bolt.b')]
    >>> shop.close()
    """
    group = group_named(bench, said.group)
    fasteners = fasteners_named(group, said.fasteners)
    positions = _positions(bench, group, fasteners)
    stem = words_wanted(
        said.stem, f"A new set for {group.title}", "what it is called, RB2 for RB2-1 and so on"
    )
    codes = set_codes(stem, len(fasteners))
    _refuse_known(bench, codes)
    bodies = tuple(_bodies(bench, said, positions, codes))
    words = f"{group.title}, {fastener_words(group, fasteners)}: new set {_span(codes)}"
    origin = f", {said.origin.strip()}" if said.origin.strip() else ""
    return _together(bench, bodies, f"{words}{origin}", taking)


def _positions(bench: Bench, group: TighteningGroup, fasteners: Sequence[str]) -> tuple[str, ...]:
    parts = bench.sheet.parts
    found = {name: position_of_fastener(group, name, parts) for name in fasteners}
    without = [name for name, position in found.items() if position is None]
    if without:
        wrong = f"The sheet has no position for {fastener_words(group, without)} of {group.title}"
        raise CannotEnterError(wrong, "say which bolts they are when you tighten them")
    return tuple(position for position in found.values() if position is not None)


def _refuse_known(bench: Bench, codes: Sequence[str]) -> None:
    """Codes that parts have, or bolts that were tightened on this build."""
    tightenings = Tightenings(bench.sheet, bench.build)
    known = {*known_parts(bench), *tightenings.parts()}
    taken = [each for each in codes if each in known]
    if taken:
        verb, which = (
            ("is", taken[0]) if len(taken) == 1 else ("are", f"{', '.join(taken[:-1])} and {taken[-1]}")
        )
        raise CannotEnterError(f"{which} {verb} there already", "call the new set otherwise")


def _bodies(
    bench: Bench, said: NewSetTyped, positions: Sequence[str], codes: Sequence[str]
) -> Iterator[Body]:
    why, changes = said.words.strip(), new_change_codes(bench)
    for position, code in zip(positions, codes, strict=True):
        new = part_of(bench, code=code, position=position, origin=said.origin.strip())
        body = new.model_copy(update={"reason": why or None})
        yield from put_new(bench, body, words=why, changes=changes)


def _span(codes: Sequence[str]) -> str:
    return codes[0] if len(codes) == 1 else f"{codes[0]} to {codes[-1]}"


def _together(bench: Bench, bodies: Sequence[Body], words: str, taking: WorkTaking) -> WorkTaken:
    """The entries of all bodies, with ids by which whoever takes one of them back finds the others."""
    ids = ids_from(taking.entry_id or uuid.uuid4().hex)
    made = [
        work_taken(bench, body, words, replace(taking, entry_id=entry_id))
        for entry_id, body in zip(ids, bodies, strict=False)
    ]
    return WorkTaken(tuple(entry for each in made for entry in each.entries), bodies[0], words)
