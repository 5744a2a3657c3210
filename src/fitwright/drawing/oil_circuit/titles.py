"""A title for several things, from what their own titles have in common."""

from __future__ import annotations

from collections.abc import Iterable, Sequence


def common_title(titles: Sequence[str]) -> str:
    """What titles have in common, with the numbers in which they differ.

    >>> common_title(["Main 1 feed", "Main 2 feed", "Main 3 feed"])
    'Main 1 to 3 feed'
    >>> common_title(["Left jet", "Right jet"])
    'Left, Right jet'
    >>> common_title(["Cam bearing, inlet 1", "Cam bearing, inlet 2", "Cam bearing, outlet 1"])
    'Cam bearing, inlet, outlet 1, 2'
    """
    words = [title.split() for title in dict.fromkeys(titles)]
    if len(words) == 1:
        return titles[0]
    if len({len(each) for each in words}) == 1:
        found = [_listed(list(dict.fromkeys(column))) for column in zip(*words, strict=True)]
        return " ".join(found) if all(found) else ""
    before = _common(words)
    rest = [each[before:] for each in words]
    after = min(_common([each[::-1] for each in rest]), *(len(each) for each in rest))
    middles = [" ".join(each[: len(each) - after]) for each in rest]
    tail = rest[0][len(rest[0]) - after :]
    return " ".join(filter(None, (*words[0][:before], _listed(middles), *tail)))


def _common(words: Iterable[Sequence[str]]) -> int:
    """How many words at the front are the same."""
    count = 0
    for each in zip(*words, strict=False):
        if len(set(each)) > 1:
            break
        count += 1
    return count


def _listed(words: Sequence[str]) -> str:
    """`1 to 5`, `1, 3, 4` or `left, right`; nothing where that would be long."""
    if len(words) == 1:
        return words[0]
    comma = "," if all(word.endswith(",") for word in words) else ""
    words = [word.removesuffix(",") for word in words]
    if all(word.isdigit() for word in words):
        numbers = sorted(map(int, words))
        if len(numbers) > 2 and numbers == list(range(numbers[0], numbers[-1] + 1)):
            return f"{numbers[0]} to {numbers[-1]}{comma}"
        words = [str(each) for each in numbers]
    listed = ", ".join(filter(None, words))
    return f"{listed}{comma}" if len(listed) <= 24 else ""
