"""A build carried from one shop to another: what it rests on here, and what stands against it there."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from math import isclose
from typing import Any, Final

from fitwright.bench.errors import BenchError
from fitwright.records.entry import Entry
from fitwright.records.kinds import (
    BladeSet,
    Calibration,
    CheckBack,
    Choice,
    Instrument,
    NotMeasured,
    Part,
    Person,
    PressureReading,
    QuestionAnswered,
    Reading,
    ReadingsMoved,
    Setting,
    ShopSetting,
    State,
    StatedSize,
    Withdrawal,
)
from fitwright.records.registry import SECRET_KINDS, WORK_KINDS
from fitwright.units import UnitsError, parse_quantity

_READING_KINDS: Final = frozenset(
    noun.kind for noun in (Reading, ReadingsMoved, Choice, NotMeasured, PressureReading, QuestionAnswered)
)
DONE_KINDS: Final = _READING_KINDS | WORK_KINDS
"""Entries that say what was read and done; a set-up without readings leaves them out."""

_PERSON_FIELDS: Final = (
    *("measured_by", "typed_by", "adopted_by", "performed_by", "checked_by", "done_by", "released_by"),
    *("used_by", "granted_by", "ordered_by", "signed_by"),
)
_INSTRUMENT_FIELDS: Final = ("instrument", "wrench", "angle_gauge", "stretch_gauge")
"""Where entries name people and gauges by their codes."""

_SHARED: Final = frozenset(noun.kind for noun in (Person, Instrument, Setting, BladeSet))
"""Things of a shop that other builds use too: two shops may mean different things by one code."""


class CannotCarryError(BenchError):
    """A build that cannot be taken into this shop; nothing was."""

    def __init__(self, build: str, why: Sequence[str], mend: str) -> None:
        """Say what stands against it."""
        self.build, self.why, self.mend = build, tuple(why), mend
        super().__init__(f"{build} cannot be taken into this shop: {'; '.join(why)}; {mend}.")


def rested_on(entries: Iterable[Entry], build: str) -> list[Entry]:
    """The entries of a build, and those of the shop that they refer to, in order.

    A shop entry belongs to it if it is about a person, gauge, setting, blade set or part that the
    build names, directly or through another; so do all decision rules, and what corrects or
    withdraws an entry that belongs to it. What is secret never leaves its shop, nor what speaks of it.
    """
    everything = without_kinds(entries, SECRET_KINDS)
    own = [entry for entry in everything if entry.build == build]
    shop = [entry for entry in everything if entry.build is None]
    wanted = {entry.id for entry in own}
    names = set().union(*map(_names, own)) if own else set()
    found: list[Entry] = []
    while True:
        more = [entry for entry in shop if entry.id not in wanted and _belongs(entry, names, wanted)]
        if not more:
            return sorted([*own, *found], key=lambda entry: entry.seq)
        found += more
        wanted |= {entry.id for entry in more}
        names = names.union(*map(_names, more))


def without_readings(entries: Iterable[Entry]) -> list[Entry]:
    """A build's set-up: everything but what was read and done, and what corrects or withdraws that."""
    return without_kinds(entries, DONE_KINDS)


def without_kinds(entries: Iterable[Entry], kinds: Collection[str]) -> list[Entry]:
    """The entries without those of some kinds, and without what corrects or withdraws such a one."""
    kept: list[Entry] = []
    left_out: set[str] = set()
    for entry in entries:
        about = (entry.body.get("entry"), entry.body.get("supersedes"))
        if entry.kind in kinds or not left_out.isdisjoint(about):
            left_out.add(entry.id)
        else:
            kept.append(entry)
    return kept


def check_carrying(build: str, incoming: Sequence[Entry], here: Iterable[Entry]) -> frozenset[str]:
    """The ids of incoming entries that are here already, if the build can be taken in at all.

    Raises
    ------
    CannotCarryError
        If this shop has a build of that code with other entries, or means something else by the
        code of a person, gauge, setting or blade set; or if the file brings PINs.
    """
    if any(entry.kind in SECRET_KINDS for entry in incoming):
        raise CannotCarryError(
            build, ["the file brings PINs"], "export it again: PINs never leave their shop"
        )
    there = list(here)
    ids = {entry.id for entry in incoming}
    ours = {entry.id: entry for entry in there}
    strange = [entry for entry in there if entry.build == build and entry.id not in ids]
    if strange:
        raise CannotCarryError(
            build,
            [f"a build of that name is here with {len(strange)} entries that the file does not have"],
            "import it into a shop of its own with --data",
        )
    check_amounts(build, incoming)
    loose = [each for each in incoming if not ids.issuperset(_about(each))]
    if loose:
        why = [f"entry {each.id[:8]} changes one that the file does not have" for each in loose[:3]]
        raise CannotCarryError(build, why, "export it again from its shop")
    changed = [each for each in incoming if each.id in ours and ours[each.id].body != each.body]
    against = [f"entry {each.id[:8]} is here with other content" for each in changed[:3]]
    against += list(_clashes([each for each in incoming if each.id not in ours], there, ids))
    if against:
        raise CannotCarryError(build, against[:6], "import it into a shop of its own with --data")
    return frozenset(ids & ours.keys())


