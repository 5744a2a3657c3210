"""The data that travels with the pages: what they were made from, and what else is needed to verify it.

```
{"format": "fitwright dossier", "version": 1,
 "made_by": {"fitwright", "typst", "models": {NAME: VERSION}},
 "asked": {"build", "depth", "paper", "units", "revision"},
 "head": {"seq", "id", "hash"},
 "entries": [{"seq", "id", "build", "kind", "kind_version", "person", "device", "committed_at",
              "client_time", "body"}, ...],
 "carried": [SEQ OF EACH OF THEM, ...],
 "digests": [DIGEST OF ENTRY 1, DIGEST OF ENTRY 2, ...],
 "sheets": {DIGEST: TEXT},
 "photos": {DIGEST: DIGEST OF THE PICTURE AS PRINTED}}
```

Entries stand in the order of the record, with all that their digest is made of (`records.chain`); `digests`
has one for every entry of the whole shop, so that the head can be worked out again without showing one
customer's record to another. The text is canonical (RFC 8785): equal dossiers have equal data.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final

from fitwright.dossier.asked import DEPTHS, PAPERS, Asked
from fitwright.dossier.errors import NoDossierError
from fitwright.records.canonical import canonical_text, parsed
from fitwright.records.chain import form_of
from fitwright.records.entry import Acknowledgement, Entry
from fitwright.records.entry_data import ENTRY_FIELDS, entry_from, is_entry_data

FORMAT: Final = "fitwright dossier"
VERSION: Final = 1
FILE_NAME: Final = "fitwright-dossier.json"


@dataclass(frozen=True, slots=True)
class Versions:
    """What made a dossier: the programs and the physical models, each in its version."""

    fitwright: str
    typst: str
    models: Mapping[str, str]

    @classmethod
    def here(cls) -> Versions:
        """Those of this machine."""
        from importlib.metadata import version

        from fitwright import __version__
        from fitwright.assess.oil.versions import model_versions

        return cls(
            __version__, version("typst"), {name: str(each) for name, each in model_versions().items()}
        )


@dataclass(frozen=True, slots=True)
class DossierData:
    """What travels with the pages; entries as they are told, before anything is held against anything."""

    made_by: Versions
    asked: Asked
    head: Acknowledgement
    entries: tuple[Entry, ...]
    carried: tuple[int, ...]
    digests: tuple[str, ...]
    sheets: Mapping[str, str]
    photos: Mapping[str, str]


Forms = Callable[[Sequence[Entry]], Iterable[str]]
"""Gives the RFC 8785 form of each of some entries."""


def forms_of(entries: Iterable[Entry]) -> Iterable[str]:
    """The RFC 8785 form of each entry, worked out."""
    return map(form_of, entries)


def data_text(data: DossierData, forms: Forms = forms_of) -> str:
    """The data as it is attached: the RFC 8785 form of the whole, put together from that of its parts."""
    asked = data.asked
    parts = {
        "format": FORMAT,
        "version": VERSION,
        "made_by": {
            "fitwright": data.made_by.fitwright,
            "typst": data.made_by.typst,
            "models": dict(data.made_by.models),
        },
        "asked": {
            "build": asked.build,
            "depth": asked.depth,
            "paper": asked.paper,
            "units": asked.units,
            "revision": asked.revision,
        },
        "head": {"seq": data.head.seq, "id": data.head.id, "hash": data.head.hash},
        "carried": list(data.carried),
        "digests": list(data.digests),
        "sheets": dict(data.sheets),
        "photos": dict(data.photos),
    }
    texts = {name: canonical_text({name: value})[1:-1] for name, value in parts.items()}
    texts["entries"] = f'"entries":[{",".join(forms(data.entries))}]'
    return f"{{{','.join(texts[name] for name in sorted(texts))}}}"


def data_digest(text: str) -> str:
    """The digest by which a dossier is known: that of its data."""
    return hashlib.sha256(text.encode("utf-8")).hexdigest()


def read_data(text: str, *, file: str) -> DossierData:
    """The data of a dossier, of the right kinds throughout.

    Raises
    ------
    NoDossierError
        If it is no such data, or of a later version.
    """
    document = _document(text, file)
    try:
        made, head = document["made_by"], document["head"]
        return DossierData(
            made_by=Versions(
                str(made["fitwright"]),
                str(made["typst"]),
                {str(n): str(v) for n, v in made["models"].items()},
            ),
            asked=_asked(document["asked"]),
            head=Acknowledgement(str(head["id"]), int(head["seq"]), str(head["hash"])),
            entries=tuple(_entry(each) for each in document["entries"]),
            carried=tuple(int(each) for each in document["carried"]),
            digests=tuple(_hex(each) for each in document["digests"]),
            sheets={_hex(name): _text(each) for name, each in document["sheets"].items()},
            photos={_hex(name): _hex(each) for name, each in document["photos"].items()},
        )
    except (KeyError, TypeError, ValueError, AttributeError) as error:
        raise NoDossierError(file, f"its data are incomplete or of another kind ({error})") from None


def _document(text: str, file: str) -> dict[str, Any]:
    try:
        document = parsed(text)
    except (ValueError, RecursionError) as error:
        raise NoDossierError(file, f"its data are no JSON ({error})") from None
    if document.get("format") != FORMAT:
        raise NoDossierError(file, f'its data are no "{FORMAT}"')
    version = document.get("version")
    if version != VERSION:
        raise NoDossierError(
            file, f"its data are of version {version!r}, and version {VERSION} is known here"
        )
    return document


def _asked(data: Mapping[str, Any]) -> Asked:
    depth, paper, units, revision = (data[name] for name in ("depth", "paper", "units", "revision"))
    if depth not in DEPTHS or paper not in PAPERS or units not in ("mm", "inch"):
        message = "what was asked for"
        raise ValueError(message)
    if revision is not None and (type(revision) is not int or revision < 1):
        message = "revision"
        raise ValueError(message)
    return Asked(_text(data["build"]), depth, paper, units, revision)


def _entry(data: Mapping[str, Any]) -> Entry:
    if not is_entry_data(data) or set(data) != set(ENTRY_FIELDS):
        message = f"entry {json.dumps(data.get('seq'))}"
        raise ValueError(message)
    return entry_from(data)


def _text(value: object) -> str:
    if not isinstance(value, str):
        message = "something that is no text"
        raise TypeError(message)
    return value


def _hex(value: object) -> str:
    text = _text(value)
    if len(bytes.fromhex(text)) != hashlib.sha256().digest_size or text != text.lower():
        message = f"{text[:70]!r} is no digest"
        raise ValueError(message)
    return text


def sheets_named(entries: Sequence[Entry]) -> tuple[str, ...]:
    """The digests of the sheets that entries name, in order."""
    kinds = ("build started", "revision taken over")
    named = [str(entry.body["sheet"]) for entry in entries if entry.kind in kinds and "sheet" in entry.body]
    return tuple(dict.fromkeys(named))
