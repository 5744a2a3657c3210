"""Which entries are shown: by kind, person, place, sitting, words; all of it in the address."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Final

from fitwright.bench.context import Bench
from fitwright.records.projection import ShopState
from fitwright.records.registry import KINDS
from fitwright.records.search import Search
from fitwright.web.numbers import whole_number

PAGE: Final = 50
"""So many entries stand on a page."""
LONGEST: Final = 200
"""Longer words are cut before they are looked for."""


@dataclass(frozen=True, slots=True)
class FilterOption:
    """Something to choose."""

    value: str
    label: str
    chosen: bool


@dataclass(frozen=True, slots=True)
class Filters:
    """The form that narrows the list, filled as it was asked."""

    kinds: tuple[FilterOption, ...]
    people: tuple[FilterOption, ...]
    sittings: tuple[FilterOption, ...]
    things: tuple[FilterOption, ...]
    about: str
    words: str
    after: int
    active: bool


def search_for(asked: Mapping[str, str], build: str | None) -> Search:
    """What an address asks for: one entry more than stands on a page, to know whether there are more.

    `about` names what an entry must be about, word by word: a dimension, a part, and a place of it.
    """
    sitting = asked.get("sitting", "")[:LONGEST]
    about = asked.get("about", "")[:LONGEST].split()
    kind = asked.get("kind", "")
    return Search(
        build=build,
        kinds=(kind,) if kind in KINDS else (),
        person=asked.get("person", "")[:LONGEST] or None,
        names=tuple(each for each in (*about, sitting) if each),
        words=asked.get("words", "")[:LONGEST].strip(),
        after=whole_number(asked.get("after", "")) or 0,
        before=whole_number(asked.get("before", "")),
        limit=PAGE + 1,
    )


def filters(
    asked: Mapping[str, str], search: Search, shop: ShopState, bench: Bench | None, counts: Mapping[str, int]
) -> Filters:
    """The form, with what there is to choose from."""
    kinds = counts or dict.fromkeys(sorted(KINDS), 0)
    return Filters(
        kinds=_options(
            ((kind, f"{kind} ({number})" if number else kind) for kind, number in kinds.items()),
            asked.get("kind", ""),
        ),
        people=_options(
            ((code, held.body.name) for code, held in shop.people.items()), asked.get("person", "")
        ),
        sittings=sitting_options(bench, asked.get("sitting", "")) if bench is not None else (),
        things=tuple(_things(bench)) if bench is not None else (),
        about=asked.get("about", ""),
        words=search.words,
        after=search.after,
        active=bool(search.kinds or search.person or search.names or search.words or search.after),
    )


def sitting_options(bench: Bench, chosen: str) -> tuple[FilterOption, ...]:
    """The sittings of a build to choose from."""
    held = bench.build.sittings.items()
    return _options(((code, ": ".join(filter(None, (code, each.body.words)))) for code, each in held), chosen)


def _options(pairs: Iterable[tuple[str, str]], chosen: str) -> tuple[FilterOption, ...]:
    return tuple(FilterOption(value, label, value == chosen) for value, label in pairs)


def _things(bench: Bench) -> Iterable[FilterOption]:
    for things in (bench.sheet.dimensions, bench.sheet.fits, bench.sheet.parts):
        for each in things.values():
            yield FilterOption(each.id, each.title, chosen=False)
