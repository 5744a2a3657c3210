"""A whole build as one JSON file: its entries with their digests, the shop's entries that it rests on.

```
{"format": "fitwright build", "version": 1, "build": CODE,
 "head": {"seq", "id", "hash"},
 "sheets": {DIGEST: TEXT},
 "entries": [{"seq", "id", "build", "kind", "kind_version", "person", "device", "committed_at",
              "client_time", "body", "digest"}, ...]}
```

Entries stand in the order of the record. `digest` is the SHA-256 that the record's chain is made
of (see `records.chain`), so that each entry can be checked by itself; `seq`, `committed_at` and the
head are those of the shop that the file comes from. Photos are named by their digests; their files
are not in here.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final

from fitwright.formats.errors import FormatError
from fitwright.records.chain import digest_of
from fitwright.records.entry import Acknowledgement, Entry, NewEntry, same_again
from fitwright.records.entry_data import ENTRY_FIELDS, data_of, entry_from, is_entry_data

FORMAT: Final = "fitwright build"
VERSION: Final = 1


class BuildFileError(FormatError):
    """A build file that cannot be used: where in it, what is wrong, what to do."""

    def __init__(self, file: str, where: str, what: str, mend: str) -> None:
        """Build the sentence."""
        self.file, self.where, self.what, self.mend = file, where, what, mend
        place = f", {where}" if where else ""
        super().__init__(f"{file}{place}: {what}; {mend}.")


@dataclass(frozen=True, slots=True)
class BuildFile:
    """What a build file holds, checked entry by entry."""

    file: str
    build: str
    head: Acknowledgement | None
    sheets: Mapping[str, str]
    entries: tuple[Entry, ...]

    def new_entries(self, *, without: Iterable[str] = ()) -> Iterator[NewEntry]:
        """The entries as a shop takes them, in order, without those that it has."""
        there = frozenset(without)
        for entry in self.entries:
            if entry.id not in there:
                yield same_again(entry)


def write_build(
    build: str, entries: Sequence[Entry], sheets: Mapping[str, str], head: Acknowledgement | None
) -> str:
    """The text of a build file; equal builds give equal texts."""
    document = {
        "format": FORMAT,
        "version": VERSION,
        "build": build,
        "head": None if head is None else {"seq": head.seq, "id": head.id, "hash": head.hash},
        "sheets": dict(sheets),
        "entries": [_as_data(entry) for entry in entries],
    }
    return json.dumps(document, ensure_ascii=False, indent=1) + "\n"


def _as_data(entry: Entry) -> dict[str, Any]:
    return data_of(entry) | {"digest": digest_of(entry)}


def read_build(text: str, *, file: str = "the file") -> BuildFile:
    """A build file, with every digest worked out again.

    Raises
    ------
    BuildFileError
        If it is no such file, of a later version, or an entry does not agree with its digest.
    """
    document = _document(text, file)
    entries = tuple(_entry(each, number, file) for number, each in enumerate(document["entries"], start=1))
    for number, entry in enumerate(entries, start=1):
        if entry.build not in (None, document["build"]):
            what = f"belongs to {entry.build}, not to {document['build']}"
            raise BuildFileError(
                file, f"entry {number} of the file", what, "import each build from its own file"
            )
    head = document.get("head")
    return BuildFile(
        file=file,
        build=document["build"],
        head=_head(head, file) if head is not None else None,
        sheets=document["sheets"],
        entries=entries,
    )


def _document(text: str, file: str) -> dict[str, Any]:
    mend = "name a file that `fitwright export BUILD FILE.json` wrote"
    try:
        document = json.loads(text)
    except (ValueError, RecursionError) as error:
        raise BuildFileError(file, "", f"is no JSON ({error})", mend) from error
    if not isinstance(document, dict) or document.get("format") != FORMAT:
        raise BuildFileError(file, "format", f'is no "{FORMAT}"', mend)
    version = document.get("version")
    if not isinstance(version, int) or not 1 <= version <= VERSION:
        newer = f"is of version {version!r}, known is {VERSION}"
        raise BuildFileError(file, "version", newer, "read it with the fitwright that wrote it")
    for name, kind in (("build", str), ("sheets", dict), ("entries", list)):
        if not isinstance(document.get(name), kind):
            raise BuildFileError(file, name, "is missing or of another kind", mend)
    if not all(isinstance(sheet, str) for sheet in document["sheets"].values()):
        raise BuildFileError(file, "sheets", "holds something else than text", mend)
    return document


def _head(head: Any, file: str) -> Acknowledgement:  # noqa: ANN401  (anything may stand there)
    try:
        return Acknowledgement(str(head["id"]), int(head["seq"]), str(head["hash"]))
    except (KeyError, TypeError, ValueError) as error:
        raise BuildFileError(file, "head", "has no id, seq and hash", "export the build again") from error


def _entry(data: Any, number: int, file: str) -> Entry:  # noqa: ANN401  (anything may stand there)
    where = f"entry {number} of the file"
    again = "export the build again from its shop"
    if not isinstance(data, dict) or set(data) != {*ENTRY_FIELDS, "digest"} or not is_entry_data(data):
        raise BuildFileError(file, where, "is not in the form of an entry", again)
    entry = entry_from(data)
    try:
        digest = digest_of(entry)
    except (ValueError, RecursionError) as error:
        raise BuildFileError(file, where, f"its body cannot be read ({error})", again) from error
    if digest != data["digest"]:
        said = f"does not agree with its digest (it was entry {entry.seq}, a {entry.kind})"
        raise BuildFileError(file, where, said, f"something in it was changed: {again}")
    return entry
