"""How an assembly stands, as plain data: amounts in SI, moments as ISO 8601 in UTC, things by their ids."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from datetime import datetime
from enum import Enum
from typing import Any

from fitwright.assess.assembly.results import Standing, StepStanding
from fitwright.model.fastener import Pass, TighteningGroup


def standing_as_json(standing: Standing) -> dict[str, Any]:
    """Everything that is said of an assembly."""
    found: dict[str, Any] = _plain(standing)
    return found


def step_as_json(step: StepStanding) -> dict[str, Any]:
    """One step, with what it rests on."""
    found: dict[str, Any] = _plain(step)
    return found


def work_as_json(standing: Standing) -> dict[str, Any]:
    """The order of work in short: each step with its state in words."""
    return {
        "head": standing.head,
        "now": _plain(standing.now),
        "steps": [
            {"id": each.id, "title": each.title, "state": each.state.value, "words": each.words}
            for each in standing.steps.values()
        ],
    }


def _plain(value: Any) -> Any:  # noqa: ANN401  (any result)
    if isinstance(value, Mapping):
        return {str(name): _plain(each) for name, each in value.items()}
    if isinstance(value, tuple | list):
        return [_plain(each) for each in value]
    if is_dataclass(value) and not isinstance(value, TighteningGroup | Pass):
        return {each.name: _plain(getattr(value, each.name)) for each in fields(value)}
    return _plain_leaf(value)


def _plain_leaf(value: Any) -> Any:  # noqa: ANN401
    match value:
        case TighteningGroup():
            return value.id
        case Pass():
            return None  # its words stand beside it
        case Enum():
            return value.value
        case datetime():
            return value.isoformat()
    return value
