"""The order of work: no step waits for itself, what is invited to is a point, photos are told apart."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from fitwright.model.problem import Path, Problem
from fitwright.model.sheet import Sheet
from fitwright.model.step import Step

Waits = Mapping[str, Mapping[str, str]]
"""Step -> the steps that it waits for, each with the key that says so."""


def check_steps(sheet: Sheet) -> Iterator[Problem]:
    """Problems of all steps and of their order."""
    for step in sheet.steps.values():
        yield from _check_step(step, ("steps", step.id))
    yield from _check_cycles(_waits(sheet))


def _check_step(step: Step, path: Path) -> Iterator[Problem]:
    if step.invited is not None and step.point is None:
        what = f"{step.invited} is invited, and it is no hold point or witness point"
        yield Problem((*path, "invited"), what, 'write point = "hold point" or point = "witness point"')
    photos = [photo.id for photo in step.photos]
    for name in dict.fromkeys(name for name in photos if photos.count(name) > 1):
        yield Problem((*path, "photos"), f'the photo "{name}" is named twice', "give each an id of its own")
    for name in step.tightened:
        if name in step.tightens:
            what = f'"{name}" is to be tightened before this step, and in it'
            yield Problem((*path, "tightened"), what, "write it in one of the two lists")


def _waits(sheet: Sheet) -> Waits:
    """Who waits for whom: by name, or for the one step in which a group is tightened."""
    by: dict[str, list[str]] = {}
    for step in sheet.steps.values():
        for group in step.tightens:
            by.setdefault(group, []).append(step.id)
    waits: dict[str, dict[str, str]] = {}
    for step in sheet.steps.values():
        own = {by[group][0]: "tightened" for group in step.tightened if len(by.get(group, ())) == 1}
        named = {name: "after" for name in step.after if name in sheet.steps}
        waits[step.id] = {**own, **named}
    return waits


def _check_cycles(waits: Waits) -> Iterator[Problem]:
    """Each circle of waiting once, said at the first of its steps in the file."""
    clear: set[str] = set()
    for start in waits:
        circle = _circle(start, waits, clear)
        if circle:
            clear.update(circle)
            words = ", and ".join(f"{one} waits for {other}" for one, other in _links(circle))
            path: Path = ("steps", circle[0], waits[circle[0]][circle[1 % len(circle)]])
            yield Problem(path, f"none of these can begin: {words}", "take one of them out")


def _links(circle: list[str]) -> Iterator[tuple[str, str]]:
    yield from zip(circle, [*circle[1:], circle[0]], strict=True)


def _circle(start: str, waits: Waits, clear: set[str]) -> list[str]:
    """A circle that can be reached from a step; steps that lead into none are added to `clear`."""
    way: list[str] = []
    left = [iter([start])]
    while left:
        name = next(left[-1], None)
        if name is None:
            left.pop()
            if way:
                clear.add(way.pop())
        elif name in way:
            return _from_the_first(way[way.index(name) :], list(waits))
        elif name not in clear:
            way.append(name)
            left.append(iter(waits[name]))
    return []


def _from_the_first(circle: list[str], order: list[str]) -> list[str]:
    first = min(range(len(circle)), key=lambda place: order.index(circle[place]))
    return circle[first:] + circle[:first]
