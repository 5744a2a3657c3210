"""Results as plain tuples, so that two of them can be compared to the last bit, arrays and all."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from enum import Enum
from typing import Any

import numpy as np


def plain(value: Any) -> Any:
    """Data classes, mappings and arrays as tuples; a float as its exact digits, so that NaN equals NaN."""
    if is_dataclass(value) and not isinstance(value, type):
        return tuple((field.name, plain(getattr(value, field.name))) for field in fields(value))
    if isinstance(value, Mapping):
        return tuple((key, plain(each)) for key, each in value.items())
    if isinstance(value, np.ndarray):
        return plain(value.tolist())
    if isinstance(value, (tuple, list)):
        return tuple(plain(each) for each in value)
    if isinstance(value, float) and not isinstance(value, Enum):
        return value.hex()
    return value


def differences(one: Any, other: Any, path: str = "") -> list[str]:
    """Where two plain results differ, for the message of a failed test."""
    if isinstance(one, tuple) and isinstance(other, tuple) and len(one) == len(other):
        return [
            found
            for index, (left, right) in enumerate(zip(one, other, strict=True))
            for found in differences(left, right, f"{path}/{_name(left, index)}")
        ]
    return [] if one == other else [f"{path}: {one!r} against {other!r}"]


def _name(value: Any, index: int) -> str:
    named = isinstance(value, tuple) and len(value) == 2 and isinstance(value[0], str)
    return value[0] if named else str(index)
