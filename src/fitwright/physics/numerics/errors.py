"""Errors of the physics package: one base, typed fields, the message built here."""

from __future__ import annotations


class PhysicsError(Exception):
    """Base of everything that the physics package raises."""


class OutOfDomainError(PhysicsError):
    """An argument for which the equations mean nothing.

    Carries the argument's name, the value given and the domain that it must lie in.
    """

    def __init__(self, argument: str, value: object, domain: str) -> None:
        self.argument = argument
        self.value = value
        self.domain = domain
        super().__init__(f"{argument} is {value}; it must be {domain}")


class NotConvergedError(PhysicsError):
    """An iteration that ended before its answer was good enough; carries the last state."""

    def __init__(self, method: str, iterations: int, residual: float, tolerance: float) -> None:
        self.method = method
        self.iterations = iterations
        self.residual = residual
        self.tolerance = tolerance
        super().__init__(
            f"{method} did not converge: residual {residual:.3g} after {iterations} iterations,"
            f" {tolerance:.3g} was asked for"
        )
