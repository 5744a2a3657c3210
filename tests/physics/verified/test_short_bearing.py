"""The closed form of the short bearing against rows worked out apart from this project."""

import numpy as np

from fitwright.physics.bearings.curves import short_bearing_curves
from tests.support.compare import absolute, verified

# Eccentricity ratio, attitude in degrees, S (L/D)^2, Qs / (R c N L), (R/c) f (L/D)^2: the closed form of
# DuBois and Ocvirk with the film under pressure over the converging half, computed apart from this project.
ROWS = np.array(
    [
        (0.05, 86.352804, 2.01474, 0.314159, 39.8192),
        (0.1, 82.707755, 0.989979, 0.628319, 19.6399),
        (0.2, 75.431208, 0.461194, 1.256637, 9.29132),
        (0.3, 68.178080, 0.272176, 1.884956, 5.63195),
        (0.4, 60.939628, 0.170461, 2.513274, 3.67126),
        (0.5, 53.680201, 0.106049, 3.141593, 2.41717),
        (0.6, 46.320704, 0.0625299, 3.769911, 1.54286),
        (0.7, 38.704024, 0.0329643, 4.398230, 0.911148),
        (0.8, 30.500153, 0.0138846, 5.026548, 0.456787),
        (0.9, 20.826099, 0.00331488, 5.654867, 0.150114),
        (0.95, 14.474773, 0.000811602, 5.969026, 0.0513063),
        (0.97, 11.135699, 0.000289846, 6.094690, 0.0235344),
    ]
)
BY = "rows computed from the published closed form apart from this project, six figures"


def test_short_bearing():
    length_ratio = 0.5
    curves = short_bearing_curves(length_ratio, ROWS[:, 0])
    verified(np.degrees(curves.attitude_angle), ROWS[:, 1], by=BY, tolerance=absolute(1e-6))
    verified(curves.sommerfeld_number * length_ratio**2, ROWS[:, 2], by=BY, tolerance=5e-6)
    verified(curves.side_flow, ROWS[:, 3], by=BY, tolerance=2e-6)
    full = curves.friction_variable_full_film * length_ratio**2
    verified(full, ROWS[:, 4], by=BY, tolerance=5e-6)
