"""Chance that an offset is within its limit, from blade readings or from blades and values together.

Nothing is known beforehand (flat prior on mean gap, offset and, where identified, run-out); every reading
is a likelihood. A blade's bound is softened by the uncertainty of its thickness, reading by reading: one
blade that served at several stations shifts the mean gap rather than the offset, so to take its thickness
as independent from station to station is cautious.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from scipy import special

from fitwright.physics.fits.blade_polygon import GapBounds, greatest_gaps, require_gap_bounds
from fitwright.physics.fits.centring import ALL_UNKNOWNS, OFFSET_UNKNOWNS, Vector, gap_design, tells_apart
from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.physics.numerics.even_points import even_points
from fitwright.quantity import FloatArray, Metre, Number, Probability, Radian

_REACH = 6.0
"""Standard uncertainties by which the sampled box reaches over a soft bound (2e-9 is left out)."""

_BLOCKS, _BLOCK_POINTS = 32, 8192
"""Runs of points and points in a run; the runs' spread gives the stated numerical uncertainty."""

_CELLS = 1024
"""Cells in which the likelihood of one reading is tabulated to draw gaps from it."""

_MOST_CHOICES = 20_000

_LEAST_BLOCKS = 4
"""Runs of points before a clear answer is believed."""

_ENOUGH_POINTS = 4_000.0
"""Points of full weight that give mean and covariance of the offset well enough."""

_CLEAR = 1e-4
"""A chance this near to nought or one is clear: all further points would not move it by more."""


@dataclass(frozen=True, slots=True)
class GapValue:
    """A gap read as a value.

    Attributes
    ----------
    station_angle : float [rad]
        Where round the shaft, from the top, clockwise seen from the nose.
    shaft_angle : float [rad]
        Shaft angle at the reading.
    gap : float [m]
        Radial gap.
    standard_uncertainty : float [m]
        Its standard uncertainty, independent of the other readings.
    """

    station_angle: Radian
    shaft_angle: Radian
    gap: Metre
    standard_uncertainty: Metre


@dataclass(frozen=True, slots=True)
class OffsetPosterior:
    """What readings say about the housing's offset, as chances.

    Attributes
    ----------
    probability : float [1]
        That the magnitude of the offset is within the limit.
    numerical_uncertainty : float [1]
        Standard uncertainty of that probability from the quadrature; cautious.
    mean : Vector
        Mean offset.
    covariance : ndarray [m2], shape (2, 2)
        Covariance of the offset.
    effective_points : float [1]
        Quadrature points that carried weight; below about a thousand the probability is coarse.
    run_out_included : bool
        Whether the shaft's run-out was an unknown of its own.
    """

    probability: Probability
    numerical_uncertainty: Probability
    mean: Vector
    covariance: FloatArray
    effective_points: Number
    run_out_included: bool


def offset_posterior(
    limit: Metre, *, bounds: Sequence[GapBounds] = (), values: Sequence[GapValue] = ()
) -> OffsetPosterior | None:
    r"""Chance that the housing's offset is within a limit, from blades, or from blades and values.

    Parameters
    ----------
    limit : float [m]
        Largest magnitude that the offset may have.
    bounds : sequence of GapBounds
        Blade readings.
    values : sequence of GapValue
        Readings with values.

    Returns
    -------
    OffsetPosterior or None
        None where the readings leave the offset open on some side, or contradict each other beyond what
        their uncertainties explain: then there is no probability.

    Raises
    ------
    OutOfDomainError
        If the limit is negative, there is no reading, or bounds mean nothing.

    Notes
    -----
    .. math:: p(e) \propto \int \prod_i
              \left[\Phi\!\left(\frac{g_i - l_i}{u_{l,i}}\right)
              - \Phi\!\left(\frac{g_i - h_i}{u_{h,i}}\right)\right]
              \prod_j \exp\!\left(-\frac{(g_j - y_j)^2}{2 u_j^2}\right) dg_0 \, dr

    The gaps at as many stations as there are unknowns, chosen so that the box of their bounds is smallest,
    are drawn from their own likelihoods at up to 262,144 evenly spread points and weighed by the other
    readings; they end early where every chance is within 1e-4 of nought or one. No random numbers: equal
    inputs give equal digits.

    References
    ----------
    [jcgm101_2008] 6, flat priors; [niederreiter1992] evenly spread points; [jcgm106_2012] 7

    Examples
    --------
    >>> turn = [math.radians(angle) for angle in (0, 90, 180, 270)]
    >>> blades = [GapBounds(angle, 0.0, 0.15e-3, 0.20e-3, 3e-6, 3e-6) for angle in turn]
    >>> found = offset_posterior(0.05e-3, bounds=blades)
    >>> found.probability > 0.999, abs(found.mean.up) < 1e-7
    (True, True)
    """
    return offset_posteriors([limit], bounds=bounds, values=values)[0]


