"""Slips that only a run of readings shows: all alike, one place off, or two places swapped.

All numbers are SI floats. As in `slips`, nothing is changed here: a question names the move, and a
person answers.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations, pairwise
from typing import Final, Literal

from fitwright.model.slips import Question

LEAST_ALIKE: Final = 5
LEAST_MOVED: Final = 3
UNNATURAL: Final = 0.01
"""Readings are called unnaturally alike where chance gives that less often than this."""
TIMES_BETTER: Final = 10.0
FAR_OFF: Final = 9.0
"""A run is moved only if as it stands it departs by three standard deviations (squared) on average."""


@dataclass(frozen=True, slots=True)
class Move:
    """Readings at places `first` to `last` (from 0) go one place on or back, or the two swap."""

    kind: Literal["on", "back", "swap"]
    first: int
    last: int

    def target(self, place: int) -> int:
        """Where the reading of a place goes; places outside the move stay."""
        if not self.first <= place <= self.last:
            return place
        if self.kind == "swap":
            return {self.first: self.last, self.last: self.first}.get(place, place)
        return place + (1 if self.kind == "on" else -1)


@dataclass(frozen=True, slots=True)
class MoveQuestion:
    """Whether readings belong one place further on or back, or in each other's place."""

    key: str
    text: str
    move: Move


def alike_question(
    readings: Sequence[float], *, division: float, standard_deviation: float | None = None
) -> Question | None:
    """Ask whether a run of readings that are equal to the last digit was taken one by one.

    Parameters
    ----------
    readings : sequence of float [SI]
        Readings at different places, in the order taken; the end of the run is looked at.
    division : float [SI]
        One step of the last digit.
    standard_deviation : float [SI], optional
        How much such readings usually differ. A gauge whose division swallows that gives equal
        readings by nature; then nothing is asked.

    Returns
    -------
    Question or None
        None where fewer than five are alike, or where chance explains it.
    """
    alike = _alike_at_end(readings)
    if alike < LEAST_ALIKE:
        return None
    if standard_deviation and _chance_alike(alike, division, standard_deviation) >= UNNATURAL:
        return None
    text = f"The last {alike} readings are the same to the last digit. Was each of them taken by itself?"
    return Question(f"alike:{alike}:{readings[-1]:.9g}", text)


def moved_question(
    readings: Sequence[float | None],
    expected: Sequence[float | None],
    *,
    standard_deviation: float,
    places: Sequence[str] | None = None,
) -> MoveQuestion | None:
    """Ask whether readings are off by one place, or whether two places are swapped.

    Parameters
    ----------
    readings : sequence of float [SI] or None, shape (n)
        The reading of each place in measuring order; None where there is none yet.
    expected : sequence of float [SI] or None, shape (n)
        What each place should read (earlier readings, the other route, nominals that differ).
    standard_deviation : float [SI]
        How far a reading usually is from what is expected.
    places : sequence of str, optional
        Names of the places for the question; without them, they are counted from 1.

    Returns
    -------
    MoveQuestion or None
        The move that explains the readings best, if it explains them at least ten times better.

    Raises
    ------
    ValueError
        If the sequences differ in length or the standard deviation is not positive.
    """
    if len(readings) != len(expected):
        raise ValueError(f"{len(readings)} readings for {len(expected)} places")
    if not standard_deviation > 0:
        raise ValueError("the standard deviation of the readings must be above zero")
    names = places or [str(number) for number in range(1, len(readings) + 1)]
    explained = [
        (gain, move)
        for move in _moves(readings)
        if (gain := _gain(move, readings, expected, standard_deviation)) is not None
    ]
    if not explained:
        return None
    _, move = max(explained, key=lambda pair: pair[0])
    key = f"move:{move.kind}:{move.first}-{move.last}:{readings[move.first]:.9g}"
    return MoveQuestion(key, _move_text(move, names), move)


def _alike_at_end(readings: Sequence[float]) -> int:
    alike = min(len(readings), 1)
    for later, earlier in pairwise(reversed(readings)):
        if later != earlier:
            break
        alike += 1
    return alike


def _chance_alike(count: int, division: float, standard_deviation: float) -> float:
    """Chance that so many readings fall on one mark, for a mean in the middle of it (the largest)."""
    on_one_mark = math.erf(division / (2 * math.sqrt(2) * standard_deviation))
    return on_one_mark ** (count - 1)


def _moves(readings: Sequence[float | None]) -> Iterator[Move]:
    """Moves that are possible: a tail goes on into an empty place or back by one, or two swap."""
    taken = [place for place, reading in enumerate(readings) if reading is not None]
    if not taken:
        return
    last = taken[-1]
    for first in taken:
        if all(place in taken for place in range(first, last + 1)):
            if last + 1 < len(readings):
                yield Move("on", first, last)
            if first > 0:
                yield Move("back", first, last)
    for first, second in combinations(taken, 2):
        yield Move("swap", first, second)


def _gain(
    move: Move,
    readings: Sequence[float | None],
    expected: Sequence[float | None],
    standard_deviation: float,
) -> float | None:
    """By how much the sum of squared departures falls, or None where the move explains too little."""
    places = (move.first, move.last) if move.kind == "swap" else tuple(range(move.first, move.last + 1))
    if move.kind != "swap" and len(places) < LEAST_MOVED:
        return None
    stay = _mean_square(readings, expected, [(place, place) for place in places], standard_deviation)
    go = _mean_square(
        readings, expected, [(place, move.target(place)) for place in places], standard_deviation
    )
    if stay is None or go is None:
        return None
    if stay < FAR_OFF or go > FAR_OFF / 2 or stay < TIMES_BETTER * max(go, 1.0):
        return None
    return (stay - go) * len(places)


def _mean_square(
    readings: Sequence[float | None],
    expected: Sequence[float | None],
    pairs: Sequence[tuple[int, int]],
    standard_deviation: float,
) -> float | None:
    total = 0.0
    for source, target in pairs:
        reading, wanted = readings[source], expected[target]
        if reading is None or wanted is None:
            return None
        total += ((reading - wanted) / standard_deviation) ** 2
    return total / len(pairs)


def _move_text(move: Move, names: Sequence[str]) -> str:
    first, last = names[move.first], names[move.last]
    if move.kind == "swap":
        return f"The readings at {first} and {last} look swapped. Swap them?"
    where = "on" if move.kind == "on" else "back"
    return f"The readings from {first} to {last} look one place off. Move them one place {where}?"
