"""What is said of films over the cycle, in one reader's units, wherever it is read."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import degrees
from typing import Final

from fitwright.assess.oil.results import CycleFilm, CycleFilms, FilmState
from fitwright.drawing.oil_figures import OilReader
from fitwright.units.display import format_value
from fitwright.units.families import Family

CYCLE_HEADINGS: Final = (
    "thinnest film",
    "crank angle",
    "after its firing",
    "film pressure",
    "load",
    "squeezed out",
    "loss",
)
"""What stands over the columns of `cycle_rows`, behind the name; pressure and load at their peak."""

SHORT_OF_OIL: Final = "draws all that its feed passes: its film is thinner than told"

_PRESSURE: Final = {"mm": ("MPa", 0), "inch": ("psi", 0)}
_FORCE: Final = {"mm": ("kN", 1), "inch": ("lbf", 0)}


@dataclass(frozen=True, slots=True)
class CycleRow:
    """One bearing over the cycle as one reads it; `note` is what has to be known of its film."""

    title: str
    note: str
    film: str
    has_film: bool
    figures: tuple[str, ...]


def cycle_rows(films: CycleFilms, reader: OilReader) -> list[CycleRow]:
    """Each bearing."""
    return [
        CycleRow(
            each.title,
            SHORT_OF_OIL if each.starved else "",
            film_in_words(each, reader),
            each.state is FilmState.FILM,
            tuple(_figures(each, reader)),
        )
        for each in films.bearings
    ]


def film_in_words(film: CycleFilm, reader: OilReader) -> str:
    """The thinnest film, or the word that stands for it: a film that touches has no number."""
    if film.state is FilmState.FILM and film.film_thickness is not None:
        return reader.film(film.film_thickness)
    return f"{film.state.value}: {film.why}" if film.why else film.state.value


def _figures(film: CycleFilm, reader: OilReader) -> Iterator[str]:
    """What stands below the headings behind the film; nothing where there is no number."""
    for angle in (film.film_angle, film.after_firing):
        yield "" if angle is None else f"{degrees(angle):.0f}°"
    yield _measured(film.peak_pressure, _PRESSURE[reader.family])
    yield _measured(film.peak_load, _FORCE[reader.family])
    yield "" if film.mean_flow is None else reader.flow(film.mean_flow)
    yield "" if film.power_loss is None else f"{film.power_loss:.0f} W"


def gas_words(films: CycleFilms, family: Family) -> str:
    """The stated gas pressure behind the loads; empty where they come from a file."""
    if films.peak_gas_pressure is None:
        return ""
    unit, decimals = ("bar", 0) if family == "mm" else ("psi", 0)
    peak = format_value(films.peak_gas_pressure, unit, decimals, dimension="pressure")
    return f"Peak gas pressure {peak} absolute, as the sheet states it for this speed."


def thinnest_words(films: CycleFilms, group: str, reader: OilReader) -> str:
    """The thinnest film of a group at a point, and whose it is; a touching one comes first."""
    mine = [each for each in films.bearings if each.group == group]
    if not mine:
        return ""
    least = min(mine, key=_least_first)
    return f"{film_in_words(least, reader)} ({least.title})"


def groups_of(all_films: Sequence[CycleFilms]) -> list[str]:
    """Groups of bearings, in their order."""
    return list(dict.fromkeys(each.group for films in all_films for each in films.bearings))


def _least_first(film: CycleFilm) -> tuple[int, float]:
    order = {FilmState.TOUCHING: 0, FilmState.NOT_CONVERGED: 1}
    return order.get(film.state, 2), film.film_thickness or 0.0


def _measured(value: float | None, unit: tuple[str, int]) -> str:
    return "" if value is None else format_value(value, *unit)
