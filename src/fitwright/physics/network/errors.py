"""What can be wrong with a circuit before anything is computed."""

from __future__ import annotations

from fitwright.physics.numerics.errors import PhysicsError


class CircuitError(PhysicsError):
    """Base of what is wrong with a circuit."""


class RepeatedPathError(CircuitError):
    """Two paths have one name."""

    def __init__(self, path: str) -> None:
        self.path = path
        super().__init__(f"two paths are called {path!r}")


class SamePlaceError(CircuitError):
    """A path ends where it begins."""

    def __init__(self, path: str, node: str) -> None:
        self.path = path
        self.node = node
        super().__init__(f"path {path!r} begins and ends at {node!r}")


class UnknownParameterError(CircuitError):
    """A size follows a parameter that the circuit does not have."""

    def __init__(self, path: str, parameter: str) -> None:
        self.path = path
        self.parameter = parameter
        super().__init__(f"path {path!r} follows the parameter {parameter!r}, which has no value")


class ReservedParameterError(CircuitError):
    """A parameter has a name that every circuit has already."""

    def __init__(self, parameter: str) -> None:
        self.parameter = parameter
        super().__init__(f"the parameter {parameter!r} is one that every circuit has already")


class SizeError(CircuitError):
    """A size for which its law means nothing."""

    def __init__(self, path: str, size: str, value: float, domain: str) -> None:
        self.path = path
        self.size = size
        self.value = value
        self.domain = domain
        super().__init__(f"path {path!r}: {size} is {value:g}; it must be {domain}")


class NoPumpError(CircuitError):
    """Nothing drives the oil."""

    def __init__(self) -> None:
        super().__init__("the circuit has no pump")


class NoWayToSumpError(CircuitError):
    """From a node no oil gets to the sump without going through the pump: its pressure is not defined."""

    def __init__(self, node: str) -> None:
        self.node = node
        super().__init__(f"no path leads from {node!r} to the sump except through the pump")
