"""Make the tables of journal bearings anew: `python -m tools.bearing_tables`; minutes on one core.

`python -m tools.bearing_tables steady` makes one part anew (the other is `mobility`). Every number is a
solution of `fitwright.physics.bearings.direct`; see docs/theory/journal-bearings.md.
"""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Final

import numpy as np

from fitwright.physics.bearings.curves import regular_functions
from fitwright.physics.bearings.direct import direct_curves, direct_film, direct_mobility
from fitwright.physics.bearings.grids import FilmGrid
from fitwright.quantity import FloatArray

FILE: Final = Path(__file__).resolve().parents[1] / "src" / "fitwright" / "data" / "bearing_tables.npz"
SOLVER: Final = "finite volumes, conserving rupture, version 1"
STEADY_GRID: Final = FilmGrid(288, 48)
MOBILITY_GRID: Final = FilmGrid(120, 24)
LENGTH_RATIOS: Final = 0.15 * 8.0 ** (np.arange(11) / 10.0)
# Close together near one: even in the cube root of what is left to one, from 0.005 to 0.99.
ECCENTRICITY_RATIOS: Final = 1.0 - np.linspace(0.995 ** (1.0 / 3.0), 0.01 ** (1.0 / 3.0), 49) ** 3
# -ln(1 - e), evenly from the centre to a film of a thousandth of the clearance.
DEPTHS: Final = np.linspace(0.0, np.log(1000.0), 37)
LOAD_ANGLES: Final = np.pi * (1.0 - np.cos(np.linspace(0.0, 0.5 * np.pi, 41)))


def steady_table() -> tuple[FloatArray, float]:
    """Regular functions (length ratio, eccentricity, 6) and the largest mass residual."""
    table = np.empty((LENGTH_RATIOS.size, ECCENTRICITY_RATIOS.size, 6))
    residual = 0.0
    for row, ratio in zip(table, LENGTH_RATIOS, strict=True):
        row[:] = regular_functions(direct_curves(ratio, ECCENTRICITY_RATIOS, grid=STEADY_GRID))
        ends = [direct_film(ratio, e, grid=STEADY_GRID).mass_residual for e in ECCENTRICITY_RATIOS[[0, -1]]]
        residual = max(residual, *ends)
        _say(f"steady, length ratio {ratio:.3f}")
    return table, residual


def mobility_table() -> FloatArray:
    """Logarithmic planes of the mobility maps (length ratio, depth, angle, 3)."""
    table = np.empty((LENGTH_RATIOS.size, DEPTHS.size, LOAD_ANGLES.size, 3))
    for planes, ratio in zip(table, LENGTH_RATIOS, strict=True):
        for row, depth in zip(planes, DEPTHS, strict=True):
            start = None
            for place, angle in zip(row, LOAD_ANGLES, strict=True):
                place[:], start = mobility_planes(ratio, depth, angle, start)
        # Next to the centre what moves across is lost in the noise of the nodes: a straight line.
        planes[0, :, 1] = 2.0 * planes[1, :, 1] - planes[2, :, 1]
        _say(f"mobility, length ratio {ratio:.3f}")
    return table


def mobility_planes(
    length_ratio: float, depth: float, load_angle: float, start: float | None = None
) -> tuple[FloatArray, float]:
    """Logarithms of the regular functions (the last as it is), and the direction of the motion."""
    # At the centre and on the line of the load they are limits: those of a place close by.
    e = max(-float(np.expm1(-depth)), 1e-3)
    beside = min(max(load_angle, 0.05 * (2.0 * (1.0 - e)) ** 0.5), np.pi - 0.05)
    along, across, ratio = direct_mobility(length_ratio, e, beside, grid=MOBILITY_GRID, start=start)
    xi, eta = e * np.cos(beside), -e * np.sin(beside)
    left = 1.0 - xi
    planes = (
        np.log(along * length_ratio**2 / left**2.5),
        np.log(max(-across * length_ratio**2 / (eta * left**1.5), 1e-3)),
        ratio / left**0.5,
    )
    return np.array(planes), beside + float(np.arctan2(across, along))


def main(parts: list[str]) -> None:
    """Make the file, or only the parts named anew: steady, mobility."""
    made = dict(np.load(FILE)) if parts else {}
    if not parts or "steady" in parts:
        made["steady"], made["mass_residual"] = steady_table()
        made |= {"length_ratio": LENGTH_RATIOS, "eccentricity_ratio": ECCENTRICITY_RATIOS}
    if not parts or "mobility" in parts:
        made |= {"mobility": mobility_table().astype(np.float32), "mobility_depth": DEPTHS}
    steps = [[grid.around, grid.along] for grid in (STEADY_GRID, MOBILITY_GRID)]
    np.savez_compressed(FILE, **(made | {"grids": steps, "solver": SOLVER}))
    _say(f"{FILE.name}: {FILE.stat().st_size} bytes")


def _say(text: str) -> None:
    sys.stdout.write(text + "\n")
    sys.stdout.flush()


if __name__ == "__main__":
    main(sys.argv[1:])
