"""Consumables, tightening groups and the order of work of a sheet as text to read."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import TypeVar

from fitwright.model.braces import expand
from fitwright.model.fastener import NOT_STATED, Pass, TighteningGroup
from fitwright.model.group_cautions import group_cautions
from fitwright.model.sheet import Sheet
from fitwright.model.step import Consumable, Step

EntryT = TypeVar("EntryT", TighteningGroup, Step)
_WAITS = (("after", "after"), ("fits", "fits"), ("tightened", "tightened"), ("cured", "cured"))
_LEAVES = (
    ("tightens", "tightens"),
    ("eye_checks", "looks at"),
    ("replaces", "new"),
    ("uses", "uses"),
    ("hides", "hides"),
    ("cautions", "cautions"),
)


def consumable_lines(sheet: Sheet) -> Iterator[str]:
    """Each consumable, how long it can be worked and how long it takes to cure."""
    for each in sheet.consumables.values():
        yield f"  {each.title}: {', '.join(_consumable(each))}"


def _consumable(consumable: Consumable) -> Iterator[str]:
    yield consumable.kind.value
    if consumable.pot_life is not None:
        yield f"workable for {consumable.pot_life.written}"
    if consumable.cure_time is not None:
        yield f"cured after {consumable.cure_time.written}"
    if consumable.not_on is not None:
        yield f"not on {consumable.not_on}"
    if consumable.batch_wanted:
        yield "batch and expiry are recorded"


def group_lines(sheet: Sheet) -> Iterator[str]:
    """Each tightening group with its values, the order and what it rests on; a family once."""
    for group in _once_for_each_family(sheet.tightening_groups.values()):
        name = group.family or group.id
        yield f"  {name}: {group.title}, {', '.join(_joint(group, sheet))}"
        yield f"    {_values(group)}{_source(group)}"
        yield f"    in this order: {', '.join(each.id for each in group.fasteners)}"
        yield from (f"    Caution: {caution}" for caution in group_cautions(group, sheet))


def _joint(group: TighteningGroup, sheet: Sheet) -> Iterator[str]:
    thread = "thread " if group.thread == NOT_STATED else ""
    yield f"{len(group.fasteners)} of {thread}{group.thread}"
    if group.property_class is not None:
        yield group.property_class
    if group.lubricant is not None:
        known = sheet.consumables.get(group.lubricant)
        yield f"with {group.lubricant if known is None else known.title}"
    if group.locking is not None:
        yield group.locking.value
    if group.one_time_use:
        yield "new each time"
    if group.critical:
        yield "critical"


def _values(group: TighteningGroup) -> str:
    if not group.passes:
        return f"{group.method.value}: no value yet"
    return f"{group.method.value}: {'; then '.join(map(_pass, group.passes))}"


def _pass(each: Pass) -> str:
    upto = f" to {each.upto.written}" if each.upto is not None else ""
    torque = f"{each.torque.written}{upto}" if each.torque is not None else ""
    words = [torque] if torque else []
    if each.angle is not None:
        words.append(f"{each.angle.written} further")
    if each.stretch_low is not None and each.stretch_high is not None:
        words = [f"stretch {each.stretch_low.written} to {each.stretch_high.written}"]
        words += [f"cross-check {torque}"] if torque else []
    if each.after_heat:
        words.append("after a heat cycle")
    return ", ".join(words)


def _source(group: TighteningGroup) -> str:
    at = f" {group.place_in_source}" if group.place_in_source is not None else ""
    return f" ({group.source}{at})" if group.source is not None else ""


def step_lines(sheet: Sheet) -> Iterator[str]:
    """Each step with what it waits for and what it leaves behind; a family once."""
    families = _families(sheet)
    stage = ""
    for step in _once_for_each_family(sheet.steps.values()):
        if step.stage != stage:
            stage = step.stage
            yield f"  {stage}"
        yield f"    {step.family or step.id}: {step.title}{_point(step)}"
        for words in (_WAITS, _LEAVES):
            said = [
                f"{word} {', '.join(_folded(names, families))}"
                for name, word in words
                if (names := getattr(step, name))
            ]
            if said:
                yield f"      {'waits for: ' if words is _WAITS else ''}{'; '.join(said)}"
        yield from (f"      photo {step.id}/{photo.id}: {photo.words}" for photo in step.photos)


def _point(step: Step) -> str:
    if step.point is None:
        return ""
    return f" ({step.point.value}, {step.invited or 'nobody in particular'} invited)"


def _families(sheet: Sheet) -> Mapping[str, str]:
    """Id -> the family that it belongs to, of everything that a step can name."""
    sections: tuple[Mapping[str, object], ...] = (
        sheet.fits,
        sheet.dimensions,
        sheet.tightening_groups,
        sheet.steps,
    )
    found = (
        (name, getattr(entry, "family", None)) for section in sections for name, entry in section.items()
    )
    return {name: family for name, family in found if family is not None}


def _folded(names: tuple[str, ...], families: Mapping[str, str]) -> Iterator[str]:
    """The names, a family once where all of its members are among them."""
    listed = frozenset(names)
    whole = {
        family
        for family in {families[name] for name in names if name in families}
        if listed.issuperset(member.name for member in expand(family))
    }
    yield from dict.fromkeys(families[name] if families.get(name) in whole else name for name in names)


def _once_for_each_family(entries: Iterable[EntryT]) -> Iterator[EntryT]:
    shown: set[str] = set()
    for entry in entries:
        name = entry.family or entry.id
        if name not in shown:
            shown.add(name)
            yield entry
