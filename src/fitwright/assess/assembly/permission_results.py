"""What is said of concessions, deviation permits and rework orders."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from fitwright.assess.assembly.deeds import Deed
from fitwright.assess.results import Verdict


@dataclass(frozen=True, slots=True)
class ConcessionStanding:
    """A concession (afterwards) or deviation permit (beforehand), and whether it is in force.

    `why_not` says why it is not (any more): another part, a value beyond what was accepted, its day
    over. `needed` says whether its subject meets its limit without it. `lowest` and `highest` [SI] are
    the values accepted; `value` [SI] is what it is now. `amount` says what is accepted of a fastener: a
    torque, an angle or a length; else it is empty.
    """

    code: str
    kind: str
    subject: str
    title: str
    granted: Deed
    granted_by: str
    because: str
    consequence: tuple[str, ...]
    parts: Mapping[str, str]
    lowest: float | None
    highest: float | None
    amount: str
    until: str | None
    value: float | None
    in_force: bool
    needed: bool
    why_not: str | None
    words: str


@dataclass(frozen=True, slots=True)
class ReworkedDimension:
    """A dimension before and after a rework: value and standard uncertainty [SI], None where not read.

    `read_again` says whether it was read since the part was reworked.
    """

    dimension: str
    title: str
    before: float | None
    before_uncertainty: float | None
    after: float | None
    after_uncertainty: float | None
    read_again: bool


@dataclass(frozen=True, slots=True)
class ReworkItem:
    """Something that a reworked dimension feeds, and whether anybody looked at it since.

    `answer` is "holds", "put right" or "not touched" once it is checked off; `verdict` how it stands now
    (None: nothing judges it). `open` says that it is neither checked off nor settled; `since_ordered`
    that it was not on the order's list, but feeds on the dimension now.
    """

    item: str
    title: str
    answer: str | None
    checked: Deed | None
    verdict: Verdict | None
    verdict_words: str
    open: bool
    since_ordered: bool = False


@dataclass(frozen=True, slots=True)
class ReworkStanding:
    """A rework order: whether the work was done, the dimensions before and after, what they feed."""

    code: str
    part: str
    part_title: str
    change: str
    order_words: str
    ordered: Deed
    target: float | None
    carried_out: Deed | None
    dimensions: tuple[ReworkedDimension, ...]
    items: tuple[ReworkItem, ...]
    closed: bool
    words: str

    @property
    def open_items(self) -> tuple[ReworkItem, ...]:
        """What nobody has looked at since."""
        return tuple(each for each in self.items if each.open)
