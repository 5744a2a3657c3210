"""Analysis of variance of a crossed study: its table, and variance components as sums of mean squares."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from scipy import special

from fitwright.quantity import FloatArray, Metre, Metres, Number, Probability, SquareMetre

_ROUNDINGS = 8.0
"""Roundings of a reading that its sums and means may gather."""


@dataclass(frozen=True, slots=True)
class VarianceRow:
    """One row of the analysis of variance.

    Attributes
    ----------
    source : str
        person, part, interaction, repeat, or "interaction and repeat" where the two are pooled.
    degrees_of_freedom : int [1]
        Degrees of freedom.
    sum_of_squares : float [m2]
        Sum of squared deviations.
    mean_square : float [m2]
        Sum of squares over degrees of freedom.
    f_ratio : float [1] or None
        Ratio to the mean square that it is tested against; None where there is none.
    significance : float [1] or None
        Probability of a larger ratio by chance.
    """

    source: str
    degrees_of_freedom: int
    sum_of_squares: SquareMetre
    mean_square: SquareMetre
    f_ratio: Number | None
    significance: Probability | None


@dataclass(frozen=True, slots=True)
class VarianceComponent:
    """A variance component as a linear combination of mean squares.

    Attributes
    ----------
    coefficients : dict of str to float [1]
        Coefficient of each mean square, by the source of its row.
    """

    coefficients: dict[str, float]

    def plus(self, other: VarianceComponent) -> VarianceComponent:
        """Add another component."""
        names = {**self.coefficients, **other.coefficients}
        return VarianceComponent(
            {name: self.coefficients.get(name, 0.0) + other.coefficients.get(name, 0.0) for name in names}
        )

    def variance(self, rows: dict[str, VarianceRow]) -> SquareMetre:
        """Give the estimate, which chance can make negative [m2]."""
        return sum(c * rows[name].mean_square for name, c in self.coefficients.items())

    def degrees_of_freedom(self, rows: dict[str, VarianceRow]) -> Number | None:
        """Effective degrees of freedom; None where the estimate is not positive."""
        return pooled_degrees_of_freedom(
            [
                (c * rows[name].mean_square, rows[name].degrees_of_freedom)
                for name, c in self.coefficients.items()
            ]
        )

    def not_negative(self, rows: dict[str, VarianceRow]) -> VarianceComponent:
        """Give nothing in place of an estimate that is not positive."""
        return self if self.variance(rows) > 0.0 else VarianceComponent({})


def pooled_degrees_of_freedom(terms: Sequence[tuple[float, float]]) -> Number | None:
    r"""Effective degrees of freedom of a sum of variances, some of which may be taken off.

    Parameters
    ----------
    terms : sequence of tuple of float [1]
        Variance, with its sign, and its degrees of freedom.

    Returns
    -------
    float [1] or None
        Degrees of freedom; None where the sum is not positive.

    Notes
    -----
    .. math:: \nu = \frac{(\sum_i v_i)^2}{\sum_i v_i^2/\nu_i}

    References
    ----------
    [satterthwaite1946]

    Examples
    --------
    >>> pooled_degrees_of_freedom([(2.0, 10.0), (2.0, 10.0)])
    20.0
    """
    total = sum(variance for variance, _ in terms)
    if not total > 0.0:
        return None
    return total**2 / sum(variance**2 / freedom for variance, freedom in terms)


def rounding_of(readings: FloatArray) -> Metre:
    r"""Give the difference that rounding alone can make between equal means of readings.

    Parameters
    ----------
    readings : ndarray [m], shape (*s)
        The readings.

    Returns
    -------
    float [m]
        Anything up to this is no spread. A gauge of coarse step repeats itself to the digit, and what is left
        of that in binary numbers must not be taken for scatter.

    Notes
    -----
    .. math:: 8\,\epsilon \max_i |x_i|

    References
    ----------
    [golub2013] 2.7, floating-point arithmetic

    Examples
    --------
    >>> rounding_of(np.array([0.056, 0.057])) < 1e-15
    True
    """
    return _ROUNDINGS * float(np.finfo(np.float64).eps * np.abs(readings).max())


def variance_table(readings: Metres, pooling_level: Probability) -> tuple[tuple[VarianceRow, ...], bool]:
    r"""Table of the analysis of variance of a crossed study.

    Parameters
    ----------
    readings : array_like [m], shape (people, parts, repeats)
        Every person's repeats of every part, at least two of each.
    pooling_level : float [1]
        The interaction is pooled with the repeats when its significance exceeds this level.

    Returns
    -------
    tuple of (tuple of VarianceRow, bool)
        The rows, and whether the interaction was pooled.

    Notes
    -----
    People and parts are tested against the interaction, or against the pooled row where there is one. Sums of
    squares that rounding alone could make (`rounding_of`) count as zero.

    References
    ----------
    [aiag_msa_2010] appendix A, analysis of variance concepts

    Examples
    --------
    >>> rows, pooled = variance_table([[[1.0, 1.2], [3.0, 3.1]], [[1.1, 1.1], [3.2, 3.0]]], 0.25)
    >>> pooled, [row.source for row in rows]
    (True, ['person', 'part', 'interaction', 'repeat', 'interaction and repeat'])
    """
    x = np.asarray(readings, dtype=float)
    a, p, n = x.shape
    mean = x.mean()
    people, parts, cells = x.mean(axis=(1, 2)), x.mean(axis=(0, 2)), x.mean(axis=2)
    squares = {
        "person": p * n * float(np.sum((people - mean) ** 2)),
        "part": a * n * float(np.sum((parts - mean) ** 2)),
        "interaction": n * float(np.sum((cells - people[:, None] - parts[None, :] + mean) ** 2)),
        "repeat": float(np.sum((x - cells[:, :, None]) ** 2)),
    }
    least = x.size * rounding_of(x) ** 2
    squares = {name: square if square > least else 0.0 for name, square in squares.items()}
    freedom = {"person": a - 1, "part": p - 1, "interaction": (a - 1) * (p - 1), "repeat": a * p * (n - 1)}
    interaction = _row("interaction", squares, freedom, against="repeat")
    # Repeats without any spread have no significance; then any interaction at all stands out.
    level = interaction.significance
    pooled = interaction.sum_of_squares == 0.0 if level is None else level > pooling_level
    if pooled:
        both = "interaction and repeat"
        squares[both] = squares["interaction"] + squares["repeat"]
        freedom[both] = freedom["interaction"] + freedom["repeat"]
        lower: tuple[VarianceRow, ...] = (
            interaction,
            _row("repeat", squares, freedom),
            _row(both, squares, freedom),
        )
        against = both
    else:
        lower = (interaction, _row("repeat", squares, freedom))
        against = "interaction"
    upper = tuple(_row(name, squares, freedom, against=against) for name in ("person", "part"))
    return upper + lower, pooled


def _row(
    name: str, squares: dict[str, float], freedom: dict[str, int], against: str | None = None
) -> VarianceRow:
    mean_square = squares[name] / freedom[name]
    ratio = significance = None
    if against is not None and squares[against] > 0.0:
        ratio = mean_square / (squares[against] / freedom[against])
        significance = float(special.fdtrc(freedom[name], freedom[against], ratio))
    return VarianceRow(name, freedom[name], squares[name], mean_square, ratio, significance)
