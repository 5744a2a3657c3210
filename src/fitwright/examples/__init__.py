"""Complete example builds, fictional, shipped as package data.

Each has an engine sheet (`sheet.toml`), a record (`record.jsonl`, one entry a line in the order in
which they were made) and the pictures that its record names (`photos/`, sketches in their place), so
that an installed package can show a whole build and tests can ask whole questions.

Conventions: a record line is what a client sends (`fitwright.records.entry.NewEntry`): `id`,
`build`, `kind`, `kind_version`, `body`, `person`, `device`, `client_time`. The name of an example is
the id of its engine.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from importlib.resources import files
from importlib.resources.abc import Traversable
from types import MappingProxyType
from typing import Any, Final

PHOTO: Final = ".jpg"


class ExamplesError(LookupError):
    """Base of all errors of this package."""


class UnknownExampleError(ExamplesError):
    """There is no example of that name."""

    def __init__(self, name: str) -> None:
        """Build the sentence."""
        self.name = name
        super().__init__(f'there is no example "{name}"; use one of: {", ".join(EXAMPLES)}')


@dataclass(frozen=True, slots=True)
class Example:
    """Where an example lies, and its name in a few words."""

    folder: str
    title: str

    def resource(self, file: str) -> Traversable:
        """One of its files."""
        return files(__package__).joinpath(self.folder, file)


EXAMPLES: Final[Mapping[str, Example]] = MappingProxyType(
    {
        "corrie-five": Example("corrie_five", "Corrie Five, turbocharged inline five, in millimetres"),
        "brackengill-eleven": Example(
            "brackengill_eleven", "Brackengill Eleven, white-metal four, in inches"
        ),
    }
)
"""The examples by name."""


def sheet_text(name: str) -> str:
    """The engine sheet of an example, as its file has it.

    Examples
    --------
    >>> sheet_text("corrie-five").splitlines()[2]
    'format = 1'
    """
    return _example(name).resource("sheet.toml").read_text(encoding="utf-8")


def record_entries(name: str) -> list[dict[str, Any]]:
    """The entries of an example's record, in order, with the fields of a `NewEntry`.

    Examples
    --------
    >>> record_entries("corrie-five")[0]["kind"]
    'shop setting'
    """
    text = _example(name).resource("record.jsonl").read_text(encoding="utf-8")
    return [json.loads(line) for line in text.splitlines()]


def photo_files(name: str) -> dict[str, bytes]:
    """The pictures that an example's record names by their digests, by what each is of.

    Examples
    --------
    >>> next(iter(photo_files("corrie-five")))
    'after_heat/filter'
    """
    files_there = _example(name).resource("photos").iterdir()
    found = {file.name: file.read_bytes() for file in files_there if file.name.endswith(PHOTO)}
    return {"/".join(each.removesuffix(PHOTO).rsplit(".", 1)): found[each] for each in sorted(found)}


def _example(name: str) -> Example:
    found = EXAMPLES.get(name)
    if found is None:
        raise UnknownExampleError(name)
    return found
