"""The slip guard: questions about values that look mistyped, asked once, never answered here.

A question holds a value back until a person confirms it or takes one of the guesses; nothing is
ever changed silently. All numbers are SI floats; how an amount reads in the unit of whoever typed
it comes from outside (`Wording`), so that this module knows no other unit.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final, Protocol

from fitwright.model.slip_table import ANY_SLIPS, CLOSE_SLIPS, ICE_POINT, SLIPS

NOMINAL_SHARE: Final = 0.02
"""A size is expected within two per cent of its nominal."""
TEMPERATURE_MARGIN: Final = 20.0
"""A temperature is expected within so many kelvin of its nominal."""
MOST_GUESSES: Final = 3
FAR: Final = "far"
"""Begins the key of a question about a value that no slip explains."""


class Wording(Protocol):
    """How amounts read for whoever typed the value."""

    @property
    def typed(self) -> str:
        """The value as typed, with its unit: `0.0022 thou`."""
        ...

    @property
    def elsewhere(self) -> str:
        """The same value in another unit, to show what it would be: `0.056 µm`."""
        ...

    def same_digits(self, value: float) -> str | None:
        """A guess [SI] written with the digits typed, in another unit or with the point elsewhere."""
        ...

    def in_full(self, value: float) -> str:
        """Any guess [SI] in the unit of the one typed, with the digits it needs: `0.056 mm`."""
        ...

    def about(self, value: float) -> str:
        """Any value [SI] in the unit of the one typed, shortened: `0.9 thou`."""
        ...


@dataclass(frozen=True, slots=True)
class Window:
    """Where a value is expected [SI]; it may be open on a side (infinite)."""

    low: float
    high: float

    def holds(self, value: float) -> bool:
        """Whether a value is inside, bounds included."""
        return self.low <= value <= self.high


@dataclass(frozen=True, slots=True)
class Guess:
    """A value that may have been meant, as it would have been typed, and its value [SI].

    Who takes the guess has typed its label: that text is then read and kept like any other.
    """

    label: str
    value: float


@dataclass(frozen=True, slots=True)
class Question:
    """Something to ask before a value is taken.

    `key` stays the same for the same value and doubt, so that the answer can be kept with it;
    it says nothing about the place, which the caller adds.
    """

    key: str
    text: str
    guesses: tuple[Guess, ...] = ()


def plausible_window(
    *,
    lower: float | None = None,
    upper: float | None = None,
    nominal: float | None = None,
    dimension: str = "length",
) -> Window | None:
    """Where a value is expected, from its limits or its nominal.

    Parameters
    ----------
    lower, upper : float [SI], optional
        The limits.
    nominal : float [SI], optional
        The nominal or wanted size.
    dimension : str
        Its dimension; a temperature is taken in degrees Celsius.

    Returns
    -------
    Window or None
        None where nothing is known.

    Notes
    -----
    From half the lower to twice the upper limit (a negative lower limit doubles, a negative upper
    one halves: always away from the limits). With an upper limit only from zero; with a lower limit
    only up to ten times it. Limits that all lie within 2 % of the nominal belong to a size: then
    the window is the nominal plus and minus 2 %, much narrower than half to twice.

    Examples
    --------
    >>> plausible_window(lower=0.00004, upper=0.00008)
    Window(low=2e-05, high=0.00016)
    """
    origin = ICE_POINT if dimension == "temperature" else 0.0
    limits = [limit - origin for limit in (lower, upper) if limit is not None]
    near = None
    if nominal is not None and nominal != origin:
        size = nominal - origin
        margin = TEMPERATURE_MARGIN if origin else NOMINAL_SHARE * abs(size)
        near = Window(size - margin, size + margin)
    if near and all(near.holds(limit) for limit in limits):
        return Window(near.low + origin, near.high + origin)
    if not limits:
        return None
    low = _away_below(lower - origin) if lower is not None else min(0.0, 2 * limits[0])
    high = _away_above(upper - origin) if upper is not None else max(0.0, 10 * limits[0])
    return Window(low + origin, high + origin)


def question_for(
    value: float,
    *,
    wording: Wording,
    dimension: str = "length",
    lower: float | None = None,
    upper: float | None = None,
    nominal: float | None = None,
    window: Window | None = None,
) -> Question | None:
    """What to ask about a value just typed, if anything.

    Parameters
    ----------
    value : float [SI]
        The value typed.
    wording : Wording
        How it reads for whoever typed it.
    dimension : str
        Its dimension.
    lower, upper, nominal : float [SI], optional
        Limits and nominal of what is measured.
    window : Window, optional
        Where it is expected, if the sheet says so itself.

    Returns
    -------
    Question or None
        None where the value is inside the window (widened to hold both limits) and no close slip
        would bring it inside the limits.
    """
    expected = window or plausible_window(lower=lower, upper=upper, nominal=nominal, dimension=dimension)
    if expected:
        expected = _widened(expected, lower, upper)
    close = _close_question(value, wording, dimension, lower, upper)
    if expected is None or expected.holds(value):
        return close
    guesses = _guesses(value, expected, wording, dimension, (lower, upper, nominal))
    if guesses:
        labels = " or ".join(guess.label for guess in guesses)
        same = wording.elsewhere == wording.typed
        said = "is far from what is expected" if same else f"would be {wording.elsewhere}"
        text = f"{wording.typed} {said}; did you mean {labels}?"
        return Question(_key("slip", value), text, guesses)
    return close or Question(_key(FAR, value), _far_text(wording, expected))


def zero_question(zero: float, *, limit: float, wording: Wording) -> Question | None:
    """Ask for the sign of a gauge's zero that lies beyond the gauge's own limit.

    Parameters
    ----------
    zero : float [SI]
        What the gauge shows where it should show nothing.
    limit : float [SI]
        How far off the gauge's zero may be.
    wording : Wording
        How the zero reads.

    Returns
    -------
    Question or None
        None within the limit.
    """
    if abs(zero) <= limit:
        return None
    below, above = wording.in_full(-abs(zero)), wording.in_full(abs(zero))
    text = (
        f"A zero of {wording.typed} is more than this gauge should show ({wording.about(limit)}). "
        f"Does it rest below zero ({below}: it reads too little) or above ({above}: too much)?"
    )
    return Question(_key("zero", zero), text, (Guess(below, -abs(zero)), Guess(above, abs(zero))))


def range_question(
    value: float, *, low: float | None, high: float | None, wording: Wording
) -> Question | None:
    """Ask about a value that the gauge named cannot show [SI]."""
    if _inside(value, low, high):
        return None
    ends = [f"{word} {wording.about(end)}" for word, end in (("from", low), ("to", high)) if end is not None]
    text = f"{wording.typed} is outside this gauge's range ({' '.join(ends)}). Was another gauge used?"
    return Question(_key("range", value), text)


def _key(kind: str, value: float) -> str:
    return f"{kind}:{value:.9g}"


def _far_text(wording: Wording, expected: Window) -> str:
    if math.isinf(expected.low) or math.isinf(expected.high):
        return f"{wording.typed} is far from what is expected. Keep it?"
    span = f"{wording.about(expected.low)} to {wording.about(expected.high)}"
    return f"{wording.typed} is far from what is expected ({span}). Keep it?"


def _inside(value: float, lower: float | None, upper: float | None) -> bool:
    return (lower is None or value >= lower) and (upper is None or value <= upper)


def _widened(window: Window, lower: float | None, upper: float | None) -> Window:
    limits = [limit for limit in (lower, upper) if limit is not None]
    return Window(min([window.low, *limits]), max([window.high, *limits]))


def _away_below(limit: float) -> float:
    return limit / 2 if limit >= 0 else 2 * limit


def _away_above(limit: float) -> float:
    return 2 * limit if limit >= 0 else limit / 2


def _guesses(
    value: float,
    expected: Window,
    wording: Wording,
    dimension: str,
    known: tuple[float | None, float | None, float | None],
) -> tuple[Guess, ...]:
    """Guesses inside the limits, or else all inside the window; the nearest to the middle first."""
    lower, upper, nominal = known
    middle = nominal if nominal is not None else _middle(lower, upper, expected)
    mends = [(slip, slip.mended(value)) for slip in SLIPS.get(dimension, ANY_SLIPS)]
    found = [
        (slip, mended)
        for slip, mended in mends
        if expected.holds(mended) and (not slip.rare or wording.same_digits(mended))
    ]
    # A guess that the digits typed make sense of drives out those that only fit by their size.
    found = [(slip, mended) for slip, mended in found if wording.same_digits(mended)] or found
    good = [mended for slip, mended in found if not slip.rare and _inside(mended, lower, upper)]
    ranked = sorted(
        good or [mended for _, mended in found],
        key=lambda mended: (not _inside(mended, lower, upper), abs(mended - middle)),
    )
    labelled: dict[str, float] = {}
    for mended in ranked:
        labelled.setdefault(_label(wording, mended), mended)
    return tuple(Guess(label, mended) for label, mended in labelled.items())[:MOST_GUESSES]


def _label(wording: Wording, value: float) -> str:
    return wording.same_digits(value) or wording.in_full(value)


def _middle(lower: float | None, upper: float | None, expected: Window) -> float:
    low = lower if lower is not None else expected.low
    high = upper if upper is not None else expected.high
    return (low + high) / 2


def _close_question(
    value: float, wording: Wording, dimension: str, lower: float | None, upper: float | None
) -> Question | None:
    """Ask whether it is radial, in the other torque unit, ...: only where the limits can tell."""
    if lower is None or upper is None or lower <= 0 or _inside(value, lower, upper):
        return None
    for slip, asked in CLOSE_SLIPS.get(dimension, ()):
        narrower = upper / lower < max(slip.factor, 1 / slip.factor)
        mended = slip.mended(value)
        explained = not slip.rare or wording.same_digits(mended)
        if narrower and explained and _inside(mended, lower, upper):
            guess = Guess(_label(wording, mended), mended)
            text = asked.format(typed=wording.typed, label=guess.label)
            return Question(_key(slip.name, value), text, (guess,))
    return None
