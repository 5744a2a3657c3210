"""Names that look the same to a reader although they are written otherwise."""

from __future__ import annotations

import unicodedata
from typing import Final

_LIKE: Final = {
    "a": "\u0430\u03b1",
    "b": "\u0432\u03b2",
    "c": "\u0441",
    "d": "\u0501",
    "e": "\u0435\u03b5\u0451",
    "h": "\u04bb\u043d",
    "j": "\u0458",
    "k": "\u043a\u03ba",
    "l": "\u04cf\u0456\u03b9\u0131i1",
    "m": "\u043c\u03bc",
    "n": "\u03b7",
    "o": "\u043e\u03bf0",
    "p": "\u0440\u03c1",
    "q": "\u051b",
    "s": "\u0455",
    "t": "\u0442\u03c4",
    "v": "\u03bd",
    "w": "\u051d",
    "x": "\u0445\u03c7",
    "y": "\u0443\u03c5",
    "z": "\u03b6",
    "3": "\u0437",
}
"""Latin letters, each with the Cyrillic and Greek letters and digits that look like it, large or small."""
_SEEN: Final = str.maketrans({each: letter for letter, others in _LIKE.items() for each in others})


def seen_as(text: str) -> str:
    r"""What a reader sees of a name: equal where two names can be taken for each other.

    Case, width, accents set beside their letter, spaces, stops and what is invisible do not count.

    Examples
    --------
    >>> seen_as("Second  builder") == seen_as("S\u0435cond\u200b Builder.")
    True
    >>> seen_as("First builder") == seen_as("Second builder")
    False
    """
    plain = unicodedata.normalize("NFKC", text).casefold()
    return "".join(each for each in plain if each.isalnum()).translate(_SEEN)
