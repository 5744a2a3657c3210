"""Braces: one key for a numbered family, and the texts that its members share.

`main.{1..6}.journal` stands for six ids, `valve.{1..5}.{inlet,exhaust}` for ten (the last brace
runs fastest), `{1..2,4..6}` leaves three out. In a text under such a key `{}` takes the brace
values in order, `{0}`, `{1}` the first and the second one by name; under a single brace every `{}`
takes its value.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from itertools import product
from math import prod
from typing import Final

from fitwright.model.errors import BraceError

MOST_MEMBERS: Final = 1000
"""No engine has more of anything; a larger family is a slip of the hand."""

_BRACE: Final = re.compile(r"\{([^{}]*)\}")
_RANGE: Final = re.compile(r"(0|[1-9]\d{0,5})\.\.(0|[1-9]\d{0,5})")
_WORD: Final = re.compile(r"[a-z0-9_]+")
_PLACEHOLDER: Final = re.compile(r"\{(\d{0,2})\}")


@dataclass(frozen=True, slots=True)
class Member:
    """One member of a family: its full name, and the value that each brace took."""

    name: str
    values: tuple[str, ...]


@lru_cache(maxsize=4096)
def expand(key: str) -> tuple[Member, ...]:
    """All members that a key with braces stands for, in order; the key itself if it has none.

    Parameters
    ----------
    key : str
        A key such as `main.{1..6}.journal`.

    Returns
    -------
    tuple of Member
        The names, each with its brace values; the last brace runs fastest.

    Raises
    ------
    BraceError
        If a brace is empty, unclosed, runs downwards or names nothing, or for over 1000 members.

    Examples
    --------
    >>> [member.name for member in expand("main.{1..2,4}.{upper,lower}")][:3]
    ['main.1.upper', 'main.1.lower', 'main.2.upper']
    >>> expand("crank.stroke")
    (Member(name='crank.stroke', values=()),)
    """
    pieces = _BRACE.split(key)
    _refuse_stray(key)
    choices = [_values(key, content) for content in pieces[1::2]]
    if prod(len(values) for values in choices) > MOST_MEMBERS:
        raise BraceError(key, 1, f"stands for more than {MOST_MEMBERS} members", "smaller ranges")
    fixed = pieces[::2]
    return tuple(Member(_join(fixed, values), values) for values in product(*choices))


def expand_all(keys: Iterable[str]) -> tuple[str, ...]:
    """All names that several keys stand for, in order.

    Examples
    --------
    >>> expand_all(["front", "mesh {1..3}"])
    ('front', 'mesh 1', 'mesh 2', 'mesh 3')
    """
    return tuple(member.name for key in keys for member in expand(key))


def brace_count(key: str) -> int:
    """How many braces a key has."""
    return len(_BRACE.findall(key))


def fill(text: str, values: tuple[str, ...]) -> str:
    """A shared text with the brace values of one member put in.

    Parameters
    ----------
    text : str
        A text with `{}` (the values in order) or `{0}`, `{1}` (values by number), not both.
    values : tuple of str
        The brace values of the member.

    Returns
    -------
    str
        The text of that member.

    Raises
    ------
    BraceError
        If the text asks for more values than the key has braces, or has other braces.

    Examples
    --------
    >>> fill("Cylinder {}, {} valve", ("3", "inlet"))
    'Cylinder 3, inlet valve'
    >>> fill("{1} valve", ("3", "inlet"))
    'inlet valve'
    """
    if "{" not in text and "}" not in text:
        return text
    for found in _BRACE.finditer(text):
        if not _PLACEHOLDER.fullmatch(found[0]):
            raise BraceError(text, found.start() + 1, f"{found[0]} is filled by nothing", "{} or {0}")
    _refuse_stray(text)
    return _put_in(text, values)


def fill_and_expand(text: str, values: tuple[str, ...]) -> tuple[str, ...]:
    """A shared text of a list: the member's brace values put in, then its own braces expanded.

    Examples
    --------
    >>> fill_and_expand("rod.{}.bolt.{a,b}", ("4",))
    ('rod.4.bolt.a', 'rod.4.bolt.b')
    """
    if "{" not in text and "}" not in text:
        return (text,)
    return expand_all([_put_in(text, values)])


def _put_in(text: str, values: tuple[str, ...]) -> str:
    _refuse_unfilled(text, values)
    taken = iter(values if len(values) > 1 else values * len(text))
    return _PLACEHOLDER.sub(lambda found: values[int(found[1])] if found[1] else next(taken), text)


def _refuse_unfilled(text: str, values: tuple[str, ...]) -> None:
    numbers = [(found[1], found.start() + 1) for found in _PLACEHOLDER.finditer(text)]
    if not numbers:
        return
    plain = [position for number, position in numbers if not number]
    if plain and len(plain) < len(numbers):
        raise BraceError(text, plain[0], "{} and numbered braces are mixed", "one or the other")
    if not values:
        raise BraceError(text, numbers[0][1], "the key above has no braces to fill this", "the name itself")
    too_many = plain[len(values) :] if len(values) > 1 else []
    wrong = [position for number, position in numbers if number and int(number) >= len(values)]
    if too_many or wrong:
        position = (too_many or wrong)[0]
        raise BraceError(
            text, position, f"asks for more values than the key's {len(values)}", _accepted(len(values))
        )


def _accepted(count: int) -> str:
    return "{} or {0}" if count == 1 else f"up to {count} times {{}}, or {{0}} to {{{count - 1}}}"


def _refuse_stray(key: str) -> None:
    """Refuse a brace that is opened and not closed, closed and not opened, or nested."""
    rest = _BRACE.sub(lambda found: " " * len(found[0]), key)
    for position, character in enumerate(rest, start=1):
        if character in "{}":
            raise BraceError(key, position, "a brace without its partner", "it as main.{1..6}.journal")


def _values(key: str, content: str) -> tuple[str, ...]:
    values = [value for piece in content.split(",") for value in _piece(key, piece)]
    if len(set(values)) < len(values):
        raise BraceError(key, _position(key, content), "names a member twice", "each one once")
    return tuple(values)


def _piece(key: str, piece: str) -> Iterable[str]:
    piece = piece.strip()
    if found := _RANGE.fullmatch(piece):
        first, last = int(found[1]), int(found[2])
        if last < first:
            raise BraceError(key, _position(key, piece), "runs downwards", f"{last}..{first}")
        if last - first >= MOST_MEMBERS:
            raise BraceError(key, _position(key, piece), "is too long a range", "a range as 1..6")
        return map(str, range(first, last + 1))
    if not _WORD.fullmatch(piece):
        raise BraceError(key, _position(key, piece), "names no members", "{1..6} or {inlet,exhaust}")
    return (piece,)


def _position(key: str, piece: str) -> int:
    return key.index("{" + piece + "}") + 1 if "{" + piece + "}" in key else key.index(piece) + 1


def _join(fixed: list[str], values: tuple[str, ...]) -> str:
    return fixed[0] + "".join(value + after for value, after in zip(values, fixed[1:], strict=True))
