"""Signed chains of dimensions: `main.1.housing_bore - 2 * shell.wall - main.1.journal`."""

from __future__ import annotations

import re
from typing import Final

from fitwright.model.errors import ChainError
from fitwright.model.fit import ChainTerm

_SIGN: Final = re.compile(r"\s*([+\-\u2212])\s*")
_FACTOR: Final = re.compile(r"(\d{1,9}(?:\.\d{1,12})?)\s*[*\u00d7]\s*")
_NAME: Final = re.compile(r"[a-z0-9_{}]+(?:\.[a-z0-9_{}]+)*")
_EXAMPLE: Final = '"a - 2 * b + c" with dimension ids'


def read_chain(text: str) -> tuple[ChainTerm, ...]:
    """The members of a signed chain, in order.

    Parameters
    ----------
    text : str
        Dimension ids joined by `+` and `-`, each with an optional factor before it: `2 * id`.
        Ids may still hold `{}` to be filled.

    Returns
    -------
    tuple of ChainTerm
        Coefficient [1] and dimension of each member.

    Raises
    ------
    ChainError
        If the text is no such chain; says at which character.

    Examples
    --------
    >>> read_chain("bore - 2 * wall - journal")[1]
    ChainTerm(coefficient=-2.0, dimension='wall')
    """
    terms: list[ChainTerm] = []
    position = _skip_space(text, 0)
    if position == len(text):
        raise ChainError(text, 1, "the chain is empty", _EXAMPLE)
    while position < len(text):
        sign, position = _read_sign(text, position, first=not terms)
        term, position = _read_term(text, position, sign)
        terms.append(term)
    return tuple(terms)


def write_chain(chain: tuple[ChainTerm, ...]) -> str:
    """The text of a chain, which `read_chain` reads back.

    Examples
    --------
    >>> write_chain(read_chain("bore-2*wall"))
    'bore - 2 * wall'
    """
    words: list[str] = []
    for term in chain:
        if term.coefficient < 0:
            words.append("-")
        elif words:
            words.append("+")
        if abs(term.coefficient) != 1.0:
            words.append(f"{_decimal(abs(term.coefficient))} *")
        words.append(term.dimension)
    return " ".join(words)


def _decimal(number: float) -> str:
    return f"{number:.12f}".rstrip("0").rstrip(".")


def _read_sign(text: str, position: int, *, first: bool) -> tuple[float, int]:
    found = _SIGN.match(text, position)
    if found:
        return (1.0 if found[1] == "+" else -1.0), found.end()
    if first:
        return 1.0, position
    raise ChainError(text, position + 1, "a + or - is missing here", _EXAMPLE)


def _read_term(text: str, position: int, sign: float) -> tuple[ChainTerm, int]:
    coefficient = sign
    if factor := _FACTOR.match(text, position):
        coefficient *= float(factor[1])
        if coefficient == 0.0:
            raise ChainError(text, position + 1, "a factor of zero", "the chain without this member")
        position = factor.end()
    name = _NAME.match(text, position)
    if not name:
        raise ChainError(text, position + 1, _found_instead(text, position), _EXAMPLE)
    return ChainTerm(coefficient, name[0]), _skip_space(text, name.end())


def _found_instead(text: str, position: int) -> str:
    if position >= len(text):
        return "the chain ends where a dimension is wanted"
    return f'"{text[position]}" where a dimension is wanted'


def _skip_space(text: str, position: int) -> int:
    while position < len(text) and text[position].isspace():
        position += 1
    return position
