"""What an input looks like: how it is read, and how it is described to another program.

A value is a number in SI or a text with its unit. Whatever is wrong is said of its place, in words:
`thickness of item 2 of answers`.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any, Final, Protocol

from fitwright.sums.errors import InputError, InputsError, MissingInputError, nearest
from fitwright.sums.raw import Repeated, finite, items_in, kind_of, plain
from fitwright.units import (
    DIMENSIONS,
    QuantityError,
    approximately,
    definition_of,
    parse_quantity,
    shop_unit,
)
from fitwright.units.families import Family

LARGEST: Final = 1e15
"""Beyond this, and below its reciprocal, no bench has an amount, and powers of it would overflow."""


class Form(Protocol):
    """How one input is read."""

    def read(self, raw: object, place: str) -> object:
        """The value behind what was given.

        Raises
        ------
        InputError, InputsError
            If it is not of this form.
        """

    def schema(self) -> dict[str, object]:
        """JSON Schema of what is accepted."""


@dataclass(frozen=True, slots=True)
class Amount:
    """A number with a unit; `bare_unit` is that of a bare number where it is not the SI unit.

    `typed_in` are the units of a number typed without one on a page, in a millimetre and in an inch
    shop, where they are not those in which such a shop reads the dimension.
    """

    dimension: str
    bare_unit: str = ""
    above: float | None = None
    least: float | None = None
    most: float | None = None
    typed_in: tuple[str, str] | None = None

    @property
    def unit(self) -> str:
        """The unit of a bare number."""
        return self.bare_unit or DIMENSIONS[self.dimension].si_unit

    def typed_unit(self, family: Family) -> str:
        """The unit of a number typed without one on a page of this family of units."""
        if self.typed_in is not None:
            return self.typed_in[family == "inch"]
        return shop_unit(self.dimension, family)

    def read(self, raw: object, place: str) -> float:
        """The amount in SI."""
        value = self._si(raw, place)
        if value and not 1.0 / LARGEST <= abs(value) <= LARGEST:
            raise InputError(place, f"{raw} is beyond anything that a bench has")
        if self.above is not None and not value > self.above:
            raise InputError(place, f"{self._shown(value)} must be above {self._shown(self.above)}")
        if self.least is not None and not value >= self.least:
            raise InputError(place, f"{self._shown(value)} must be at least {self._shown(self.least)}")
        if self.most is not None and not value <= self.most:
            raise InputError(place, f"{self._shown(value)} must be at most {self._shown(self.most)}")
        return value

    def schema(self) -> dict[str, object]:
        """A number, or a text with its unit."""
        number: dict[str, object] = {"type": "number"}
        bounds = {"exclusiveMinimum": self.above, "minimum": self.least, "maximum": self.most}
        if not self.bare_unit:
            number |= {name: bound for name, bound in bounds.items() if bound is not None}
        text = {"type": "string", "examples": [DIMENSIONS[self.dimension].example]}
        return {"anyOf": [number, text], "dimension": self.dimension, "unit": self.unit}

    def _si(self, raw: object, place: str) -> float:
        if isinstance(raw, str):
            try:
                return parse_quantity(raw, dimension=self.dimension).si
            except QuantityError as error:
                raise InputError(place, str(error)) from None
        number = finite(raw, place, f'a number in {self.unit}, or "{DIMENSIONS[self.dimension].example}"')
        if self.dimension == "temperature" and number < 0.0:
            raise InputError(place, f'{number:g} K is below absolute zero; write degrees as "90 degC"')
        return (
            number * float(definition_of(self.bare_unit, self.dimension).factor) if self.bare_unit else number
        )

    def _shown(self, value: float) -> str:
        return approximately(value, shop_unit(self.dimension, "mm", value), self.dimension)


SIZE: Final = ("mm", "in")
"""What sizes of parts are typed in, however small; clearances are typed in thou in an inch shop."""


@dataclass(frozen=True, slots=True)
class AnyAmount:
    """A text with any number and unit, or a bare number; what it is follows from the other inputs."""

    def read(self, raw: object, place: str) -> str | float:
        """The text, or the number."""
        return raw if isinstance(raw, str) else finite(raw, place, 'an amount as "2.5 thou"')

    def schema(self) -> dict[str, object]:
        """A number, or a text with its unit."""
        return {"anyOf": [{"type": "number"}, {"type": "string", "examples": ["2.5 thou"]}]}


@dataclass(frozen=True, slots=True)
class Named:
    """An amount that also has names, such as an angle of which four have a word."""

    amount: Amount
    names: Mapping[str, float]

    def read(self, raw: object, place: str) -> float:
        """The amount in SI, by name or as it stands."""
        if isinstance(raw, str) and plain(raw) in self.names:
            return self.names[plain(raw)]
        return self.amount.read(raw, place)

    def schema(self) -> dict[str, object]:
        """The amount or one of its names."""
        amount = self.amount.schema()
        return amount | {"anyOf": [{"enum": list(self.names)}, *_alternatives(amount)]}


@dataclass(frozen=True, slots=True)
class Count:
    """A whole number."""

    least: int
    most: int

    def read(self, raw: object, place: str) -> int:
        """The number, also from a text of digits."""
        if isinstance(raw, str) and re.fullmatch(r"\d{1,9}", raw.strip()):
            raw = int(raw)
        number = finite(raw, place, "a whole number")
        if number != int(number) or not self.least <= number <= self.most:
            raise InputError(place, f"{number:g} must be a whole number from {self.least} to {self.most}")
        return int(number)

    def schema(self) -> dict[str, object]:
        """An integer within its bounds."""
        return {"type": "integer", "minimum": self.least, "maximum": self.most}


@dataclass(frozen=True, slots=True)
class Words:
    """A short text; a number is taken as its digits, because parts and people are numbered."""

    longest: int = 100

    def read(self, raw: object, place: str) -> str:
        """The text without surrounding spaces."""
        if isinstance(raw, int) and not isinstance(raw, bool):
            raw = f"{finite(raw, place, 'a text'):.0f}"
        if not isinstance(raw, str) or not raw.strip():
            raise InputError(place, f"{kind_of(raw)} is no text; write words in quotes")
        if len(raw) > self.longest:
            raise InputError(place, f"a text of {len(raw)} characters; write at most {self.longest}")
        return raw.strip()

    def schema(self) -> dict[str, object]:
        """A string."""
        return {"type": ["string", "integer"], "minLength": 1, "maxLength": self.longest}


@dataclass(frozen=True, slots=True)
class Choice:
    """One of a few words."""

    options: tuple[str, ...]

    def read(self, raw: object, place: str) -> str:
        """The option, however its spaces and capitals were written."""
        if isinstance(raw, str):
            found = {plain(option): option for option in self.options}.get(plain(raw))
            if found is not None:
                return found
            raise InputError(place, f'"{raw[:40]}" is none of the choices; {nearest(raw, self.options)}')
        raise InputError(place, f"{kind_of(raw)} is none of the choices; {nearest('', self.options)}")

    def schema(self) -> dict[str, object]:
        """The options."""
        return {"enum": list(self.options)}


@dataclass(frozen=True, slots=True)
class Several:
    """A list; as a text, its items stand on lines of their own or between semicolons.

    `starts` is what the first items of an empty page begin with.
    """

    form: Form
    least: int = 1
    starts: tuple[Mapping[str, str], ...] = ()

    def read(self, raw: object, place: str) -> tuple[Any, ...]:
        """Every item, read alike."""
        if isinstance(raw, str):
            raw = items_in(raw)
        if not isinstance(raw, list | tuple):
            raise InputError(place, f"{kind_of(raw)} is no list; write [ ... ]")
        if len(raw) < self.least:
            raise InputError(place, f"{len(raw)} given, at least {self.least} needed")
        reads = (
            lambda item=item, n=n: self.form.read(item, f"item {n} of {place}")
            for n, item in enumerate(raw, 1)
        )
        return tuple(_all(reads))

    def schema(self) -> dict[str, object]:
        """An array of the items."""
        return {"type": "array", "minItems": self.least, "items": self.form.schema()}


@dataclass(frozen=True, slots=True)
class Input:
    """One named input: its form, what it is, and what is taken where it is not given.

    `default` is written as a person would write it; None for one that may be missing. One that is
    `usual` is given often, though it need not be: a page shows it at once.
    """

    key: str
    form: Form
    text: str
    required: bool = False
    default: object = None
    usual: bool = False


@dataclass(frozen=True, slots=True)
class Given:
    """Inputs as read: `given["size"]`, None where an optional one is missing."""

    values: Mapping[str, Any]
    assumed: frozenset[str] = field(default_factory=frozenset)

    def __getitem__(self, key: str) -> Any:  # noqa: ANN401  (each form reads its own type)
        return self.values[key]

    def origin(self, key: str) -> str:
        """Where a value came from: given, or assumed because nothing was given."""
        return "assumed" if key in self.assumed else "given"


@dataclass(frozen=True, slots=True)
class Group:
    """An object with named inputs.

    `alone` is an input that may be given without the object around it; `short` is a pattern for writing
    the whole as one text, of which `example` shows one.
    """

    inputs: tuple[Input, ...]
    alone: str = ""
    short: str = ""
    example: str = ""

    def read(self, raw: object, place: str) -> Given:
        """Every input by name, with all that is wrong at once."""
        if isinstance(raw, str) and self.short:
            raw = self._from_text(raw, place)
        if self.alone and isinstance(raw, str | int | float):
            raw = {self.alone: raw}
        if not isinstance(raw, Mapping):
            raise InputError(place, f"{kind_of(raw)} is no object; write {{ ... }}")
        keys = [each.key for each in self.inputs]
        unknown = [key for key in raw if key not in keys]
        if unknown:
            raise InputError(place, f'unknown key "{str(unknown[0])[:60]}"; {nearest(str(unknown[0]), keys)}')
        assumed = frozenset(
            each.key for each in self.inputs if raw.get(each.key) is None and each.default is not None
        )
        reads = (lambda each=each: self._one(each, raw, place) for each in self.inputs)
        return Given(dict(zip(keys, _all(reads), strict=True)), assumed)

    def schema(self) -> dict[str, object]:
        """An object without other keys, or what may stand in its place."""
        described: dict[str, object] = {
            "type": "object",
            "properties": {each.key: _described(each) for each in self.inputs},
            "required": [each.key for each in self.inputs if each.required],
            "additionalProperties": False,
        }
        instead = [each.form.schema() for each in self.inputs if each.key == self.alone]
        if self.short:
            instead.append({"type": "string", "examples": [self.example]})
        return {"anyOf": [described, *instead]} if instead else described

    def _from_text(self, text: str, place: str) -> dict[str, str]:
        found = re.fullmatch(self.short, text.strip())
        if found is None:
            raise InputError(place, f'"{text[:40]}" cannot be read; write it as "{self.example}"')
        return {key: value for key, value in found.groupdict().items() if value is not None}

    def _one(self, each: Input, raw: Mapping[str, object], place: str) -> object:
        where = f"{each.key} of {place}" if place else each.key
        written = raw.get(each.key)
        if isinstance(written, Repeated):
            raise InputError(where, "given twice; give it once")
        if written is None:
            if each.required:
                raise MissingInputError(where, f"give {each.text}")
            return None if each.default is None else each.form.read(each.default, where)
        return each.form.read(written, where)


def _all(reads: Iterable[Callable[[], object]]) -> list[object]:
    """The results of all, or one error with everything that is wrong."""
    values: list[object] = []
    errors: list[InputError] = []
    for read in reads:
        try:
            values.append(read())
        except InputError as error:
            errors.append(error)
        except InputsError as several:
            errors.extend(several.errors)
    if errors:
        raise InputsError(errors)
    return values


def _described(each: Input) -> dict[str, object]:
    default = {} if each.default is None else {"default": each.default}
    return {"description": each.text, **each.form.schema(), **default}


def _alternatives(schema: Mapping[str, object]) -> list[object]:
    alternatives = schema["anyOf"]
    return list(alternatives) if isinstance(alternatives, list) else []
