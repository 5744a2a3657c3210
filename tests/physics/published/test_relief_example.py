"""A relief valve worked in a textbook."""

import math

from fitwright.physics.pump.relief import ReliefValve, cracking_pressure, full_bypass_pressure
from tests.support.compare import published

INCH, POUND_FORCE = 0.0254, 4.4482216152605
PSI = POUND_FORCE / INCH**2


def test_cracking_and_full_flow_pressure():
    valve = ReliefValve(
        spring_rate=2500.0 * POUND_FORCE / INCH,
        preload_length=0.20 * INCH,
        seat_diameter=math.sqrt(4.0 * 0.75 / math.pi) * INCH,
        full_lift=0.10 * INCH,
    )
    published(
        [cracking_pressure(valve) / PSI, full_bypass_pressure(valve) / PSI],
        [667.0, 1000.0],
        source="esposito2009",
        place="example 8-1: cracking pressure and pressure at full pump flow",
        tolerance=6e-4,
        why="printed to whole psi",
    )
