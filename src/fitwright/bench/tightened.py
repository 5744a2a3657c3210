"""What was done to the fasteners of a group: the next pass, which bolt sits where, what came twice."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from fitwright.assess.assembly.tightened import Life, Lives, events_of
from fitwright.bench.context import Bench
from fitwright.bench.fastener_lists import fastener_words
from fitwright.model.fastener import TighteningGroup
from fitwright.records.kinds import Loosening, Tightening


def lives_of(bench: Bench, group: TighteningGroup) -> Mapping[str, Life]:
    """What happened to each fastener of a group, in the order of tightening."""
    work = bench.build.work
    events = events_of(work.tightened.get(group.id, ()), work.orders)
    return Lives([each.id for each in group.fasteners], events).by_id


def next_pass(bench: Bench, group: TighteningGroup, fasteners: Iterable[str] = ()) -> int:
    """The first pass that one of these fasteners (of all, where none is named) still wants; else the last."""
    lives = lives_of(bench, group)
    wanted = list(fasteners) or list(lives)
    for number in range(1, len(group.passes) + 1):
        if any(number not in lives[name].records for name in wanted):
            return number
    return max(1, len(group.passes))


def members_of_fasteners(
    bench: Bench, group: TighteningGroup, fasteners: Iterable[str], said: Mapping[str, str]
) -> dict[str, str]:
    """Which part sits at each fastener: as said, else as fitted in its position, else as last said."""
    lives = lives_of(bench, group)
    found = {name: said.get(name) or _fitted(bench, group, name) or lives[name].part for name in fasteners}
    return {name: part for name, part in found.items() if part}


def _fitted(bench: Bench, group: TighteningGroup, fastener: str) -> str | None:
    """The part in the position of a fastener, where the sheet has one for it."""
    positions = (f"{group.id}/{fastener}", f"{group.id}.{fastener}", fastener)
    position = next((each for each in positions if each in bench.sheet.parts), None)
    return bench.build.occupant(position) if position is not None else None


def times_tightened(bench: Bench, group: TighteningGroup, fastener: str, part: str | None) -> int:
    """How often a bolt was tightened in this build, wherever it sat; without its code, at this place."""
    if part is None:
        return len(lives_of(bench, group)[fastener].cycles)
    return sum(
        cycle.part == part
        for each in bench.sheet.tightening_groups.values()
        for life in lives_of(bench, each).values()
        for cycle in life.cycles
    )


def entered_twice(bench: Bench, group: TighteningGroup) -> tuple[str, ...]:
    """Passes of fasteners that several entries say, in words: all are kept, the last one counts."""
    said: dict[tuple[str, int], list[int]] = {}
    for held in bench.build.work.tightened.get(group.id, ()):
        match held.body:
            case Tightening():
                for name in held.body.fasteners:
                    said.setdefault((name, held.body.number), []).append(held.entry.seq)
            case Loosening():
                gone = [key for key in said if key[0] in held.body.fasteners]
                for key in gone:
                    del said[key]
    return tuple(_twice(group, said))


def _twice(group: TighteningGroup, said: Mapping[tuple[str, int], list[int]]) -> Iterator[str]:
    together: dict[tuple[int, tuple[int, ...]], list[str]] = {}
    for (name, number), seqs in said.items():
        if len(seqs) > 1:
            together.setdefault((number, tuple(seqs)), []).append(name)
    for (number, entries), names in together.items():
        *earlier, last = entries
        which = fastener_words(group, names)
        told = f"{'entry' if len(earlier) == 1 else 'entries'} {', '.join(map(str, earlier))}"
        yield f"Pass {number} of {which} was entered more than once ({told}); entry {last} counts."
