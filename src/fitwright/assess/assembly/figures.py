"""Amounts inside a sentence: in both families of units, as each is read in its shop."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

from fitwright.quantity import Metre, Newton, NewtonMetre, Number, Pascal, Radian

NEWTON_METRE_IN_POUND_FEET: Final = 1.3558179483314
"""One lbf ft [N m]."""
POUND_FORCE: Final = 4.4482216152605
"""One lbf [N]."""
THOU: Final = 25.4e-6
"""A thousandth of an inch [m]."""
PSI: Final = 6894.757293168
"""One psi [Pa]."""


def force(value: Newton) -> str:
    """A force, as `39.4 kN (8860 lbf)`.

    >>> force(39400.0)
    '39.4 kN (8860 lbf)'
    """
    return f"{value / 1e3:.1f} kN ({round(value / POUND_FORCE, -1):.0f} lbf)"


def torque(value: NewtonMetre) -> str:
    """A torque, as `46.0 N·m (33.9 lbf·ft)`.

    >>> torque(46.0), torque(9.5)
    ('46.0 N·m (33.9 lbf·ft)', '9.5 N·m (7.0 lbf·ft)')
    """
    return f"{value:.1f} N·m ({value / NEWTON_METRE_IN_POUND_FEET:.1f} lbf·ft)"


def length(value: Metre) -> str:
    """A small length, as `0.150 mm (5.9 thou)`.

    >>> length(0.150e-3)
    '0.150 mm (5.91 thou)'
    """
    return f"{value * 1e3:.3f} mm ({value / THOU:.2f} thou)"


def angle(value: Radian) -> str:
    """An angle in degrees.

    >>> angle(math.radians(60.0))
    '60°'
    """
    return f"{math.degrees(value):.0f}°"


def stress(value: Pascal) -> str:
    """A stress or a pressure between faces, as `350 MPa (50800 psi)`.

    >>> stress(350e6)
    '350 MPa (50800 psi)'
    """
    return f"{value / 1e6:.0f} MPa ({round(value / PSI, -2):.0f} psi)"


def share(value: Number) -> str:
    """A share in percent.

    >>> share(0.873)
    '87 %'
    """
    return f"{100.0 * value:.0f} %"


def lasting(seconds: float) -> str:
    """A stretch of time in words.

    >>> lasting(5400.0), lasting(40.0), lasting(3 * 86400.0)
    ('1 h 30 min', '1 min', '3 days')
    """
    minutes = max(math.ceil(seconds / 60.0), 1)
    hours, rest = divmod(minutes, 60)
    if hours >= 48:
        return f"{round(hours / 24)} days"
    if not hours:
        return f"{minutes} min"
    return f"{hours} h {rest} min" if rest else f"{hours} h"


def listed(names: Sequence[str], most: int = 6) -> str:
    """Names in a row, the later ones counted only.

    >>> listed(["C1", "C2", "C3"]), listed(["a", "b", "c", "d"], most=2)
    ('C1, C2 and C3', 'a, b and 2 more')
    """
    if len(names) > most:
        return f"{', '.join(names[:most])} and {len(names) - most} more"
    return " and ".join([", ".join(names[:-1]), names[-1]] if len(names) > 1 else names)
