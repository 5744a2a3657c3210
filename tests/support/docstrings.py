"""Read numpydoc sections out of a docstring: what is documented, with which unit, from which source."""

from __future__ import annotations

import inspect
import re
from dataclasses import dataclass

_SECTION = re.compile(r"^(?P<title>[A-Z][A-Za-z ]+)\n-{3,}$", re.MULTILINE)
_HEADER = re.compile(r"^(?P<names>\*{0,2}\w+(?:, \*{0,2}\w+)*)(?: ?: (?P<type>.*))?$")
_BRACKETS = re.compile(r"\[([^\[\]]+)\]")
_KEY = re.compile(r"\[([a-z][a-z0-9_]*)\]")


@dataclass(frozen=True, slots=True)
class Documented:
    """One documented parameter or result: its name and what stands in square brackets after it."""

    name: str
    brackets: tuple[str, ...]


def sections(docstring: str) -> dict[str, str]:
    """Bodies of the numpydoc sections by title."""
    text = inspect.cleandoc(docstring)
    found = list(_SECTION.finditer(text))
    starts = [match.start() for match in found] + [len(text)]
    return {
        match["title"]: text[match.end() : end].strip("\n")
        for match, end in zip(found, starts[1:], strict=True)
    }


def parameters(docstring: str) -> list[Documented]:
    """Documented parameters, in their order; `lower, upper : ...` gives two."""
    documented = []
    for line in _unindented(sections(docstring).get("Parameters", "")):
        header = _HEADER.match(line)
        if header:
            brackets = tuple(_BRACKETS.findall(header["type"] or ""))
            names = header["names"].replace("*", "").split(", ")
            documented += [Documented(name, brackets) for name in names]
    return documented


def result_brackets(docstring: str) -> tuple[str, ...]:
    """What stands in square brackets in the header lines of the Returns section."""
    lines = _unindented(sections(docstring).get("Returns", ""))
    return tuple(bracket for line in lines for bracket in _BRACKETS.findall(line))


def source_keys(docstring: str) -> list[str]:
    """Keys cited in the References section."""
    return _KEY.findall(sections(docstring).get("References", ""))


def _unindented(body: str) -> list[str]:
    return [line for line in body.splitlines() if line and not line[0].isspace()]