def offset_posteriors(
    limits: Sequence[Metre], *, bounds: Sequence[GapBounds] = (), values: Sequence[GapValue] = ()
) -> tuple[OffsetPosterior | None, ...]:
    """Chances that the housing's offset is within each of several limits, from one quadrature.

    Parameters
    ----------
    limits : sequence of float [m]
        Largest magnitudes that the offset may have.
    bounds : sequence of GapBounds
        Blade readings.
    values : sequence of GapValue
        Readings with values.

    Returns
    -------
    tuple of (OffsetPosterior or None)
        One for each limit, as `offset_posterior` gives it.

    Raises
    ------
    OutOfDomainError
        If a limit is negative or there is no reading.

    Notes
    -----
    As `offset_posterior`; the points and their weights are the same for every limit.

    References
    ----------
    [jcgm101_2008] 6, flat priors

    Examples
    --------
    >>> turn = [math.radians(angle) for angle in (0, 90, 180, 270)]
    >>> blades = [GapBounds(angle, 0.0, 0.15e-3, 0.20e-3, 3e-6, 3e-6) for angle in turn]
    >>> near, far = offset_posteriors([0.01e-3, 0.05e-3], bounds=blades)
    >>> near.probability < far.probability, near.mean == far.mean
    (True, True)
    """
    for limit in limits:
        if not limit >= 0.0:
            raise OutOfDomainError("limit", limit, "zero or more")
    if not (bounds or values):
        raise OutOfDomainError("readings", 0, "at least one")
    require_gap_bounds(bounds)
    readings = _Readings.of(bounds, values)
    unknowns = ALL_UNKNOWNS if tells_apart(readings.design, ALL_UNKNOWNS) else OFFSET_UNKNOWNS
    readings = readings.closed(unknowns)
    basis = _smallest_box(readings, unknowns)
    if basis is None:
        return (None,) * len(limits)
    tally = _Tally(limits)
    tables = [readings.table(reading) for reading in basis]
    if not all(below[-1] > 0.0 for below, _ in tables):
        return (None,) * len(limits)
    for block in range(_BLOCKS):
        tally.add(*_weighed_offsets(readings, basis, tables, block))
        if tally.is_clear:
            break
    if not tally.total > 0.0:
        return (None,) * len(limits)
    mean, covariance = tally.mean_and_covariance()
    return tuple(
        OffsetPosterior(
            probability=tally.probability(column),
            numerical_uncertainty=tally.numerical_uncertainty(column),
            mean=mean,
            covariance=covariance,
            effective_points=tally.total**2 / tally.squares,
            run_out_included=unknowns == ALL_UNKNOWNS,
        )
        for column in range(len(limits))
    )


class _Tally:
    """Sums over the runs of points, and those within each limit."""

    def __init__(self, limits: Sequence[Metre]) -> None:
        self.limits = tuple(limits)
        self.totals: list[float] = []
        self.inside: list[list[float]] = []
        self.squares = 0.0
        self.moments = np.zeros((3, 3))

    @property
    def blocks(self) -> int:
        return len(self.totals)

    @property
    def total(self) -> float:
        return sum(self.totals)

    @property
    def is_clear(self) -> bool:
        """Whether further runs of points could change nothing that matters."""
        if self.blocks < _LEAST_BLOCKS or not self.total**2 > _ENOUGH_POINTS * self.squares:
            return False
        chances = [self.probability(column) for column in range(len(self.limits))]
        return all(chance < _CLEAR or chance > 1.0 - _CLEAR for chance in chances)

    def add(self, offsets: FloatArray, weights: FloatArray) -> None:
        magnitude = np.hypot(offsets[:, 0], offsets[:, 1])
        self.totals.append(float(weights.sum()))
        self.inside.append([float(weights[magnitude <= limit].sum()) for limit in self.limits])
        self.squares += float(np.sum(weights**2))
        padded = np.column_stack([np.ones(len(offsets)), offsets])
        self.moments += padded.T @ (weights[:, None] * padded)

    def probability(self, column: int) -> Probability:
        return sum(inside[column] for inside in self.inside) / self.total

    def numerical_uncertainty(self, column: int) -> Probability:
        """Standard error over the runs: cautious, since runs that follow on share out the cube."""
        inside = np.array([each[column] for each in self.inside])
        misses = inside - self.probability(column) * np.array(self.totals)
        return math.sqrt(self.blocks * float(np.sum(misses**2)) / (self.blocks - 1)) / self.total

    def mean_and_covariance(self) -> tuple[Vector, FloatArray]:
        mean = self.moments[0, 1:] / self.total
        covariance = self.moments[1:, 1:] / self.total - np.outer(mean, mean)
        return Vector(float(mean[0]), float(mean[1])), np.asarray(covariance)


