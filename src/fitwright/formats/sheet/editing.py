"""Changing a sheet file where a program must: everything else, comments too, stays as it was written."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import tomlkit
from tomlkit.items import AoT

from fitwright.formats.errors import FormatError
from fitwright.formats.sheet.reader import read_sheet
from fitwright.model.braces import expand
from fitwright.model.errors import BraceError
from fitwright.model.problem import meant

_SECTIONS = ("fits", "dimensions")


class UnknownSubjectError(FormatError):
    """A key that is neither a fit nor a dimension of the sheet, or one member of a family only."""

    def __init__(self, subject: str, family: str | None, guess: str) -> None:
        """Build the sentence."""
        self.subject = subject
        self.family = family
        if family is not None:
            sentence = f'"{subject}" is one of the family {family}; write the family to change it as a whole'
        else:
            sentence = (
                f'the sheet has no fit or dimension "{subject}"; {guess or "write its key as it stands"}'
            )
        super().__init__(sentence)


@dataclass(frozen=True, slots=True)
class NewLimit:
    """A limit as it is to stand in the file; amounts with their units, as written."""

    source: str
    lower: str | None = None
    upper: str | None = None
    at: str | None = None
    governs: bool = True
    applies_to: str = "new"
    temperature_case: str | None = None
    depends_on: str | None = None
    note: str | None = None

    def keys(self) -> dict[str, str | bool]:
        """The keys that are written."""
        table: dict[str, str | bool | None] = {
            "source": self.source,
            "at": self.at,
            "lower": self.lower,
            "upper": self.upper,
            "governs": self.governs or None,
            "applies_to": None if self.applies_to == "new" else self.applies_to,
            "temperature_case": self.temperature_case,
            "depends_on": self.depends_on,
            "note": self.note,
        }
        return {key: value for key, value in table.items() if value is not None}


def set_limit(text: str, subject: str, limit: NewLimit) -> str:
    """A sheet's text with one limit set.

    Parameters
    ----------
    text : str
        A sound sheet.
    subject : str
        The key of a fit or dimension as it stands in the file, braces included.
    limit : NewLimit
        The limit. It takes the place of one of the same source for the same parts and temperature,
        else it is added; where it governs, others of the same use no longer do.

    Returns
    -------
    str
        The new text, read and found sound.

    Raises
    ------
    UnknownSubjectError
        If the subject is no key of the file.
    SheetProblemsError
        If the text is unsound, or would become so.
    """
    read_sheet(text)
    document = tomlkit.parse(text)
    entry = entry_in(document, subject)
    if "limits" not in entry:
        put(entry, "limits", tomlkit.array().multiline(multiline=True))
    limits = entry["limits"]
    place = next((index for index, each in enumerate(limits) if _same_limit(each, limit)), None)
    if limit.governs:
        for each in limits:
            if _same_use(each, limit):
                each.pop("governs", None)
    if place is None:
        limits.append(_fresh(limit, tomlkit.table() if isinstance(limits, AoT) else tomlkit.inline_table()))
    else:
        _replace(limits[place], limit)
    return sound_text(document)


def sound_text(document: tomlkit.TOMLDocument) -> str:
    """The text of a changed document, read and found sound."""
    changed = tomlkit.dumps(document)
    read_sheet(changed)
    return changed


def put(entry: Any, key: str, value: Any) -> None:  # noqa: ANN401 - tomlkit's own tables
    """Set a key of a table; a new one goes before the comments that lead on to the next table."""
    if key in entry:
        entry[key] = value
        return
    body, tail = entry.value.body, []
    while body and body[-1][0] is None:
        tail.append(body.pop()[1])
    entry[key] = value
    for each in reversed(tail):
        entry.add(each)


def entry_in(document: tomlkit.TOMLDocument, subject: str) -> Any:  # noqa: ANN401 - tomlkit's own tables
    """The table of a fit or dimension, by its key as it stands in the file.

    Raises
    ------
    UnknownSubjectError
        If the subject is no key of the file.
    """
    known = {key: (section, key) for section in _SECTIONS for key in document.get(section, {})}
    if subject in known:
        section, key = known[subject]
        return document[section][key]
    family = next((key for key in known if subject in _names(key)), None)
    raise UnknownSubjectError(subject, family, meant(subject, known))


def _names(key: str) -> set[str]:
    try:
        return {member.name for member in expand(key)}
    except BraceError:
        return set()


def _same_use(table: Any, limit: NewLimit) -> bool:  # noqa: ANN401 - tomlkit's own tables
    applies_to, case = table.get("applies_to", "new"), table.get("temperature_case")
    return bool(applies_to == limit.applies_to and case == limit.temperature_case)


def _same_limit(table: Any, limit: NewLimit) -> bool:  # noqa: ANN401 - tomlkit's own tables
    return _same_use(table, limit) and table["source"] == limit.source


def _fresh(limit: NewLimit, table: Any) -> Any:  # noqa: ANN401 - tomlkit's own tables
    for key, value in limit.keys().items():
        table[key] = value
    return table


def _replace(table: Any, limit: NewLimit) -> None:  # noqa: ANN401 - tomlkit's own tables
    keys = limit.keys()
    for key in [key for key in table if key not in keys]:
        del table[key]
    for key, value in keys.items():
        table[key] = value
