"""What a form on this page asks for: controls, each with its label and what was typed or chosen."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import NamedTuple

from fitwright.assess.assembly.results import Standing
from fitwright.assess.assessment import Assessor
from fitwright.assess.judging import Judge
from fitwright.bench.context import Bench
from fitwright.bench.parts import spare_parts
from fitwright.records.entry import Acknowledgement
from fitwright.units.families import Family
from fitwright.web.forms import Option, OptionGroup
from fitwright.web.writing import Sent

SINGLE = "One of each"
"""The group of positions of which the engine has only one."""


@dataclass(frozen=True, slots=True)
class SerialRow:
    """One position of a station, with the code and serial of the part that sits there."""

    position: str
    title: str
    code: str
    serial: str


@dataclass(frozen=True, slots=True)
class ChoiceRow:
    """One thing of several with a few answers each; `name` is that of its field."""

    name: str
    words: str
    options: tuple[Option, ...]


@dataclass(frozen=True, slots=True)
class Control:
    """One thing that a form asks for; `kind` says how it is drawn.

    `hidden`, `text`, `amount` (text with a unit), `words` (several lines), `select`, `tick`,
    `ticks` (several of a list), `one` (of a few), `about` (text with suggestions), `file`,
    `serials` and `rows` (things with a few answers each).
    """

    kind: str
    name: str
    label: str
    value: str = ""
    hint: str = ""
    unit: str = ""
    empty: str = ""
    groups: tuple[OptionGroup, ...] = ()
    serials: tuple[SerialRow, ...] = ()
    rows: tuple[ChoiceRow, ...] = ()


class Asking(NamedTuple):
    """A form being filled in: the build, the units, what form or address say, who keeps photos.

    `standing` says how the assembly stands and `head` where the record ends, when they are asked for.
    """

    bench: Bench
    assessor: Assessor
    code: str
    family: Family
    form: Sent
    keep: Callable[[bytes, str], str]
    standing: Callable[[], Standing]
    head: Callable[[], Acknowledgement | None]

    @property
    def judge(self) -> Judge:
        """What is known of each size and fit."""
        return self.assessor.judge

    def get(self, name: str) -> str:
        """What was typed or chosen."""
        return self.form.get(name)

    def ticked(self, name: str) -> tuple[str, ...]:
        """What was ticked of a list."""
        return self.form.all(name)


def text(asking: Asking, name: str, label: str, hint: str = "") -> Control:
    """One line of text."""
    return Control("text", name, label, asking.get(name), hint)


def words(asking: Asking, name: str, label: str, hint: str = "") -> Control:
    """Several lines of text."""
    return Control("words", name, label, asking.get(name), hint)


def amount(asking: Asking, name: str, label: str, unit: str, hint: str = "") -> Control:
    """An amount, read in a unit where none is typed."""
    return Control("amount", name, label, asking.get(name), hint, unit)


def hidden(name: str, value: str) -> Control:
    """What the form carries along."""
    return Control("hidden", name, "", value)


def select(
    asking: Asking,
    name: str,
    label: str,
    groups: Iterable[OptionGroup],
    *,
    empty: str = "choose",
    hint: str = "",
) -> Control:
    """One of a long list; `empty` is what its first line says while nothing is chosen."""
    return Control("select", name, label, asking.get(name), hint, "", empty, tuple(groups))


def one(asking: Asking, name: str, label: str, options: Mapping[str, str], hint: str = "") -> Control:
    """One of a few, each a target of its own."""
    chosen = asking.get(name)
    lines = tuple(Option(value, shown, value == chosen) for value, shown in options.items())
    return Control("one", name, label, chosen, hint, groups=(OptionGroup(label, lines),))


def options(title: str, names: Mapping[str, str], chosen: Iterable[str] = ()) -> Iterator[OptionGroup]:
    """A group of lines to choose from, where there are any."""
    held = set(chosen)
    if names:
        yield OptionGroup(title, tuple(Option(name, label, name in held) for name, label in names.items()))


def kin(name: str) -> str:
    """What a position is one of: its name without the numbers."""
    return re.sub(r"\d+", "…", name)


def positions(
    asking: Asking, chosen: str, *, like: str = "", wanted: Callable[[str], bool] = lambda _: True
) -> tuple[OptionGroup, ...]:
    """The positions of the engine, those of one kind together; those like a given one first."""
    build, sheet = asking.bench.build, asking.bench.sheet
    groups: dict[str, list[Option]] = {}
    counts: dict[str, int] = {}
    for part in sheet.parts.values():
        counts[kin(part.id)] = counts.get(kin(part.id), 0) + 1
    for part in sheet.parts.values():
        if not wanted(part.id):
            continue
        inside = build.occupant(part.id)
        tail = "" if inside == part.id else f" · {inside or 'empty'}"
        title = kin(part.title) if counts[kin(part.id)] > 1 else SINGLE
        groups.setdefault(title, []).append(Option(part.id, f"{part.title}{tail}", part.id == chosen))
    first = kin(sheet.parts[like].title) if like in sheet.parts else ""
    order = sorted(groups, key=lambda title: title != first)
    return tuple(OptionGroup(title, tuple(groups[title])) for title in order)


def parts_to_choose(asking: Asking, chosen: str) -> tuple[OptionGroup, ...]:
    """Physical parts: those on the shelf first, then those that sit in the engine."""
    bench = asking.bench
    spare = {code: f"{code}, {bench.build.parts[code].body.title}" for code in spare_parts(bench)}
    sitting = {
        inside: f"{inside}, now in {part.title}" if inside != part.id else part.title
        for part in bench.sheet.parts.values()
        if (inside := bench.build.occupant(part.id)) is not None
    }
    return (*options("On the shelf", spare, {chosen}), *options("In the engine", sitting, {chosen}))


def by_station(asking: Asking, names: Mapping[str, str], chosen: Iterable[str]) -> tuple[OptionGroup, ...]:
    """Fits, dimensions and eye checks by name, in the order of the stations."""
    sheet, held = asking.bench.sheet, tuple(chosen)
    checks = {each.id: station.id for station in sheet.stations.values() for each in station.eye_checks}
    where: dict[str, dict[str, str]] = {}
    for name, label in names.items():
        thing = sheet.dimensions.get(name) or sheet.fits.get(name)
        station = thing.station if thing is not None else checks.get(name)
        where.setdefault(station or "", {})[name] = label
    stations = {each.id: each.title for each in sheet.stations.values()} | {"": "At no station"}
    return tuple(
        group for name, title in stations.items() for group in options(title, where.get(name, {}), held)
    )
