"""The example sheets load and hold what they promise."""

from collections import Counter

import pytest

from fitwright.examples import EXAMPLES, UnknownExampleError, record_entries, sheet_text
from fitwright.formats.sheet import read_sheet
from fitwright.model.amount import Written
from fitwright.model.circuit import Reference, StopAction, given_sizes
from fitwright.model.limit import AppliesTo, LimitClass
from fitwright.model.oil import OilBasis

LENGTH_UNITS = {"corrie-five": {"mm"}, "brackengill-eleven": {"in", "thou"}}
ALL_LENGTH_UNITS = {"mm", "in", "thou", "um", "cm", "m"}
LEAST_LIMITED = {"corrie-five": 120, "brackengill-eleven": 60}


def sheet_of(name):
    return read_sheet(sheet_text(name), name=f"{name}/sheet.toml")


def limited(sheet):
    return [each for each in (*sheet.fits.values(), *sheet.dimensions.values()) if each.limits]


def amounts(sheet):
    for each in (*sheet.fits.values(), *sheet.dimensions.values()):
        for limit in each.limits:
            yield from (amount for amount in (limit.lower, limit.upper) if amount is not None)
    for dimension in sheet.dimensions.values():
        if dimension.nominal is not None:
            yield dimension.nominal
        yield from dimension.plausible or ()
    for _, _, parts in sheet.circuit.parts():
        for part in parts:
            yield from (size for _, size, _ in given_sizes(part) if isinstance(size, Written))


@pytest.mark.parametrize("name", EXAMPLES)
def test_sheet_loads_and_carries_its_name(name):
    assert sheet_of(name).engine.id == name


@pytest.mark.parametrize("name", EXAMPLES)
def test_sheet_limits_enough(name):
    found = limited(sheet_of(name))
    print(f"{name}: {len(found)} limited fits and dimensions")
    assert len(found) >= LEAST_LIMITED[name]


@pytest.mark.parametrize("name", EXAMPLES)
def test_lengths_are_written_in_the_shops_own_units(name):
    foreign = {
        amount.written
        for amount in amounts(sheet_of(name))
        if amount.unit in ALL_LENGTH_UNITS - LENGTH_UNITS[name]
    }
    assert not foreign


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_limited_thing_has_a_governing_limit_for_new_parts(name):
    without = [
        each.id
        for each in limited(sheet_of(name))
        if not any(limit.governs and limit.applies_to is AppliesTo.NEW for limit in each.limits)
    ]
    assert not without


@pytest.mark.parametrize("name", EXAMPLES)
def test_running_clearances_that_kill_an_engine_are_critical(name):
    sheet = sheet_of(name)
    bearings = [
        fit
        for fit in sheet.fits.values()
        if fit.id.endswith("running_clearance") and fit.id.startswith(("main", "rod"))
    ]
    assert len(bearings) == sheet.engine.layout.mains + sheet.engine.layout.cylinders
    assert all(fit.limit_class is LimitClass.CRITICAL for fit in bearings)


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_station_takes_readings_and_every_dimension_has_one(name):
    sheet = sheet_of(name)
    assert all(station.order for station in sheet.stations.values())
    taken = {dimension for station in sheet.stations.values() for dimension in station.order}
    assert taken == sheet.dimensions.keys()


def test_an_unknown_example_names_those_there_are():
    with pytest.raises(UnknownExampleError, match="use one of: corrie-five, brackengill-eleven"):
        record_entries("nothing")


FED = {
    "corrie-five": {
        "mains": 6,
        "big ends": 5,
        "camshafts": 12,
        "followers": 20,
        "jets": 5,
        "turbocharger": 1,
        "restrictors": 2,
    },
    "brackengill-eleven": {"mains": 3, "big ends": 4, "camshafts": 3, "drives": 1, "restrictors": 1},
}


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_circuit_feeds_what_the_engine_has(name):
    counts = Counter()
    for path in sheet_of(name).circuit.paths.values():
        counts[path.group] += path.count
    print(f"{name}: {dict(counts)}")
    assert {group: counts[group] for group in FED[name]} == FED[name]


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_clearance_of_crank_pump_and_relief_is_the_one_measured(name):
    sheet = sheet_of(name)
    named = {
        size.subject
        for _, _, parts in sheet.circuit.parts()
        for part in parts
        for _, size, rule in given_sizes(part)
        if rule.clearance and isinstance(size, Reference)
    }
    wanted = {each for each in sheet.fits if each.endswith(".running_clearance")}
    assert wanted <= named
    assert {"pump.end_clearance", "pump.relief_clearance"} <= named


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_oil_planned_has_its_data_sheet_and_stops_have_who_says_so(name):
    sheet = sheet_of(name)
    assert sheet.oil.basis is OilBasis.DATA_SHEET
    assert sheet.circuit.assumed is None
    for stop in sheet.circuit.stops:
        assert stop.action in StopAction
        assert (stop.source or stop.person) is not None
