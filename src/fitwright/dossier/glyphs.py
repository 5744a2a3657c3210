"""Which characters the printed typeface has; any other is printed as its number, so that nothing vanishes."""

from __future__ import annotations

import re
import unicodedata
from functools import cache
from importlib.resources import files
from typing import Any, Final

BREAK: Final = "\u200b"
"""A place where a long word may be broken; nobody sees it."""
LONGEST_WORD: Final = 16
_WHITE: Final = frozenset("\n ")
_WORD: Final = re.compile("[^ \u00a0]+")
"""A word: what is held together by spaces at which no line breaks is no long one."""


@cache
def covered() -> frozenset[int]:
    """The characters that every printed typeface has."""
    text = (files("fitwright.dossier") / "fonts" / "covered.txt").read_text(encoding="ascii")
    found: set[int] = set()
    for run in text.split():
        first, _, last = run.partition("-")
        found.update(range(int(first, 16), int(last or first, 16) + 1))
    return frozenset(found)


def printable(text: str) -> str:
    r"""A text as it is printed: characters that the typeface lacks by their number, long words breakable.

    >>> printable("Łukasz, 中")
    'Łukasz, [U+4E2D]'
    >>> printable("front/120\u00a060.512\u00a0mm\u00a0(226)") == "front/120\u00a060.512\u00a0mm\u00a0(226)"
    True
    """
    plain = unicodedata.normalize("NFC", text).replace("\t", " ").replace("\r", "")
    plain = plain.replace("(u ", "(u\u00a0")  # an uncertainty stays with what it is called by
    if not plain.isascii() or not plain.isprintable():
        known = covered()
        plain = "".join(
            each if ord(each) in known or each in _WHITE else f"[U+{ord(each):04X}]" for each in plain
        )
    if len(plain) <= LONGEST_WORD:
        return plain
    return _WORD.sub(lambda word: _breakable(word[0]), plain)


def _breakable(word: str) -> str:
    """A long word with places at which it may be broken: behind what joins, else anywhere."""
    if len(word) <= LONGEST_WORD or "\n" in word:
        return word if "\n" not in word else "\n".join(_breakable(each) for each in word.split("\n"))
    found, since = "", 0
    for each in word:
        found, since = found + each, since + 1
        if since >= LONGEST_WORD or (since > 4 and each in "-_/.,;:"):
            found, since = found + BREAK, 0
    return found


def printable_data(value: Any, *, drawing: bool = False) -> Any:  # noqa: ANN401 - whatever JSON holds
    """The same for every text in a tree; drawings keep their text as it is, but for what would not print."""
    if isinstance(value, str):
        return _drawn(value) if drawing else printable(value)
    if isinstance(value, list):
        return [printable_data(each, drawing=drawing) for each in value]
    if isinstance(value, dict):
        return {name: printable_data(each, drawing=name in _DRAWN) for name, each in value.items()}
    return value


_DRAWN: Final = frozenset({"svg", "qr", "digest", "block", "style", "paper", "code"})


def _drawn(text: str) -> str:
    if text.isascii():
        return text
    known = covered()
    return "".join(each if ord(each) in known or each == "\n" else f"[U+{ord(each):04X}]" for each in text)
