"""A setting that moved: what a check-back says of the readings taken in it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import hypot, inf, sqrt

from scipy import special

from fitwright.physics.metrology.unknowns import Unknown, require_finite, require_uncertainty
from fitwright.physics.metrology.welch import effective_degrees_of_freedom
from fitwright.quantity import Metre, Probability


@dataclass(frozen=True, slots=True)
class CheckedSetting:
    """A setting after its check-back.

    Attributes
    ----------
    setting : Unknown
        The same unknown with the drift in its uncertainty.
    shows_drift : bool
        Whether the setting moved by more than looking at it twice explains.
    probability : float
        Probability of such a difference if the setting had not moved.
    """

    setting: Unknown
    shows_drift: bool
    probability: Probability


def checked_setting(
    setting: Unknown, drift: Metre, *, repeatability: Metre = 0.0, significance: Probability = 0.05
) -> CheckedSetting:
    r"""Widen a setting's uncertainty by the drift that its check-back showed.

    Parameters
    ----------
    setting : Unknown
        The setting's unknown error.
    drift : float [m]
        Indication on the master at the check-back less that at the setting.
    repeatability : float [m]
        Standard uncertainty of one look at the master.
    significance : float [1]
        A difference less probable than this without drift counts as drift.

    Returns
    -------
    CheckedSetting
        The setting as the readings between should use it.

    Raises
    ------
    OutOfDomainError
        If the drift is no finite number or the repeatability none.

    Notes
    -----
    The readings are kept as taken. If the setting moves evenly from zero to :math:`\delta` while they are
    taken, a reading at an unknown moment is wrong by a share of it that is anywhere between none and all:

    .. math:: u^2 = u_b^2 + \int_0^1 (\delta s)^2\,ds = u_b^2 + \frac{\delta^2}{3}

    which is also what half the drift as a bias with :math:`\delta^2/12` about it gives,
    :math:`\delta^2/4 + \delta^2/12`. All readings of the setting share it: that is right in a sum and makes a
    difference of two of them a little too good only if the drift came between them. The widening
    is kept where the drift is not significant: it is small there, and leaving it out would reward not looking
    closely. The drift's part counts as known, so that the degrees of freedom of the setting grow with it.

    References
    ----------
    [jcgm100_2008] F.2.4.5 (an uncorrected bias that varies); 4.3.7; G.4.1, eq. G.2b

    Examples
    --------
    >>> moved = checked_setting(Unknown("S-1", 0.5e-6), 3e-6, repeatability=0.5e-6)
    >>> f"u {moved.setting.standard_uncertainty * 1e6:.2f} um, drift: {moved.shows_drift}"
    'u 1.80 um, drift: True'
    """
    require_finite("drift", drift)
    require_uncertainty("repeatability", repeatability)
    parts = setting.standard_uncertainty, drift / sqrt(3.0)
    freedoms = float(effective_degrees_of_freedom(parts, [setting.degrees_of_freedom, inf]))
    spread = sqrt(2.0) * repeatability
    score = -abs(drift) / spread if spread > 0.0 else (0.0 if drift == 0.0 else -inf)
    probability = float(2.0 * special.ndtr(score))
    return CheckedSetting(
        replace(setting, standard_uncertainty=hypot(*parts), degrees_of_freedom=freedoms),
        probability < significance,
        probability,
    )
