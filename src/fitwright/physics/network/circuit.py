"""What is connected to what: named nodes, and paths between them through elements."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

import numpy as np

from fitwright.physics.network import errors
from fitwright.physics.network.elements.element import Element
from fitwright.physics.network.elements.pump import Pump
from fitwright.physics.network.sizes import COMMON, Named, value_of
from fitwright.quantity import FloatArray

SUMP = "sump"
"""The node at atmospheric pressure: oil is drawn from it, and returns to it."""


@dataclass(frozen=True, slots=True)
class Path:
    """An element between two nodes; flow is positive from upstream to downstream.

    Attributes
    ----------
    name : str
        Unique in its circuit.
    upstream, downstream : str
        Nodes; `SUMP` is the sump.
    element : Element
        What the oil flows through.
    group : str
        Under which the flow is summed in the flow budget.
    """

    name: str
    upstream: str
    downstream: str
    element: Element
    group: str = ""


@dataclass(frozen=True, slots=True, eq=False)
class Circuit:
    """Paths and the parameters that their sizes follow; checked when it is made.

    Attributes
    ----------
    paths : tuple of Path
        In any order.
    parameters : mapping of str to float
        Value of each named parameter, the estimate that is best.
    nodes : tuple of str
        All nodes but the sump, in the order in which the paths name them.
    parameter_names : tuple of str
        The circuit's own in their order, then those that every circuit has (`sizes.COMMON`): factor on
        the viscosity, change of the oil temperature in kelvin, factor on the speed.
    path_places : mapping of str to int
        Place of each path in `paths`, by its name.

    Raises
    ------
    CircuitError
        One of `errors`, for the first thing that is wrong.
    """

    paths: tuple[Path, ...]
    parameters: Mapping[str, float] = field(default_factory=dict)
    nodes: tuple[str, ...] = field(init=False)
    parameter_names: tuple[str, ...] = field(init=False)
    path_places: Mapping[str, int] = field(init=False, repr=False)

    def __post_init__(self) -> None:
        """Name nodes and parameters; check."""
        ends = (node for path in self.paths for node in (path.upstream, path.downstream) if node != SUMP)
        object.__setattr__(self, "nodes", tuple(dict.fromkeys(ends)))
        _check_parameters(self)
        object.__setattr__(self, "parameter_names", (*self.parameters, *COMMON))
        object.__setattr__(self, "parameters", MappingProxyType({**self.parameters, **COMMON}))
        _check_paths(self)
        _check_ways(self)
        places = {path.name: at for at, path in enumerate(self.paths)}
        object.__setattr__(self, "path_places", MappingProxyType(places))

    def own_parameters(self) -> tuple[str, ...]:
        """Names of the parameters that are the circuit's own."""
        return self.parameter_names[: -len(COMMON)]

    def nominal(self) -> FloatArray:
        """Values of all parameters, in the order of `parameter_names`."""
        return np.array([self.parameters[name] for name in self.parameter_names])

    def path(self, name: str) -> Path:
        """The path of that name."""
        return self.paths[self.path_index(name)]

    def path_index(self, name: str) -> int:
        """Place of a path in `paths`."""
        return self.path_places[name]

    def of_kind(self, kind: type[Element]) -> tuple[int, ...]:
        """Places of the paths through elements of one kind."""
        return tuple(at for at, path in enumerate(self.paths) if isinstance(path.element, kind))


def _check_parameters(circuit: Circuit) -> None:
    for name in circuit.parameters:
        if name in COMMON:
            raise errors.ReservedParameterError(name)


def _check_paths(circuit: Circuit) -> None:
    seen: set[str] = set()
    for path in circuit.paths:
        if path.name in seen:
            raise errors.RepeatedPathError(path.name)
        if path.upstream == path.downstream:
            raise errors.SamePlaceError(path.name, path.upstream)
        seen.add(path.name)
        _check_sizes(path, circuit.parameters)
    if not any(isinstance(path.element, Pump) for path in circuit.paths):
        raise errors.NoPumpError


def _check_sizes(path: Path, parameters: Mapping[str, float]) -> None:
    for part in path.element.parts():
        for size in part.slots():
            if not isinstance(size, Named):
                continue
            if size.parameter in COMMON:
                raise errors.ReservedParameterError(size.parameter)
            if size.parameter not in parameters:
                raise errors.UnknownParameterError(path.name, size.parameter)
    for name, size, zero in path.element.checked():
        value = value_of(size, parameters)
        if not (math.isfinite(value) and (value > 0.0 or (zero and value == 0.0))):
            raise errors.SizeError(path.name, name, value, "zero or more" if zero else "above zero")
    for low, high in path.element.ordered():
        least, most = (
            value_of(getattr(path.element, low), parameters),
            value_of(getattr(path.element, high), parameters),
        )
        if not least < most:
            raise errors.SizeError(path.name, high, most, f"above {low} ({least:g})")


def _check_ways(circuit: Circuit) -> None:
    """Every node must be joined to the sump by paths that are no pump."""
    reached, ahead = {SUMP}, [SUMP]
    while ahead:
        for other in _beside(circuit, ahead.pop()):
            if other not in reached:
                reached.add(other)
                ahead.append(other)
    for node in circuit.nodes:
        if node not in reached:
            raise errors.NoWayToSumpError(node)


def _beside(circuit: Circuit, node: str) -> Iterator[str]:
    for path in circuit.paths:
        if isinstance(path.element, Pump):
            continue
        if path.upstream == node:
            yield path.downstream
        elif path.downstream == node:
            yield path.upstream
