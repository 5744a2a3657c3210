"""Blade answers as edges: what a gap is at least, or less than."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import sqrt

from fitwright.physics.metrology.readings import (
    INTERFACE_THICKNESS,
    INTERFACE_UNCERTAINTY,
    BladeAnswer,
    BladeReading,
    Drag,
)
from fitwright.quantity import Metre

FAR = 8.0
"""Standard uncertainties beyond which an edge cannot matter beside another."""


@dataclass(frozen=True, slots=True)
class Edge:
    """One inequality between a gap and an uncertain thickness, with or without drag.

    Attributes
    ----------
    reading : str
        Key of the reading that says it.
    is_lower : bool
        True: gap >= edge. False: gap < edge.
    thickness : float [m]
        Best thickness of what was put in.
    parts : tuple of (str, float)
        Independent unknowns of that thickness: key and standard uncertainty [m], in order of key.
    drag : Drag or None
        Added to the thickness.
    """

    reading: str
    is_lower: bool
    thickness: Metre
    parts: tuple[tuple[str, Metre], ...]
    drag: Drag | None = None

    @property
    def unknowns(self) -> dict[str, Metre]:
        """Every independent unknown of the edge with its standard uncertainty [m]."""
        known = dict(self.parts)
        if self.drag is not None:
            known[_drag_key(self.drag)] = self.drag.standard_uncertainty
        return known

    @property
    def mean(self) -> Metre:
        """Best value of the edge [m]."""
        return self.thickness + (self.drag.value if self.drag is not None else 0.0)

    @property
    def standard_uncertainty(self) -> Metre:
        """Standard uncertainty of the edge [m]."""
        return sqrt(sum(u * u for u in self.unknowns.values()))

    def folded(self) -> Edge:
        """The same edge with its drag as one more part of the thickness."""
        if self.drag is None:
            return self
        parts = tuple(sorted((*self.parts, (_drag_key(self.drag), self.drag.standard_uncertainty))))
        return replace(self, thickness=self.mean, parts=parts, drag=None)

    def against(self, other: Edge) -> tuple[Metre, Metre]:
        """How far `other` lies above this edge, and the standard uncertainty of that [m]."""
        mine, theirs = self.unknowns, other.unknowns
        # What both share cancels.
        apart = [u for key, u in mine.items() if key not in theirs]
        apart += [u for key, u in theirs.items() if key not in mine]
        return other.mean - self.mean, sqrt(sum(u * u for u in apart))

    @classmethod
    def of(cls, reading: BladeReading) -> tuple[Edge, ...]:
        """The edges that one reading states."""
        stack = reading.interfaces
        thickness = sum(blade.thickness for blade in reading.blades) + stack * INTERFACE_THICKNESS
        parts = [(f"blade {blade.key}", blade.standard_uncertainty) for blade in reading.blades]
        if stack:
            parts.append((f"interfaces {reading.key}", sqrt(stack) * INTERFACE_UNCERTAINTY))
        bare = cls(reading.key, is_lower=True, thickness=thickness, parts=tuple(sorted(parts)))
        match reading.answer:
            case BladeAnswer.GOES:
                return (bare,)
            case BladeAnswer.GOES_FREELY:
                return (replace(bare, drag=reading.drag),)
            case BladeAnswer.DRAGS:
                return (bare, replace(bare, is_lower=False, drag=reading.drag))
            case BladeAnswer.DOES_NOT_GO:
                return (replace(bare, is_lower=False),)

    @classmethod
    def relevant(
        cls, readings: Sequence[BladeReading], prior: tuple[Metre, Metre] | None = None
    ) -> tuple[Edge, ...]:
        """The edges of all readings at one place, without those that others make certain.

        `prior` is the value and standard uncertainty [m] known there from values.
        """
        every = [edge for reading in sorted(readings, key=lambda one: one.key) for edge in cls.of(reading)]
        floors = [edge.mean - FAR * edge.standard_uncertainty for edge in every if edge.is_lower]
        ceilings = [edge.mean + FAR * edge.standard_uncertainty for edge in every if not edge.is_lower]
        if prior is not None:
            floors.append(prior[0] - FAR * prior[1])
            ceilings.append(prior[0] + FAR * prior[1])
        floor, ceiling = max(floors, default=None), min(ceilings, default=None)
        kept: dict[tuple[bool, Metre, tuple[tuple[str, Metre], ...], Drag | None], Edge] = {}
        for edge in every:
            reach = FAR * edge.standard_uncertainty
            if edge.is_lower and floor is not None and edge.mean + reach < floor:
                continue
            if not edge.is_lower and ceiling is not None and edge.mean - reach > ceiling:
                continue
            kept.setdefault((edge.is_lower, edge.thickness, edge.parts, edge.drag), edge)
        return tuple(kept.values())


def _drag_key(drag: Drag) -> str:
    """Key of the unknown that a person's drag is, apart from those of blades."""
    return f"drag {drag.key}"
