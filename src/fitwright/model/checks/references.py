"""References of a sheet: every name that one entry gives of another must lead to it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from fitwright.model.dimension import Dimension
from fitwright.model.fit import Fit, RouteName
from fitwright.model.limit import Limit
from fitwright.model.problem import Path, Problem, meant
from fitwright.model.sheet import Sheet

ROUTE_KEYS: Mapping[RouteName, str] = {RouteName.BY_PARTS: "by_parts", RouteName.FITTED: "fitted"}
"""The keys of the sheet format that give the routes."""

_NOUNS = {
    "sources": "source",
    "materials": "material",
    "parts": "part",
    "conditions": "condition",
    "temperature_cases": "temperature case",
    "dimensions": "dimension",
    "fits": "fit",
    "stations": "station",
}
Reference = tuple[Path, str, str | None]
"""Path of the reference, section that it leads to, name given (None: not given)."""


def check_references(sheet: Sheet, also_known: Mapping[str, frozenset[str]]) -> Iterator[Problem]:
    """Problems of references that lead nowhere, with what was probably meant."""
    known = {section: {*getattr(sheet, section), *also_known.get(section, ())} for section in _NOUNS}
    for path, section, name in _references(sheet):
        if name is not None and name not in known[section]:
            accepted = _accepted(name, section, known[section])
            yield Problem(path, f'there is no {_NOUNS[section]} "{name}"', accepted)
    yield from _check_through(sheet, known["parts"] | known["dimensions"])


def _accepted(name: str, section: str, known: set[str]) -> str:
    guess = meant(name, known)
    if guess:
        return guess
    if not known:
        return f"add it under [{section}]"
    return f"write one of the {len(known)} ids under [{section}], or add it"


def _references(sheet: Sheet) -> Iterator[Reference]:
    for part in sheet.parts.values():
        yield ("parts", part.id, "material"), "materials", part.material
    for case in sheet.temperature_cases.values():
        for part_id in case.parts:
            yield ("temperature_cases", case.id, "parts", part_id), "parts", part_id
    for dimension in sheet.dimensions.values():
        yield from _of_dimension(dimension)
    for fit in sheet.fits.values():
        yield from _of_fit(fit)
    for station in sheet.stations.values():
        for name in station.order:
            yield ("stations", station.id, "order"), "dimensions", name


def _of_dimension(dimension: Dimension) -> Iterator[Reference]:
    path: Path = ("dimensions", dimension.id)
    yield (*path, "part"), "parts", dimension.part
    yield (*path, "condition"), "conditions", dimension.condition
    yield (*path, "station"), "stations", dimension.station
    yield from _of_limits(path, dimension.limits)


def _of_limits(path: Path, limits: tuple[Limit, ...]) -> Iterator[Reference]:
    for index, limit in enumerate(limits):
        yield (*path, "limits", index, "source"), "sources", limit.source
        yield (*path, "limits", index, "temperature_case"), "temperature_cases", limit.temperature_case


def _of_fit(fit: Fit) -> Iterator[Reference]:
    path: Path = ("fits", fit.id)
    yield (*path, "station"), "stations", fit.station
    yield from _of_limits(path, fit.limits)
    for route in fit.routes:
        for term in route.chain:
            yield (*path, ROUTE_KEYS[route.name]), "dimensions", term.dimension
    for index, grown in enumerate(fit.growth):
        yield (*path, "growth", index), "parts", grown.part
    yield (*path, "form_of"), "dimensions", fit.form_of
    yield from _of_special_members(fit, path)


def _of_special_members(fit: Fit, path: Path) -> Iterator[Reference]:
    if fit.compression is not None:
        for name in type(fit.compression).__dataclass_fields__:
            yield (*path, "compression", name), "dimensions", getattr(fit.compression, name)
    if fit.press is not None:
        yield (*path, "press", "hub"), "parts", fit.press.hub
        yield (*path, "press", "shaft"), "parts", fit.press.shaft
    if fit.centring is not None:
        yield (*path, "centring", "gaps"), "dimensions", fit.centring.gaps
        yield (*path, "centring", "clearance"), "fits", fit.centring.clearance
        yield (*path, "centring", "face_heights"), "dimensions", fit.centring.face_heights


def _check_through(sheet: Sheet, known: set[str]) -> Iterator[Problem]:
    """What a dimension is taken through is a part, or a dimension that lies on one part."""
    for dimension in sheet.dimensions.values():
        path = ("dimensions", dimension.id, "through")
        for name in dimension.through:
            other = sheet.dimensions.get(name)
            if name in sheet.parts and other is not None:
                yield Problem(path, f'"{name}" is a part and a dimension', "give one of them another id")
            elif other is not None and other.part is None:
                mend = "write the parts that it is taken through"
                yield Problem(path, f'"{name}" itself lies on no single part', mend)
            elif name not in known:
                mend = meant(name, known) or "write ids under [parts] or [dimensions]"
                yield Problem(path, f'there is no part or dimension "{name}"', mend)
