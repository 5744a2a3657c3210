"""The limit scale of a fit: its limits as brackets, what its readings prove as a bar, hot below it."""

from __future__ import annotations

from dataclasses import replace

from fitwright.assess.results import BoundVerdict, FitVerdict, HotState
from fitwright.drawing.figures import Reader
from fitwright.drawing.limit_picture import Bar, Bracket, Ends, LimitPicture
from fitwright.model.limit import SourceKind
from fitwright.units.rounding import in_unit


def limit_scale(
    found: FitVerdict, reader: Reader, *, hot: HotState | None = None, label: str | None = None
) -> str:
    """The limit scale of one fit as SVG, everything in the reader's unit; `label` is the drawing in words."""
    picture = _picture(found, reader)
    if hot is not None:
        picture = replace(picture, hot=_ends(found, reader, hot.interval))
    return picture.svg(label or _label(found, reader))


def two_states(before: FitVerdict, now: FitVerdict, reader: Reader, *, label: str | None = None) -> str:
    """One fit in both states on one scale: as received above the brackets, current between them."""
    value = None if before.value is None else _at(now, reader, before.value)
    bar = Bar(_ends(now, reader, before.interval), value, before.verdict)
    label = label or f"{_label(now, reader)}; as received {before.words} {reader.value(before)}".rstrip()
    return replace(_picture(now, reader), before=bar).svg(label)


def _picture(found: FitVerdict, reader: Reader) -> LimitPicture:
    brackets = tuple(
        Bracket(each.side, _at(found, reader, each.limit), _is_thumb(each))
        for each in _shown(found.bounds)
        if each.temperature_case is None
    )
    value = None if found.value is None else _at(found, reader, found.value)
    return LimitPicture(brackets, _ends(found, reader, found.interval), value, found.verdict)


def _at(found: FitVerdict, reader: Reader, value: float) -> float:
    """A value of a fit in the unit in which it is read."""
    return float(in_unit(value, reader.unit(found), reader.dimension(found)))


def _ends(found: FitVerdict, reader: Reader, interval: Ends) -> Ends:
    low, high = interval
    return (
        None if low is None else _at(found, reader, low),
        None if high is None else _at(found, reader, high),
    )


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
