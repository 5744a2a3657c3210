"""Amounts that stand in the circuit itself: each may be given another value to see what if."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from fitwright.assess.oil.posed import PosedCircuit
from fitwright.model.circuit import Reference, given_sizes


@dataclass(frozen=True, slots=True)
class Amount:
    """An amount of the circuit: the parameter that it is, of which part and which size, and its value [SI].

    `dimension` is the kind of amount (of `fitwright.units`).
    """

    id: str
    part: str
    size: str
    dimension: str
    value: float


def amounts_of(posed: PosedCircuit) -> Mapping[str, Amount]:
    """Every amount that the computation follows, by its parameter (`paths.jet.1.diameter`)."""
    return {each.id: each for each in _amounts(posed)}


def _amounts(posed: PosedCircuit) -> Iterator[Amount]:
    if posed.circuit is None:
        return
    titles = {f"pumps.{each.id}": each.title for each in posed.sheet.pumps.values()}
    titles |= {f"reliefs.{each.id}": each.title for each in posed.sheet.reliefs.values()}
    titles |= {f"paths.{each.id}": each.title for each in posed.sheet.paths.values()}
    for section, name, parts in posed.sheet.parts():
        owner = f"{section}.{name}"
        for part in parts:
            for field_name, size, rule in given_sizes(part):
                key = f"{owner}.{field_name}"
                if isinstance(size, Reference) or key not in posed.circuit.parameters:
                    continue
                words = field_name.replace("_", " ")
                yield Amount(key, titles[owner], words, rule.dimension, posed.circuit.parameters[key])
