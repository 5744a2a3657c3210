"""A later revision of the sheet, taken over by a build on purpose."""

from __future__ import annotations

from collections.abc import Sequence

from fitwright.bench.context import Bench
from fitwright.bench.errors import BenchError
from fitwright.model.sheet import Sheet
from fitwright.records.kinds import RevisionTakenOver


class ChangedSenseError(BenchError):
    """A revision under which a reading would count as something else than was read."""

    def __init__(self, dimension: str, before: str, after: str) -> None:
        """Say which dimension, and what it would become."""
        self.dimension, self.before, self.after = dimension, before, after
        super().__init__(
            f"{dimension} was read as {before}, and this revision states it as {after}: its readings would "
            "count as something else; give the new dimension another id."
        )


class NothingToTakeOverError(BenchError):
    """A revision that says the same as the one a build has."""

    def __init__(self, build: str) -> None:
        """Say so."""
        super().__init__(f"{build} is at this revision already; there is nothing to take over.")


def revision_taken_over(
    bench: Bench, new: Sheet, differences: Sequence[str], *, reason: str | None = None
) -> RevisionTakenOver:
    """The entry's body by which a build takes a revision over, its differences named.

    Raises
    ------
    ChangedSenseError
        If a dimension that was read would be stated in another sense.
    """
    check_senses(bench, new)
    return RevisionTakenOver(
        sheet=new.digest,
        previous_sheet=bench.sheet.digest,
        differences=tuple(differences),
        reason=reason,
    )


def check_senses(bench: Bench, new: Sheet) -> None:
    """Refuse a revision under which what was read would count as something else.

    Raises
    ------
    ChangedSenseError
        Naming the first dimension of which that is so.
    """
    for name, before in bench.sheet.dimensions.items():
        after = new.dimensions.get(name)
        if after is None or after.sense is before.sense:
            continue
        if any(each.effective for each in bench.build.readings_of(before.feature)):
            raise ChangedSenseError(name, before.sense.value, after.sense.value)
