"""What the readings of the examples prove before anything is assembled, as received and after rework."""

from functools import cache
from math import sqrt

import pytest

from fitwright.assess.assessment import assess
from fitwright.assess.results import State
from fitwright.examples import EXAMPLES, sheet_text
from fitwright.formats.sheet import read_sheet
from fitwright.records.entry import NewEntry
from fitwright.records.projection import BuildState, ShopState
from tests.support.compare import absolute, verified
from tests.support.examples import before_assembly
from tests.support.record import sealed_chain

OUTSIDE_AS_RECEIVED = {
    "corrie-five": {
        "main.4.running_clearance",
        "main.4.housing_bore",
        "rod.4.running_clearance",
        "rod.4.housing_bore",
        "cylinder.4.top_ring_gap",
        "valve.3.inlet.b.lash",
        "valve.2.exhaust.a.lash",
        "pump.end_clearance",
        "pump.housing_offset",
        "pickup.floor_gap",
    },
    "brackengill-eleven": {
        "main.2.running_clearance",
        "pump.end_clearance",
        "skew_shaft.end_float",
        "skew_gear.apparent_backlash",
    },
}
UNPROVEN = {"corrie-five": {"piston.2.pin_clearance"}, "brackengill-eleven": set()}
"""Too near its limit for the gauge."""

NOT_MEASURED = {
    "corrie-five": {"flywheel.face_run_out"},
    "brackengill-eleven": {f"valve.{n}.{side}.lash" for n in range(1, 5) for side in ("inlet", "exhaust")},
}
NOT_IN_THIS_JOB = {"corrie-five": {"turbocharger.axial_movement"}, "brackengill-eleven": set()}


def assessed(name, state, keep=lambda entry: True):
    entries = sealed_chain(NewEntry(**entry) for entry in before_assembly(name) if keep(entry))
    build = next(entry.build for entry in entries if entry.build)
    sheet = read_sheet(sheet_text(name))
    return assess(sheet, ShopState.replay(entries), BuildState.replay(build, entries), state)


@cache
def verdicts(name, state):
    return assessed(name, state).verdicts


def with_verdict(name, state, verdict):
    return {each.id for each in verdicts(name, state).values() if each.verdict.value == verdict}


@pytest.mark.parametrize("name", EXAMPLES)
def test_outside_as_received(name):
    assert with_verdict(name, State.AS_RECEIVED, "outside") == OUTSIDE_AS_RECEIVED[name]


@pytest.mark.parametrize("name", EXAMPLES)
def test_nothing_is_outside_after_rework(name):
    assert with_verdict(name, State.CURRENT, "outside") == set()


@pytest.mark.parametrize("state", [State.AS_RECEIVED, State.CURRENT])
@pytest.mark.parametrize("name", EXAMPLES)
def test_everything_else_is_proven_but_for_what_is_listed(name, state):
    found = assessed(name, state)
    assert with_verdict(name, state, "unproven") == UNPROVEN[name]
    assert with_verdict(name, state, "not-measured") == NOT_MEASURED[name]
    assert set(found.not_in_this_job) == NOT_IN_THIS_JOB[name]
    sheet = read_sheet(sheet_text(name))
    limited = {each.id for each in (*sheet.fits.values(), *sheet.dimensions.values()) if each.limits}
    assert limited <= found.verdicts.keys() | found.not_in_this_job.keys()


@pytest.mark.parametrize("name", EXAMPLES)
def test_two_routes_to_one_fit_agree(name):
    for state in (State.AS_RECEIVED, State.CURRENT):
        compared = [each for each in verdicts(name, state).values() if each.comparison is not None]
        assert all(each.comparison.agree for each in compared), [each.id for each in compared]
    assert name == "brackengill-eleven" or len(compared) >= 16


def test_a_shared_master_leaves_the_clearance_its_stated_uncertainty():
    found = verdicts("corrie-five", State.AS_RECEIVED)["rod.4.running_clearance"].standard_uncertainty
    by = "root of journal repeat, transfer and bore repeat: what the master adds to both falls out"
    verified(found, sqrt(1.0**2 + 1.2**2 + 1.1**2) * 1e-6, by=by, tolerance=0.002)
    verified(2 * found, 3.8e-6, by="the shop's own statement, two figures", tolerance=absolute(0.05e-6))


def test_pump_offset_is_the_notebooks():
    found = verdicts("corrie-five", State.AS_RECEIVED)["pump.housing_offset"].value
    verified(found, 0.109e-3, by="hand working from half differences of gaps", tolerance=absolute(0.001e-3))


@pytest.mark.parametrize("fit, length", [("pump.end_clearance", 9e-3), ("pump.outer_rotor_clearance", 84e-3)])
def test_hot_pump_clearances_grow_as_the_notebook_has_it(fit, length):
    """The page works it for 110 degrees: length times (23e-6 - 11.5e-6) times 90."""
    hot = next(each for each in verdicts("corrie-five", State.CURRENT)[fit].hot if each.case == "hot_idle")
    assert not hot.judged
    by = "hand working from nominal lengths; the pocket is 0.1 mm wider, worth 0.2 um"
    verified(hot.change, length * 11.5e-6 * 90.0, by=by, tolerance=absolute(0.3e-6))


def test_the_telescopic_gauge_alone_does_not_prove_the_pump_bush():
    def no_pins(entry):
        blades = entry["body"].get("observation", {}).get("blades", [])
        return not any(blade.startswith("E2:") for blade in blades)

    without = assessed("brackengill-eleven", State.CURRENT, no_pins).verdicts["pump.spindle_clearance"]
    assert without.verdict.value == "unproven"
    assert verdicts("brackengill-eleven", State.CURRENT)["pump.spindle_clearance"].verdict.value == "within"


@pytest.mark.parametrize("name", EXAMPLES)
def test_nothing_seizes_in_a_temperature_case(name):
    """Running clearances stay open at the temperatures that the sheet assumes."""
    for each in verdicts(name, State.CURRENT).values():
        if each.fit_kind == "running clearance" and each.hot:
            least = min(state.value for state in each.hot)
            assert least > 0.0, f"{each.id}: {least}"
