"""What a quick sum declares, and what it answers.

A declaration is all that the command line and the pages need: they find the inputs, their units and
the names of the results in it, and never know one sum from another.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import TypeAlias

from fitwright.sums.forms import Given, Group, Input
from fitwright.units import DIMENSIONS

Plain: TypeAlias = "float | int | str | bool | None"
Value: TypeAlias = "Plain | tuple[Plain, ...]"
Row: TypeAlias = "Mapping[str, Value]"
Computed: TypeAlias = "Value | Figure | tuple[Row, ...]"


@dataclass(frozen=True, slots=True)
class Output:
    """One named result: its dimension (None for words), or the columns of each of its rows.

    What `leads` is what one asks the sum for; a page shows it first and large.
    """

    key: str
    text: str
    dimension: str | None = None
    columns: tuple[Output, ...] = ()
    leads: bool = False

    @property
    def is_interval(self) -> bool:
        """Whether its two numbers are the ends of an interval."""
        return self.key.endswith("interval")

    @property
    def unit(self) -> str | None:
        """The SI unit of the result; None for words."""
        return None if self.dimension is None else DIMENSIONS[self.dimension].si_unit


@dataclass(frozen=True, slots=True)
class Figure:
    """One result: a number in SI (or words, or several of either, or rows of further figures).

    `unit` is the SI unit, None for words; `convert` alone answers in the unit that was asked for.
    """

    value: Value | tuple[Mapping[str, Figure], ...]
    unit: str | None = None
    dimension: str | None = None


@dataclass(frozen=True, slots=True)
class PutIn:
    """One number of a step [SI], its dimension (None for words), and where it came from."""

    name: str
    value: Value
    dimension: str | None = None
    origin: str = ""


@dataclass(frozen=True, slots=True)
class Step:
    """One step of a working: the formula, the numbers put in, what comes out, its source."""

    title: str
    formula: str
    put_in: tuple[PutIn, ...]
    result: PutIn | None = None
    source: str = ""


@dataclass(frozen=True, slots=True)
class Found:
    """What a sum computed: values in SI by the names of its outputs, the working, cautions."""

    values: Mapping[str, Computed]
    working: tuple[Step, ...]
    cautions: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class SumResult:
    """The answer of a sum: figures by name (None where one does not exist), working, cautions."""

    name: str
    results: Mapping[str, Figure | None]
    working: tuple[Step, ...]
    cautions: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Sum:
    """One quick sum.

    `text` says what it computes, `source` the key in docs/sources.toml of its method, `cautions` what can
    hurt somebody who acts on it, `example` inputs that run, `words` what else one may look for it by.
    """

    name: str
    title: str
    text: str
    inputs: tuple[Input, ...]
    outputs: tuple[Output, ...]
    compute: Callable[[Given], Found]
    source: str
    example: Mapping[str, object]
    cautions: tuple[str, ...] = field(default=())
    words: tuple[str, ...] = ()

    def read(self, inputs: object) -> Given:
        """The inputs, read by this declaration."""
        return Group(self.inputs).read(inputs, "")
