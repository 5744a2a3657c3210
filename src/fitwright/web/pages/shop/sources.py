"""Sources of limits in the sheets of all builds: who says so, how many limits rest on each, which fits."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar, Final, NamedTuple

from fitwright.assess.results import State
from fitwright.model.limit import Limit, Source, SourceKind
from fitwright.records.kinds import BuildStarted
from fitwright.web.addresses import fit_address
from fitwright.web.frame import Frame
from fitwright.web.hands import Hands
from fitwright.web.own_units import family_of_build
from fitwright.web.pages.choices import Choice
from fitwright.web.pages.shop.entering import Asking, Link, shop_route
from fitwright.web.pages.shop.ways import shop_frame, shop_ways

NO_LIMIT: Final = "named in the sheet, and no limit rests on it"
ORDER: Final = tuple(SourceKind)


@dataclass(frozen=True, slots=True)
class SourceOfBuild:
    """What rests on a source in one build: how many limits, how many govern, which fits."""

    build: str
    words: str
    fits: tuple[Link, ...]


@dataclass(frozen=True, slots=True)
class SourceLine:
    """One source; two sheets that name the same title and edition name the same source."""

    title: str
    kind: str
    thumb: bool
    edition: str
    note: str
    builds: tuple[SourceOfBuild, ...]


@dataclass(frozen=True, slots=True)
class SourcesContext:
    """The page Sources of limits."""

    template: ClassVar[str] = "shop/sources.html"
    frame: Frame
    ways: tuple[Choice, ...]
    sources: tuple[SourceLine, ...]


class _Found(NamedTuple):
    source: Source
    builds: list[SourceOfBuild]


def _sources(asking: Asking) -> SourcesContext:
    found: dict[tuple[str, str | None, SourceKind], _Found] = {}
    for code, started in asking.hands.shop.builds().items():
        for source in asking.hands.shop.bench(code).sheet.sources.values():
            key = (source.title, source.edition, source.kind)
            held = found.setdefault(key, _Found(source, []))
            held.builds.append(_of_build(asking.hands, code, started, source))
    lines = sorted(found.values(), key=lambda each: ORDER.index(each.source.kind))
    return SourcesContext(
        frame=shop_frame(asking.hands, "Sources of limits"),
        ways=shop_ways("Sources"),
        sources=tuple(_line(each) for each in lines),
    )


def _line(found: _Found) -> SourceLine:
    source = found.source
    return SourceLine(
        title=source.title,
        kind=source.kind.value,
        thumb=source.kind is SourceKind.RULE_OF_THUMB,
        edition=source.edition or "no edition named",
        note=source.note or "",
        builds=tuple(found.builds),
    )


def _of_build(hands: Hands, code: str, started: BuildStarted, source: Source) -> SourceOfBuild:
    """Limits that the sheet takes from a source, and those that somebody adopted from it."""
    bench, family = hands.shop.bench(code), family_of_build(hands, code)
    limited = list(_limited(hands, code))
    own = [
        (name, title) for name, title, limits in limited if any(each.source == source.id for each in limits)
    ]
    number = sum(each.source == source.id for _, _, limits in limited for each in limits)
    verdicts = hands.shop.assessment(code).verdicts.values()
    governing = {
        each.id
        for each in verdicts
        for bound in each.bounds
        if bound.governs and bound.source == source.title
    }
    adopted = {
        name
        for name, held in bench.build.limits_adopted.items()
        if held and held[-1].body.source == source.id
    }
    many = f"{number} {'limit' if number == 1 else 'limits'}"
    words = f"{many}, governing in {len(governing)} of {len(own)} fits" if number else NO_LIMIT
    words += f", adopted by name for {len(adopted)}" if adopted else ""
    links = tuple(Link(title, fit_address(code, name, State.CURRENT, family)) for name, title in own)
    return SourceOfBuild(started.title, words, links)


def _limited(hands: Hands, code: str) -> Iterator[tuple[str, str, tuple[Limit, ...]]]:
    for subject in hands.shop.assessor(code).judge.subjects.values():
        if subject.limits:
            yield subject.id, subject.title, subject.limits


ROUTES = [shop_route("/shop/sources", "sources", _sources, {})]
