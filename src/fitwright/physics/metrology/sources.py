"""Independent sources of error, and what they contribute to sums of readings."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from fitwright.physics.metrology.unknowns import Unknown
from fitwright.physics.metrology.welch import grouped_degrees_of_freedom
from fitwright.quantity import FloatArray, Metre, Number

Budget = tuple[tuple[str, Metre, Number], ...]
"""Key, contribution and degrees of freedom of each source, the largest first."""


@dataclass(frozen=True, slots=True)
class Source:
    """One independent source of error.

    Attributes
    ----------
    key : str
        Key of the unknown, or of the reading whose repeatability it is.
    standard_uncertainty : float
        Standard uncertainty of the source in its own unit.
    degrees_of_freedom : float
        Degrees of freedom behind it.
    study : str
        Sources of one study rest on one estimate of scatter.
    """

    key: str
    standard_uncertainty: float
    degrees_of_freedom: float
    study: str

    @classmethod
    def of_unknown(cls, unknown: Unknown) -> Source:
        """The source that an unknown is."""
        study = f"unknown {unknown.key}"
        return cls(unknown.key, unknown.standard_uncertainty, unknown.degrees_of_freedom, study)


@dataclass(frozen=True, slots=True)
class Contributions:
    """What M sources contribute to N sums.

    Attributes
    ----------
    values : ndarray [m], shape (N, M)
        Signed contribution of one standard uncertainty of each source.
    sources : tuple of Source
        The M sources.
    """

    values: FloatArray
    sources: tuple[Source, ...]

    def standard_uncertainty(self) -> FloatArray:
        """Combined standard uncertainty of each sum [m], shape (N,)."""
        return np.asarray(np.sqrt(np.einsum("nm,nm->n", self.values, self.values)))

    def degrees_of_freedom(self) -> FloatArray:
        """Effective degrees of freedom of each sum, shape (N,)."""
        studies: dict[str, int] = {}
        for source in self.sources:
            if source.degrees_of_freedom != np.inf:
                studies.setdefault(source.study, len(studies))
        if not studies:
            return np.full(len(self.values), np.inf)
        # One more group, of infinite degrees of freedom, takes whatever is taken as known.
        groups = np.zeros((len(self.sources), len(studies) + 1))
        freedoms = np.full(len(studies) + 1, np.inf)
        for row, source in enumerate(self.sources):
            column = studies.get(source.study, len(studies)) if source.degrees_of_freedom != np.inf else -1
            groups[row, column] = 1.0
            freedoms[column] = min(freedoms[column], source.degrees_of_freedom)
        return grouped_degrees_of_freedom(self.values, freedoms, groups)

    def budget(self, row: int) -> Budget:
        """What contributes how much to one sum, the largest first."""
        rows = [
            (source.key, abs(float(contribution)), source.degrees_of_freedom)
            for source, contribution in zip(self.sources, self.values[row], strict=True)
            if contribution != 0.0
        ]
        return tuple(sorted(rows, key=lambda one: (-one[1], one[0])))
