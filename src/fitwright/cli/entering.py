"""What the commands of `fitwright shop` share: amounts read, entries found by number, entries written."""

from __future__ import annotations

import sys
from collections.abc import Mapping, Sequence
from contextlib import AbstractContextManager
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from cyclopts import Parameter

from fitwright.cli.errors import OK, UsageError
from fitwright.cli.shop import opened

if TYPE_CHECKING:
    from fitwright.records.entry import Entry
    from fitwright.records.kinds import Body
    from fitwright.wiring import Shop

Person = Annotated[str | None, Parameter(name="--person", help="Who enters it: code or name.")]
Reason = Annotated[str | None, Parameter(name="--reason", help="Why, in a few words.")]
OfBuild = Annotated[str | None, Parameter(name="--build", help="Build that it belongs to; else the shop.")]


def making(data: Path) -> AbstractContextManager[Shop]:
    """The shop in a folder, made if it is not there yet."""
    return opened(data, create=True)


def enter(
    shop: Shop,
    body: Body,
    words: str,
    *,
    build: str | None = None,
    person: str | None = None,
    pins: Mapping[str, str] | None = None,
) -> int:
    """Write one entry durably and say so."""
    from fitwright.bench.sittings import person_named

    who = person_named(shop.state, person) if person is not None else None
    if build is not None:
        shop.bench(build)
    written = shop.write([shop.entry(body, build=build, person=who)], pins=pins)
    sys.stdout.write(f"{words} (entry {written.acknowledgements[0].seq}).\n")
    return OK


def entry_named(shop: Shop, name: str) -> Entry:
    """An entry by its number in the record, or by the beginning of its id.

    Raises
    ------
    UsageError
        If there is none, or several begin so.
    """
    if name.isdecimal() and len(name) < 12:
        found = next(iter(shop.record.entries(after=int(name) - 1, limit=1)), None)
        if found is not None and found.seq == int(name):
            return found
        raise UsageError(f"There is no entry {name} in this shop's record.")
    whole = shop.record.entry(name)
    if whole is not None:
        return whole
    matches = [entry for entry in shop.record.entries() if entry.id.startswith(name)]
    if len(matches) == 1:
        return matches[0]
    what = "several entries begin" if matches else "no entry begins"
    raise UsageError(f'{what[:1].upper()}{what[1:]} with "{name}"; name one by its number or its whole id.')


def pairs(texts: Sequence[str], form: str) -> dict[str, str]:
    """Texts of the form NAME=VALUE as a mapping.

    Raises
    ------
    UsageError
        If one is not of that form.
    """
    found = {}
    for text in texts:
        name, sign, value = text.partition("=")
        if not (sign and name.strip() and value.strip()):
            raise UsageError(f'"{text}" is not of the form {form}.')
        found[name.strip()] = value.strip()
    return found
