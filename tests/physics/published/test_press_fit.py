"""Press fits worked in a textbook."""

import pytest

from fitwright.physics.fits.interference import ElasticMaterial, press_fit
from tests.support.compare import published

STEEL = ElasticMaterial(207e9, 0.3)
WHY = "six figures of the diameter, so two or three of the interference"


@pytest.mark.parametrize(
    "example,sizes,jacket_bore,pressure",
    [
        # The pressure of 22.6 follows from its limit of 100 N/mm2 on the hoop stress of the jacket.
        ("22.6", (20e-3, 40e-3, 60e-3), 39.968289e-3, 100e6 * 2000.0 / 5200.0),
        ("22.8", (50e-3, 75e-3, 100e-3), 74.991916e-3, 3.615169e6),
    ],
)
def test_shrinkage_pressure_of_a_jacketed_tube(example, sizes, jacket_bore, pressure):
    inner, interface, outer = sizes
    fit = press_fit(
        interface - jacket_bore,
        interface_diameter=interface,
        hub_outer_diameter=outer,
        hub=STEEL,
        shaft=STEEL,
        shaft_bore=inner,
    )
    published(
        fit.contact_pressure,
        pressure,
        source="bhandari2010",
        place=f"example {example}, shrinkage pressure and diameters",
        tolerance=1e-4,
        why=WHY,
    )


def test_hoop_stress_of_the_jacket():
    fit = press_fit(
        40e-3 - 39.968289e-3,
        interface_diameter=40e-3,
        hub_outer_diameter=60e-3,
        hub=STEEL,
        shaft=STEEL,
        shaft_bore=20e-3,
    )
    published(
        fit.hub_hoop_stress,
        100e6,
        source="bhandari2010",
        place="example 22.6, largest principal stress of the jacket",
        tolerance=1e-4,
        why=WHY,
    )
