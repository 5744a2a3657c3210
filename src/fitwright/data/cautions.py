"""Cautions by kind of work: what can hurt somebody, and who knows better."""

from __future__ import annotations

import tomllib
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from types import MappingProxyType


@dataclass(frozen=True, slots=True)
class Caution:
    """What to look out for in one kind of work; the key is what a step of a sheet names."""

    key: str
    title: str
    words: str


@cache
def cautions() -> Mapping[str, Caution]:
    """All cautions by key, in the order of the work.

    >>> cautions()["springs"].title
    'Springs under load'
    """
    text = files("fitwright.data").joinpath("cautions.toml").read_text(encoding="utf-8")
    rows = tomllib.loads(text).items()
    return MappingProxyType({key: Caution(key, row["title"], row["words"]) for key, row in rows})


def cautions_of(keys: Iterable[str]) -> Iterator[Caution]:
    """The cautions with these keys, each once; a key that nobody knows is passed over.

    >>> [each.key for each in cautions_of(["fuel", "fuel", "magic"])]
    ['fuel']
    """
    known = cautions()
    yield from (known[key] for key in dict.fromkeys(keys) if key in known)
