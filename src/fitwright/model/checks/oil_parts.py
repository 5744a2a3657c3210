"""Parts of the oil circuit, each by itself: what belongs together is given together, and in order."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from fitwright.model.amount import Written
from fitwright.model.checks.oil_sizes import typical_range
from fitwright.model.circuit import (
    Bearing,
    BearingFeed,
    BigEndFeed,
    Circuit,
    Cooler,
    Crescent,
    Element,
    Filter,
    InternalRotor,
    Jet,
    OilPath,
    PumpStage,
    Relief,
    ReliefPorts,
    SizeRule,
    Stop,
)
from fitwright.model.limit import SourceKind
from fitwright.model.problem import Path, Problem, meant
from fitwright.model.sheet import Sheet

_SHARE: float = 0.05
"""Sizes of one profile agree within so much of them."""
_VACUUM: float = -101_325.0
_MAKERS = (SourceKind.ENGINE_MAKER, SourceKind.PARTS_MAKER)


def check_oil_parts(sheet: Sheet, circuit: Circuit) -> Iterator[Problem]:
    """Problems inside each part, and of the circuit's own keys."""
    yield from _check_states(circuit)
    for index, stop in enumerate(circuit.stops):
        yield from _check_stop(sheet, stop, ("circuit", "stops", index))
    for stage in circuit.pumps.values():
        yield from _check_pump(stage, ("circuit", "pumps", stage.id))
    for relief in circuit.reliefs.values():
        yield from _check_relief(relief, ("circuit", "reliefs", relief.id))
    for each in circuit.paths.values():
        yield from _check_path(each, ("circuit", "paths", each.id))


def _check_states(circuit: Circuit) -> Iterator[Problem]:
    path: Path = ("circuit",)
    yield from _in_order(circuit, ("idle_speed", "top_speed"), path)
    if not circuit.oil_temperatures:
        yield Problem((*path, "oil_temperatures"), "an empty list", 'write oil_temperatures = "90 degC"')
    amounts: list[tuple[Path, str, Written]] = [
        (("idle_speed",), "angular_speed", circuit.idle_speed),
        (("top_speed",), "angular_speed", circuit.top_speed),
    ]
    amounts += [
        (("oil_temperatures", index), "temperature", each)
        for index, each in enumerate(circuit.oil_temperatures)
    ]
    for index, point in enumerate(circuit.operating_points):
        where: Path = ("operating_points", index)
        amounts += [
            ((*where, "speed"), "angular_speed", point.speed),
            ((*where, "oil_temperature"), "temperature", point.oil_temperature),
        ]
    for place, dimension, amount in amounts:
        least, most, example = typical_range(dimension, SizeRule(dimension))
        if not least <= amount.si <= most:
            what = f"{amount.written} is far from anything in an oil circuit"
            yield Problem((*path, *place), what, f'check number and unit; write it as "{example}"')


def _check_stop(sheet: Sheet, stop: Stop, path: Path) -> Iterator[Problem]:
    if (stop.lowest_pressure is None) == (stop.first_pressure_within is None):
        mend = "write lowest_pressure or first_pressure_within"
        yield Problem(path, "a stop value that is not one thing", mend)
    if stop.lowest_pressure is not None and None in (stop.speed, stop.oil_temperature):
        what = "a lowest pressure without the speed and oil temperature that it is for"
        yield Problem(path, what, "write speed and oil_temperature")
    if (stop.source is None) == (stop.person is None):
        what = "nobody answers for this value" if stop.source is None else "a source and a person"
        yield Problem(path, what, "write source (an engine's or a part's maker) or person, one of them")
    if stop.source is None:
        return
    source = sheet.sources.get(stop.source)
    if source is None:
        mend = meant(stop.source, sheet.sources) or "write an id under [sources]"
        yield Problem((*path, "source"), f'there is no source "{stop.source}"', mend)
    elif source.kind not in _MAKERS:
        what = f"{source.id} is a source of kind {source.kind.value}, and no engine is stopped by that"
        yield Problem((*path, "source"), what, "write a maker's source, or person for who answers for it")


def _check_pump(stage: PumpStage, path: Path) -> Iterator[Problem]:
    vacuum = stage.release_gauge_pressure
    if vacuum is not None and not _VACUUM < vacuum.si < 0.0:
        what = f"{vacuum.written} is no pressure between nothing and that of the air"
        yield Problem((*path, "release_gauge_pressure"), what, 'write it as "-0.4 bar"')
    rotors = stage.rotors
    if isinstance(rotors, InternalRotor):
        yield from _check_rotor(rotors, path)
    if isinstance(rotors, Crescent) and rotors.outer_teeth <= rotors.inner_teeth + 1:
        what = f"{rotors.outer_teeth} teeth in the ring leave no room for a crescent"
        yield Problem((*path, "outer_teeth"), what, f"write {rotors.inner_teeth + 2} or more")


