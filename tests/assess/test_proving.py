"""What a gauge can prove before anything is read: the same as a verdict would say of such readings."""

from math import hypot, inf, sqrt

import pytest

from fitwright.assess.proving import Used, alone, combined, partners, provable_by
from fitwright.assess.proving_blades import provable_by_blades
from fitwright.assess.resting import in_setting, resting_on, touched_by_drift, with_blades, with_instrument
from fitwright.assess.rules import rules_of
from fitwright.assess.setting_chains import SettingChains
from fitwright.demo import prepare_demo
from fitwright.records.kinds import CheckBack, Typed
from fitwright.wiring import open_shop
from tests.support.compare import verified

CODE = "corrie-five"


@pytest.fixture(scope="module")
def shop(tmp_path_factory):
    folder = tmp_path_factory.mktemp("proving") / "shop"
    prepare_demo(folder)
    opened = open_shop(folder)
    yield opened
    opened.close()


@pytest.fixture(scope="module")
def chains(shop):
    return SettingChains(shop.state)


def instrument(shop, code):
    return shop.state.instruments[code].body


def proofs(shop, code):
    judge, verdicts = shop.assessor(CODE).judge, shop.assessment(CODE).verdicts
    return {each.subject: each for each in provable_by(judge, CODE, verdicts, instrument(shop, code))}


def test_a_micrometer_alone_has_its_repeatability_calibration_and_setting(shop, chains):
    found = alone(chains, instrument(shop, "M3"))
    by_hand = sqrt(0.001**2 + 0.001**2 + 0.0005**2) * 1e-3
    verified(found.standard_uncertainty, by_hand, by="root of the squares of its parts", tolerance=1e-9)
    assert found.degrees_of_freedom == inf


def test_a_shared_master_cancels_and_another_one_does_not(shop, chains):
    (pair,) = list(partners(chains, instrument(shop, "B1")))
    assert (pair.gauge, pair.master) == ("B1", "M2")
    own = hypot(0.0011, 0.001, 0.0012) * 1e-3  # both repeatabilities and the transfer of the setting
    verified(pair.shared.standard_uncertainty, own, by="parts that are not shared", tolerance=1e-9)
    each = (alone(chains, instrument(shop, code)).standard_uncertainty for code in ("B1", "M2"))
    verified(pair.apart.standard_uncertainty, hypot(*each), by="two gauges apart", tolerance=1e-9)
    assert pair.shared.standard_uncertainty < pair.apart.standard_uncertainty


def test_a_master_names_the_gauges_that_were_set_in_it(shop, chains):
    assert {each.gauge for each in partners(chains, instrument(shop, "M2"))} == {"B1", "B2", "T1"}


def test_a_clearance_takes_the_two_gauges_that_read_its_members(shop):
    found = proofs(shop, "B1")["main.1.running_clearance"]
    assert found.gauges == ("B1", "M3")
    assert found.likes == 5
    assert (found.lower, found.upper, found.governs) == (pytest.approx(45e-6), pytest.approx(65e-6), True)
    assert found.capability.can_prove
    assert found.set_anew.share > found.capability.share  # B1 stands in M2; in M3 it would do better


def test_set_in_the_gauge_of_the_other_member_already_nothing_is_to_be_gained(shop):
    assert proofs(shop, "B1")["rod.1.running_clearance"].set_anew is None


def test_setting_anew_gains_what_a_real_setting_would(shop, chains):
    promised = proofs(shop, "B1")["main.1.running_clearance"].set_anew.share
    real = proofs(shop, "B1")["rod.1.running_clearance"].capability.share  # B1 does stand in M2, of M3's kind
    verified(promised, real, by="the same band with a gauge that is set so", tolerance=1e-9)


def test_a_gauge_out_of_reach_takes_part_in_nothing(shop):
    found = proofs(shop, "M4")
    assert not any(name.startswith("main") for name in found)


def test_a_coarse_gauge_proves_a_wide_band_and_not_a_narrow_one(shop):
    found = proofs(shop, "D2")
    assert found["pickup.floor_gap"].capability.can_prove
    assert not found["pump.end_clearance"].capability.can_prove


def test_what_is_promised_is_what_a_verdict_holds_to(shop):
    """As uncertain as readings that were taken so; these were repeated, so the verdict is a little better."""
    found = proofs(shop, "J1")["crank.end_float"]
    verdict = shop.assessment(CODE).verdicts[found.subject]
    assert 0 < verdict.standard_uncertainty <= found.combined.standard_uncertainty * (1 + 1e-9)


def test_few_degrees_of_freedom_widen_the_band(shop, chains):
    gauge = instrument(shop, "M3")
    studied = gauge.model_copy(update={"repeatability_degrees_of_freedom": 2.0})
    rule = rules_of(shop.state).normal
    plain, few = (combined(chains, [Used(1.0, each, None)]) for each in (gauge, studied))
    assert few.degrees_of_freedom < 50
    assert few.narrowest_band(rule) > plain.narrowest_band(rule)


def test_a_blade_set_names_the_pairs_that_prove_a_fit_or_the_blade_that_is_missing(shop):
    judge, verdicts = shop.assessor(CODE).judge, shop.assessment(CODE).verdicts

    def of(code):
        found = provable_by_blades(judge, CODE, verdicts, shop.state.blade_sets[code].body)
        return {each.subject: each for each in found}

    coarse, fine = of("F1")["pump.end_clearance"], of("F2")["pump.end_clearance"]
    assert not coarse.capability.can_prove
    assert coarse.capability.missing[0].beside.key == "F1:0.05"
    assert fine.capability.can_prove
    assert of("F1")["valve.1.inlet.a.lash"].likes == 9
    assert of("E2") == {}


def test_what_rests_on_a_setting_includes_what_was_set_in_it(shop):
    judge, verdicts = shop.assessor(CODE).judge, shop.assessment(CODE).verdicts
    master = resting_on(judge, verdicts, in_setting("S-003"))
    bore = resting_on(judge, verdicts, in_setting("S-013"))
    assert 0 < bore.readings < master.readings
    assert set(bore.sittings) <= set(master.sittings)
    assert {each.id for each in bore.fits} <= {each.id for each in master.fits}
    assert resting_on(judge, verdicts, with_instrument("M3")).readings >= master.readings
    whole = resting_on(judge, verdicts, with_blades("F2"))
    one = resting_on(judge, verdicts, with_blades("F2", "0.06"))
    assert 0 < one.readings < whole.readings


def test_a_drift_leaves_some_fits_unproven_and_others_to_their_other_readings(shop):
    def drifted():
        return touched_by_drift(shop.assessment(CODE).verdicts, "S-013")

    assert drifted().unproved == drifted().judged_still == ()
    drift = Typed(typed="+0.006 mm", unit="mm", decimals=3, si=6e-6)
    back = shop.entry(CheckBack(setting="S-013", drift=drift))
    shop.write([back])
    found = drifted()
    assert "main.1.housing_bore" in {each.id for each in found.unproved}
    assert "main.1.running_clearance" in {each.id for each in found.judged_still}
