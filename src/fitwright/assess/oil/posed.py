"""The circuit of a sheet as the computation is asked about it, with what is known of its sizes."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from math import isfinite
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from fitwright.assess.oil.parameters import Parameters
from fitwright.assess.oil.paths import PathElements
from fitwright.assess.oil.pumps import PumpElements
from fitwright.assess.oil.reliefs import ReliefElements
from fitwright.assess.oil.sizes import KnownSize
from fitwright.model.circuit import Circuit as CircuitOfSheet
from fitwright.model.circuit import StagePurpose, given_sizes
from fitwright.physics.network.circuit import Circuit, Path
from fitwright.physics.pump.stages import Purpose, Stage, StageBalance, stage_balance

if TYPE_CHECKING:
    from fitwright.assess.judging import Judge

PUMP_GROUP, RELIEF_GROUP = "pump", "relief valve"


@dataclass(frozen=True, slots=True)
class PosedCircuit:
    """A circuit ready to be computed, or what keeps it from that.

    Attributes
    ----------
    sheet : Circuit
        As the sheet describes it.
    sizes : mapping of str to KnownSize
        What is known of every size that refers to the sheet.
    not_known : tuple of KnownSize
        Those that nothing is known of; with any, there is no `circuit`.
    circuit : Circuit or None
        The network, with the best value of every parameter.
    groups : mapping of str to tuple of str
        Clearances (parameters) of each group of paths, of the pump and of the relief valve.
    sense_factors : mapping of str to float
        What such a clearance is multiplied by to be as the circuit states it, where its fit is stated
        otherwise: 2 for a radial one that the circuit takes as diametral.
    scavenging : StageBalance or None
        Of a dry sump: what its scavenge stages displace beside the pressure stages.
    """

    sheet: CircuitOfSheet
    sizes: Mapping[str, KnownSize]
    not_known: tuple[KnownSize, ...]
    circuit: Circuit | None
    groups: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    scavenging: StageBalance | None = None
    sense_factors: Mapping[str, float] = field(default_factory=dict)

    def columns(self, names: tuple[str, ...]) -> NDArray[np.intp]:
        """Places of parameters in the circuit's order."""
        assert self.circuit is not None  # noqa: S101 - asked only of a circuit that is ready
        place = {name: at for at, name in enumerate(self.circuit.parameter_names)}
        return np.array([place[name] for name in names], dtype=np.intp)


def posed_circuit(judge: Judge, circuit: CircuitOfSheet) -> PosedCircuit:
    """Put a circuit together from the sheet and from what was measured.

    Raises
    ------
    PhysicsError
        If the sizes of the sheet make no circuit; the sentence says which part.
    """
    parameters = Parameters(judge)
    sizes = _sizes(parameters, circuit)
    not_known = tuple(each for each in sizes.values() if not isfinite(each.value))
    if not_known:
        return PosedCircuit(circuit, sizes, not_known, None)
    paths = tuple(_paths(parameters, circuit))
    used = {name: value for name, value in parameters.values.items() if isfinite(value)}
    groups, factors = _groups(circuit, parameters)
    scavenging = _scavenging(parameters, circuit)
    return PosedCircuit(circuit, sizes, (), Circuit(paths, used), groups, scavenging, factors)


def _sizes(parameters: Parameters, circuit: CircuitOfSheet) -> dict[str, KnownSize]:
    """Everything that the circuit refers to, before anything is computed with it."""
    for _, _, parts in circuit.parts():
        for part in parts:
            for _, size, _ in given_sizes(part):
                parameters.look_up(size)
    return dict(parameters.measured)


def _paths(parameters: Parameters, circuit: CircuitOfSheet) -> list[Path]:
    pumps, reliefs, ways = (
        PumpElements(parameters),
        ReliefElements(parameters),
        PathElements(parameters, circuit),
    )
    found = [
        Path(f"pumps.{each.id}", each.from_node or "", each.to_node or "", pumps.element(each), PUMP_GROUP)
        for each in circuit.pumps.values()
        if each.purpose is StagePurpose.PRESSURE
    ]
    found.extend(
        Path(f"reliefs.{each.id}", each.from_node, each.to_node, reliefs.element(each), RELIEF_GROUP)
        for each in circuit.reliefs.values()
    )
    found.extend(
        Path(f"paths.{each.id}", each.from_node, each.to_node, ways.element(each), each.group)
        for each in circuit.paths.values()
    )
    return found


def _groups(
    circuit: CircuitOfSheet, parameters: Parameters
) -> tuple[dict[str, tuple[str, ...]], dict[str, float]]:
    """The clearances of each group that the circuit follows, and their factors where stated otherwise."""
    found: dict[str, dict[str, None]] = {}
    factors: dict[str, float] = {}
    for section, name, parts in circuit.parts():
        owner = f"{section}.{name}"
        for part in parts:
            for field_name, size, rule in given_sizes(part):
                if not rule.clearance:
                    continue
                key = parameters.key(owner, field_name, size)
                if key in parameters.values:
                    found.setdefault(_group(circuit, section, name, field_name), {})[key] = None
                    factors.setdefault(key, parameters.factor(size, rule.sense))
    otherwise = {key: factor for key, factor in factors.items() if factor != 1.0}
    return {group: tuple(keys) for group, keys in found.items()}, otherwise


def _group(circuit: CircuitOfSheet, section: str, name: str, field_name: str) -> str:
    if section == "paths":
        return circuit.paths[name].group
    thing = PUMP_GROUP if section == "pumps" else RELIEF_GROUP
    return f"{thing} {field_name.replace('_', ' ')}"


def _scavenging(parameters: Parameters, circuit: CircuitOfSheet) -> StageBalance | None:
    """The balance of the pump's stages; None without scavenge stages."""
    if all(each.purpose is StagePurpose.PRESSURE for each in circuit.pumps.values()):
        return None
    pumps = PumpElements(parameters)
    return stage_balance(
        [
            Stage(
                each.title, Purpose(each.purpose.value), pumps.displacing(each).displacement, each.speed_ratio
            )
            for each in circuit.pumps.values()
        ]
    )
