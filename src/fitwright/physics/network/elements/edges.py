"""What edges and turns of a drilling cost, added up by a named author."""

from __future__ import annotations

from collections.abc import Iterable

from fitwright.physics.passages.edges import (
    DEFAULT_AUTHOR,
    EntranceAuthor,
    entrance_loss_coefficient,
    mitre_loss_coefficient,
)
from fitwright.quantity import Metre, Number, Radian


def drilling_loss_coefficient(
    diameter: Metre,
    *,
    edge_radius: Metre | None = 0.0,
    turns: Iterable[Radian] = (),
    ends_free: bool = True,
    author: EntranceAuthor = DEFAULT_AUTHOR,
) -> Number:
    r"""Loss coefficient of a drilling: its entry, its turns and its end.

    Parameters
    ----------
    diameter : float [m]
        Bore.
    edge_radius : float [m] or None
        Radius of the edge where oil enters, zero for a sharp one; None where it goes on in the same bore.
    turns : iterable of float [rad]
        Angles by which the flow turns at sharp bends.
    ends_free : bool
        Whether the speed is lost at the end, in a wider space.
    author : str
        Whose values for the entry (`passages.edges`).

    Returns
    -------
    float [1]
        Lost dynamic pressures of the bore.

    Notes
    -----
    .. math:: K = K_{entry}(r/d) + \sum K_{mitre}(\alpha) + 1

    Losses are added as if edges stood far apart, at turbulent flow.

    References
    ----------
    [rennels2012] rounded entrance, mitre bends, exit

    Examples
    --------
    >>> round(drilling_loss_coefficient(6e-3), 3), round(drilling_loss_coefficient(6e-3, edge_radius=1e-3), 3)
    (1.57, 1.135)
    """
    entry = 0.0
    if edge_radius is not None:
        entry = float(entrance_loss_coefficient(edge_radius / diameter, author))
    bends = sum(float(mitre_loss_coefficient(turn)) for turn in turns)
    return entry + bends + (1.0 if ends_free else 0.0)
