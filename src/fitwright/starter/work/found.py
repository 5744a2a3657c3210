"""What a starter sheet has that steps can name: fits, eye checks, parts, by station."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from fitwright.starter.blocks import DimensionBlock, FitBlock, Section, StationBlock
from fitwright.starter.plan import Plan


def literal(key: str) -> str:
    """A key whose braces stay as they are where a family fills its texts.

    Examples
    --------
    >>> literal("main.{1..5}.running_clearance").format()
    'main.{1..5}.running_clearance'
    """
    return key.replace("{", "{{").replace("}", "}}")


@dataclass(frozen=True, slots=True)
class Found:
    """The blocks of a sheet, asked by station; all keys come as `literal`."""

    plan: Plan
    sections: tuple[Section, ...]

    def has(self, station: str) -> bool:
        """Whether the sheet has this station."""
        return self._station(station) is not None

    def fits(self, *stations: str) -> tuple[str, ...]:
        """The fits of stations, and their dimensions that are judged by themselves."""
        return tuple(_key(block) for station in stations for block in self._judged(station))

    def critical(self, *stations: str) -> tuple[str, ...]:
        """The same, critical ones only."""
        judged = (block for station in stations for block in self._judged(station))
        return tuple(_key(block) for block in judged if block.critical)

    def named(self, *keys: str) -> tuple[str, ...]:
        """The fits that are there of those with these keys as templates: `cylinder.{0}.deck`."""
        wanted = {fit.key: _key(fit) for section in self.sections for fit in section.fits}
        return tuple(wanted[key] for key in keys if key in wanted)

    def of_each_cylinder(self, *keys: str) -> tuple[str, ...]:
        """The fits of one cylinder, as templates, that are there of those with these keys."""
        each = self.plan.each_cylinder
        there = {fit.key for section in self.sections for fit in section.fits if fit.family == each}
        return tuple(key for key in keys if key in there)

    def eye_checks(self, station: str, *names: str) -> tuple[str, ...]:
        """The ids of the eye checks of a station: those named, as far as they are there, or all."""
        block = self._station(station)
        there = () if block is None else tuple(name for name, _ in block.eye_checks)
        return tuple(f"{station}.{name}" for name in (names or there) if name in there)

    def parts(self, *keys: str) -> tuple[str, ...]:
        """The positions that are there of those with these keys as templates."""
        blocks = {part.key: part for section in self.sections for part in section.parts}
        return tuple(literal(blocks[key].family.key(key)) for key in keys if key in blocks)

    def once(self, *keys: str) -> tuple[str, ...]:
        """The same, positions of one-time parts only."""
        blocks = {part.key for section in self.sections for part in section.parts if part.one_time_use}
        return self.parts(*(key for key in keys if key in blocks))

    def _station(self, name: str) -> StationBlock | None:
        stations = (station for section in self.sections for station in section.stations)
        return next((station for station in stations if station.id == name), None)

    def _judged(self, station: str) -> Iterator[FitBlock | DimensionBlock]:
        for section in self.sections:
            yield from (fit for fit in section.fits if fit.station == station)
            yield from (
                dimension
                for dimension in section.dimensions
                if dimension.station == station and (dimension.rules or dimension.no_rule is not None)
            )


def _key(block: FitBlock | DimensionBlock) -> str:
    return literal(block.family.key(block.key))


def there(names: Iterable[str], known: Iterable[str]) -> tuple[str, ...]:
    """The names that are known, in their order."""
    known = frozenset(known)
    return tuple(name for name in names if name in known)