def _check_rotor(rotor: InternalRotor, path: Path) -> Iterator[Problem]:
    if rotor.outer_lobes != rotor.inner_lobes + 1:
        what = f"{rotor.outer_lobes} outer lobes for {rotor.inner_lobes} inner ones"
        yield Problem((*path, "outer_lobes"), what, f"write {rotor.inner_lobes + 1}")
    profile = (rotor.eccentricity, rotor.generating_radius, rotor.tooth_radius)
    tips = (rotor.inner_tip_diameter, rotor.inner_root_diameter)
    if None in profile and None in tips:
        mend = (
            "write eccentricity, generating_radius and tooth_radius, or inner_tip_diameter and "
            "inner_root_diameter"
        )
        yield Problem(path, "nothing gives the profile of the rotors", mend)
    yield from _check_profile(rotor, path)


def _check_profile(rotor: InternalRotor, path: Path) -> Iterator[Problem]:
    """Tip and root of the inner rotor agree with what generates it, where all of it is written."""
    tip, root, eccentricity = rotor.inner_tip_diameter, rotor.inner_root_diameter, rotor.eccentricity
    reach, tooth = rotor.generating_radius, rotor.tooth_radius
    if not (isinstance(tip, Written) and isinstance(eccentricity, Written)):
        return
    if isinstance(root, Written) and _differ(tip.si - root.si, 4.0 * eccentricity.si):
        what = f"{eccentricity.written} is not a quarter of {tip.written} less {root.written}"
        yield Problem((*path, "eccentricity"), what, "write a quarter of tip less root")
    elif not (isinstance(reach, Written) and isinstance(tooth, Written)):
        return
    elif _differ(tip.si, 2.0 * (reach.si - tooth.si + eccentricity.si)):
        what = f"{tip.written} is not twice generating radius less tooth radius plus eccentricity"
        yield Problem((*path, "inner_tip_diameter"), what, "check the four: they give one profile")


def _differ(given: float, wanted: float) -> bool:
    return abs(given - wanted) > _SHARE * abs(given)


def _check_relief(relief: Relief, path: Path) -> Iterator[Problem]:
    if relief.ports is ReliefPorts.ROUND and relief.port_diameter is None:
        yield Problem(path, "round ports without port_diameter", "write port_diameter = ...")
    yield from _needs(relief, "plunger_clearance", ("plunger_diameter", "land_length"), path)


def _check_path(path: OilPath, where: Path) -> Iterator[Problem]:
    element: Element = path.element
    if isinstance(element, Bearing):
        yield from _check_bearing(element, where)
    elif isinstance(element, BigEndFeed):
        yield from _in_order(element, ("innermost_radius", "inlet_radius"), where, equal=True)
        yield from _in_order(element, ("innermost_radius", "outlet_radius"), where, equal=True)
    elif isinstance(element, Filter):
        yield from _needs(element, "bypass_opening_pressure", ("bypass_diameter",), where)
        yield from _needs(element, "bypass_diameter", ("bypass_opening_pressure",), where)
        yield from _in_order(element, ("bypass_opening_pressure", "bypass_full_pressure"), where)
    elif isinstance(element, Cooler):
        yield from _in_order(element, ("opening_temperature", "full_temperature"), where)
    elif isinstance(element, Jet):
        yield from _needs(element, "target_flow", ("target_pressure",), where)
        yield from _needs(element, "full_pressure", ("opening_pressure",), where)
        yield from _in_order(element, ("opening_pressure", "full_pressure"), where)


def _check_bearing(bearing: Bearing, path: Path) -> Iterator[Problem]:
    if bearing.feed is not BearingFeed.HOLE and bearing.groove_width is None:
        yield Problem(path, f"a {bearing.feed.value} without groove_width", "write groove_width = ...")
    if bearing.feed is BearingFeed.PARTIAL_GROOVE and bearing.groove_arc is None:
        yield Problem(path, "a partial groove without groove_arc", 'write groove_arc = "120 deg"')
    if bearing.feed is BearingFeed.HOLE and bearing.hole_diameter is None:
        yield Problem(path, "a bearing fed by a hole without hole_diameter", "write hole_diameter = ...")
    yield from _in_order(bearing, ("groove_width", "length"), path)
    yield from _needs(bearing, "inertia_load", ("inertia_load_speed",), path)
    yield from _needs(bearing, "inertia_load_speed", ("inertia_load",), path)


def _needs(part: object, name: str, others: tuple[str, ...], path: Path) -> Iterator[Problem]:
    """What is given needs what else."""
    if getattr(part, name) is None:
        return
    for other in others:
        if getattr(part, other) is None:
            yield Problem((*path, name), f"{name} without {other}", f"write {other} = ... too")


def _in_order(part: object, names: tuple[str, ...], path: Path, *, equal: bool = False) -> Iterator[Problem]:
    """Amounts that must rise from one to the next, where they are written."""
    for low, high in pairwise(names):
        less, more = getattr(part, low), getattr(part, high)
        if not (isinstance(less, Written) and isinstance(more, Written)):
            continue
        if less.si > more.si or (less.si == more.si and not equal):
            what = f"{less.written} is not below the {high.replace('_', ' ')} of {more.written}"
            yield Problem((*path, low), what, "write the smaller one here")
