"""Published examples of uncertainty and of conformity."""

import numpy as np
import pytest

from fitwright.physics.metrology.conformity import Bound, DecisionRule, acceptance_limit, probability_holds
from fitwright.physics.metrology.propagation import InputQuantity, propagate
from fitwright.physics.metrology.student import student_quantile
from fitwright.physics.metrology.temperature import size_at_reference
from fitwright.physics.metrology.welch import effective_degrees_of_freedom
from tests.support.compare import absolute, published

NM = 1e-9


def end_gauge(x):
    """JCGM 100 eq. H.3: standard, difference, its expansion, its temperature, and the two differences."""
    standard, difference, expansion, temperature, expansion_difference, temperature_difference = x
    return (
        standard
        + difference
        - standard * (expansion_difference * temperature + expansion * temperature_difference)
    )


END_GAUGE = [
    InputQuantity("standard", 50.000623e-3, 25 * NM, 18),
    InputQuantity("difference", 215 * NM, 9.7 * NM, 25.6),
    InputQuantity("expansion", 11.5e-6, 1.2e-6),
    InputQuantity("temperature", -0.1, 0.41),
    InputQuantity("expansion difference", 0.0, 0.58e-6, 50),
    InputQuantity("temperature difference", 0.0, 0.029, 2),
]


def test_end_gauge_calibration():
    result = propagate(end_gauge, END_GAUGE)
    source = {"source": "jcgm100_2008"}
    published(
        result.value * 1e3,
        50.000838,
        place="H.1.5",
        tolerance=absolute(0.5e-6),
        why="printed to 1 nm",
        **source,
    )
    published(
        result.standard_uncertainty / NM,
        32,
        place="H.1.4",
        tolerance=absolute(0.5),
        why="printed to 1 nm",
        **source,
    )
    published(
        result.with_second_order / NM,
        34,
        place="H.1.7",
        tolerance=absolute(0.5),
        why="printed to 1 nm",
        **source,
    )
    published(
        np.floor(result.degrees_of_freedom),
        16,
        place="H.1.6",
        tolerance=absolute(0.0),
        why="cut to a whole number",
        **source,
    )
    published(
        result.coverage_factor(0.99),
        2.92,
        place="H.1.6",
        tolerance=absolute(0.005),
        why="printed to 0.01",
        **source,
    )
    published(
        result.expanded_uncertainty(0.99) / NM,
        93,
        place="H.1.6",
        tolerance=absolute(0.5),
        why="printed to 1 nm",
        **source,
    )


@pytest.mark.parametrize(
    "key, contribution",
    [
        ("standard", 25.0),
        ("difference", 9.7),
        ("expansion difference", 2.9),
        ("temperature difference", 16.6),
    ],
)
def test_end_gauge_budget(key, contribution):
    budget = dict(propagate(end_gauge, END_GAUGE).budget)
    published(
        budget[key] / NM,
        contribution,
        source="jcgm100_2008",
        place="table H.1, column 6",
        tolerance=absolute(0.1),
        why="printed to 0.1 nm; 16.675 is printed as 16.6",
    )


def test_difference_of_the_end_gauges():
    got = effective_degrees_of_freedom([5.8, 3.9, 6.7], [24, 5, 8])
    published(
        got, 25.6, source="jcgm100_2008", place="H.1.6", tolerance=absolute(0.35), why="inputs of two digits"
    )


def test_temperature_sensitivities_of_the_end_gauge():
    steel = 11.5e-6
    # Standard and end gauge at -0.1 C from 20 C, expansion coefficients alike.
    size = size_at_reference(
        50.000623e-3,
        part_temperature=293.05,
        gauge_temperature=293.05,
        part_expansion=steel,
        gauge_expansion=steel,
    )
    got = [size.to_part_expansion * 0.58e-6 / NM, abs(size.to_temperature_difference) * 0.029 / NM]
    published(
        got,
        [2.9, 16.6],
        source="jcgm100_2008",
        place="table H.1",
        tolerance=absolute(0.1),
        why="printed to 0.1 nm; H.1 drops terms of second order",
    )


def test_resistance_and_reactance():
    """JCGM 100 H.2: correlated inputs."""
    inputs = [
        InputQuantity("V", 4.9990, 0.0032),
        InputQuantity("I", 19.6610e-3, 0.0095e-3),
        InputQuantity("phi", 1.04446, 0.00075),
    ]
    correlation = [[1.0, -0.36, 0.86], [-0.36, 1.0, -0.65], [0.86, -0.65, 1.0]]
    models = (
        lambda x: x[0] / x[1] * np.cos(x[2]),
        lambda x: x[0] / x[1] * np.sin(x[2]),
        lambda x: x[0] / x[1],
    )
    found = [propagate(model, inputs, correlation=correlation) for model in models]
    published(
        [one.value for one in found],
        [127.732, 219.847, 254.260],
        source="jcgm100_2008",
        place="table H.3",
        tolerance=absolute(0.012),
        why="inputs printed to five digits",
    )
    published(
        [one.standard_uncertainty for one in found],
        [0.071, 0.295, 0.236],
        source="jcgm100_2008",
        place="table H.3",
        tolerance=absolute(0.003),
        why="uncertainties and correlations printed to two digits",
    )


@pytest.mark.parametrize(
    "degrees_of_freedom, expected", [(1, 12.71), (2, 4.30), (5, 2.57), (10, 2.23), (20, 2.09), (50, 2.01)]
)
def test_student_quantiles(degrees_of_freedom, expected):
    published(
        student_quantile(degrees_of_freedom, 0.975),
        expected,
        source="jcgm100_2008",
        place="table G.2, 95 %",
        tolerance=absolute(0.005),
        why="printed to 0.01",
    )


def test_conformity_with_one_limit():
    """Breakdown voltage of a Zener diode, which is to be at most -5.40 V."""
    got = probability_holds("upper", -5.40, -5.47, 0.05)
    published(
        got,
        0.92,
        source="jcgm106_2012",
        place="clause 7, example of a Zener diode",
        tolerance=absolute(0.005),
        why="printed to two digits",
    )


@pytest.mark.parametrize(
    "probability, score", [(0.80, 0.84), (0.90, 1.28), (0.95, 1.64), (0.99, 2.33), (0.999, 3.09)]
)
def test_guard_bands_with_one_limit(probability, score):
    limit = acceptance_limit(Bound("upper", 0.0), 1.0, DecisionRule(within=probability))
    published(
        -limit,
        score,
        source="jcgm106_2012",
        place="table 1 (conformance probability against z)",
        tolerance=absolute(0.006),
        why="printed to 0.01",
    )
