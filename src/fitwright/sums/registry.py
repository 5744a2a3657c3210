"""All quick sums by name: every module of `fitwright.sums.each` declares one as `SUM`."""

from __future__ import annotations

from collections.abc import Mapping
from importlib import import_module
from pkgutil import iter_modules
from types import MappingProxyType
from typing import Final

from fitwright.sums import each
from fitwright.sums.declaration import Sum
from fitwright.sums.errors import UnknownSumError


def _found() -> dict[str, Sum]:
    modules = (import_module(f"{each.__name__}.{info.name}") for info in iter_modules(each.__path__))
    return {module.SUM.name: module.SUM for module in modules}


SUMS: Final[Mapping[str, Sum]] = MappingProxyType(dict(sorted(_found().items())))
"""The sums, in order of name."""


def sum_named(name: str) -> Sum:
    """The sum with a name.

    Raises
    ------
    UnknownSumError
        If there is none, with the nearest names.
    """
    if name not in SUMS:
        raise UnknownSumError(name, list(SUMS))
    return SUMS[name]
