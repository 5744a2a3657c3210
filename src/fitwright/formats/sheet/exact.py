"""Numbers of the model as amounts of a file: short where that loses nothing."""

from __future__ import annotations

from fractions import Fraction

from fitwright.units import definition_of, parse_quantity


def exact(value: float, *units: str) -> str:
    """An SI value in the first of these units that gives the very same value back, else in the last.

    Examples
    --------
    >>> exact(368.15, "degC", "K"), exact(0.084, "mm", "m"), exact(1.15e-05, "ppm/K", "/K")
    ('95 degC', '84 mm', '11.5 ppm/K')
    """
    for unit in units[:-1]:
        definition = definition_of(unit)
        magnitude = (Fraction(value) - definition.offset) / definition.factor
        text = f"{float(magnitude):.9g} {unit}"
        if parse_quantity(text).si == value:
            return text
    return f"{repr(value).removesuffix('.0')} {units[-1]}"
