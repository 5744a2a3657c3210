"""What every chapter is told with: what is known, what was asked for, and the words of one reader."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

from fitwright.assess.results import FitVerdict, Verdict
from fitwright.bench.entry_words import title_of
from fitwright.dossier.asked import Asked
from fitwright.dossier.known import Known
from fitwright.drawing.figures import Reader
from fitwright.drawing.oil_figures import OilReader
from fitwright.drawing.tightening_figures import TighteningReader
from fitwright.model.fastener import fastener_title
from fitwright.records.entry import Entry
from fitwright.records.kinds import Typed
from fitwright.records.times import minute_of
from fitwright.units import format_value
from fitwright.units.families import shop_unit
from fitwright.units.quantity import decimals_for

if TYPE_CHECKING:
    from fitwright.assess.assembly.results import Deed, Standing

MARKS = {
    Verdict.WITHIN: "✓",
    Verdict.UNPROVEN: "?",
    Verdict.OUTSIDE: "×",
    Verdict.NOT_MEASURED: "–",
}
"""The mark beside the word of a verdict, in characters that the printed typeface has."""


@dataclass(frozen=True)
class Teller:
    """Tells of a build in one reader's words and units."""

    known: Known
    asked: Asked

    @property
    def complete(self) -> bool:
        """Whether everything is told."""
        return self.asked.depth == "complete"

    @cached_property
    def reader(self) -> Reader:
        """Figures of fits."""
        return Reader(self.asked.units)

    @cached_property
    def oil_reader(self) -> OilReader:
        """Figures of the oil system."""
        return OilReader(self.asked.units)

    @cached_property
    def tightening_reader(self) -> TighteningReader:
        """Figures of fasteners."""
        return TighteningReader(self.asked.units)

    @property
    def standing(self) -> Standing:
        """How the assembly stands."""
        return self.known.standing

    def title(self, name: str) -> str:
        """What the sheet calls a thing."""
        return title_of(self.known.bench, name)

    def about(self, subject: str | None) -> str:
        """What something is about: a step, a photo of a step, a group, or whatever else the sheet names."""
        if not subject:
            return ""
        sheet, (first, _, rest) = self.known.sheet, subject.partition("/")
        if first in sheet.steps:
            wanted = next((each.words for each in sheet.steps[first].photos if each.id == rest), "")
            return ": ".join(each for each in (sheet.steps[first].title, wanted) if each)
        if first in sheet.tightening_groups:
            group = sheet.tightening_groups[first]
            return fastener_title(group, rest) if rest else group.title
        return self.title(subject)

    def amount(self, value: float, dimension: str, resolution: float | None = None) -> str:
        """An amount [SI] in the reader's unit."""
        unit = shop_unit(dimension, self.asked.units, value)
        decimals = None if resolution is None else decimals_for(resolution, unit, dimension)
        return format_value(value, unit, decimals, dimension=dimension)

    def verdict(self, found: FitVerdict) -> str:
        """Mark and words."""
        return f"{MARKS[found.verdict]} {found.words}"

    def person(self, code: str | None) -> str:
        """A person by name; a dash where nobody is named."""
        return self.known.name_of(code) or "–"


def day_of(moment: str | None) -> str:
    """The day of a moment as the record writes it [UTC]; a dash where there is none."""
    return when(moment)[:10] if moment else "–"


def when(moment: str | None) -> str:
    """A moment as the record writes it, to the minute in UTC; a text that is none as it stands."""
    return minute_of(moment) if moment else "–"


def deed_day(deed: Deed) -> str:
    """The day on which somebody did something [UTC]."""
    return day_of(deed.at.isoformat() if deed.at is not None else None)


def at_of(entry: Entry) -> str:
    """When somebody made an entry: by his own clock if it said so, else when it was kept."""
    return entry.client_time or entry.committed_at


def amount_typed(amount: Typed | None) -> str:
    """An amount as it was typed, with its unit; a dash where there is none."""
    if amount is None:
        return "–"
    return format_value(amount.si, amount.unit, amount.decimals)


def counted(number: int, one: str, many: str) -> str:
    """So many things, in words.

    >>> counted(1, "photo", "photos")
    '1 photo'
    """
    return f"{number} {one if number == 1 else many}"


def listed(names: Iterable[str], most: int | None = None) -> str:
    """Names behind each other; beyond `most` only how many more."""
    every = list(names)
    if most is None or len(every) <= most:
        return ", ".join(every)
    return f"{', '.join(every[:most])} and {len(every) - most} more"
