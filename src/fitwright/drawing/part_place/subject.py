"""What the sheet says of a dimension that decides its picture: words, sense, gauges, kinds of fit."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

from fitwright.model.dimension import Dimension, Sense
from fitwright.model.fit import FitKind
from fitwright.model.sheet import Sheet

INSIDE_GAUGES = frozenset(
    {"bore gauge", "inside micrometer", "three-point inside micrometer", "telescopic gauge", "plug gauge"}
)
"""Gauges that go into what they measure."""

INSIDE_WORDS = frozenset(
    {"bore", "hole", "bush", "counterbore", "eye", "housing", "pocket", "slot", "inside"}
)
"""Words of a size that is taken inside."""

_WORD = re.compile(r"[a-z]+")


@dataclass(frozen=True, slots=True)
class Subject:
    """A dimension with the words of its title, feature and part, and the fits read directly as it."""

    dimension: Dimension
    words: frozenset[str]
    part_words: frozenset[str]
    kinds: frozenset[FitKind]

    @property
    def sense(self) -> Sense:
        """Radial, diametral, axial, ..."""
        return self.dimension.sense

    @property
    def inside(self) -> bool:
        """Whether the size is taken inside of something, by its gauge or else by its words."""
        gauges = self.dimension.instruments
        if gauges:
            return not INSIDE_GAUGES.isdisjoint(gauges)
        return not INSIDE_WORDS.isdisjoint(self.words)

    def says(self, *words: str) -> bool:
        """Whether the title, the feature or the part says any of these words."""
        return not self.words.isdisjoint(words) or not self.part_words.isdisjoint(words)

    def uses(self, *gauges: str) -> bool:
        """Whether any of these gauges takes the dimension."""
        return not set(self.dimension.instruments).isdisjoint(gauges)


def subject_of(sheet: Sheet, dimension: Dimension) -> Subject:
    """What decides the picture of a dimension."""
    names = (dimension.part,) if dimension.part is not None else dimension.through
    parts = [sheet.parts[name] for name in names if name in sheet.parts]
    return Subject(
        dimension,
        _words(dimension.title, dimension.feature, dimension.id),
        _words(*(text for part in parts for text in (part.id, part.title))),
        frozenset(_direct_kinds(sheet, dimension.id)),
    )


def _direct_kinds(sheet: Sheet, dimension: str) -> Iterable[FitKind]:
    for fit in sheet.fits.values():
        for route in fit.routes:
            if len(route.chain) == 1 and route.chain[0].dimension == dimension:
                yield fit.kind


def _words(*texts: str) -> frozenset[str]:
    """The words of some texts in lower case, plurals as singulars."""
    found = _WORD.findall(" ".join(texts).lower())
    return frozenset(word[:-1] if word.endswith("s") and not word.endswith("ss") else word for word in found)
