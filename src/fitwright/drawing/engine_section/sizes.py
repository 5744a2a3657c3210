"""Sizes of an engine as its sheet states them, and usual proportions for those that it does not."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from fitwright.model.amount import Written
from fitwright.model.sheet import Sheet

MM = 1e3

_BY_ID = {
    "bore": r"cylinder\.\d+\.bore",
    "stroke": r"crank\.stroke",
    "rod_length": r"rod\.\d+\.length",
    "compression_height": r"piston\.\d+\.compression_height",
    "main_journal": r"main\.\d+\.journal",
    "rod_journal": r"rod\.\d+\.pin|pin\.\d+\.journal",
    "piston_pin": r"piston_pin\.\d+\.diameter",
    "deck_height": r"(block|deck)(\.\w+)?\.(deck_)?height",
    "pocket": r"pump\.pocket_diameter|pump\.outer_rotor(\.|_)diameter",
}
"""Which dimension of a sheet states a size, where its layout does not."""

WORDS = {
    "bore": "bore",
    "stroke": "stroke",
    "rod_length": "rod length",
    "compression_height": "pin to crown",
    "main_journal": "main journals",
    "rod_journal": "crankpins",
    "piston_pin": "piston pins",
    "deck_height": "deck height",
}
"""The sizes that a note names, in words."""

_SLIP = 4.0
"""A stated size further than this factor from what is usual would spoil the picture of all others."""


@dataclass(slots=True)
class Sizes:
    """Sizes [mm]; `stated` keeps each as the sheet writes it, `odd` names those not drawn as stated."""

    bore: float = 0.0
    stroke: float = 0.0
    rod_length: float = 0.0
    compression_height: float = 0.0
    main_journal: float = 0.0
    rod_journal: float = 0.0
    piston_pin: float = 0.0
    deck_height: float = 0.0
    pocket: float = 0.0
    stated: dict[str, Written] = field(default_factory=dict)
    odd: list[str] = field(default_factory=list)

    def notes(self) -> tuple[str, ...]:
        """What is to scale, and what is not because nobody states it."""
        to_scale = [words for name, words in WORDS.items() if name in self.stated]
        missing = [words for name, words in WORDS.items() if name not in self.stated and name not in self.odd]
        found = [f"To scale: {_listed(to_scale)}. All else in usual proportions."] if to_scale else []
        if missing:
            found.append(f"Not to scale in {_listed(missing)}: not stated, drawn in usual proportions.")
        if self.odd:
            words = _listed([WORDS[name] for name in self.odd])
            found.append(f"Not to scale in {words}: stated too far from the other sizes to be drawn.")
        return tuple(found)


def sizes_of(sheet: Sheet) -> Sizes:
    """The sizes of an engine, stated or in proportion to those that are."""
    found = Sizes()
    for name in _BY_ID:
        written = _stated(sheet, name)
        if written is not None and written.si > 0.0:
            found.stated[name] = written
    _fill(found)
    return found


def _fill(sizes: Sizes) -> None:
    """Bore and stroke first, for all others are judged and guessed by them."""
    bore, stroke = sizes.stated.get("bore"), sizes.stated.get("stroke")
    sizes.bore = bore.si * MM if bore else (stroke.si * MM if stroke else 80.0)
    _take(sizes, "stroke", sizes.bore)
    _take(sizes, "rod_length", 1.75 * sizes.stroke)
    _take(sizes, "compression_height", 0.4 * sizes.bore)
    _take(sizes, "main_journal", 0.65 * sizes.bore)
    _take(sizes, "rod_journal", 0.55 * sizes.bore)
    _take(sizes, "piston_pin", 0.26 * sizes.bore)
    _take(sizes, "pocket", 1.25 * sizes.main_journal)
    above = sizes.stroke / 2 + sizes.rod_length + sizes.compression_height
    _take(sizes, "deck_height", above + 0.004 * sizes.bore, 1.15)


def _take(sizes: Sizes, name: str, usual: float, slip: float = _SLIP) -> None:
    written = sizes.stated.get(name)
    size = written.si * MM if written is not None else usual
    if not usual / slip <= size <= usual * slip:
        sizes.stated.pop(name, None)
        if name in WORDS:
            sizes.odd.append(name)
        size = usual
    setattr(sizes, name, size)


def _stated(sheet: Sheet, name: str) -> Written | None:
    layout = sheet.engine.layout
    if name in {"bore", "stroke", "rod_length", "compression_height"}:
        written: Written | None = getattr(layout, name)
        if written is not None:
            return written
    pattern = re.compile(_BY_ID[name])
    return next(
        (
            dimension.nominal
            for dimension in sheet.dimensions.values()
            if dimension.nominal is not None and pattern.fullmatch(dimension.id)
        ),
        None,
    )


def _listed(words: list[str]) -> str:
    return " and ".join([", ".join(words[:-1]), words[-1]] if len(words) > 1 else words)
