"""The limit scale of a fit: its limits as brackets, what its readings prove as a bar, hot below it."""

from __future__ import annotations

from fitwright.assess.results import BoundVerdict, FitVerdict, HotState
from fitwright.drawing.figures import Reader
from fitwright.drawing.limit_picture import Bracket, LimitPicture
from fitwright.model.limit import SourceKind
from fitwright.units.rounding import in_unit


def limit_scale(found: FitVerdict, reader: Reader, *, hot: HotState | None = None) -> str:
    """The limit scale of one fit as SVG, everything in the reader's unit."""
    unit, dimension = reader.unit(found), reader.dimension(found)

    def at(value: float | None) -> float | None:
        return None if value is None else float(in_unit(value, unit, dimension))

    def ends(interval: tuple[float | None, float | None]) -> tuple[float | None, float | None]:
        return at(interval[0]), at(interval[1])

    brackets = tuple(
        Bracket(each.side, float(in_unit(each.limit, unit, dimension)), _is_thumb(each))
        for each in _shown(found.bounds)
        if each.temperature_case is None
    )
    picture = LimitPicture(
        brackets,
        ends(found.interval),
        at(found.value),
        found.verdict,
        None if hot is None else ends(hot.interval),
    )
    return picture.svg(_label(found, reader))


def _label(found: FitVerdict, reader: Reader) -> str:
    """The drawing in words."""
    words = [found.name, found.words, reader.value(found)]
    limits = reader.limits(found)
    return ", ".join(word for word in (*words, f"limits {limits}" if limits else "") if word)


def _is_thumb(bound: BoundVerdict) -> bool:
    return bound.source_kind == SourceKind.RULE_OF_THUMB


def _shown(bounds: tuple[BoundVerdict, ...]) -> list[BoundVerdict]:
    """The governing bounds; where none governs, those that are stated."""
    governing = [bound for bound in bounds if bound.governs and bound.source_kind != "computed"]
    return governing or list(bounds)
