"""Pages are filled from context dataclasses: which exist, and which of their fields a template reads."""

from __future__ import annotations

import dataclasses
import importlib
import pkgutil
from collections.abc import Iterable, Iterator
from functools import cache
from types import ModuleType
from typing import Any, get_args, get_type_hints

from fitwright import web
from fitwright.web.rendering import environment

Read = set[tuple[type, str]]
"""Class and field of what was read."""


def web_modules() -> list[ModuleType]:
    """Every module of the web."""
    found = pkgutil.walk_packages(web.__path__, f"{web.__name__}.")
    return [importlib.import_module(each.name) for each in found]


def dataclasses_of(module: ModuleType) -> list[type]:
    """The dataclasses made in a module."""
    return [
        each
        for each in vars(module).values()
        if isinstance(each, type) and dataclasses.is_dataclass(each) and each.__module__ == module.__name__
    ]


def contexts() -> list[type]:
    """Every dataclass that names its template."""
    return [each for module in web_modules() for each in dataclasses_of(module) if hasattr(each, "template")]


def names(context: Any) -> set[str]:
    """The fields of a dataclass or of one made of it."""
    return {field.name for field in dataclasses.fields(context)}


class Watched:
    """Stands for a part of a context; notes which of its fields a template reads."""

    def __init__(self, part: Any, read: Read) -> None:
        self._part, self._read = part, read

    def __getattr__(self, name: str) -> Any:
        if name.startswith("__"):
            raise AttributeError(name)
        part = self._part
        assert name in names(part), f"{type(part).__name__} has no field {name}"
        self._read.add((type(part), name))
        return watched(getattr(part, name), self._read)


def watched(value: Any, read: Read) -> Any:
    """A value as a template is given it: parts are watched, also those in a tuple."""
    if dataclasses.is_dataclass(value):
        return Watched(value, read)
    if type(value) is tuple:
        return tuple(watched(each, read) for each in value)
    return value


def rendered(context: Any, read: Read) -> str:
    """The page of a context; the fields of parts that were read go into `read`."""
    values = {name: watched(getattr(context, name), read) for name in names(context)}
    return environment().get_template(context.template).render(values)


def parts_shown(module: ModuleType) -> list[type]:
    """The dataclasses of a module that pages are made of, below the contexts."""
    return [each for each in dataclasses_of(module) if each in _given_to_templates()]


@cache
def _given_to_templates() -> frozenset[type]:
    """Every dataclass that the fields of a context lead to."""
    found: set[type] = set()
    waiting = list(contexts())
    while waiting:
        for hint in get_type_hints(waiting.pop()).values():
            new = [each for each in _classes_in(hint) if each not in found]
            found.update(new)
            waiting += new
    return frozenset(found)


def _classes_in(hint: Any) -> Iterator[type]:
    if isinstance(hint, type) and dataclasses.is_dataclass(hint):
        yield hint
    for inner in get_args(hint):
        yield from _classes_in(inner)


def unread(modules: Iterable[ModuleType], read: Read) -> set[str]:
    """The fields of the parts of some modules that no template read."""
    parts = [part for module in modules for part in parts_shown(module)]
    return {f"{part.__name__}.{name}" for part in parts for name in names(part) if (part, name) not in read}
