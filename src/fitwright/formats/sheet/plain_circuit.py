"""From the model back to the plain values of a sheet file: oils and the oil circuit."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import fields
from enum import Enum
from types import MappingProxyType
from typing import Any, Final

from fitwright.model.amount import Written
from fitwright.model.circuit import (
    USUAL_GROUPS,
    USUAL_SPEED_RATIOS,
    Bearing,
    Circuit,
    GasPressure,
    OilPath,
    PumpStage,
    Reference,
)

PlainTable = dict[str, Any]
_KEYS: Final[Mapping[str, str]] = {"from_node": "from", "to_node": "to", "place_in_source": "at"}
_APART: Final = frozenset({"id", "family", "rotors", "element", "pumps", "reliefs", "paths", "crank_train"})


def plain_circuit(circuit: Circuit) -> PlainTable:
    """The table [circuit] without the sections in it."""
    return {
        **_plain(circuit),
        "crank_train": _plain(circuit.crank_train) if circuit.crank_train is not None else None,
        "operating_points": [_plain(each) for each in circuit.operating_points],
        "stops": [_plain(each) for each in circuit.stops],
    }


def _plain(part: Any) -> PlainTable:  # noqa: ANN401 - any dataclass of the circuit
    """The keys of a part that differ from what the format takes for them when they are left out."""
    return {
        _KEYS.get(each.name, each.name): _value(getattr(part, each.name))
        for each in fields(part)
        if each.name not in _APART and getattr(part, each.name) != each.default
    }


def _value(value: Any) -> Any:  # noqa: ANN401 - any field of the circuit
    if isinstance(value, Written):
        return value.written
    if isinstance(value, Reference):
        return value.subject
    if isinstance(value, GasPressure):
        return _plain(value)
    if isinstance(value, tuple):
        return [_value(each) for each in value]
    return value.value if isinstance(value, Enum) else value


def _pump(stage: PumpStage) -> PlainTable:
    return {**_plain(stage), **_plain(stage.rotors)}


def _path(path: OilPath) -> PlainTable:
    table = {**_plain(path), **_plain(path.element)}
    if path.group == USUAL_GROUPS[path.kind]:
        del table["group"]
    if isinstance(path.element, Bearing):
        table.pop("speed_ratio", None)
        if path.element.speed_ratio != USUAL_SPEED_RATIOS[path.kind]:
            table["speed_ratio"] = path.element.speed_ratio
    return table


PLAIN_OIL: Final[Mapping[str, Callable[[Any], PlainTable]]] = MappingProxyType(
    {"oils": _plain, "circuit.pumps": _pump, "circuit.reliefs": _plain, "circuit.paths": _path}
)
"""How an entry of each section of oil becomes plain."""
