"""Stations: the readings taken in one place of work, in measuring order."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Station:
    """A place of work. `order` lists dimension ids in the order in which one measures them.

    `eye_checks` are yes / no questions asked here (id -> question); `caution` is shown where the
    work can hurt someone.
    """

    id: str
    title: str
    order: tuple[str, ...]
    eye_checks: tuple[EyeCheck, ...] = ()
    caution: str | None = None


@dataclass(frozen=True, slots=True)
class EyeCheck:
    """A yes / no question answered by looking or feeling ("turns by hand, no drag point")."""

    id: str
    question: str
    wanted: bool = True
