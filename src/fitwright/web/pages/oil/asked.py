"""What is asked of the page Oil: which operating point, what is moved, and what is held against it."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Final

from starlette.datastructures import QueryParams

from fitwright.assess.oil.chosen import is_within
from fitwright.assess.oil.desk import OilDesk
from fitwright.assess.oil.points import OilPoint, named_points
from fitwright.assess.oil.what_if import WhatIf
from fitwright.units import QuantityError, parse_quantity
from fitwright.units.families import Family, shop_unit
from fitwright.units.rounding import in_unit
from fitwright.web.addresses import oil_address
from fitwright.web.pages.oil.moving import Moved, moved_from, texts_of, what_if_of, words_of

MOVED: Final = "w."
"""Begins the names of what is moved."""

HELD: Final = "a."
"""Begins the names of what the first of two what-ifs moved."""

CHOSEN: Final = "chosen"
"""Names the operating point of a speed and a temperature of one's own."""

AGAINST_NOTHING: Final = "none"
"""In an address, says that the first of two what-ifs is the build as measured."""


@dataclass(frozen=True)
class OilQuestion:
    """What is asked of the page, at one desk.

    `at` names the operating point; `speed` and `temperature` are those of one's own, as typed. `texts` is
    what is moved, `held` what the first of two what-ifs moved, None where none is kept.
    """

    code: str
    family: Family
    desk: OilDesk
    at: str = ""
    speed: str = ""
    temperature: str = ""
    texts: Mapping[str, str] | None = None
    held: Mapping[str, str] | None = None

    @classmethod
    def of(cls, code: str, family: Family, desk: OilDesk, query: QueryParams) -> OilQuestion:
        """From an address."""
        held = dict(_beginning(query, HELD))
        return cls(
            code=code,
            family=family,
            desk=desk,
            at=query.get("at", ""),
            speed=query.get("speed", "").strip(),
            temperature=query.get("temperature", "").strip(),
            texts=dict(_beginning(query, MOVED)),
            held=held if held or query.get("against") == AGAINST_NOTHING else None,
        )

    @cached_property
    def moved(self) -> Moved:
        """What is moved."""
        return self._moved(self.texts or {})

    @cached_property
    def held_moved(self) -> Moved | None:
        """What the first of two what-ifs moved."""
        return self._moved(self.held) if self.held is not None else None

    @cached_property
    def what_if(self) -> WhatIf:
        """The what-if asked for."""
        return what_if_of(self.desk.sliders, self.moved)

    @cached_property
    def held_what_if(self) -> WhatIf | None:
        """The first of two what-ifs."""
        return what_if_of(self.desk.sliders, self.held_moved) if self.held_moved is not None else None

    @cached_property
    def own_point(self) -> OilPoint | None:
        """The operating point of one's own, if both its numbers can be read."""
        if self.at != CHOSEN:
            return None
        try:
            speed = parse_quantity(self.speed, default_unit="rpm", dimension="angular_speed").si
            unit = shop_unit("temperature", self.family)
            warm = parse_quantity(self.temperature, default_unit=unit, dimension="temperature").si
        except QuantityError:
            return None
        circuit, point = self.desk.circuit, OilPoint("as chosen", speed, warm)
        return point if circuit is not None and is_within(circuit, point) else None

    @property
    def also(self) -> tuple[OilPoint, ...]:
        """The points to look at besides those of the sheet."""
        return (self.own_point,) if self.own_point is not None else ()

    @cached_property
    def slugs(self) -> tuple[str, ...]:
        """Names of the operating points of the sheet, as they stand in addresses."""
        circuit = self.desk.circuit
        return tuple(_slugs(each.title for each in named_points(circuit))) if circuit is not None else ()

    @property
    def row(self) -> int:
        """Which of the points is looked at: a named one, or the one of one's own behind them."""
        if self.own_point is not None:
            return len(self.slugs)
        return self.slugs.index(self.at) if self.at in self.slugs else 0

    def words(self, moved: Moved | None = None) -> str:
        """What is moved, in words."""
        oils = self.desk.case.sheet.oils
        return "; ".join(words_of(self.desk.sliders, moved or self.moved, oils, self.family))

    def asked(
        self,
        *,
        family: Family | None = None,
        at: str | None = None,
        moved: Moved | None = None,
        held: Moved | None = None,
        keeps: bool = True,
    ) -> dict[str, str]:
        """What an address says that asks the same but for what is given; `keeps` a first what-if."""
        read = family or self.family
        held = held or (self.held_moved if keeps else None)
        point = {"at": self.at if at is None else at}
        if point["at"] == CHOSEN and self.own_point is not None:
            point |= point_texts(self.own_point, read)
        found = point | self._texts(MOVED, self.moved if moved is None else moved, read)
        if held is not None:
            found |= self._texts(HELD, held, read)
            found |= {"against": AGAINST_NOTHING} if held.is_nothing else {}
        return {name: each for name, each in found.items() if each}

    def address(self, rest: str = "", *, anchor: str = "", **otherwise: object) -> str:
        """Where the same is asked, but for what is given."""
        family = otherwise.get("family") or self.family
        asked = self.asked(**otherwise)  # type: ignore[arg-type]  # passed on as they are
        return oil_address(self.code, family, rest, asked, anchor=anchor)  # type: ignore[arg-type]

    def _texts(self, prefix: str, moved: Moved, family: Family) -> dict[str, str]:
        found = texts_of(self.desk.sliders, moved, family)
        return {f"{prefix}{name}": each for name, each in found.items()}

    def _moved(self, texts: Mapping[str, str]) -> Moved:
        return moved_from(self.desk.sliders, texts, self.desk.case.sheet.oils, self.family)


NOTHING_MOVED: Final = Moved({}, "", {})


def point_texts(point: OilPoint, family: Family) -> dict[str, str]:
    """Speed and temperature of a point as they are typed."""
    warm = in_unit(point.oil_temperature, shop_unit("temperature", family), "temperature")
    speed = in_unit(point.angular_speed, "rpm", "angular_speed")
    return {"speed": f"{speed:.0f}", "temperature": f"{warm:.0f}"}


def _beginning(query: QueryParams, prefix: str) -> Iterator[tuple[str, str]]:
    for name, value in query.items():
        if name.startswith(prefix) and value.strip():
            yield name.removeprefix(prefix), value.strip()


def _slugs(titles: Iterable[str]) -> Iterator[str]:
    seen: dict[str, int] = {}
    for title in titles:
        slug = re.sub(r"[^a-z0-9]+", "-", title.lower()).strip("-") or "point"
        seen[slug] = seen.get(slug, 0) + 1
        yield slug if seen[slug] == 1 else f"{slug}-{seen[slug]}"
