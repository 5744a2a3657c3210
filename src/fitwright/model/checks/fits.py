"""Fits of a sheet: each has a way to its value, and its chains add only what can be added."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from fitwright.model.checks.references import ROUTE_KEYS
from fitwright.model.dimension import Dimension, Sense
from fitwright.model.fit import ChainTerm, Fit, FitKind, Route
from fitwright.model.problem import Path, Problem
from fitwright.model.sheet import Sheet

LENGTHS = frozenset({Sense.DIAMETRAL, Sense.RADIAL, Sense.AXIAL, Sense.LINEAR})
_FORM_KINDS = (FitKind.TAPER, FitKind.OUT_OF_ROUND)
_SPECIAL: Mapping[FitKind, str] = {
    FitKind.RATIO: "compression",
    FitKind.CENTRING: "centring",
    FitKind.TAPER: "form_of",
    FitKind.OUT_OF_ROUND: "form_of",
}
_GAP_WORDS = frozenset({"top", "right", "bottom", "left"})


def check_fits(sheet: Sheet) -> Iterator[Problem]:
    """Problems of all fits."""
    for fit in sheet.fits.values():
        path: Path = ("fits", fit.id)
        if fit.id in sheet.dimensions:
            yield Problem(
                path, f'"{fit.id}" is a dimension too', "give the fit an id of its own", at_key=True
            )
        yield from _check_way(fit, path)
        yield from _check_routes(fit, path)
        for route in fit.routes:
            yield from _check_chain(fit, route, sheet.dimensions, (*path, ROUTE_KEYS[route.name]))
        yield from _check_members(fit, sheet, path)


def _check_way(fit: Fit, path: Path) -> Iterator[Problem]:
    """A fit is computed by its routes, or by what its kind needs instead."""
    special = _SPECIAL.get(fit.kind)
    if special is None and not fit.routes:
        mend = "write by_parts or fitted as a chain of dimensions"
        yield Problem(path, f"no way to this {fit.kind.value}", mend)
    if special is not None and not fit.routes and getattr(fit, special) is None:
        yield Problem(path, f"a {fit.kind.value} without {special}", f"write {special} = ...")
    if special is not None and fit.routes and getattr(fit, special) is not None:
        what = f"{special} and a chain are both given"
        yield Problem((*path, special), what, "write one of them")
    for name in ("compression", "centring", "form_of"):
        if getattr(fit, name) is not None and name != special:
            kinds = " or ".join(kind.value for kind, key in _SPECIAL.items() if key == name)
            yield Problem((*path, name), f"{name} for the kind {fit.kind.value}", f"kinds for it: {kinds}")
    if fit.press is not None and fit.kind is not FitKind.INTERFERENCE:
        yield Problem((*path, "press"), f"press for the kind {fit.kind.value}", 'write kind = "interference"')


def _check_routes(fit: Fit, path: Path) -> Iterator[Problem]:
    names = [route.name for route in fit.routes]
    if len(names) == 2 and fit.governing_route is None:
        mend = 'write governing_route = "fitted" or "by parts"'
        yield Problem(path, "two routes, and nothing says which governs", mend)
    elif fit.governing_route is not None and fit.governing_route not in names:
        what = f'the governing route "{fit.governing_route.value}" is not given'
        key = ROUTE_KEYS[fit.governing_route]
        yield Problem((*path, "governing_route"), what, f"write {key} = ... or name the other route")


def _check_chain(
    fit: Fit, route: Route, dimensions: Mapping[str, Dimension], path: Path
) -> Iterator[Problem]:
    members = [(term, dimensions[term.dimension]) for term in route.chain if term.dimension in dimensions]
    for term, dimension in members:
        yield from _check_term(fit, dimension, abs(term.coefficient), path)
    if fit.sense is Sense.DIAMETRAL and len(members) == len(route.chain):
        radial = [term for term, dimension in members if dimension.sense is Sense.RADIAL]
        for sign in (1.0, -1.0):
            yield from _check_both_sides([term for term in radial if term.coefficient * sign > 0.0], path)


def _check_both_sides(terms: list[ChainTerm], path: Path) -> Iterator[Problem]:
    """A radial size counts on both sides of a diameter: twice, or beside its opposite."""
    if sum(abs(term.coefficient) for term in terms) % 2.0 == 0.0:
        return
    name = next(term.dimension for term in terms if abs(term.coefficient) % 2.0 != 0.0)
    what = f"{name} is radial and the fit diametral, so it counts on both sides"
    yield Problem(path, what, f"write 2 * {name}, or name its opposite too")


def _check_term(fit: Fit, dimension: Dimension, factor: float, path: Path) -> Iterator[Problem]:
    name = dimension.id
    if not _can_be_added(fit.sense, dimension.sense):
        what = f"{name} is stated as {dimension.sense.value} and the fit as {fit.sense.value}"
        yield Problem(path, what, "write dimensions of one kind of amount only")
    elif (fit.sense, dimension.sense) == (Sense.RADIAL, Sense.DIAMETRAL) and factor != 0.5:
        what = f"{name} is diametral and the fit radial, so half of it counts"
        yield Problem(path, what, f"write 0.5 * {name}")


def _can_be_added(fit: Sense, dimension: Sense) -> bool:
    return fit is dimension or {fit, dimension} <= LENGTHS


def _check_members(fit: Fit, sheet: Sheet, path: Path) -> Iterator[Problem]:
    yield from _check_compression(fit, sheet, path)
    yield from _check_centring(fit, sheet, path)
    if fit.form_of is not None and (dimension := sheet.dimensions.get(fit.form_of)) is not None:
        yield from _check_form(fit, dimension, path)
    if fit.press is not None and fit.press.shaft_inner_diameter >= fit.press.hub_outer_diameter:
        what = "the bore of the shaft is not below the outside of the hub"
        yield Problem((*path, "press", "shaft_inner_diameter"), what, "write the smaller one here")


def _check_compression(fit: Fit, sheet: Sheet, path: Path) -> Iterator[Problem]:
    if fit.compression is None:
        return
    for name in type(fit.compression).__dataclass_fields__:
        dimension = sheet.dimensions.get(getattr(fit.compression, name) or "")
        if dimension is None:
            continue
        wanted = {Sense.VOLUME} if name.endswith("volume") else LENGTHS
        if name.endswith("bore"):
            wanted = {Sense.DIAMETRAL}
        if dimension.sense not in wanted:
            accepted = " or ".join(sorted(sense.value for sense in wanted))
            what = f"{dimension.id} is stated as {dimension.sense.value}"
            yield Problem((*path, "compression", name), what, f"write a dimension stated as {accepted}")


def _check_form(fit: Fit, dimension: Dimension, path: Path) -> Iterator[Problem]:
    where = (*path, "form_of")
    if len(dimension.places) < 2:
        yield Problem(where, f"{dimension.id} is taken in one place only", "give it planes or angles")
    elif fit.kind is FitKind.TAPER and len({place.plane for place in dimension.places}) < 2:
        yield Problem(where, f"{dimension.id} is taken in one plane only", "give it two planes")
    elif fit.kind is FitKind.OUT_OF_ROUND and len({place.angle for place in dimension.places}) < 2:
        yield Problem(where, f"{dimension.id} is taken at one angle only", "give it two angles")


def _check_centring(fit: Fit, sheet: Sheet, path: Path) -> Iterator[Problem]:
    if fit.centring is None:
        return
    where = (*path, "centring", "gaps")
    gaps = sheet.dimensions.get(fit.centring.gaps)
    if gaps is None:
        return
    if gaps.sense not in LENGTHS:
        yield Problem(where, f"{gaps.id} is stated as {gaps.sense.value}", "write a dimension of gaps")
    wrong = [place.id for place in gaps.places if not _is_gap_place(place.id)]
    if wrong:
        mend = 'write its places as "top@0": the gap, then the crank angle in degrees'
        yield Problem(where, f'the place "{wrong[0]}" of {gaps.id} says no gap and crank angle', mend)
    elif len({place.id.partition("@")[0] for place in gaps.places}) < 3:
        mend = "give gaps at three angles or more"
        yield Problem(where, f"{gaps.id} has gaps at fewer than three angles", mend)


def _is_gap_place(name: str) -> bool:
    gap, mark, crank = name.partition("@")
    return bool(mark) and (gap in _GAP_WORDS or _is_number(gap)) and _is_number(crank)


def _is_number(text: str) -> bool:
    whole, _, decimals = text.removeprefix("-").partition(".")
    return whole.isdecimal() and (not decimals or decimals.isdecimal())