def check_amounts(build: str, incoming: Iterable[Entry]) -> None:
    """Hold every amount against what was typed: only what reads the same is computed with.

    Raises
    ------
    CannotCarryError
        If a text cannot be read, or reads as another amount.
    """
    wrong = [f"entry {entry.id[:8]}, {words}" for entry in incoming for words in _misread(entry.body)]
    if wrong:
        raise CannotCarryError(build, wrong[:3], "export it again from its shop")


def _misread(value: Any) -> Iterator[str]:  # noqa: ANN401  (any JSON)
    if isinstance(value, list):
        for inner in value:
            yield from _misread(inner)
    if not isinstance(value, Mapping):
        return
    for inner in value.values():
        yield from _misread(inner)
    if not value.keys() >= {"typed", "unit", "si"}:
        return
    said = f"{str(value['typed'])[:40]!r} in {str(value['unit'])[:20]!r}"
    try:
        read = parse_quantity(str(value["typed"]), default_unit=str(value["unit"])).si
    except UnitsError:
        yield f"{said} is no amount"
    else:
        if not isclose(read, float(value["si"]), rel_tol=1e-12):
            yield f"{said} reads as {read!r} and stands as {value['si']!r}"


def _about(entry: Entry) -> set[str]:
    """The entries that one withdraws or corrects."""
    named = {entry.body.get("supersedes"), entry.body["entry"] if entry.kind == Withdrawal.kind else None}
    return {each for each in named if each}


def _clashes(new: Sequence[Entry], there: Sequence[Entry], ids: set[str]) -> Iterator[str]:
    """Codes by which this shop means something else than the file, and rules that differ."""
    held: dict[tuple[str, str], Mapping[str, Any]] = {}
    for entry in there:
        if entry.id not in ids and entry.kind in _SHARED:
            held[entry.kind, entry.body["code"]] = entry.body
        if entry.id not in ids and entry.kind == Calibration.kind:
            held[entry.kind, entry.body["instrument"]] = entry.body
        if entry.id not in ids and entry.kind == ShopSetting.kind and _is_rule(entry):
            held[entry.kind, entry.body["name"]] = entry.body
    said: set[tuple[str, str]] = set()
    for entry in new:
        code = entry.body.get("instrument" if entry.kind == Calibration.kind else "code") or entry.body.get(
            "name"
        )
        key = (entry.kind, str(code))
        if key in held and key not in said and dict(held[key]) != dict(entry.body):
            said.add(key)
            yield f"{entry.kind} {code} is another one here"


def _names(entry: Entry) -> set[tuple[str, str]]:
    """What an entry refers to, as (kind, code)."""
    body = entry.body
    found = {(Person.kind, body.get(name)) for name in _PERSON_FIELDS}
    found.add((Person.kind, entry.person))
    observation = body.get("observation") or {}
    for each in (body, observation):
        found |= {(Instrument.kind, each.get(name)) for name in _INSTRUMENT_FIELDS}
        found.add((Setting.kind, each.get("setting")))
    found |= {(Instrument.kind, body.get("master")), (Setting.kind, body.get("master_setting"))}
    for code in (body.get("instruments") or {}).values():
        found |= {(Instrument.kind, code), (BladeSet.kind, code)}
    found |= {(Setting.kind, code) for code in (body.get("settings") or {}).values()}
    found |= {(BladeSet.kind, blade.partition(":")[0]) for blade in observation.get("blades", ())}
    if entry.kind in (Part.kind, State.kind):
        found.add((Part.kind, body.get("code") if entry.kind == Part.kind else body.get("part")))
    found |= {(Part.kind, code) for code in (body.get("members") or {}).values()}
    found.add((Part.kind, body.get("part")))
    return {(kind, code) for kind, code in found if code}


def _belongs(entry: Entry, names: set[tuple[str, str]], wanted: set[str]) -> bool:
    body = entry.body
    if body.get("supersedes") in wanted:
        return True
    if entry.kind in (Withdrawal.kind, QuestionAnswered.kind):
        return body.get("entry") in wanted
    return _is_rule(entry) if entry.kind == ShopSetting.kind else not names.isdisjoint(_found_under(entry))


def _found_under(entry: Entry) -> set[tuple[str, str]]:
    """What an entry is about, as (kind, code): whoever names that takes the entry along."""
    body = entry.body
    match entry.kind:
        case Calibration.kind:
            return {(Instrument.kind, body["instrument"])}
        case CheckBack.kind:
            return {(Setting.kind, body["setting"])}
        case State.kind | Reading.kind | StatedSize.kind:
            parts = {body.get("part"), *(body.get("members") or {}).values()}
            return {(Part.kind, code) for code in parts if code}
    return {(entry.kind, str(body.get("code")))}


def _is_rule(entry: Entry) -> bool:
    return str(entry.body.get("name", "")).startswith("decision rule")
