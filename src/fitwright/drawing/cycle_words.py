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

CYCLE_HEADINGS: Final = ("thinnest film", "at", "peak film pressure", "peak load", "flow and loss")
"""What stands over the columns of `cycle_row`, behind the bearing's name."""

_PRESSURE: Final = {"mm": ("MPa", 0), "inch": ("psi", 0)}
_FORCE: Final = {"mm": ("kN", 1), "inch": ("lbf", 0)}


@dataclass(frozen=True, slots=True)
class CycleRow:
    """One bearing over the cycle as one reads it."""

    title: str
    film: str
    at: str
    pressure: str
    load: str
    more: str


def cycle_rows(films: CycleFilms, reader: OilReader) -> list[CycleRow]:
    """Each bearing."""
    return [
        CycleRow(
            each.title,
            film_in_words(each, reader),
            place_words(each),
            _measured(each.peak_pressure, _PRESSURE[reader.family]),
            _measured(each.peak_load, _FORCE[reader.family]),
            "; ".join(_more(each, reader)),
        )
        for each in films.bearings
    ]


def film_in_words(film: CycleFilm, reader: OilReader) -> str:
    """The thinnest film, or the word that stands for it: a film that touches has no number."""
    if film.state is FilmState.FILM and film.film_thickness is not None:
        return reader.film(film.film_thickness)
    return f"{film.state.value}: {film.why}" if film.why else film.state.value


def place_words(film: CycleFilm) -> str:
    """Crank angle where the film is thinnest; of a big end also how far past its own firing."""
    if film.film_angle is None:
        return ""
    at = f"{degrees(film.film_angle):.0f}°"
    if film.after_firing is None or film.cylinder is None:
        return at
    return f"{at}, {degrees(film.after_firing):.0f}° after cylinder {film.cylinder} fires"


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


def _more(film: CycleFilm, reader: OilReader) -> Iterator[str]:
    if film.mean_flow is not None:
        yield f"squeezes out {reader.flow(film.mean_flow)}"
    if film.power_loss is not None:
        yield f"loses {film.power_loss:.0f} W"
    if film.starved:
        yield "draws all that its feed passes: its film is thinner than told"
