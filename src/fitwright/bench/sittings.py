"""Sittings begun and changed, and people found by their code or name.

Readings inherit what their sitting says, so that a sitting in use is never changed: `changed_sitting`
makes a new one, like the one before but for one thing, and readings taken already keep theirs.
"""

from __future__ import annotations

import uuid
from collections.abc import Mapping
from typing import Any, TypeVar

from fitwright.bench.amounts import amount
from fitwright.bench.context import Bench, near
from fitwright.bench.errors import (
    TemperatureUnitError,
    UnknownNameError,
    UnknownPersonError,
    WrongSettingError,
)
from fitwright.records.entry import NewEntry
from fitwright.records.kinds import Sitting
from fitwright.records.projection import ShopState
from fitwright.units import Family, QuantityError, parse_quantity, shop_unit

ROOM = (273.15, 318.15)
"""Between freezing and 45 degrees Celsius [K] somebody measures who does not say in which unit."""
NOTHING: Mapping[str, str] = {}
Value = TypeVar("Value", str, float)


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
    """A code that no sitting of this build has yet: T-01, T-02 and so on."""
    number = len(bench.build.sittings) + 1
    while f"T-{number:02d}" in bench.build.sittings:
        number += 1
    return f"T-{number:02d}"


def sitting_from(
    bench: Bench,
    *,
    code: str | None = None,
    measured_by: str | None = None,
    typed_by: str | None = None,
    temperature: str = "20 degC",
    temperature_uncertainty: str = "0.5 K",
    difference_uncertainty: str = "0.2 K",
    part_temperatures: Mapping[str, str] = NOTHING,
    instruments: Mapping[str, str] = NOTHING,
    settings: Mapping[str, str] = NOTHING,
    attitude: str | None = None,
    crank: str | None = None,
    words: str | None = None,
) -> Sitting:
    """A sitting from what a person types; everything that it names is looked up.

    `instruments` says which gauge of a kind is used (kind -> code), `settings` what a gauge is set
    to (gauge -> setting), `part_temperatures` how warm a part is (position -> text). A temperature
    without a unit is in that of the build.

    Raises
    ------
    BenchError
        If somebody or something named is not there, a setting is of another gauge, or a temperature
        without a unit is none of a room.
    QuantityError
        If a temperature cannot be read.
    """
    sitting = Sitting(
        code=code or new_sitting_code(bench),
        measured_by=person_named(bench.shop, measured_by),
        typed_by=person_named(bench.shop, typed_by) if typed_by is not None else None,
        temperature=_temperature(bench, temperature),
        temperature_uncertainty=_difference(temperature_uncertainty),
        part_gauge_difference_uncertainty=_difference(difference_uncertainty),
        part_temperatures={name: _temperature(bench, text) for name, text in part_temperatures.items()},
        instruments=dict(instruments),
        settings=dict(settings),
        attitude=attitude or None,
        crank=crank or None,
        words=words or None,
    )
    check_sitting(bench, sitting)
    return sitting


def changed_sitting(
    bench: Bench,
    sitting: Sitting | str,
    *,
    measured_by: str | None = None,
    typed_by: str | None = None,
    temperature: str | None = None,
    temperature_uncertainty: str | None = None,
    difference_uncertainty: str | None = None,
    part_temperatures: Mapping[str, str] = NOTHING,
    instruments: Mapping[str, str] = NOTHING,
    settings: Mapping[str, str] = NOTHING,
    attitude: str | None = None,
    crank: str | None = None,
    words: str | None = None,
) -> Sitting:
    """A new sitting like the one given, with a code of its own, and what is named here changed.

    What is not named stays as it was. Of the mappings only the names given change; an empty text
    takes a name out, and empties attitude, crank, words or who typed.
    """
    before = bench.sitting(sitting) if isinstance(sitting, str) else sitting
    if before is None:
        raise UnknownNameError("sitting", str(sitting), list(bench.build.sittings))
    warm = {name: _temperature(bench, text) if text else None for name, text in part_temperatures.items()}
    changes: dict[str, Any] = {
        "code": new_sitting_code(bench),
        "supersedes": None,
        "reason": None,
        "part_temperatures": _merged(before.part_temperatures, warm),
        "instruments": _merged(before.instruments, instruments),
        "settings": _merged(before.settings, settings),
    }
    if measured_by is not None:
        changes["measured_by"] = person_named(bench.shop, measured_by)
    if typed_by is not None:
        changes["typed_by"] = person_named(bench.shop, typed_by) if typed_by else None
    if temperature is not None:
        changes["temperature"] = _temperature(bench, temperature)
    if temperature_uncertainty is not None:
        changes["temperature_uncertainty"] = _difference(temperature_uncertainty)
    if difference_uncertainty is not None:
        changes["part_gauge_difference_uncertainty"] = _difference(difference_uncertainty)
    said = {"attitude": attitude, "crank": crank, "words": words}
    changes |= {name: text or None for name, text in said.items() if text is not None}
    changed = Sitting.model_validate(before.model_dump() | changes)
    check_sitting(bench, changed)
    return changed


def begin_sitting(
    bench: Bench,
    sitting: Sitting,
    *,
    person: str | None = None,
    entry_id: str | None = None,
) -> NewEntry:
    """The entry that begins a sitting, its people, gauges and settings checked against the shelf."""
    check_sitting(bench, sitting)
    return NewEntry(
        id=entry_id or uuid.uuid4().hex,
        build=bench.build.build,
        kind=Sitting.kind,
        body=sitting.model_dump(mode="json"),
        person=person or sitting.measured_by,
    )


def check_sitting(bench: Bench, sitting: Sitting) -> None:
    """Refuse a sitting that names somebody, a gauge, a setting or a position that is not there.

    Raises
    ------
    BenchError
        With what is not there, or which setting is of another gauge.
    """
    shop = bench.shop
    person_named(shop, sitting.measured_by)
    gauges = [*shop.instruments, *shop.blade_sets]
    for code in (*sitting.instruments.values(), *sitting.settings):
        if code not in gauges:
            raise UnknownNameError("instrument", code, gauges)
    for gauge, code in sitting.settings.items():
        if code not in shop.settings:
            raise UnknownNameError("setting", code, list(shop.settings))
        if shop.settings[code].body.instrument != gauge:
            raise WrongSettingError(code, shop.settings[code].body.instrument, gauge)
    for name in sitting.part_temperatures:
        if name not in bench.sheet.parts:
            raise UnknownNameError("position", name, near(name, bench.sheet.parts))


def _merged(before: Mapping[str, Value], changed: Mapping[str, Value | None]) -> dict[str, Value]:
    """The names of both; one that is changed to nothing is out."""
    kept = {name: value for name, value in before.items() if name not in changed}
    return kept | {name: value for name, value in changed.items() if value}


def _temperature(bench: Bench, text: str) -> float:
    """A temperature [K]; without a unit in that of the build, if it can be the one of a room."""
    family: Family = "inch" if bench.sheet.engine.unit_family == "inch" else "mm"
    unit = shop_unit("temperature", family)
    found = amount(text, unit, dimension="temperature")
    if not ROOM[0] <= found <= ROOM[1] and not _says_unit(text):
        raise TemperatureUnitError(text.strip(), unit)
    return found


def _says_unit(text: str) -> bool:
    try:
        parse_quantity(text, dimension="temperature")
    except QuantityError:
        return False
    return True


def _difference(text: str) -> float:
    return amount(text, "K", dimension="temperature_difference")
