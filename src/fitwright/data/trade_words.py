"""Words of the trade that mean one thing, British and American: what a search should find for each."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator, Mapping
from functools import cache
from importlib.resources import files
from types import MappingProxyType
from typing import Final

Phrase = tuple[str, ...]
"""Words that stand beside each other."""

Alternative = tuple[Phrase, ...]
"""Phrases that must all be there, in any order."""

_JOINED: Final = re.compile(r"[^0-9a-zäöüéèµ.]+|(?<!\d)\.|\.(?!\d)")
"""What parts words: everything but letters, digits, and the point inside a number."""


def words_of(text: str) -> Phrase:
    """The words of a text, in small letters; an id falls apart into its steps.

    >>> words_of("main.4.running_clearance, 0.045 mm")
    ('main', '4', 'running', 'clearance', '0.045', 'mm')
    """
    return tuple(word for word in _JOINED.split(text.lower()) if word)


@cache
def trade_words() -> Mapping[Phrase, tuple[Alternative, ...]]:
    """For each phrase of the trade everything that means the same, itself among them.

    >>> (("sump",),) in trade_words()["oil", "pan"]
    True
    """
    text = files("fitwright.data").joinpath("trade_words.toml").read_text(encoding="utf-8")
    found: dict[Phrase, tuple[Alternative, ...]] = {}
    for row in tomllib.loads(text)["same"]:
        alternatives = tuple(tuple(words_of(part) for part in each.split("+")) for each in row)
        for alternative in alternatives:
            if len(alternative) == 1:
                known = found.get(alternative[0], ())
                found[alternative[0]] = tuple(dict.fromkeys((*known, *alternatives)))
    return MappingProxyType(found)


def wanted_in(query: str) -> Iterator[tuple[Alternative, ...]]:
    """What a query asks for: for each of its phrases, what would answer to it.

    The longest phrase of the trade comes first: "wrist pin" is one thing, not a wrist and a pin.

    >>> [len(each) > 1 for each in wanted_in("rod journal 4")]
    [True, False]
    """
    known, words = trade_words(), words_of(query)
    longest = max(map(len, known))
    while words:
        for length in range(min(longest, len(words)), 0, -1):
            phrase = words[:length]
            if phrase in known:
                yield known[phrase]
                break
        else:
            length = 1
            yield (((words[0],),),)
        words = words[length:]
