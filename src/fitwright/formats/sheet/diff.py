"""Differences between two sheets, in words of the trade, one sentence each."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from typing import Any, Final

from fitwright.formats.sheet.plain import PlainTable, plain_sections, plain_singles
from fitwright.formats.sheet.problems import ENTRY_WORDS
from fitwright.formats.sheet.sections import entries_of, section_path
from fitwright.formats.sheet.templates import NoTemplateError, shared
from fitwright.model.braces import expand
from fitwright.model.sheet import Sheet

_WORDS: Final[Mapping[str, str]] = {"by_parts": "by parts", "at": "place in the source"}
_UNWRITTEN: Final[Mapping[str, str]] = {"class": "normal", "judged": "worst"}
_KEPT_BY_LIMITS: Final = ("at", "depends_on", "note")
_WITH_NOUN: Final = frozenset({"consumables", "tightening_groups", "steps"})
"""Sections, beside those of the circuit, whose ids may be those of parts or fits, too."""
Entries = Mapping[str, PlainTable]


def differences(old: Sheet, new: Sheet) -> tuple[str, ...]:
    """What is different in the new sheet.

    Parameters
    ----------
    old, new : Sheet
        The two sheets.

    Returns
    -------
    tuple of str
        One sentence for each difference, as `main.{1..6}.running_clearance: upper limit 0.065 mm
        -> 0.070 mm (manual, p. A-31)`; a family whose members all change alike is named once.
        Empty where the sheets say the same.
    """
    if old.digest and old.digest == new.digest:
        return ()  # the same text, as on every look at the page of a sheet before anybody changed it
    found = list(_singles(plain_singles(old), plain_singles(new)))
    before, after = plain_sections(old), plain_sections(new)
    for section, noun in ENTRY_WORDS.items():
        named = section in _WITH_NOUN or len(section_path(section)) > 1
        changes = _section(before[section], after[section], "" if named else noun)
        sentences = _gathered(changes, _families(entries_of(old, section), entries_of(new, section)))
        found.extend(f"{noun} {sentence}" if named else sentence for sentence in sentences)
    return tuple(found)


def _singles(old: Entries, new: Entries) -> Iterator[str]:
    for name in dict.fromkeys([*old, *new]):
        if name in old and name in new:
            yield from (f"{name}: {what}" for what in _tables(old[name], new[name]))
        else:
            yield f"{name}: {'added' if name in new else 'taken out'}"


def _section(old: Entries, new: Entries, noun: str) -> dict[str, list[str]]:
    """Id -> what changed there."""
    renamed = _renamed(old, new)
    changes: dict[str, list[str]] = {}
    for name, entry in old.items():
        if name in new:
            changes[name] = list(_tables(entry, new[name]))
        elif name in renamed:
            changes[name] = [f"is now called {renamed[name]}"]
        else:
            changes[name] = [f"{noun} taken out".strip()]
    for name in new:
        if name not in old and name not in renamed.values():
            changes[name] = [f"{noun} added".strip()]
    return changes


def _renamed(old: Entries, new: Entries) -> dict[str, str]:
    """Ids that went, and the one new id under which exactly the same entry stands now."""
    gone = {name: _signature(entry) for name, entry in old.items() if name not in new}
    come = {name: _signature(entry) for name, entry in new.items() if name not in old}
    gone_counts, come_counts = Counter(gone.values()), Counter(come.values())
    by_signature = {signature: name for name, signature in come.items()}
    return {
        name: by_signature[signature]
        for name, signature in gone.items()
        if gone_counts[signature] == come_counts[signature] == 1
    }


def _signature(entry: PlainTable) -> str:
    return json.dumps({key: value for key, value in entry.items() if key != "feature"})


def _families(*sheets: Mapping[str, Any]) -> dict[str, str]:
    """Id -> the family that it belongs to, in the newer sheet where it differs."""
    return {
        name: entry.family
        for entries in sheets
        for name, entry in entries.items()
        if getattr(entry, "family", None) is not None
    }


def _gathered(changes: Mapping[str, list[str]], family_of: Mapping[str, str]) -> Iterator[str]:
    """The changes as sentences; a family of which every member changes alike speaks once."""
    done: set[str] = set()
    for name, whats in changes.items():
        if name in done:
            continue
        family = family_of.get(name)
        together = _together(family, changes) if family is not None else None
        if family is not None and together is not None:
            done.update(member.name for member in expand(family))
            yield from (f"{family}: {what}" for what in together)
        else:
            yield from (f"{name}: {what}" for what in whats)


def _together(family: str, changes: Mapping[str, list[str]]) -> list[str] | None:
    members = expand(family)
    if not all(member.name in changes for member in members):
        return None
    try:
        found = shared([changes[member.name] for member in members], [member.values for member in members])
    except NoTemplateError:
        return None
    return [str(what) for what in found]


def _tables(old: PlainTable, new: PlainTable, prefix: str = "") -> Iterator[str]:
    """What changed between two tables, key by key."""
    for key in dict.fromkeys([*old, *new]):
        before, after = old.get(key), new.get(key)
        word = prefix + _WORDS.get(key, key.replace("_", " "))
        if before == after:
            continue
        if key == "limits":
            yield from _limits(before or [], after or [])
        elif key == "eye_checks":
            yield from _eye_checks(before or [], after or [])
        elif key == "passes" and len(before or []) == len(after or []):
            yield from _passes(before or [], after or [])
        elif isinstance(before or after, dict):
            yield from _tables(before or {}, after or {}, "" if key == "layout" else f"{word}, ")
        elif isinstance(before or after, list):
            yield from _lists(word, before or [], after or [])
        else:
            yield f"{word} {_said(before, key, after)} -> {_said(after, key, before)}"


def _lists(word: str, before: Sequence[Any], after: Sequence[Any]) -> Iterator[str]:
    old, new = ([_in_words(each) for each in values] for values in (before, after))
    taken = [each for each in old if each not in new]
    added = [each for each in new if each not in old]
    if taken:
        yield f"{word}: {', '.join(taken)} taken out"
    if added:
        yield f"{word}: {', '.join(added)} added"
    if not taken and not added:
        yield f"{word}: another order, {', '.join(new)}"


def _in_words(value: Any) -> str:  # noqa: ANN401 - plain TOML values
    """A value of a list; a table by what it says, one key after the other."""
    if not isinstance(value, dict):
        return str(value)
    return "(" + ", ".join(f"{key.replace('_', ' ')} {inner}" for key, inner in value.items()) + ")"


def _passes(old: Sequence[PlainTable], new: Sequence[PlainTable]) -> Iterator[str]:
    for number, (before, after) in enumerate(zip(old, new, strict=True), start=1):
        yield from _tables(before, after, f"pass {number}, ")


def _eye_checks(old: Sequence[PlainTable], new: Sequence[PlainTable]) -> Iterator[str]:
    before, after = ({each["id"]: each for each in checks} for checks in (old, new))
    for name in dict.fromkeys([*before, *after]):
        if name not in after:
            yield f"eye check {name} taken out"
        elif name not in before:
            yield f"eye check {name} added"
        else:
            yield from _tables(before[name], after[name], f"eye check {name}, ")


def _limits(old: Sequence[PlainTable], new: Sequence[PlainTable]) -> Iterator[str]:
    before, after = _by_use(old), _by_use(new)
    for use in dict.fromkeys([*before, *after]):
        if use not in after:
            yield f"limit taken out: {_bounds(before[use])} ({_from(before[use])})"
        elif use not in before:
            yield f"limit added: {_bounds(after[use])} ({_from(after[use])})"
        else:
            yield from _one_limit(before[use], after[use])
    if not set(before) ^ set(after) and list(before) != list(after):
        yield "limits: another order"


def _by_use(limits: Sequence[PlainTable]) -> dict[tuple[Any, ...], PlainTable]:
    """Limits by who says them of what; a number tells apart those that have this in common."""
    counts: Counter[tuple[Any, ...]] = Counter()
    found: dict[tuple[Any, ...], PlainTable] = {}
    for limit in limits:
        use = (limit["source"], limit.get("applies_to"), limit.get("temperature_case"))
        found[*use, counts[use]] = limit
        counts[use] += 1
    return found


def _one_limit(old: PlainTable, new: PlainTable) -> Iterator[str]:
    kind = "wear limit" if "applies_to" in new else "limit"
    hot = f" at {new['temperature_case']}" if "temperature_case" in new else ""
    for side in ("lower", "upper"):
        if old.get(side) != new.get(side):
            yield f"{side} {kind}{hot} {_said(old.get(side))} -> {_said(new.get(side))} ({_from(new)})"
    if old.get("governs") != new.get("governs"):
        yield f"{kind}{hot} {'governs' if new.get('governs') else 'no longer governs'} ({_from(new)})"
    for key in _KEPT_BY_LIMITS:
        if old.get(key) != new.get(key):
            word = _WORDS.get(key, key.replace("_", " "))
            yield f"{kind}{hot}, {word}: {_said(old.get(key))} -> {_said(new.get(key))} ({new['source']})"


def _bounds(limit: PlainTable) -> str:
    bounds = ", ".join(f"{side} {limit[side]}" for side in ("lower", "upper") if side in limit)
    used = ", for used parts" if "applies_to" in limit else ""
    hot = f", at {limit['temperature_case']}" if "temperature_case" in limit else ""
    return bounds + used + hot


def _from(limit: PlainTable) -> str:
    return f"{limit['source']}, {limit['at']}" if "at" in limit else str(limit["source"])


def _said(value: Any, key: str = "", beside: Any = None) -> str:  # noqa: ANN401 - plain TOML values
    """A value in words; one that is not written is what the format takes for it."""
    if value is None and isinstance(beside, bool):
        value = not beside
    if isinstance(value, bool):
        return "yes" if value else "no"
    return _UNWRITTEN.get(key, "none") if value is None else str(value)
