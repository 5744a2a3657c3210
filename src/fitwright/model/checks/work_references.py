"""References of the assembly: consumables, tightening groups and steps name only what the sheet has."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from fitwright.model.problem import Path, Problem, meant
from fitwright.model.sheet import Sheet
from fitwright.model.step import Step

_ONE_SECTION = {
    "after": ("steps", "step"),
    "tightened": ("tightening_groups", "tightening group"),
    "tightens": ("tightening_groups", "tightening group"),
    "cured": ("consumables", "consumable"),
    "uses": ("consumables", "consumable"),
}
Known = Mapping[str, frozenset[str]]


def check_work_references(sheet: Sheet, also_known: Known) -> Iterator[Problem]:
    """Problems of names in the assembly that lead nowhere, with what was probably meant."""
    sections = ("sources", "materials", "parts", "dimensions", "fits", "consumables", "tightening_groups")
    known = {
        name: frozenset(getattr(sheet, name)) | also_known.get(name, frozenset())
        for name in (*sections, "steps")
    }
    for consumable in sheet.consumables.values():
        path: Path = ("consumables", consumable.id, "source")
        yield from _named(path, consumable.source, known["sources"], "source")
    for group in sheet.tightening_groups.values():
        for key, section, noun in (
            ("source", "sources", "source"),
            ("clamped", "materials", "material"),
            ("tapped_in", "materials", "material"),
        ):
            path = ("tightening_groups", group.id, key)
            yield from _named(path, getattr(group, key), known[section], noun)
    checks = _eye_checks(sheet)
    for step in sheet.steps.values():
        yield from _of_step(step, known)
        yield from _check_replaced(sheet, step, known)
        if not also_known.get("stations"):
            yield from _all_known(("steps", step.id, "eye_checks"), step.eye_checks, checks, "eye check")


def _of_step(step: Step, known: Known) -> Iterator[Problem]:
    path: Path = ("steps", step.id)
    for key, (section, noun) in _ONE_SECTION.items():
        yield from _all_known((*path, key), getattr(step, key), known[section], noun)
    judged = known["fits"] | known["dimensions"]
    yield from _all_known((*path, "fits"), step.fits, judged, "fit or dimension")
    hidden = judged | known["parts"] | known["tightening_groups"]
    yield from _all_known((*path, "hides"), step.hides, hidden, "fit, dimension, part or tightening group")


def _check_replaced(sheet: Sheet, step: Step, known: Known) -> Iterator[Problem]:
    """What is new in a step is a part of the sheet, or one fastener as `group/fastener`."""
    fasteners = {
        f"{group.id}/{each.id}" for group in sheet.tightening_groups.values() for each in group.fasteners
    }
    names = known["parts"] | fasteners
    path: Path = ("steps", step.id, "replaces")
    yield from _all_known(path, step.replaces, names, "part (or group/fastener)")
    for name in step.replaces:
        part = sheet.parts.get(name)
        if part is not None and not part.one_time_use:
            what = f'"{name}" may be used again, for all that the sheet says'
            yield Problem(path, what, "write one_time_use = true under the part, or leave it out here")


def _eye_checks(sheet: Sheet) -> frozenset[str]:
    return frozenset(check.id for station in sheet.stations.values() for check in station.eye_checks)


def _all_known(path: Path, names: Iterable[str], known: Iterable[str], noun: str) -> Iterator[Problem]:
    for name in names:
        yield from _named(path, name, known, noun)


def _named(path: Path, name: str | None, known: Iterable[str], noun: str) -> Iterator[Problem]:
    if name is not None and name not in known:
        yield Problem(
            path, f'there is no {noun} "{name}"', meant(name, known) or "add it, or take it out here"
        )
