"""Sittings begun, and people found by their code or name."""

from __future__ import annotations

import uuid
from collections.abc import Mapping

from fitwright.bench.context import Bench
from fitwright.bench.errors import UnknownNameError, UnknownPersonError
from fitwright.records.entry import NewEntry
from fitwright.records.kinds import Sitting
from fitwright.records.projection import ShopState


def person_named(shop: ShopState, name: str | None) -> str:
    """The code of a person, by code or name; without a name, the only person of the shop.

    Raises
    ------
    UnknownPersonError
        If nobody is called that, or several people are there and none is named.
    """
    if name is None and len(shop.people) == 1:
        return next(iter(shop.people))
    if name in shop.people:
        return name
    for code, held in shop.people.items():
        if name is not None and held.body.name.casefold() == name.casefold():
            return code
    raise UnknownPersonError(name, list(shop.people))


def new_sitting_code(bench: Bench) -> str:
    """A code that no sitting of this build has yet."""
    number = len(bench.build.sittings) + 1
    while f"sitting-{number}" in bench.build.sittings:
        number += 1
    return f"sitting-{number}"


def begin_sitting(
    bench: Bench,
    sitting: Sitting,
    *,
    person: str | None = None,
) -> NewEntry:
    """The entry that begins a sitting, its gauges and settings checked against the shelf."""
    person_named(bench.shop, sitting.measured_by)
    _check(sitting.instruments, "instrument", [*bench.shop.instruments, *bench.shop.blade_sets])
    _check(sitting.settings, "setting", list(bench.shop.settings))
    return NewEntry(
        id=uuid.uuid4().hex,
        build=bench.build.build,
        kind=Sitting.kind,
        body=sitting.model_dump(mode="json"),
        person=person or sitting.measured_by,
    )


def _check(named: Mapping[str, str], what: str, known: list[str]) -> None:
    for code in named.values():
        if code not in known:
            raise UnknownNameError(what, code, known)
