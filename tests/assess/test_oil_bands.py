"""Bands from a few solutions a point, held against ten thousand engines drawn and answered one by one."""

from __future__ import annotations

import numpy as np
import pytest

from fitwright.assess.oil.bands import Strata, edges_on_pool
from fitwright.assess.oil.draws import DRAWS, pool_of
from fitwright.assess.oil.sizes import Basis, Growth, KnownSize, known_size

SIZES = [
    KnownSize(
        "main.1", "", None, Basis.MEASURED, 55e-6, {"screw": 1.2e-6, "own 1": 1.5e-6}, growth=Growth(1e-8)
    ),
    KnownSize("main.2", "", None, Basis.MEASURED, 53e-6, {"screw": 1.2e-6, "own 2": 1.5e-6}),
    KnownSize("rod.1", "", None, Basis.LIMIT_BAND, 50e-6, band=(40e-6, 60e-6)),
    KnownSize("pump.end", "", None, Basis.LIMIT_BAND, 60e-6, band=(40e-6, 80e-6)),
    KnownSize("cam.1", "", None, Basis.MEASURED, 60e-6, {"screw": -1e-6, "own 3": 4e-6}),
]
LEAKS = np.array([1.0, 1.0, 2.0, 0.7, 0.5])


def pressure(sizes, relief):
    """A stand-in for a circuit: cube laws in series with a pump, cut by a relief valve."""
    leaks = (LEAKS * (sizes / 55e-6) ** 3).sum(axis=-1)
    raw = 14.0 / (1.0 + leaks)
    return np.where(raw > relief, relief + 0.05 * (raw - relief), raw)


def slopes(sizes, relief):
    steps = 1e-10 * np.eye(len(sizes))
    return (pressure(sizes + steps, relief) - pressure(sizes - steps, relief)) / 2e-10


@pytest.mark.parametrize("relief", [99.0, 2.35, 2.2, 1.0])
def test_the_edges_of_the_band_are_those_of_the_whole_pool(relief):
    pool = pool_of(SIZES)
    sizes = pool.at(383.15)
    best = pool.best_at(np.array([383.15]))[0]
    strata = Strata.of((sizes - best) @ slopes(best, relief))
    found = strata.edges(pressure(sizes[strata.rows], relief))
    every = pressure(sizes, relief)
    off = (found - np.quantile(every, [0.025, 0.975])) / every.std()
    print(f"relief {relief}: edges off by {off[0]:+.3f} and {off[1]:+.3f} standard deviations")
    assert np.abs(off).max() < 0.1


def test_another_answer_of_the_same_solutions_is_put_on_the_whole_pool():
    """The film of one bearing hardly moves the gauge, so the strata say little of it."""
    pool = pool_of(SIZES)
    sizes = pool.at(383.15)
    best = pool.best_at(np.array([383.15]))[0]
    strata = Strata.of((sizes - best) @ slopes(best, 99.0))

    def film(these):
        return these[:, 4] ** 1.5 * pressure(these, 99.0)

    found = edges_on_pool(sizes, strata, film(sizes[strata.rows])[:, None])[:, 0]
    every = film(sizes)
    off = (found - np.quantile(every, [0.025, 0.975])) / every.std()
    print(f"edges off by {off[0]:+.3f} and {off[1]:+.3f} standard deviations")
    assert np.abs(off).max() < 0.1


def test_what_is_not_converged_has_no_band():
    pool = pool_of(SIZES)
    strata = Strata.of(pool.cold[:, 0])
    solved = pool.cold[strata.rows][:, [0]] * 1e6
    solved[3] = np.nan
    assert np.isnan(strata.edges(solved[:, 0])).all()
    assert np.isnan(edges_on_pool(pool.cold, strata, solved)).all()


def test_what_two_sizes_share_moves_both():
    cold = pool_of(SIZES).cold
    covariance = np.cov(cold.T)
    assert covariance[0, 1] == pytest.approx(1.44e-12, rel=0.1)
    assert covariance[0, 4] == pytest.approx(-1.2e-12, rel=0.15)
    assert covariance[0, 0] == pytest.approx(1.44e-12 + 2.25e-12, rel=0.05)
    assert len(cold) == DRAWS


def test_an_unrelated_size_changes_no_digit_of_the_others():
    more = [*SIZES, KnownSize("cam.2", "", None, Basis.MEASURED, 60e-6, {"another": 1e-6})]
    assert (pool_of(more).cold[:, :5] == pool_of(SIZES).cold).all()


def test_a_size_that_is_not_known_cannot_be_drawn():
    with pytest.raises(ValueError, match="not known: cam"):
        pool_of([KnownSize("cam.9", "", None, Basis.NOT_KNOWN, np.nan)])


def test_a_measured_clearance_is_the_mean_over_its_places(corrie):
    judge = corrie.assessor().judge
    main = known_size(judge, "main.1.running_clearance")
    assert main.basis is Basis.MEASURED
    assert main.value == pytest.approx(55e-6, abs=0.5e-6)
    assert main.standard_uncertainty == pytest.approx(corrie.verdict(main.id).standard_uncertainty, rel=0.35)
    pump = known_size(judge, "pump.end_clearance")
    assert pump.at(383.15) - pump.value == pytest.approx(9.3e-6, abs=0.1e-6)


def test_blades_give_a_size_between_what_goes_and_what_does_not(corrie):
    tip = known_size(corrie.assessor().judge, "pump.tip_clearance")
    assert tip.basis is Basis.MEASURED
    assert 0.08e-3 < tip.value < 0.10e-3


def test_what_nobody_measured_is_anywhere_between_its_limits(corrie):
    from fitwright.assess.judging import Judge
    from fitwright.assess.results import State
    from fitwright.records.projection import BuildState

    shop = corrie.bench().shop
    judge = Judge(corrie.sheet, shop, BuildState.replay(corrie.build, []), State.CURRENT)
    main = known_size(judge, "main.1.running_clearance")
    assert main.basis is Basis.LIMIT_BAND
    assert main.band == (pytest.approx(45e-6), pytest.approx(65e-6))
    assert main.critical
    assert main.reason == "not measured"
