"""Short entries at the bench: only the last digits of a size, or a gauge's signed deviation.

Both become a whole size whose text shows what was typed in brackets (`55.9[92] mm`,
`55.980 mm [+12 x 0.001 mm]`); `parse_quantity` reads that text again.
"""

from __future__ import annotations

import re
from decimal import Decimal
from fractions import Fraction

from fitwright.units.errors import QuantityError
from fitwright.units.grammar import plain_text, refuse_long, split_number
from fitwright.units.quantity import Quantity, parse_quantity
from fitwright.units.rounding import rounded


def last_digits_pattern(nominal: float, unit: str, decimals: int, blanks: int = 2) -> str:
    """A size with its last digits left blank, as shown before typing: `55.9__`.

    Parameters
    ----------
    nominal : float [SI]
        The size expected.
    unit : str
        Unit of the size shown.
    decimals, blanks : int
        Decimals of the whole size, and how many of its last digits are left blank.

    Returns
    -------
    str
        The pattern.

    Examples
    --------
    >>> last_digits_pattern(0.055992, "mm", 3)
    '55.9__'
    """
    return _blank_end(f"{rounded(nominal, unit, decimals):.{decimals}f}", blanks)


def parse_last_digits(digits: str, pattern: str, unit: str) -> Quantity:
    """The size whose last digits were typed, the others being those of a pattern.

    Parameters
    ----------
    digits : str
        What was typed: as many digits as the pattern has blanks, nothing else.
    pattern : str
        The size with blanks at its end, `55.9__`.
    unit : str
        Unit of the size.

    Returns
    -------
    Quantity
        The whole size; `typed` reads `55.9[92] mm`.

    Raises
    ------
    QuantityError
        If other than that many digits were typed.

    Examples
    --------
    >>> parse_last_digits("92", "55.9__", "mm").si
    0.055992
    """
    typed = plain_text(digits)
    blanks = pattern.count("_")
    if not typed.isdecimal() or len(typed) != blanks:
        write = f'{_count(blanks)} for "{pattern}", or the full size with its decimal mark'
        raise QuantityError(digits, "last_digits", f"is not {_count(blanks)}", write)
    filled, remaining = "", iter(typed)
    for character in pattern:
        filled += next(remaining) if character == "_" else character
    cut = pattern.index("_")
    return parse_quantity(f"{filled[:cut]}[{filled[cut:]}] {unit}")


def parse_nearest_last_digits(digits: str, nominal: float, unit: str, decimals: int) -> Quantity:
    """The size with these last digits that lies nearest to the one expected.

    Where 55.992 mm is expected, `03` is 56.003 mm and not 55.903 mm.

    Parameters
    ----------
    digits : str
        The last digits typed.
    nominal : float [SI]
        The size expected.
    unit : str
        Unit of the size.
    decimals : int
        Decimals of the whole size.

    Returns
    -------
    Quantity
        The whole size; `typed` reads `56.0[03] mm`.

    Raises
    ------
    QuantityError
        If something else than digits was typed, or if two sizes are equally near.

    Examples
    --------
    >>> parse_nearest_last_digits("03", 0.055992, "mm", 3).typed
    '56.0[03] mm'
    """
    typed = plain_text(digits)
    refuse_long(typed, digits)
    if not typed.isdecimal():
        raise QuantityError(
            digits, "last_digits", "is not a run of digits", "the last digits only, or the full size"
        )
    cycle = 10 ** len(typed)
    expected = Fraction(rounded(nominal, unit, decimals + 2)) * 10**decimals
    turns, remainder = divmod(expected - int(typed), cycle)
    if 2 * remainder == cycle:
        write = f"the full size: it lies as far above as below {float(expected / 10**decimals):g} {unit}"
        raise QuantityError(digits, "last_digits", "fits two sizes equally well", write)
    steps = (int(turns) + (2 * remainder > cycle)) * cycle + int(typed)
    if steps < 0:
        raise QuantityError(digits, "last_digits", "would give a negative size", "the full size")
    whole = f"{Decimal(steps).scaleb(-decimals):.{decimals}f}"
    return parse_last_digits(typed, _blank_end(whole, len(typed)), unit)


def parse_deviation(typed: str, base: str, division: str) -> Quantity:
    """A size from the signed deviation that a gauge shows, counted in its own divisions.

    Parameters
    ----------
    typed : str
        `+3` counts divisions; `-0.5 thou` is an amount. The sign is needed except for 0.
    base : str
        The size at which the gauge shows zero, with its unit: `55.980 mm`.
    division : str
        One division of the gauge, with its unit: `0.001 mm`.

    Returns
    -------
    Quantity
        The whole size; `typed` reads `55.980 mm [+3 x 0.001 mm]`.

    Raises
    ------
    QuantityError
        If the sign is missing, or if the text is no amount.

    Examples
    --------
    >>> parse_deviation("+3", "55.980 mm", "0.001 mm").si
    0.055983
    """
    plain = plain_text(typed)
    number, unit_text = split_number(plain, typed)
    if plain[0] not in "+-":
        if number.exact:
            raise QuantityError(
                typed, "no_sign", "is a deviation without a sign", f'"+{plain}" or "-{plain}"'
            )
        plain = f"+{plain}"
    steps = plain if unit_text else f"{plain} x {division}"
    return parse_quantity(f"{base} [{steps}]")


def _blank_end(whole: str, blanks: int) -> str:
    missing = max(0, blanks - sum(character.isdigit() for character in whole))
    whole = "0" * missing + whole
    return re.sub(r"\d", "_", whole[::-1], count=blanks)[::-1]


def _count(blanks: int) -> str:
    return "one digit" if blanks == 1 else f"{blanks} digits"
