"""Families found again: the shared text behind the texts of all members, where there is one."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import islice, product
from typing import Any, Final

from fitwright.model.braces import fill
from fitwright.model.errors import BraceError

_WORDS: Final = re.compile(r"[a-z0-9_]+")
_MOST_TRIED: Final = 256

Values = tuple[str, ...]


class NoTemplateError(Exception):
    """The members of a family have no shared form; they are then written one by one."""


def shared(members: Sequence[Any], values: Sequence[Values]) -> Any:  # noqa: ANN401 - plain TOML values
    """One plain value that, filled with each member's brace values, gives the members' own.

    Parameters
    ----------
    members : sequence
        The same value of each member: texts, numbers, truth values, lists and tables of them.
    values : sequence of tuple of str
        The brace values of each member.

    Returns
    -------
    object
        The shared value, texts with `{}` or `{0}`.

    Raises
    ------
    NoTemplateError
        If there is none.
    """
    first = members[0]
    if isinstance(first, dict) and all(each.keys() == first.keys() for each in members):
        return {key: shared([each[key] for each in members], values) for key in first}
    if isinstance(first, list) and all(len(each) == len(first) for each in members):
        return [shared(column, values) for column in zip(*members, strict=True)]
    if all(each == first for each in members) and "{" not in str(first):
        return first
    if all(isinstance(each, str) for each in members):
        return _template(members, values)
    raise NoTemplateError


def _template(texts: Sequence[str], values: Sequence[Values]) -> str:
    """The text with placeholders that gives all texts; tried on the member easiest to tell apart."""
    clearest = max(range(len(texts)), key=lambda index: len(set(values[index])))
    for candidate in islice(_candidates(texts[clearest], values[clearest]), _MOST_TRIED):
        if all(_filled(candidate, own) == text for text, own in zip(texts, values, strict=True)):
            return candidate
    raise NoTemplateError


def _candidates(text: str, values: Values) -> Iterator[str]:
    """The text with each word that could come from a brace so replaced, or left; most replaced first."""
    pieces: list[list[str]] = []
    position = 0
    for found in _WORDS.finditer(text):
        pieces.append([text[position : found.start()]])
        pieces.append(_choices(found[0], values))
        position = found.end()
    pieces.append([text[position:]])
    for chosen in product(*pieces):
        yield "".join(chosen)


def _choices(word: str, values: Values) -> list[str]:
    """A word as it is, or with a brace value in it (`shell_upper`) replaced."""
    found = []
    for number, value in enumerate(values):
        placeholder = "{}" if len(values) == 1 else f"{{{number}}}"
        if word == value:
            found.append(placeholder)
        elif "_" in word and value in word.split("_"):
            found.append("_".join(placeholder if part == value else part for part in word.split("_")))
    return [*found, word]


def _filled(template: str, values: Values) -> str | None:
    try:
        return fill(template, values)
    except BraceError:
        return None
