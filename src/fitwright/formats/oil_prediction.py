"""A prediction of the oil system as plain data for another program: SI numbers, null where there is none."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, fields, is_dataclass
from enum import Enum
from math import isfinite
from typing import Any, Final

from fitwright import __version__
from fitwright.assess.oil.results import CycleFilms, Prediction
from fitwright.assess.oil.sizes import KnownSize
from fitwright.assess.oil.versions import model_versions
from fitwright.assess.oil.what_if import WhatIf
from fitwright.assess.oil.words import BAND_MEANS, VALIDATED

FORMAT: Final = 1


@dataclass(frozen=True, slots=True)
class RestsOn:
    """The build at one state of its record: what a prediction rests on.

    `state` is `current` or `as-received`, `sheet` the digest of the sheet; `entry` and `entry_hash` are the
    last entry of the record, None while it is empty.
    """

    build: str
    state: str
    sheet: str
    entry: int | None
    entry_hash: str | None


def oil_as_json(
    found: Prediction,
    rests_on: RestsOn,
    what_if: WhatIf | None = None,
    as_measured: Prediction | None = None,
) -> dict[str, Any]:
    """The whole prediction with what it rests on.

    Parameters
    ----------
    found : Prediction
        The prediction.
    rests_on : RestsOn
        The build, its sheet and its record.
    what_if : WhatIf, optional
        What is otherwise than measured in it.
    as_measured : Prediction, optional
        The same points of the build as measured, to tell the difference by.

    Returns
    -------
    dict
        Ready for `json.dump` with `allow_nan=False`.
    """
    return {
        "format": FORMAT,
        "title": found.title,
        "problem": found.problem,
        "rests_on": {**plain(rests_on), "fitwright": __version__, "models": dict(model_versions())},
        "oil": plain(found.oil),
        "what_if": plain(what_if) if what_if is not None and not what_if.changes_nothing else None,
        "points": plain(found.points),
        "as_measured": _gauge(as_measured) if as_measured is not None else None,
        "curves": plain(found.curves),
        "costs": plain(found.costs),
        "faults": plain(found.faults),
        "stops": plain(found.stops),
        "filling_limit": found.filling_limit,
        "falls": list(found.falls),
        "sizes": [_size(each) for each in found.sizes.values()],
        "unmeasured": [each.id for each in found.unmeasured],
        "not_known": [each.id for each in found.not_known],
        "cautions": list(found.cautions),
        "band_means": BAND_MEANS,
        "validated": VALIDATED,
        "not_modelled": list(found.not_modelled),
    }


def cycle_as_json(found: CycleFilms, rests_on: RestsOn, what_if: WhatIf | None = None) -> dict[str, Any]:
    """Films over the cycle at one point with what they rest on, ready like `oil_as_json`."""
    return {
        "format": FORMAT,
        "rests_on": {**plain(rests_on), "fitwright": __version__, "models": dict(model_versions())},
        "what_if": plain(what_if) if what_if is not None and not what_if.changes_nothing else None,
        "films_over_cycle": plain(found),
    }


def _gauge(found: Prediction) -> list[dict[str, Any]]:
    """The pressure at the gauge at each point."""
    names = ("title", "angular_speed", "oil_temperature", "gauge_pressure")
    return [{name: plain(getattr(each, name)) for name in names} for each in found.points]


def _size(known: KnownSize) -> dict[str, Any]:
    """What is known of one size; its sources of uncertainty are told by one figure."""
    return {
        "id": known.id,
        "title": known.title,
        "station": known.station,
        "basis": known.basis.value,
        "value": plain(known.value),
        "standard_uncertainty": plain(known.standard_uncertainty),
        "band": plain(known.band),
        "limits": plain(known.limits),
        "per_kelvin": known.growth.per_kelvin,
        "critical": known.critical,
        "reason": known.reason,
    }


def plain(value: object) -> Any:  # noqa: ANN401 - whatever JSON holds
    """Dataclasses as objects, enumerations as their words, what is no number as null.

    >>> plain((float("nan"), 1.5))
    [None, 1.5]
    """
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, float):
        return value if isfinite(value) else None
    if value is None or isinstance(value, str | bool | int):
        return value
    if isinstance(value, Mapping):
        return {str(name): plain(each) for name, each in value.items()}
    if is_dataclass(value):
        return {each.name: plain(getattr(value, each.name)) for each in fields(value)}
    if isinstance(value, Iterable):
        return [plain(each) for each in value]
    raise TypeError(f"{type(value).__name__} has no place in JSON")
