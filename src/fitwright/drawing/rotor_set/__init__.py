"""The rotors of an oil pump drawn to scale, at any angle, with their measured clearances.

`rotors` internal rotor pumps, `gears` external gear pairs; `side` the cut along the axis, `plan` ports, list
and notes, `clearances` what was measured and how it reads, `view` metres on a canvas.

Clearances are drawn true or so many times larger on demand; the drawing says which. `oil_pictures.css` has
its style.
"""

from __future__ import annotations

from fitwright.drawing.rotor_set.clearances import Clearances
from fitwright.drawing.rotor_set.gears import gear_set
from fitwright.drawing.rotor_set.rotors import RotorBody, rotor_set

__all__ = ["Clearances", "RotorBody", "gear_set", "rotor_set"]
