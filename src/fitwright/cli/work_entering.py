"""What the commands of work share: who enters, questions answered, entries written, cautions shown."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import TYPE_CHECKING, Annotated, Literal

from cyclopts import Parameter

from fitwright.cli.entering import entry_named
from fitwright.cli.errors import OK, UsageError
from fitwright.cli.shop import family_of

if TYPE_CHECKING:
    from fitwright.bench.context import Bench
    from fitwright.bench.work_taking import WorkTaken, WorkTaking
    from fitwright.model.slips import Question
    from fitwright.records.entry import Acknowledgement
    from fitwright.wiring import Shop

By = Annotated[str | None, Parameter(name="--by", help="Who did it: code or name; else the only person.")]
Words = Annotated[str | None, Parameter(name="--words", help="What is to be said of it.")]
Units = Annotated[Literal["mm", "inch"] | None, Parameter(help="Units of numbers without one.")]
Answer = Annotated[str | None, Parameter(help="Answer to a question about what was typed: a guess, or keep.")]
InsteadOf = Annotated[str | None, Parameter(help="Number of the entry that it corrects; with a --reason.")]
Later = Annotated[
    bool, Parameter(negative="", help="The only person of a shop looked again later, and says so.")
]
Fasteners = Annotated[
    tuple[str, ...],
    Parameter(name="--fasteners", consume_multiple=True, help="Which: all, 1..6, or a list."),
]


class Entering:
    """One command that enters a piece of work into a build."""

    def __init__(
        self,
        shop: Shop,
        build: str,
        *,
        by: str | None = None,
        units: str | None = None,
        answer: str | None = None,
        instead_of: str | None = None,
        reason: str | None = None,
    ) -> None:
        from fitwright.bench.sittings import person_named

        self.shop, self.build, self.answer = shop, build, answer
        self.family = family_of(shop, build, units)
        alone = len(shop.state.people) == 1
        self.person = person_named(shop.state, by) if by is not None or alone else None
        self.supersedes, self.reason = self._wrong(instead_of), reason

    @property
    def bench(self) -> Bench:
        """What is open on the bench."""
        return self.shop.bench(self.build)

    def taking(self, answers: Mapping[str, str] | None = None) -> WorkTaking:
        """Who enters it now."""
        from fitwright.bench.work_taking import WorkTaking

        return WorkTaking(
            family=self.family,
            person=self.person,
            answers=answers or {},
            supersedes=self.supersedes,
            reason=self.reason,
            now=self.shop.clock(),
        )

    def asked(self, take: Callable[[WorkTaking], WorkTaken | Question]) -> WorkTaken:
        """What `take` makes once its questions are answered."""
        from fitwright.cli.answering import answered
        from fitwright.cli.terminal import Terminal

        return answered(lambda answers: take(self.taking(answers)), self.answer, Terminal())

    def write(self, taken: WorkTaken, *, signed_by: str | None = None, also: Iterable[str] = ()) -> int:
        """Write it, with the PIN of whoever signs; say so, and what is to be heeded."""
        from fitwright.cli.pins import pins_for

        pins = pins_for(self.shop, signed_by) if signed_by is not None else {}
        written = self.shop.write(taken.entries, pins=pins)
        sys.stdout.write(f"{taken.words} ({_entries(taken, written.acknowledgements)}).\n")
        sys.stdout.writelines(f"! {each}\n" for each in taken.cautions)
        sys.stdout.writelines(f"  {each}\n" for each in also)
        return OK

    def _wrong(self, number: str | None) -> str | None:
        if number is None:
            return None
        found = entry_named(self.shop, number)
        if found.build != self.build:
            raise UsageError(f"Entry {found.seq} is none of {self.build}: name one of its own.")
        return found.id


def _entries(taken: WorkTaken, acknowledged: Sequence[Acknowledgement]) -> str:
    """The numbers of its entries, without those of the answers about it."""
    from fitwright.records.kinds import QuestionAnswered

    pairs = zip(taken.entries, acknowledged, strict=True)
    seqs = [each.seq for entry, each in pairs if entry.kind != QuestionAnswered.kind]
    return f"entry {seqs[0]}" if len(seqs) == 1 else f"entries {seqs[0]} to {seqs[-1]}"
