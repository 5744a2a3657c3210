"""Stations of a sheet: their order leaves nothing out, eye checks have ids of their own."""

from __future__ import annotations

from collections.abc import Iterator

from fitwright.model.problem import Path, Problem
from fitwright.model.sheet import Sheet
from fitwright.model.station import Station


def check_stations(sheet: Sheet) -> Iterator[Problem]:
    """Problems of the measuring order and of eye checks."""
    checks: dict[str, str] = {}
    for station in sheet.stations.values():
        path: Path = ("stations", station.id)
        yield from _check_order(sheet, station, path)
        for index, check in enumerate(station.eye_checks):
            if check.id in checks:
                what = f'the eye check "{check.id}" is given already, in {checks[check.id]}'
                yield Problem((*path, "eye_checks", index, "id"), what, "give it another id")
            checks.setdefault(check.id, station.id)


def _check_order(sheet: Sheet, station: Station, path: Path) -> Iterator[Problem]:
    order = (*path, "order")
    for name in sorted({name for name in station.order if station.order.count(name) > 1}):
        yield Problem(order, f'"{name}" stands twice in the order', "name it once")
    for name in station.order:
        dimension = sheet.dimensions.get(name)
        if dimension is not None and dimension.station not in {None, station.id}:
            what = f'"{name}" belongs to the station {dimension.station}'
            yield Problem(order, what, "take it out here, or change its station")
    for dimension in sheet.dimensions.values():
        if dimension.station == station.id and dimension.id not in station.order:
            what = f'the order leaves out "{dimension.id}", which names this station'
            yield Problem(order, what, "put it in where it is measured, or leave the order out")
