"""What entries hold and name: bodies of their kinds, amounts as typed, sheets, photos, no secrets."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterator, Mapping
from typing import Any, Final

from fitwright.dossier.data import DossierData, sheets_named
from fitwright.dossier.resting import carried_entries
from fitwright.dossier.verify.chain import called
from fitwright.dossier.verify.findings import Finding
from fitwright.records.entry import Entry
from fitwright.records.errors import RecordError
from fitwright.records.kinds import PinSet
from fitwright.records.registry import SHOP_KINDS, body_of

Reparse = Callable[[str, str], float]
"""(typed text, unit) -> SI value: the parser as it is today; raises ValueError if it cannot."""

SAME_PARSE: Final = 1e-12


def content_findings(data: DossierData, reparse: Reparse) -> Iterator[Finding]:
    """Everything that is wrong with what entries hold or name."""
    for entry in data.entries:
        yield from _entry(data, entry)
        yield from _amounts(entry, entry.body, reparse)
    yield from _needed(data)
    yield from _sheets(data)


def _entry(data: DossierData, entry: Entry) -> Iterator[Finding]:
    if entry.kind == PinSet.kind:
        yield Finding(f"{called(entry)} holds a PIN, which no dossier carries", seq=entry.seq)
    if entry.build not in (None, data.asked.build) and entry.kind not in SHOP_KINDS:
        yield Finding(f"{called(entry)} belongs to build {entry.build}", seq=entry.seq)
    try:
        body_of(entry.kind, entry.kind_version, entry.body)
    except RecordError as error:
        yield Finding(f"{called(entry)}: {str(error).rstrip('.')}", seq=entry.seq)


def _amounts(entry: Entry, value: Any, reparse: Reparse) -> Iterator[Finding]:  # noqa: ANN401 - any JSON
    if isinstance(value, Mapping):
        if {"typed", "unit", "si"} <= value.keys():
            yield from _amount(entry, value, reparse)
        for inner in value.values():
            yield from _amounts(entry, inner, reparse)
    elif isinstance(value, list):
        for inner in value:
            yield from _amounts(entry, inner, reparse)


def _amount(entry: Entry, amount: Mapping[str, Any], reparse: Reparse) -> Iterator[Finding]:
    words, unit = str(amount["typed"]), str(amount["unit"])
    said = f"{called(entry)}: {words[:40]!r} in {unit[:20]}"
    try:
        today, si = reparse(words, unit), float(amount["si"])
    except (TypeError, ValueError) as error:
        yield Finding(f"{said} cannot be read as an amount ({error})", seq=entry.seq)
        return
    if abs(today - si) > SAME_PARSE * max(abs(today), abs(si)):
        yield Finding(f"{said} stands as {si!r} and reads as {today!r}", seq=entry.seq)


def _needed(data: DossierData) -> Iterator[Finding]:
    """Nothing is carried that the build does not rest on."""
    try:
        wanted = {entry.seq for entry in carried_entries(data.entries, data.asked.build)}
    except (KeyError, TypeError, AttributeError):  # a body that is none, which is said above
        return
    for entry in data.entries:
        if entry.seq not in wanted and entry.kind != PinSet.kind:
            yield Finding(f"{called(entry)} is nothing that this build rests on", seq=entry.seq)


def _sheets(data: DossierData) -> Iterator[Finding]:
    for digest, text in data.sheets.items():
        if hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest() != digest:
            yield Finding(f"the engine sheet {digest[:12]} does not agree with its digest: it was changed")
    named = sheets_named(data.entries)
    for digest in named:
        if digest not in data.sheets:
            yield Finding(f"the engine sheet {digest[:12]}, which the entries name, is missing")
    for digest in data.sheets:
        if digest not in named:
            yield Finding(f"the engine sheet {digest[:12]} is one that no entry names")
