"""Pages are filled from context dataclasses: which exist, and which of their fields a template reads."""

from __future__ import annotations

import dataclasses
import importlib
import pkgutil
from collections.abc import Iterable
from types import ModuleType
from typing import Any

from fitwright import web
from fitwright.web.fit_lines import FitLine
from fitwright.web.rendering import environment

ON_THE_WAY = {
    "Came",
    "Filled",
    "Filters",
    "FitLines",
    "Hands",
    "HelpPage",
    "Kept",
    "Listed",
    "Outcome",
    "Problems",
    "Refused",
    "Sent",
    "Typed",
    "TypedChange",
    "TypedRow",
    "View",
    "_Drawn",
    "_Lines",
    "_Making",
    "_Seen",
}
"""Dataclasses that lead to a page and are never given to a template."""


PARTS_TOO = {FitLine}
"""Parts of pages that are also filled by themselves."""


Read = set[tuple[str, str]]
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
        self._read.add((type(part).__name__, name))
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
    every = dataclasses_of(module)
    return [
        each
        for each in every
        if each.__name__ not in ON_THE_WAY and (each in PARTS_TOO or not hasattr(each, "template"))
    ]


def unread(modules: Iterable[ModuleType], read: Read) -> Read:
    """The fields of the parts of some modules that no template read."""
    parts = [part for module in modules for part in parts_shown(module)]
    return {(part.__name__, name) for part in parts for name in names(part)} - read
