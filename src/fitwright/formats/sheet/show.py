"""An engine sheet as text to read: the engine, counts, fits with their limits and sources, stations."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import TypeAlias

from fitwright.formats.sheet.show_oil import circuit_lines, oil_lines
from fitwright.formats.sheet.show_work import consumable_lines, group_lines, step_lines
from fitwright.model.chain import write_chain
from fitwright.model.dimension import Dimension
from fitwright.model.engine import Engine
from fitwright.model.fit import Fit
from fitwright.model.governing import RuledLimit, rule_limits
from fitwright.model.limit import AppliesTo, Limit, LimitClass, Source, SourceKind
from fitwright.model.sheet import Sheet
from fitwright.model.station import Station

Subject: TypeAlias = Fit | Dimension


def sheet_text(sheet: Sheet) -> str:
    """The whole sheet as plain text; a family is shown once, by its braces."""
    lines = [*_engine(sheet.engine), "", _counts(sheet), "", "Sources", *_sources(sheet.sources.values())]
    for station in sheet.stations.values():
        lines += ["", *_station(station, sheet)]
    elsewhere = list(_subjects(sheet, None))
    if elsewhere:
        lines += ["", "Without a station", *elsewhere]
    if sheet.oils:
        lines += ["", "Oils", *oil_lines(sheet)]
    if sheet.circuit is not None:
        lines += ["", "Oil circuit", *circuit_lines(sheet.circuit)]
    for title, entries, shown in (
        ("Consumables", sheet.consumables, consumable_lines),
        ("Tightening groups", sheet.tightening_groups, group_lines),
        ("Order of work", sheet.steps, step_lines),
    ):
        if entries:
            lines += ["", title, *shown(sheet)]
    return "\n".join(lines) + "\n"


def _engine(engine: Engine) -> Iterator[str]:
    layout = engine.layout
    yield f"{engine.name}, revision {engine.revision}"
    words = (engine.duty, engine.aspiration, engine.cooling and f"{engine.cooling} cooled")
    if any(words):
        yield "  " + ", ".join(word for word in words if word)
    yield f"  {layout.arrangement}, {_count(layout.cylinders, 'cylinder')}, {_count(layout.mains, 'main')}"
    sizes = (("bore", layout.bore), ("stroke", layout.stroke), ("rod", layout.rod_length))
    given = [f"{name} {size.written}" for name, size in sizes if size is not None]
    if layout.firing_order is not None:
        given.append(f"firing order {layout.firing_order}")
    if given:
        yield "  " + ", ".join(given)
    for name, words_of_fact in engine.facts.items():
        yield f"  {name}: {words_of_fact}"


def _counts(sheet: Sheet) -> str:
    subjects: list[Subject] = [*sheet.fits.values(), *sheet.dimensions.values()]
    limited = sum(bool(subject.limits) for subject in subjects)
    critical = sum(subject.limit_class is LimitClass.CRITICAL for subject in subjects)
    counts = (
        _count(len(sheet.parts), "part"),
        _count(len(sheet.dimensions), "dimension"),
        _count(len(sheet.fits), "fit"),
        f"{limited} of these with limits",
        f"{critical} critical",
        _count(len(sheet.temperature_cases), "temperature case"),
        _count(len(sheet.stations), "station"),
    )
    return ", ".join(counts)


def _count(number: int, noun: str) -> str:
    return f"{number} {noun}" if number == 1 else f"{number} {noun}s"


def _sources(sources: Iterable[Source]) -> Iterator[str]:
    for source in sources:
        edition = f", {source.edition}" if source.edition is not None else ""
        yield f"  {source.id}: {source.title}{edition} ({source.kind.value})"


def _station(station: Station, sheet: Sheet) -> Iterator[str]:
    yield station.title
    if station.caution is not None:
        yield f"  Caution: {station.caution}"
    measured = dict.fromkeys(_name(sheet.dimensions[name]) for name in station.order)
    if measured:
        yield f"  measured in this order: {', '.join(measured)}"
    yield from _subjects(sheet, station.id)
    for check in station.eye_checks:
        yield f"  eye check: {check.question} ({'yes' if check.wanted else 'no'} is wanted)"


def _name(subject: Subject) -> str:
    return subject.family or subject.id


def _subjects(sheet: Sheet, station: str | None) -> Iterator[str]:
    """Fits of a station, then its limited dimensions; a family once."""
    fits: dict[str, Subject] = {_name(each): each for each in sheet.fits.values() if each.station == station}
    dimensions: dict[str, Subject] = {
        _name(each): each for each in sheet.dimensions.values() if each.station == station and each.limits
    }
    for name, subject in [*fits.items(), *dimensions.items()]:
        yield f"  {name}: {', '.join(_words(subject))}"
        yield from (f"    {line}" for line in _limits(subject, sheet.sources))


def _words(subject: Subject) -> Iterator[str]:
    yield subject.kind.value if isinstance(subject, Fit) else "size"
    if not isinstance(subject, Fit) or subject.sense.value != subject.kind.value:
        yield subject.sense.value
    if subject.limit_class is LimitClass.CRITICAL:
        yield "critical"
    if isinstance(subject, Fit) and subject.family is None:
        yield from (f"{route.name.value} = {write_chain(route.chain)}" for route in subject.routes)


def _limits(subject: Subject, sources: Mapping[str, Source]) -> Iterator[str]:
    if not subject.limits:
        yield "no limit: shown, not judged"
        return
    ruled = rule_limits(subject.limits, subject.limit_class, sources)
    for each in ruled:
        yield f"{_bounds(each.limit)}: {', '.join(_about(each, sources[each.limit.source]))}"
    if not any(each.governs for each in ruled):
        yield "nothing governs until a named person adopts a limit"


def _bounds(limit: Limit) -> str:
    if limit.lower is None:
        return f"at most {limit.upper.written}" if limit.upper is not None else "no bound"
    if limit.upper is None:
        return f"at least {limit.lower.written}"
    return f"{limit.lower.written} to {limit.upper.written}"


def _about(ruled: RuledLimit, source: Source) -> Iterator[str]:
    limit = ruled.limit
    yield source.id if limit.place_in_source is None else f"{source.id} {limit.place_in_source}"
    if limit.applies_to is AppliesTo.USED:
        yield "for used parts"
    if limit.temperature_case is not None:
        yield f"at {limit.temperature_case}"
    if source.kind is SourceKind.RULE_OF_THUMB:
        depends = f", depends on {limit.depends_on}" if limit.depends_on is not None else ""
        yield f"a rule of thumb{depends}"
    elif ruled.governs:
        yield "governs"
