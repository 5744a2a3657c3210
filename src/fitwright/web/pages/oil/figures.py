"""All figures of the operating point that is looked at, and the pressures at all points, as tables."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from fitwright.assess.oil.results import (
    Band,
    BearingState,
    FilmState,
    PointState,
    Prediction,
    PumpState,
)
from fitwright.drawing.charts.flow_budget import taken_at
from fitwright.units.families import Family
from fitwright.web.pages.oil.asked import CHOSEN, OilQuestion
from fitwright.web.pages.oil.telling import FigureLine, FigureTable, Teller


@dataclass(frozen=True, slots=True)
class Held:
    """What is shown, what it is held against, and what that is called; `base` is None against nothing."""

    shown: Prediction
    base: Prediction | None
    against: str


def tables(question: OilQuestion, held: Held, *, waits: bool) -> tuple[FigureTable, ...]:
    """The tables of the page, in their order."""
    teller = Teller(question.family, waits)
    point = held.shown.points[question.row]
    base = held.base.points[question.row] if held.base is not None else None
    found = [
        _pressures(question, held, teller),
        _budget(point, base, held, teller),
        _films(point, base, held, teller),
        *_pumps(point, base, held, teller),
    ]
    return tuple(each for each in found if each.lines)


def headline(question: OilQuestion, held: Held, *, waits: bool) -> FigureLine:
    """The pressure at the gauge at the point that is looked at."""
    teller = Teller(question.family, waits)
    point = held.shown.points[question.row]
    base = held.base.points[question.row].gauge_pressure if held.base is not None else None
    return teller.pressure(
        f"{point.title[:1].upper()}{point.title[1:]}",
        point.gauge_pressure,
        base,
        where(point, question.family),
    )


def where(point: PointState, family: Family) -> str:
    """Speed and oil temperature of a point, in words."""
    reader = Teller(family).reader
    return f"{reader.speed(point.angular_speed)}, oil {reader.temperature(point.oil_temperature)}"


def _pressures(question: OilQuestion, held: Held, teller: Teller) -> FigureTable:
    lines = []
    slugs = (*question.slugs, *(CHOSEN for _ in question.also))
    for row, point in enumerate(held.shown.points[: len(slugs)]):
        base = held.base.points[row].gauge_pressure if held.base is not None else None
        line = teller.pressure(
            point.title,
            point.gauge_pressure,
            base,
            where(point, question.family),
            question.address(at=slugs[row]),
        )
        lines.append(replace(line, chosen=row == question.row))
    note = "Best estimate, and where 95 % of the engines lie that agree with the readings."
    return _table("pressures", "Pressure at the gauge", note, "Operating point", held, lines)


def _budget(point: PointState, base: PointState | None, held: Held, teller: Teller) -> FigureTable:
    before = {each.title: each.flow for each in taken_at(base)} if base is not None else {}
    shares = {each.group: each.share for each in point.budget}
    lines = [
        teller.flow(each.title, each.flow, before.get(each.title), _share(shares.get(each.title)))
        for each in taken_at(point)
    ]
    return _table("flows", "Where the oil goes", _where(point, teller), "Group", held, lines)


def _share(share: float | None) -> str:
    return f"{100.0 * share:.0f} % of what the pump delivers" if share is not None else ""


def _where(point: PointState, teller: Teller) -> str:
    return f"At {where(point, teller.family)}."


def _films(point: PointState, base: PointState | None, held: Held, teller: Teller) -> FigureTable:
    before = {each.id: each for each in base.bearings} if base is not None else {}
    lines = [_film(each, before, teller) for each in point.bearings]
    note = f"At {where(point, teller.family)}, for the load stated: no load or speed limit."
    return _table("films", "Films of the bearings", note, "Bearing", held, lines)


def _film(each: BearingState, before: Mapping[str, BearingState], teller: Teller) -> FigureLine:
    base, note = before.get(each.id), "; ".join(_of_bearing(each, teller))
    if each.state is not FilmState.FILM:
        said = each.state.value
        change = f"was: {_state(base, teller)}" if base is not None and base.state is not each.state else ""
        return FigureLine(each.title, note, said, "", change)
    if base is not None and base.state is not FilmState.FILM:
        return replace(teller.film(each.title, each.film_thickness, None, note), change=f"was: {base.state}")
    return teller.film(each.title, each.film_thickness, base.film_thickness if base else None, note)


def _state(bearing: BearingState, teller: Teller) -> str:
    if bearing.state is FilmState.FILM and bearing.film_thickness.best is not None:
        return teller.reader.film(bearing.film_thickness.best)
    return bearing.state.value


def _of_bearing(each: BearingState, teller: Teller) -> Iterator[str]:
    """What is worth knowing of a bearing besides its film."""
    reader = teller.reader
    if each.feed_pressure.best is not None:
        yield f"fed with {reader.pressure(each.feed_pressure)}"
    if each.feed_margin is not None:
        yield f"least on the way to the pin {reader.pressure(Band(each.feed_margin))}"
    if each.flow.best is not None:
        yield f"takes {reader.flow(each.flow.best)}"
    if each.eccentricity_ratio is not None:
        yield f"eccentricity {each.eccentricity_ratio:.2f}"
    if each.film_temperature is not None:
        yield f"film {reader.temperature(each.film_temperature)}"
    if each.friction_power is not None:
        yield f"friction {each.friction_power:.0f} W"
    if each.starved:
        yield "draws all that its feed passes"


def _pumps(point: PointState, base: PointState | None, held: Held, teller: Teller) -> Iterator[FigureTable]:
    before = {each.id: each for each in base.pumps} if base is not None else {}
    for pump in point.pumps:
        lines = list(_pump(pump, before.get(pump.id), teller))
        yield _table(f"pump-{pump.id}", pump.title, _where(point, teller), "Figure", held, lines, bands=False)


def _pump(pump: PumpState, base: PumpState | None, teller: Teller) -> Iterator[FigureLine]:
    for name, field, note in _PUMP_FLOWS:
        then = getattr(base, field, None)
        yield teller.flow(name, Band(getattr(pump, field)), Band(then) if base is not None else None, note)
    reserve, filled = (base.reserve, base.fill) if base is not None else (None, None)
    yield teller.share("Reserve", pump.reserve, reserve, "share of it that the engine does not take")
    yield teller.share("Chambers that fill", pump.fill, filled, "all of them below the filling limit")
    inlet = Band(base.inlet_pressure) if base is not None else None
    note = "against the air's pressure; a minus is below it"
    yield teller.pressure("At its inlet", Band(pump.inlet_pressure), inlet, note)
    torque = base.drive_torque if base is not None else None
    yield teller.plain("Drive torque", pump.drive_torque, "torque", torque, decimals=2)


_PUMP_FLOWS = (
    ("Displaces", "displaced", "its lobes or teeth at its speed"),
    ("Leaks inside", "leakage", "through its own clearances, back to its inlet"),
    ("Delivers", "delivered", ""),
    ("The relief valve lets go", "relieved", ""),
)


def _table(
    name: str,
    title: str,
    note: str,
    first: str,
    held: Held,
    lines: list[FigureLine],
    *,
    bands: bool = True,
) -> FigureTable:
    against = held.against if held.base is not None else ""
    with_bands = bands and any(each.band for each in lines)
    return FigureTable(name, title, note, first, against, with_bands, tuple(lines))
