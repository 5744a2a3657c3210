"""Values at which one stops or looks into it, from the maker or a person, held against the prediction."""

from __future__ import annotations

from collections.abc import Sequence
from math import isclose

from fitwright.assess.oil.results import PointState, StopValue
from fitwright.model.circuit import Stop, StopAction
from fitwright.model.sheet import Sheet

CROSSED = {
    StopAction.STOP: "The prediction lies below your stop value: do not start before you know why.",
    StopAction.INVESTIGATE: "The prediction lies below the value at which you look into it: know why first.",
}


def stop_values(sheet: Sheet, points: Sequence[PointState]) -> tuple[StopValue, ...]:
    """All stop values of the circuit, each held against the prediction at its speed and temperature."""
    if sheet.circuit is None:
        return ()
    return tuple(_held(sheet, each, points) for each in sheet.circuit.stops)


def _held(sheet: Sheet, stop: Stop, points: Sequence[PointState]) -> StopValue:
    lowest = stop.lowest_pressure.si if stop.lowest_pressure is not None else None
    best = [each.gauge_pressure.best for each in points if _is_at(stop, each)]
    crossed = any(each is not None and lowest is not None and each < lowest for each in best)
    return StopValue(
        words=stop.note or "",
        who=_who(sheet, stop),
        lowest_pressure=lowest,
        angular_speed=stop.speed.si if stop.speed is not None else None,
        oil_temperature=stop.oil_temperature.si if stop.oil_temperature is not None else None,
        seconds=stop.first_pressure_within.si if stop.first_pressure_within is not None else None,
        crossed=CROSSED[stop.action] if crossed else "",
    )


def _is_at(stop: Stop, point: PointState) -> bool:
    """Whether a point is that of a stop value; one without speed or temperature holds at all of them."""
    speed = stop.speed is None or isclose(stop.speed.si, point.angular_speed, rel_tol=1e-6)
    warm = stop.oil_temperature is None or isclose(
        stop.oil_temperature.si, point.oil_temperature, rel_tol=1e-6
    )
    return speed and warm


def _who(sheet: Sheet, stop: Stop) -> str:
    if stop.person:
        return stop.person
    source = sheet.sources.get(stop.source or "")
    name = source.title if source is not None else ""
    return ", ".join(each for each in (name, stop.place_in_source) if each)
