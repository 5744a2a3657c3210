"""The grammar of numbers as people at a bench write them, in exact arithmetic.

Comma and point are both decimal marks; digit groups are refused, because `1,234` cannot be both
1.234 and 1234. Fractions (`3/8`, `2 1/2`, `2-1/2`) are read, exponents (`1e-6`, `11.5 x 10^-6`) too.
Nothing passes through a binary float here: `exact` is the very number that was written.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from fitwright.units.errors import QuantityError

LONGEST_TEXT: Final = 80
LARGEST_EXPONENT: Final = 30
"""Bounds on what is read, so that no text can make the exact arithmetic slow."""

_CHARACTERS: Final = str.maketrans(
    {
        "\u2212": "-", "\u2013": "-", "\u2010": "-", "\u2011": "-", "\uff0b": "+", "\u2044": "/",
        "\u00a0": " ", "\u2009": " ", "\u202f": " ", "\u2007": " ", "\t": " ",
        "\u00b5": "u", "\u03bc": "u", "\u00ba": "\u00b0", "\u2033": '"', "\u201c": '"', "\u201d": '"',
        "\u2032": "'", "\u2019": "'", "\u00b7": " ", "\u22c5": " ", "\u2022": " ", "\u2219": " ",
        "\u00d7": "x", "\u00b2": "2", "\u00b3": "3", "\u2103": "\u00b0C", "\u2109": "\u00b0F",
        "\u03a9": "ohm", "\u2113": "L",
    }
)  # fmt: skip
_SUPERSCRIPT_POWER: Final = re.compile("10([\u207b\u207a]?[\u2070\u00b9\u00b2\u00b3\u2074-\u2079]+)")
_SUPERSCRIPTS: Final = str.maketrans(
    "\u207b\u207a\u2070\u00b9\u00b2\u00b3\u2074\u2075\u2076\u2077\u2078\u2079", "-+0123456789"
)
_RAISED_DIGIT: Final = re.compile("(?<=[0-9])(?=[\u00b2\u00b3])")
"""A raised digit is part of a unit, never one more digit of a number: `55.45\u00b2` is not 55.452."""
_VULGAR_FRACTIONS: Final = {
    "\u00bd": "1/2", "\u00bc": "1/4", "\u00be": "3/4", "\u215b": "1/8", "\u215c": "3/8",
    "\u215d": "5/8", "\u215e": "7/8", "\u2153": "1/3", "\u2154": "2/3",
}  # fmt: skip

_FRACTION: Final = re.compile(
    r"(?P<sign>[+-]?) ?(?:(?P<whole>\d+)[ -])?(?P<top>\d+) ?/ ?(?P<bottom>\d+)(?![\d.,])"
)
_DECIMAL: Final = re.compile(
    r"(?P<sign>[+-]?) ?(?P<digits>\d+(?:[.,]\d*)?|[.,]\d+)"
    r"(?:[eE](?P<power>[+-]?\d+)| ?[x*] ?10\^?(?P<ten_power>[+-]\d+)| ?[x*] ?10\^(?P<caret>\d+))?"
)
_GROUPED: Final = re.compile(r"[.,]|['_]\d| \d{3}(?![\d/])")


@dataclass(frozen=True, slots=True)
class WrittenNumber:
    """A number as written: its exact value, the decimals typed, and whether it was a fraction."""

    exact: Fraction
    decimals: int
    is_fraction: bool = False


def plain_text(text: str) -> str:
    """The text with typographic characters in their plain form and single spaces."""
    for character, written in _VULGAR_FRACTIONS.items():
        text = text.replace(character, f" {written}")
    text = _SUPERSCRIPT_POWER.sub(lambda found: "10^" + found[1].translate(_SUPERSCRIPTS), text)
    text = _RAISED_DIGIT.sub(" ", text)
    text = text.replace("\u207b\u00b9", "-1").translate(_CHARACTERS)
    return " ".join(text.split())


def refuse_long(text: str, typed: str) -> None:
    """Refuse what is longer than any amount: thousands of digits are no number to count with.

    Parameters
    ----------
    text, typed : str
        What `plain_text` returned; the text as typed, for the error.

    Raises
    ------
    QuantityError
        If it is longer.
    """
    if len(text) > LONGEST_TEXT:
        raise QuantityError(typed[:20] + "...", "too_long", "is too long for an amount", '"67.08 mm"')


def split_number(text: str, typed: str) -> tuple[WrittenNumber, str]:
    """The number at the start of a plain text, and the rest of it (the unit).

    Parameters
    ----------
    text : str
        What `plain_text` returned.
    typed : str
        The text as typed, for the error.

    Returns
    -------
    tuple of WrittenNumber and str
        The number, and what follows it without surrounding spaces.

    Raises
    ------
    QuantityError
        If there is no number at the start, or if it has digit groups.
    """
    refuse_long(text, typed)
    if found := _FRACTION.match(text):
        return _fraction(found, typed), text[found.end() :].strip()
    if found := _DECIMAL.match(text):
        rest = text[found.end() :]
        _refuse_groups(found, rest, typed)
        return _decimal(found, typed), rest.strip()
    if not text:
        raise QuantityError(typed, "empty", "is empty", 'a number with its unit, as "67.08 mm"')
    raise QuantityError(typed, "no_number", "does not start with a number", 'it as "67.08 mm"')


def _fraction(found: re.Match[str], typed: str) -> WrittenNumber:
    top, bottom = int(found["top"]), int(found["bottom"])
    if bottom == 0:
        raise QuantityError(typed, "zero_below", "divides by zero", 'a fraction as "3/8 in"')
    if found["whole"] and top >= bottom:
        problem = f"has a fraction of one or more ({top}/{bottom}) after a whole number"
        raise QuantityError(typed, "improper", problem, 'it as "2 1/2 in"')
    exact = int(found["whole"] or 0) + Fraction(top, bottom)
    return WrittenNumber(
        -exact if found["sign"] == "-" else exact, _fraction_decimals(bottom), is_fraction=True
    )


def _fraction_decimals(bottom: int) -> int:
    """Decimals that hold a fraction exactly (1/64: six), or four where none do (1/3)."""
    decimals = 0
    while 10**decimals % bottom and decimals < 8:
        decimals += 1
    return decimals if 10**decimals % bottom == 0 else 4


def _decimal(found: re.Match[str], typed: str) -> WrittenNumber:
    digits = found["digits"].replace(",", ".")
    power = int(found["power"] or found["ten_power"] or found["caret"] or 0)
    if abs(power) > LARGEST_EXPONENT:
        raise QuantityError(
            typed, "exponent", f"has an exponent beyond {LARGEST_EXPONENT}", 'it as "67.08 mm"'
        )
    exact = Fraction(digits) * Fraction(10) ** power
    decimals = max(0, len(digits.partition(".")[2]) - power)
    return WrittenNumber(-exact if found["sign"] == "-" else exact, decimals)


def _refuse_groups(found: re.Match[str], rest: str, typed: str) -> None:
    """Refuse `1,234.5`, `1 234`, `1'234`, `1..5`: what looks like digit groups or two marks."""
    if not _GROUPED.match(rest):
        return
    shown = re.match(r"[\d.,'_ ]*", found["digits"] + rest)
    digits = (shown[0] if shown else found["digits"]).strip()
    whole, mark, decimals = _without_groups(digits)
    write = f'"{found["sign"]}{whole}{mark}{decimals}" for it, with one decimal mark only'
    raise QuantityError(typed, "grouping", "has digit groups or two decimal marks", write)


def _without_groups(digits: str) -> tuple[str, str, str]:
    """The last mark, if it differs from those before it, is the decimal one: `1,234.5`."""
    marks = re.findall(r"[.,]", digits)
    if not marks or (len(marks) > 1 and marks[-1] in marks[:-1]):
        return re.sub(r"\D", "", digits), "", ""
    whole, _, decimals = digits.rpartition(marks[-1])
    return re.sub(r"\D", "", whole), "." if decimals else "", re.sub(r"\D", "", decimals)
