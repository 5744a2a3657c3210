"""Tables of journal bearings, made by `python -m tools.bearing_tables`."""

from __future__ import annotations

from functools import cache
from importlib.resources import files

from fitwright.physics.bearings.tables import BearingTables


@cache
def bearing_tables() -> BearingTables:
    """The tables, read once.

    >>> tables = bearing_tables()
    >>> tables.curves(0.5).sommerfeld_number.size == tables.eccentricity_ratio.size
    True
    """
    import numpy as np

    with files("fitwright.data").joinpath("bearing_tables.npz").open("rb") as file:
        stored = np.load(file, allow_pickle=False)
        return BearingTables(
            length_ratio=stored["length_ratio"],
            eccentricity_ratio=stored["eccentricity_ratio"],
            steady=stored["steady"],
            mobility_depth=stored["mobility_depth"],
            mobility=stored["mobility"].astype(np.float64),
            mass_residual=float(stored["mass_residual"]),
            grids=stored["grids"],
            solver=str(stored["solver"]),
        )
