"""What was done to the fasteners of a group: the next pass, which bolt sits where, what came twice."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping

from fitwright.assess.assembly.tightened import Exchange, Life
from fitwright.assess.assembly.tightenings import Tightenings
from fitwright.bench.context import Bench
from fitwright.bench.fastener_lists import fastener_words
from fitwright.model.fastener import TighteningGroup
from fitwright.records.kinds import Loosening, Tightening


def lives_of(bench: Bench, group: TighteningGroup) -> Mapping[str, Life]:
    """What happened to each fastener of a group, in the order of tightening."""
    return Tightenings(bench.sheet, bench.build).lives(group).by_id


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
    """Which part sits at each fastener: as said, else as last said or put into its position."""
    lives = lives_of(bench, group)
    found = {name: said.get(name) or lives[name].part for name in fasteners}
    return {name: part for name, part in found.items() if part}


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
    for each in Tightenings(bench.sheet, bench.build).in_order(group):
        if isinstance(each, Exchange):
            _forget(said, (each.fastener,))
        elif isinstance(each.body, Tightening):
            for name in each.body.fasteners:
                said.setdefault((name, each.body.number), []).append(each.entry.seq)
        elif isinstance(each.body, Loosening):
            _forget(said, each.body.fasteners)
    return tuple(_twice(group, said))


def _forget(said: dict[tuple[str, int], list[int]], fasteners: Collection[str]) -> None:
    """What was said of fasteners that were loosened, or whose part is out, counts no longer."""
    for key in [key for key in said if key[0] in fasteners]:
        del said[key]


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
