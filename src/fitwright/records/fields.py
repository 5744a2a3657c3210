"""What single fields of a body may hold: codes, amounts, uncertainties, words.

What is stored is never changed, so that a number with which nothing can be computed, or a code that
looks like another one, must be refused before it is stored. All numbers are SI.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Annotated, Final

from pydantic import AfterValidator, Field

LARGEST: Final = 1e12
"""No amount is larger; its powers can still be computed with."""
SMALLEST: Final = 1e-20
"""No uncertainty is smaller unless it is zero: one can be divided by it."""
MOST_DECIMALS: Final = 120
"""More than the longest text of an amount has."""
LONGEST_CODE: Final = 80
LONGEST_WORDS: Final = 4000
"""A note to a reading can stand in one cell of a table."""

_HIDDEN: Final = re.compile(
    "[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069\ufeff\ufffe\uffff]"
)
"""Control characters, those that turn the direction of writing round, and those that are none."""
_NO_ADDRESS: Final = re.compile(r"[/\\?#%]|^\.+$")


def hidden_in(text: str) -> str | None:
    r"""The first character that a reader cannot see but a page or a terminal obeys, as `U+202E`.

    >>> hidden_in("two\nlines"), hidden_in("55.0\u202e5")
    (None, 'U+202E')
    """
    found = _HIDDEN.search(text)
    return None if found is None else f"U+{ord(found[0]):04X}"


def _plain_code(text: str) -> str:
    """Two codes that look alike must be alike: no invisible characters, no spaces around."""
    if not text.isprintable() or text != text.strip():
        message = "a code has visible characters only, and no space before or behind it"
        raise ValueError(message)
    return text


def _plain_build_code(text: str) -> str:
    """The code of a build is a part of the address of its page."""
    found = _NO_ADDRESS.search(text)
    if found is not None:
        message = f"the code of a build cannot be or hold {found[0]!r}"
        raise ValueError(message)
    return text


def _plain_blade(text: str) -> str:
    """Blades are named `set:marking`, stacks joined by `+`."""
    if "+" in text or ":" in text:
        message = "a blade set or marking cannot hold '+' or ':'"
        raise ValueError(message)
    return text


def _divisible(number: float) -> float:
    if 0.0 < number < SMALLEST:
        message = f"it is zero or at least {SMALLEST:g}"
        raise ValueError(message)
    return number


def require_different(names: Sequence[str]) -> None:
    """Refuse names of blades of which one comes twice: which is meant could not be told.

    Raises
    ------
    ValueError
        With the first that does.
    """
    twice = next((name for name in names if names.count(name) > 1), None)
    if twice is not None:
        message = f"there is only one blade {twice}"
        raise ValueError(message)


def require_one(**fields: object) -> None:
    """Refuse anything but exactly one of some fields.

    Raises
    ------
    ValueError
        If none of them is filled in, or more than one.
    """
    if sum(value is not None for value in fields.values()) != 1:
        *others, last = fields
        message = f"exactly one of {', '.join(others)} and {last} is given"
        raise ValueError(message)


def require_above_zero(**amounts: float | None) -> None:
    """Refuse amounts that are there and not above zero: their logarithm is computed with.

    Raises
    ------
    ValueError
        With the first that is not.
    """
    wrong = next((name for name, each in amounts.items() if each is not None and each <= 0.0), None)
    if wrong is not None:
        message = f"{wrong} is above zero"
        raise ValueError(message)


def _plain_grade(text: str) -> str:
    """SAE grades have one way of being written here, so that equal ones are equal."""
    if re.fullmatch(r"\d{1,2}W|(\d{1,2}W-)?\d{1,2}", text) is None:
        message = "a grade is written 10W-40, 30 or 10W"
        raise ValueError(message)
    return text


def _different(names: tuple[str, ...]) -> tuple[str, ...]:
    require_different(names)
    return names


def require_setting(name: str, value: str) -> None:
    """Refuse a value that a shop setting of this name cannot have.

    Raises
    ------
    ValueError
        With what it can be.
    """
    if name == "units" and value not in ("mm", "inch"):
        message = "units are mm or inch"
        raise ValueError(message)
    if name.startswith("decision rule") and not _is_probability_of_proof(value):
        message = "a decision rule is a probability above 0.5 and below 1"
        raise ValueError(message)


def _is_probability_of_proof(text: str) -> bool:
    return re.fullmatch(r"0?\.\d{1,15}", text) is not None and 0.5 < float(text) < 1.0


Code = Annotated[str, Field(min_length=1, max_length=LONGEST_CODE), AfterValidator(_plain_code)]
BuildCode = Annotated[Code, AfterValidator(_plain_build_code)]
BladeCode = Annotated[Code, AfterValidator(_plain_blade)]
Blades = Annotated[tuple[str, ...], Field(min_length=1), AfterValidator(_different)]

Grade = Annotated[str, AfterValidator(_plain_grade)]
Words = Annotated[str, Field(max_length=LONGEST_WORDS)]

Amount = Annotated[float, Field(ge=-LARGEST, le=LARGEST)]
Size = Annotated[float, Field(ge=0.0, le=LARGEST)]
Thickness = Annotated[float, Field(gt=0.0, le=1.0)]
Resolution = Annotated[float, Field(ge=1e-12, le=LARGEST)]
Uncertainty = Annotated[float, Field(ge=0.0, le=LARGEST), AfterValidator(_divisible)]
DegreesOfFreedom = Annotated[float, Field(ge=1.0)]
Temperature = Annotated[float, Field(gt=0.0, le=5000.0)]
Expansion = Annotated[float, Field(ge=0.0, le=1e-3)]
Decimals = Annotated[int, Field(ge=0, le=MOST_DECIMALS)]
