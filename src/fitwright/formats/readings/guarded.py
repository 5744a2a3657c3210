"""Text that a spreadsheet must not take for a formula.

A text cell that begins with one of `=`, `+`, `-`, `@`, a tab or a line end could be run as a
formula by the program that opens the file. It is written with an apostrophe in front, which the
import takes off again; so is a text that begins with an apostrophe itself. Numbers stay numbers.
"""

from __future__ import annotations

import re
from typing import Final

DANGEROUS: Final = frozenset("=+-@\t\r\n\uff1d\uff0b\uff0d\uff20\u2212")
_NUMBER: Final = re.compile(r"[+-]?\d+(\.\d+)?")


def is_number(text: str) -> bool:
    """Whether a cell is a plain decimal number."""
    return _NUMBER.fullmatch(text) is not None


def guarded(text: str) -> str:
    """A text as a cell that no program runs.

    Examples
    --------
    >>> guarded("=1+1"), guarded("-0.012"), guarded("F2:0.06 goes")
    ("'=1+1", '-0.012', 'F2:0.06 goes')
    """
    if not text or is_number(text):
        return text
    lead = text.lstrip(" ")[:1]
    return f"'{text}" if lead in DANGEROUS or text[0] == "'" else text


def unguarded(text: str) -> str:
    """The text that was guarded; any other text as it is.

    Examples
    --------
    >>> unguarded("'=1+1"), unguarded("'tis tight")
    ('=1+1', "'tis tight")
    """
    if text.startswith("'"):
        rest = text[1:]
        if rest.startswith("'") or rest.lstrip(" ")[:1] in DANGEROUS:
            return rest
    return text