def _weighed_offsets(
    readings: _Readings, basis: Sequence[int], tables: Sequence[tuple[FloatArray, FloatArray]], block: int
) -> tuple[FloatArray, FloatArray]:
    """Offsets of one run of points, drawn from the readings of the basis and weighed by all others."""
    unknowns = len(basis)
    shares = even_points(unknowns, first=1 + block * _BLOCK_POINTS, count=_BLOCK_POINTS)
    gaps = np.column_stack(
        [np.interp(shares[:, k] * below[-1], below, edges) for k, (below, edges) in enumerate(tables)]
    )
    state = gaps @ np.linalg.inv(readings.design[basis][:, :unknowns]).T
    others = [i for i in range(len(readings.design)) if i not in basis]
    weights = np.ones(len(state))
    for other in others:
        weights *= readings.likelihood(other, state @ readings.design[other, :unknowns])
    return state[:, 1:3], weights


@dataclass(frozen=True, slots=True)
class _Readings:
    """All readings in rows: blades first, then values."""

    design: FloatArray
    lower: FloatArray
    lower_uncertainty: FloatArray
    upper: FloatArray
    upper_uncertainty: FloatArray
    gap: FloatArray
    gap_uncertainty: FloatArray
    low: FloatArray
    high: FloatArray

    @classmethod
    def of(cls, bounds: Sequence[GapBounds], values: Sequence[GapValue]) -> _Readings:
        places: list[GapBounds | GapValue] = [*bounds, *values]
        lower = np.array([b.at_least for b in bounds])
        upper = np.array([b.at_most for b in bounds])
        # That a gap is not negative is no blade's statement and stays sharp.
        lower_u = np.array([b.at_least_standard_uncertainty if b.at_least > 0.0 else 0.0 for b in bounds])
        upper_u = np.array([b.at_most_standard_uncertainty for b in bounds])
        gap = np.array([v.gap for v in values])
        gap_u = np.array([v.standard_uncertainty for v in values])
        if values and not gap_u.min() > 0.0:
            raise OutOfDomainError("standard_uncertainty of a gap", float(gap_u.min()), "greater than zero")
        return cls(
            design=gap_design([p.station_angle for p in places], [p.shaft_angle for p in places]),
            lower=lower,
            lower_uncertainty=lower_u,
            upper=upper,
            upper_uncertainty=upper_u,
            gap=gap,
            gap_uncertainty=gap_u,
            low=np.concatenate([lower - _REACH * lower_u, gap - _REACH * gap_u]),
            high=np.concatenate([upper + _REACH * upper_u, gap + _REACH * gap_u]),
        )

    def closed(self, unknowns: int) -> _Readings:
        """Gaps that no blade bounds from above end where the other readings leave them."""
        return replace(self, high=greatest_gaps(self.design[:, :unknowns], self.low, self.high))

    def table(self, reading: int) -> tuple[FloatArray, FloatArray]:
        """Likelihood of the gap at one station by its own reading alone, added up from below, and gaps."""
        edges = np.linspace(self.low[reading], self.high[reading], _CELLS + 1)
        heights = self.likelihood(reading, 0.5 * (edges[1:] + edges[:-1]))
        return np.concatenate([[0.0], np.cumsum(heights)]), edges

    def likelihood(self, reading: int, gaps: FloatArray) -> FloatArray:
        """Likelihood of gaps at one station."""
        blades = len(self.lower)
        if reading >= blades:
            value = reading - blades
            return np.asarray(np.exp(-0.5 * ((gaps - self.gap[value]) / self.gap_uncertainty[value]) ** 2))
        rise = _step(gaps - self.lower[reading], float(self.lower_uncertainty[reading]))
        return np.maximum(
            rise - _step(gaps - self.upper[reading], float(self.upper_uncertainty[reading])), 0.0
        )


def _step(distance: FloatArray, uncertainty: float) -> FloatArray:
    """Chance that a distance beyond an uncertain bound is positive; a sharp step without uncertainty."""
    if uncertainty > 0.0:
        return np.asarray(special.ndtr(distance / uncertainty))
    return np.asarray(distance >= 0.0, dtype=float)


def _smallest_box(readings: _Readings, unknowns: int) -> list[int] | None:
    """Readings whose bounds, as a box of gaps, enclose what all allow in the smallest volume of unknowns."""
    width = readings.high - readings.low
    closed = [i for i in np.argsort(width, kind="stable") if math.isfinite(width[i])]
    while math.comb(len(closed), unknowns) > _MOST_CHOICES:
        closed = closed[:-1]
    choices = np.array(list(itertools.combinations(sorted(closed), unknowns)), dtype=int).reshape(
        -1, unknowns
    )
    if not len(choices):
        return None
    spans = np.abs(np.linalg.det(readings.design[choices][:, :, :unknowns]))
    usable = spans > 1e-6
    if not usable.any():
        return None
    volume = np.where(usable, np.prod(width[choices], axis=1), np.inf) / np.where(usable, spans, 1.0)
    return [int(i) for i in choices[int(np.argmin(volume))]]
