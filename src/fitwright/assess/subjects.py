"""What is judged: every fit with limits, and every dimension with limits of its own."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from fitwright.model.dimension import Dimension, Judged, Sense
from fitwright.model.fit import ChainTerm, Fit, FitKind, Route, RouteName
from fitwright.model.limit import Limit, LimitClass
from fitwright.model.sheet import Sheet

SI_UNIT = {
    Sense.DIAMETRAL: "m",
    Sense.RADIAL: "m",
    Sense.AXIAL: "m",
    Sense.LINEAR: "m",
    Sense.ANGULAR: "rad",
    Sense.RATIO: "1",
    Sense.VOLUME: "m3",
    Sense.FORCE: "N",
    Sense.TORQUE: "N m",
    Sense.PRESSURE: "Pa",
    Sense.STIFFNESS: "N/m",
    Sense.MASS: "kg",
    Sense.FLOW: "m3/s",
}
"""The SI unit in which a size of each sense is kept."""


@dataclass(frozen=True, slots=True)
class Subject:
    """A limited fit or dimension, seen alike: an id, routes, limits."""

    id: str
    kind: str
    title: str
    fit_kind: FitKind | None
    sense: Sense
    station: str | None
    limits: tuple[Limit, ...]
    limit_class: LimitClass
    judged: Judged
    routes: tuple[Route, ...]
    governing_route: RouteName | None
    removes_metal: bool
    fit: Fit | None
    dimension: Dimension | None

    @property
    def unit(self) -> str:
        """The SI unit of its value."""
        return SI_UNIT[self.sense]

    @property
    def governing(self) -> Route | None:
        """The route that governs; the first where none is named, none where the fit has no routes."""
        named = (each for each in self.routes if each.name is self.governing_route)
        return next(named, next(iter(self.routes), None))

    def dimensions(self) -> tuple[str, ...]:
        """Ids of all dimensions that it rests on, each once, in the order of its routes."""
        found = [term.dimension for route in self.routes for term in route.chain]
        if self.fit is not None:
            found.extend(_special_dimensions(self.fit))
        return tuple(dict.fromkeys(found))


def _special_dimensions(fit: Fit) -> Iterator[str]:
    if fit.compression is not None:
        members = fit.compression
        names = (
            members.bore,
            members.stroke,
            members.chamber_volume,
            members.gasket_bore,
            members.gasket_thickness,
            members.deck,
            members.dish_volume,
            members.crevice_volume,
        )
        yield from (name for name in names if name is not None)
    if fit.centring is not None:
        yield fit.centring.gaps
        if fit.centring.face_heights is not None:  # a condition of the move, not of the offset
            yield fit.centring.face_heights
    if fit.form_of is not None:
        yield fit.form_of


def subjects_of(sheet: Sheet) -> dict[str, Subject]:
    """Every fit of the sheet and every dimension with limits, by id, in the order of the sheet.

    A fit without limits is computed and shown; it cannot be judged.
    """
    found = {fit.id: _of_fit(fit) for fit in sheet.fits.values()}
    found.update((each.id, _of_dimension(each)) for each in sheet.dimensions.values() if each.limits)
    return found


def _of_fit(fit: Fit) -> Subject:
    return Subject(
        id=fit.id,
        kind="fit",
        title=fit.title,
        fit_kind=fit.kind,
        sense=fit.sense,
        station=fit.station,
        limits=fit.limits,
        limit_class=fit.limit_class,
        judged=fit.judged,
        routes=fit.routes,
        governing_route=fit.governing_route,
        removes_metal=fit.removes_metal,
        fit=fit,
        dimension=None,
    )


def _of_dimension(dimension: Dimension) -> Subject:
    direct = Route(RouteName.FITTED, (ChainTerm(1.0, dimension.id),))
    return Subject(
        id=dimension.id,
        kind="dimension",
        title=dimension.title,
        fit_kind=None,
        sense=dimension.sense,
        station=dimension.station,
        limits=dimension.limits,
        limit_class=dimension.limit_class,
        judged=dimension.judged,
        routes=(direct,),
        governing_route=RouteName.FITTED,
        removes_metal=False,
        fit=None,
        dimension=dimension,
    )


def same_fit(subjects: Mapping[str, Subject], sheet: Sheet) -> dict[str, frozenset[str]]:
    """For each dimension, all dimensions (and their features) that make up the same fits."""
    found: dict[str, set[str]] = {name: set() for name in sheet.dimensions}
    for subject in subjects.values():
        names = subject.dimensions()
        features = {sheet.dimensions[name].feature for name in names}
        for name in names:
            found[name] |= {*names, *features}
    return {name: frozenset(related) for name, related in found.items()}
