"""Families of a sheet: the members that a key stands for, and the texts that they share, filled."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from typing import Final

from fitwright.formats.sheet.fields import ID_PATTERN
from fitwright.formats.sheet.findings import Findings
from fitwright.formats.sheet.sections import section_path
from fitwright.model.braces import Member, expand, fill, fill_and_expand
from fitwright.model.errors import BraceError
from fitwright.model.problem import Path

_ID: Final = re.compile(ID_PATTERN)
WITH_FAMILIES: Final = frozenset(
    {
        "parts",
        "dimensions",
        "fits",
        "stations",
        "circuit.pumps",
        "circuit.paths",
        "tightening_groups",
        "steps",
    }
)


class Families:
    """Expands keys, and remembers which key each id came from."""

    def __init__(self, findings: Findings) -> None:
        """Report to `findings`."""
        self.findings = findings
        self.key_of: dict[tuple[str, str], str] = {}

    def members(self, section: str, key: str) -> Iterator[MemberTexts]:
        """The members that a key of a section stands for, without those that were given before."""
        path = (*section_path(section), key)
        for member in self._expanded(path, section, key):
            earlier = self.key_of.get((section, member.name))
            if earlier is not None:
                what = f"{member.name} is given twice"
                other = (*section_path(section), earlier)
                self.findings.add(path, what, "write it once", at_key=True, other=other)
                continue
            self.key_of[section, member.name] = key
            yield MemberTexts(self.findings, path, member)

    def _expanded(self, path: Path, section: str, key: str) -> tuple[Member, ...]:
        if "{" in key and section not in WITH_FAMILIES:
            mend = f"write one id (braces belong to {', '.join(sorted(WITH_FAMILIES))})"
            self.findings.add(path, "braces in this key", mend, at_key=True)
            return ()
        try:
            members = expand(key)
        except BraceError as error:
            self.findings.add_text_error(path, error, at_key=True)
            return ()
        wrong = next((member.name for member in members if not _ID.match(member.name)), None)
        if wrong is not None:
            mend = "write lower case letters, digits and underscores, joined by dots: main.1.journal"
            self.findings.add(path, f'"{wrong}" is no id', mend, at_key=True)
            return ()
        return members


class MemberTexts:
    """One member, and the texts of its table with its brace values put in."""

    def __init__(self, findings: Findings, path: Path, member: Member) -> None:
        """Report to `findings` below `path`."""
        self._findings = findings
        self.path = path
        self.id = member.name
        self.values = member.values

    @property
    def family(self) -> str | None:
        """The key as written, if it has braces."""
        return str(self.path[-1]) if self.values else None

    def text(self, text: str, *place: str | int) -> str:
        """A text of the table, filled."""
        try:
            return fill(text, self.values)
        except BraceError as error:
            self._findings.add_text_error((*self.path, *place), error)
            return text

    def optional(self, text: str | None, *place: str | int) -> str | None:
        """The same for a key that may be left out."""
        return None if text is None else self.text(text, *place)

    def names(self, texts: Iterable[str], *place: str | int) -> tuple[str, ...]:
        """The texts of a list, filled and with their own braces expanded."""
        found: list[str] = []
        for index, text in enumerate(texts):
            try:
                found.extend(fill_and_expand(text, self.values))
            except BraceError as error:
                self._findings.add_text_error((*self.path, *place, index), error)
        return tuple(found)
