"""Entries looked for, the newest first, each with what became of it."""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.records.entry import Entry


@dataclass(frozen=True, slots=True, kw_only=True)
class Search:
    """Which entries are looked for.

    `build` None looks through the whole shop. `names` are texts that a body must hold as whole values
    (the id of a dimension, the code of a sitting); `words` is any part of a body, whatever its case;
    `person` entered it or measured. `before` and `after` are exclusive.
    """

    build: str | None = None
    kinds: tuple[str, ...] = ()
    person: str | None = None
    names: tuple[str, ...] = ()
    words: str = ""
    after: int = 0
    before: int | None = None
    limit: int = 50


@dataclass(frozen=True, slots=True)
class Standing:
    """An entry, and what became of it: the withdrawal or the correction in force, if there is one."""

    entry: Entry
    withdrawn_by: Entry | None = None
    superseded_by: Entry | None = None

    @property
    def counts(self) -> bool:
        """Whether it is neither withdrawn nor superseded."""
        return self.withdrawn_by is None and self.superseded_by is None
