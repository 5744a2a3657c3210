"""From the model back to the plain values of a sheet file: one table for each entry."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Any, Final

from fitwright.formats.sheet.exact import exact
from fitwright.formats.sheet.measured import feature_in
from fitwright.formats.sheet.plain_circuit import PLAIN_OIL, plain_circuit
from fitwright.formats.sheet.plain_work import PLAIN_WORK
from fitwright.formats.sheet.sections import CIRCUIT, entries_of
from fitwright.model.amount import Written
from fitwright.model.chain import write_chain
from fitwright.model.checks.references import ROUTE_KEYS
from fitwright.model.dimension import WHOLE, Condition, Dimension, Judged
from fitwright.model.engine import Engine
from fitwright.model.fit import CentringSpec, Fit, GrowthTerm, PressFit
from fitwright.model.limit import AppliesTo, Limit, LimitClass, Source
from fitwright.model.part import Material, Part, TemperatureCase
from fitwright.model.sheet import Sheet
from fitwright.model.station import Station

PlainTable = dict[str, Any]


def plain_engine(engine: Engine) -> PlainTable:
    """The table [engine] with those below it."""
    fields = type(engine.layout).__dataclass_fields__
    layout = _given({name: _amount(getattr(engine.layout, name)) for name in fields})
    return {
        **_given(
            {
                "id": engine.id,
                "name": engine.name,
                "revision": engine.revision,
                "units": engine.unit_family,
                "duty": engine.duty,
                "aspiration": engine.aspiration,
                "cooling": engine.cooling,
                "piston": engine.piston,
                "note": engine.note,
            }
        ),
        "layout": layout,
        "directions": {name: getattr(engine.directions, name) for name in ("top", "right", "bottom", "left")},
        "facts": dict(engine.facts),
    }


def plain_singles(sheet: Sheet) -> dict[str, PlainTable]:
    """The tables that stand in a sheet once, by their heading."""
    singles = {"engine": plain_engine(sheet.engine)}
    if sheet.circuit is not None:
        singles[CIRCUIT] = _given(plain_circuit(sheet.circuit))
    return singles


def _amount(value: Any) -> Any:  # noqa: ANN401 - a field of the layout
    return value.written if isinstance(value, Written) else value


def _given(table: PlainTable) -> PlainTable:
    """Without what is not given."""
    return {key: value for key, value in table.items() if value is not None and value not in ("", [], {})}


def _source(source: Source) -> PlainTable:
    return {
        "title": source.title,
        "kind": source.kind.value,
        "edition": source.edition,
        "note": source.note,
    }


def _material(material: Material) -> PlainTable:
    modulus = material.youngs_modulus
    return {
        "title": material.title,
        "expansion": exact(material.expansion, "ppm/K", "/K"),
        "expansion_uncertainty": exact(material.expansion_uncertainty, "ppm/K", "/K"),
        "youngs_modulus": None if modulus is None else exact(modulus, "GPa", "Pa"),
        "poisson_ratio": material.poisson_ratio,
        "source": material.source,
    }


def _part(part: Part) -> PlainTable:
    return {
        "title": part.title,
        "material": part.material,
        "one_time_use": part.one_time_use or None,
        "note": part.note,
    }


def _condition(condition: Condition) -> PlainTable:
    return {"title": condition.title, "kind": condition.kind, "lubricant": condition.lubricant}


def _temperature_case(case: TemperatureCase) -> PlainTable:
    return {
        "title": case.title,
        "default": exact(case.default, "degC", "K"),
        "standard_uncertainty": exact(case.standard_uncertainty, "K"),
        "parts": {part: exact(temperature, "degC", "K") for part, temperature in case.parts.items()},
    }


def _limit(limit: Limit) -> PlainTable:
    return _given(
        {
            "source": limit.source,
            "at": limit.place_in_source,
            "lower": limit.lower and limit.lower.written,
            "upper": limit.upper and limit.upper.written,
            "governs": limit.governs or None,
            "applies_to": None if limit.applies_to is AppliesTo.NEW else limit.applies_to.value,
            "temperature_case": limit.temperature_case,
            "depends_on": limit.depends_on,
            "note": limit.note,
        }
    )


def _dimension(dimension: Dimension) -> PlainTable:
    by_default = feature_in(dimension.id, dimension.part)
    return {
        "title": dimension.title,
        "part": dimension.part,
        "through": list(dimension.through),
        "feature": None if dimension.feature == by_default else dimension.feature,
        "sense": dimension.sense.value,
        "nominal": dimension.nominal and dimension.nominal.written,
        "plausible": [bound.written for bound in dimension.plausible or ()],
        **_places(dimension),
        "condition": dimension.condition,
        "instrument": list(dimension.instruments),
        "station": dimension.station,
        "class": None if dimension.limit_class is LimitClass.NORMAL else dimension.limit_class.value,
        "judged": None if dimension.judged is Judged.WORST else dimension.judged.value,
        "note": dimension.note,
        "limits": [_limit(limit) for limit in dimension.limits],
    }


def _places(dimension: Dimension) -> dict[str, list[str]]:
    """Planes and angles where the places are their product, in that order; else the names."""
    places = dimension.places
    planes = list(dict.fromkeys(place.plane for place in places if place.plane is not None))
    angles = list(dict.fromkeys(place.angle for place in places if place.angle is not None))
    if places == (WHOLE,):
        return {}
    if planes or angles:
        return {"planes": planes, "angles": angles}
    return {"places": [place.id for place in places]}


def _fit(fit: Fit) -> PlainTable:
    governing = fit.governing_route if len(fit.routes) > 1 else None
    return {
        "title": fit.title,
        "kind": fit.kind.value,
        "sense": fit.sense.value,
        "class": None if fit.limit_class is LimitClass.NORMAL else fit.limit_class.value,
        "station": fit.station,
        **{ROUTE_KEYS[route.name]: write_chain(route.chain) for route in fit.routes},
        "governing_route": governing and governing.value,
        "judged": None if fit.judged is Judged.WORST else fit.judged.value,
        "growth": [_growth(term) for term in fit.growth],
        "compression": fit.compression and _members(fit.compression),
        "press": fit.press and _press(fit.press),
        "centring": fit.centring and _centring(fit.centring),
        "form_of": fit.form_of,
        "removes_metal": fit.removes_metal or None,
        "note": fit.note,
        "limits": [_limit(limit) for limit in fit.limits],
    }


def _members(members: Any) -> PlainTable:  # noqa: ANN401 - either dataclass of ids
    return _given({name: getattr(members, name) for name in type(members).__dataclass_fields__})


def _growth(term: GrowthTerm) -> str:
    return f"{'+' if term.coefficient > 0 else '-'} {exact(term.length, 'mm', 'm')} {term.part}"


def _press(press: PressFit) -> PlainTable:
    lengths = ("hub_outer_diameter", "shaft_inner_diameter", "length")
    table = _members(press)
    for name in table.keys() & {*lengths, "hub_yield", "shaft_yield"}:
        table[name] = exact(table[name], *(("mm", "m") if name in lengths else ("MPa", "Pa")))
    return table


def _centring(centring: CentringSpec) -> PlainTable:
    table = _members(centring)
    if centring.face_positions:
        table["face_positions"] = {place: exact(x, "mm", "m") for place, x in centring.face_positions.items()}
    else:
        table.pop("face_positions", None)
    if centring.face_step is not None:
        table["face_step"] = exact(centring.face_step, "mm", "m")
    return table


def _station(station: Station, sheet: Sheet) -> PlainTable:
    by_default = tuple(each.id for each in sheet.dimensions.values() if each.station == station.id)
    return {
        "title": station.title,
        "order": [] if station.order == by_default else list(station.order),
        "caution": station.caution,
        "eye_checks": [
            {"id": check.id, "question": check.question, **({} if check.wanted else {"wanted": False})}
            for check in station.eye_checks
        ],
    }


_PLAIN: Final[Mapping[str, Callable[[Any], PlainTable]]] = MappingProxyType(
    {
        "sources": _source,
        "materials": _material,
        "parts": _part,
        "conditions": _condition,
        "temperature_cases": _temperature_case,
        "dimensions": _dimension,
        "fits": _fit,
    }
)


def plain_sections(sheet: Sheet) -> dict[str, dict[str, PlainTable]]:
    """All sections of a sheet, entry by entry, families expanded."""
    sections = {
        section: {name: _given(plain(entry)) for name, entry in getattr(sheet, section).items()}
        for section, plain in _PLAIN.items()
    }
    sections["stations"] = {
        name: _given(_station(station, sheet)) for name, station in sheet.stations.items()
    }
    for section, plain in (*PLAIN_OIL.items(), *PLAIN_WORK.items()):
        entries = entries_of(sheet, section)
        sections[section] = {name: _given(plain(entry)) for name, entry in entries.items()}
    return sections
