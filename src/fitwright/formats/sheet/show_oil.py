"""Oils and the oil circuit of a sheet as text to read."""

from __future__ import annotations

from collections.abc import Iterator

from fitwright.model.amount import Written
from fitwright.model.circuit import (
    Circuit,
    CrankTrain,
    OilPath,
    PumpStage,
    Reference,
    Relief,
    Size,
    Stop,
    given_sizes,
)
from fitwright.model.oil import Oil, OilBasis
from fitwright.model.sheet import Sheet


def oil_lines(sheet: Sheet) -> Iterator[str]:
    """Each oil, what is known of it, and which one is planned."""
    for oil in sheet.oils.values():
        planned = ", planned" if oil is sheet.oil else ""
        yield f"  {oil.title}: {_known(oil)}{planned}"


def _known(oil: Oil) -> str:
    if oil.basis is OilBasis.GRADE:
        return f"grade {oil.grade}, values in the middle of its range"
    if oil.basis is OilBasis.MEASURED:
        return f"{_said(oil.measured_viscosity)} at {_said(oil.measured_at)}, measured"
    cold, hot = _said(oil.kinematic_viscosity_40), _said(oil.kinematic_viscosity_100)
    return f"{cold} at 40 degC, {hot} at 100 degC"


def _said(amount: Written | None) -> str:
    return "not given" if amount is None else amount.written


def circuit_lines(circuit: Circuit) -> Iterator[str]:
    """Where the gauge reads, the states, then every pump stage, relief valve and path; a family once."""
    hot = ", ".join(each.written for each in circuit.oil_temperatures)
    speeds = f"{circuit.idle_speed.written} to {circuit.top_speed.written}"
    yield f"  gauge at {circuit.gauge}, {speeds}, oil {hot}"
    if circuit.assumed is not None:
        yield f"  assumed: {circuit.assumed}"
    yield from (f"  {_stop(stop)}" for stop in circuit.stops)
    if circuit.crank_train is not None:
        yield f"  {_train(circuit.crank_train)}"
    for stage in circuit.pumps.values():
        yield f"  {stage.title}: {stage.kind.value}{_between(stage)}, {stage.purpose.value}{_measured(stage)}"
    for relief in circuit.reliefs.values():
        yield f"  {relief.title}: relief valve{_between(relief)}{_measured(relief)}"
    shown: set[str] = set()
    for path in circuit.paths.values():
        name = path.family or path.id
        if name not in shown:
            shown.add(name)
            yield _path(name, path)


def _path(name: str, path: OilPath) -> str:
    if path.family is not None:
        return f"  {name}: {path.kind.value}, {path.group}"
    times = f"{path.count} times " if path.count > 1 else ""
    return f"  {name}: {times}{path.kind.value}{_between(path)}, {path.group}{_measured(path.element)}"


def _train(train: CrankTrain) -> str:
    masses = f"{_size(train.reciprocating_mass)} to and fro, {_size(train.rotating_mass)} round and round"
    peaks = ", ".join(f"{each.peak_pressure.written} at {each.speed.written}" for each in train.gas_pressures)
    return f"crank train: {masses}; stated peak pressure {peaks}"


def _size(size: Size) -> str:
    return size.subject if isinstance(size, Reference) else size.written


def _between(part: PumpStage | Relief | OilPath) -> str:
    if part.from_node is None or part.to_node is None:
        return ""
    return f", {part.from_node} to {part.to_node}"


def _measured(part: object) -> str:
    named = [size.subject for _, size, _ in given_sizes(part) if isinstance(size, Reference)]
    return f" (by {', '.join(dict.fromkeys(named))})" if named else ""


def _stop(stop: Stop) -> str:
    who = stop.person or stop.source or ""
    at = f" {stop.place_in_source}" if stop.place_in_source is not None else ""
    if stop.lowest_pressure is None:
        return f"{stop.action.value}: no pressure within {_said(stop.first_pressure_within)} ({who}{at})"
    state = f"{_said(stop.speed)}, {_said(stop.oil_temperature)}"
    return f"{stop.action.value}: below {stop.lowest_pressure.written} at {state} ({who}{at})"
