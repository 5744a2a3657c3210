"""What changed since it was read: size by size, with the way to measure it or to use it again."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from fitwright.assess.assessment import Assessor
from fitwright.assess.changed import ChangedSince, changed_since
from fitwright.assess.results import State
from fitwright.units.families import Family
from fitwright.web.addresses import fit_address, measure_address, parts_address
from fitwright.web.entering.effects import verdict_words


@dataclass(frozen=True, slots=True)
class RestingFit:
    """A fit that rests on a size, with what is said of it now."""

    name: str
    words: str
    address: str


@dataclass(frozen=True, slots=True)
class ChangedLine:
    """A size whose readings no longer speak: where, why, what rests on it, what can be done."""

    title: str
    places: str
    why: str
    fits: tuple[RestingFit, ...]
    measure: str
    again: str


def changed_lines(assessor: Assessor, code: str, family: Family) -> tuple[ChangedLine, ...]:
    """Every such size, in the order of the sheet."""
    return tuple(_line(assessor, code, family, each) for each in changed_since(assessor.judge))


def _line(assessor: Assessor, code: str, family: Family, each: ChangedSince) -> ChangedLine:
    dimension = each.dimension
    again = parts_address(code, family, do="choose", dimension=dimension.id)
    return ChangedLine(
        title=dimension.title,
        places=_places(each),
        why="; ".join(each.why),
        fits=tuple(_fits(assessor, code, family, each)),
        measure=measure_address(
            code, family, station=dimension.station, dimension=dimension.id, place=each.places[0]
        )
        if dimension.station is not None
        else "",
        again=again if each.by_choice else "",
    )


def _places(each: ChangedSince) -> str:
    if each.places == ("whole",):
        return ""
    if len(each.places) <= 3:
        return f"at {', '.join(place.replace('/', ' ') for place in each.places)}"
    return f"at {len(each.places)} places"


def _fits(assessor: Assessor, code: str, family: Family, each: ChangedSince) -> Iterator[RestingFit]:
    for name in each.subjects:
        found = assessor.verdict(name)
        yield RestingFit(found.name, verdict_words(found), fit_address(code, name, State.CURRENT, family))
