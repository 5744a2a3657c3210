"""Concessions and deviation permits: for which subject, parts and values they are in force."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from typing import Final

from fitwright.assess.assembly.times import is_over
from fitwright.records import kinds
from fitwright.records.entry import Entry
from fitwright.records.projection import BuildState

Permission = kinds.Concession | kinds.DeviationPermit

_NUMBER: Final = re.compile(r"[-+\u2212]?\d*[.,]?\d+")


@dataclass(frozen=True, slots=True)
class Granted:
    """One permission as recorded, and where it stands in the order."""

    order: int
    entry: Entry
    body: Permission

    @property
    def kind(self) -> str:
        """Concession or deviation permit."""
        return self.body.kind


@dataclass(frozen=True, slots=True)
class Asked:
    """What is to be permitted: a subject with its value, and who sits where.

    `amount` says what kind of amount the value is where a subject can have several: "torque", "angle",
    "length"; empty where it has one. `occupants` are positions and what is in them; a position that is
    not among them is looked up in the build.
    """

    subject: str
    value: float | None
    amount: str = ""
    occupants: tuple[tuple[str, str | None], ...] = ()


class Permissions:
    """The permissions of a build by subject, each in its newest state."""

    def __init__(self, build: BuildState) -> None:
        self._build = build
        work = build.work
        every = [Granted(work.orders[entry.id], entry, body) for entry, body in work.concessions.values()]
        every += [
            Granted(work.orders[entry.id], entry, body) for entry, body in work.deviation_permits.values()
        ]
        self.all = sorted(every, key=lambda each: each.order)
        self._by_subject: dict[str, list[Granted]] = {}
        self._by_group: dict[str, list[Granted]] = {}
        for each in self.all:
            self._by_subject.setdefault(each.body.subject, []).append(each)
            self._by_group.setdefault(each.body.subject.partition("/")[0], []).append(each)

    def of(self, subject: str) -> list[Granted]:
        """All that name a subject, in order."""
        return self._by_subject.get(subject, [])

    def of_group(self, group: str) -> list[Granted]:
        """All that name a group or one of its fasteners, in order."""
        return self._by_group.get(group, [])

    def in_force(self, asked: Asked, now: datetime | None, upto: int | None = None) -> Granted | None:
        """The latest permission that covers what is asked; up to an entry of the record."""
        for each in reversed(self.of(asked.subject)):
            if (upto is None or each.order <= upto) and self.why_not(each, asked, now) is None:
                return each
        return None

    def why_not(self, granted: Granted, asked: Asked, now: datetime | None) -> str | None:
        """Why a permission does not cover what is asked; None where it does."""
        body = granted.body
        changed = next(self._other_parts(body, asked), None)
        if changed is not None:
            return f"another part since, in {changed}"
        if is_over(body.until, now):
            return f"it was for until {body.until}"
        return _beyond(body, asked)

    def _other_parts(self, body: Permission, asked: Asked) -> Iterator[str]:
        known = dict(asked.occupants)
        for position, part in body.parts.items():
            now = known[position] if position in known else self._build.occupant(position)
            if now != part:
                yield position


def _beyond(body: Permission, asked: Asked) -> str | None:
    low, high = body.lowest, body.highest
    if low is None and high is None:
        return None
    if not any(_speaks_of(end, asked.amount) for end in (low, high) if end is not None):
        return "what it accepts is another kind of amount"
    if asked.value is None:
        return "there is no value now that it could cover"
    if low is not None and asked.value < low.si - half_last_digit(low):
        return f"the value now lies below the {as_typed(low)} that was accepted"
    if high is not None and asked.value > high.si + half_last_digit(high):
        return f"the value now lies above the {as_typed(high)} that was accepted"
    return None


def as_typed(amount: kinds.Typed) -> str:
    """An amount as somebody typed it, with its unit."""
    text = amount.typed.strip()
    return text if not text or text[-1].isalpha() else f"{text} {amount.unit}"


def _speaks_of(end: kinds.Typed, amount: str) -> bool:
    return not amount or amount_of_unit(end.unit) == amount


def amount_of_unit(unit: str) -> str:
    """What kind of amount a unit is of, as far as fasteners have it: a torque, an angle, a length.

    >>> amount_of_unit("lbf ft"), amount_of_unit("°"), amount_of_unit("thou")
    ('torque', 'angle', 'length')
    """
    if re.search(r"N|lb|kgf", unit):
        return "torque"
    return "angle" if re.search(r"deg|rad|°|turn", unit) else "length"


def half_last_digit(amount: kinds.Typed) -> float:
    """Half of the last digit that somebody typed [SI]: so much nobody meant to leave out.

    >>> f"{half_last_digit(kinds.Typed(typed='0.067', unit='mm', decimals=3, si=67e-6)):.1e}"
    '5.0e-07'
    """
    found = _NUMBER.search(amount.typed)
    number = float(found[0].replace(",", ".").replace("\u2212", "-")) if found else 0.0
    return abs(amount.si / number) * 0.5 * 10.0**-amount.decimals if number else 0.0
