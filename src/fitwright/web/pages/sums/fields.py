"""The form of a sum, made from what the sum declares: one declaration for command, page and JSON."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Final

from markupsafe import Markup

from fitwright.data.materials import usual_materials
from fitwright.drawing.marks import blade_drawing
from fitwright.sums.crossed import Crossed
from fitwright.sums.declaration import Sum
from fitwright.sums.errors import InputError, InputsError, MissingInputError, SumError
from fitwright.sums.forms import Amount, Choice, Count, Form, Group, Input, Named, Several
from fitwright.sums.typed import echo_of, typed
from fitwright.units.families import Family
from fitwright.units.spellings import definition_of
from fitwright.web.pages.sums.query import Filled, TypedRow, is_rows
from fitwright.web.writing import capital

DRAWN: Final = frozenset({"goes", "goes freely", "drags", "does not go"})
"""Answers of a blade, which are keys with a drawing."""


@dataclass(frozen=True, slots=True)
class Option:
    """Something to choose; `drawing` is empty where its word is enough."""

    value: str
    chosen: bool
    drawing: Markup


@dataclass(frozen=True, slots=True)
class Field:
    """One input: what it is called and means, how it is typed, what was typed, what is said of it."""

    name: str
    id: str
    label: str
    text: str
    kind: str
    value: str
    unit: str
    hint: str
    options: tuple[Option, ...]
    known: tuple[str, ...]
    note: str
    error: str


@dataclass(frozen=True, slots=True)
class Item:
    """One item of a list: its fields, and what is wrong with it as a whole."""

    id: str
    title: str
    fields: tuple[Field, ...]
    more: tuple[Field, ...]
    open: bool
    error: str


@dataclass(frozen=True, slots=True)
class Rows:
    """A list of objects."""

    id: str
    label: str
    text: str
    items: tuple[Item, ...]
    meanings: tuple[tuple[str, str], ...]
    error: str


@dataclass(frozen=True, slots=True)
class Part:
    """One part of the form: a field, or a list."""

    field: Field | None
    rows: Rows | None


@dataclass(frozen=True, slots=True)
class FormParts:
    """The form: what is asked at once, and what is folded away."""

    shown: tuple[Part, ...]
    more: tuple[Part, ...]
    open: bool


def words_of_key(key: str) -> str:
    """A key as one reads it.

    >>> words_of_key("hub_bore_diameter")
    'hub bore diameter'
    """
    return re.sub(r"\bsi\b", "SI", key.removesuffix("_words").replace("_", " "))


@dataclass(frozen=True, slots=True)
class Problems:
    """What is wrong with inputs, by their places; what is only missing is kept apart."""

    wrong: Mapping[str, str] = field(default_factory=dict)
    missing: Mapping[str, str] = field(default_factory=dict)

    @classmethod
    def of(cls, asked: Sum, error: SumError | None) -> Problems:
        """The problems that an error names, in words that stand on the page."""
        errors = error.errors if isinstance(error, InputsError) else (error,)
        wrong, missing = dict[str, str](), dict[str, str]()
        for each in errors:
            if isinstance(each, MissingInputError):
                missing.setdefault(each.place, readable(asked, each.problem.removeprefix("missing; ")))
            elif isinstance(each, InputError):
                wrong.setdefault(each.place, readable(asked, each.problem))
        return cls(wrong, missing)

    def at(self, place: str) -> str:
        """What is wrong at a place, or in an item of the list there."""
        for where, problem in self.wrong.items():
            if where == place:
                return f"{capital(problem)}."
            if where.endswith(f" of {place}") and not where.startswith("item"):
                continue
            if where.endswith(f" of {place}"):
                return f"{capital(where.removesuffix(f' of {place}'))}: {problem}."
        return ""


def readable(asked: Sum, problem: str) -> str:
    """A sentence with the words of labels where a command says keys, without what only programs read."""
    keys = {each.key for each in _every_input(asked.inputs) if "_" in each.key}
    said = re.sub(r"[a-z]+(_[a-z]+)+", lambda m: words_of_key(m[0]) if m[0] in keys else m[0], problem)
    return said.partition("; null ")[0]


def _every_input(inputs: Sequence[Input]) -> Iterator[Input]:
    for each in inputs:
        yield each
        form = each.form.form if isinstance(each.form, Several) else each.form
        if isinstance(form, Group):
            yield from _every_input(form.inputs)


def form_of(asked: Sum, form: Filled, problems: Problems, family: Family) -> FormParts:
    """The form as it was filled in, with what is said of each field."""
    making = _Making(asked, form, problems, family)
    shown = tuple(making.part(each) for each in asked.inputs if each.required or each.usual)
    folded = [each for each in asked.inputs if not (each.required or each.usual)]
    more = tuple(making.part(each) for each in folded)
    return FormParts(shown, more, any(_is_filled(form, each) for each in folded))


def _is_filled(form: Filled, each: Input) -> bool:
    return bool(form.given(each.key)) or each.key in form.single


@dataclass(frozen=True, slots=True)
class _Making:
    """Makes the parts of one form."""

    asked: Sum
    form: Filled
    problems: Problems
    family: Family

    def part(self, each: Input) -> Part:
        if isinstance(each.form, Several) and is_rows(each.form):
            return Part(None, self._rows(each, each.form))
        return Part(self._field(each, each.key, self.form.single.get(each.key, ""), each.key), None)

    def _rows(self, each: Input, several: Several) -> Rows:
        group = several.form
        assert isinstance(group, Group)  # noqa: S101  (asked before)
        rows = self._shown_rows(each.key, several)
        places = {row.number: n for n, row in enumerate([row for row in rows if not row.blank], start=1)}
        items = (
            self._item(each.key, group, row, f"item {places.get(row.number, 0)} of {each.key}")
            for row in rows
        )
        return Rows(
            id=f"list-{each.key}",
            label=capital(words_of_key(each.key)),
            text=f"{capital(each.text)}.",
            items=tuple(items),
            meanings=tuple((capital(words_of_key(one.key)), one.text) for one in group.inputs),
            error=self.problems.at(each.key),
        )

    def _shown_rows(self, key: str, several: Several) -> list[TypedRow]:
        """What was typed, else what an empty form begins with; and one row to go on in."""
        rows = list(self.form.rows.get(key, ()))
        if not any(not row.blank for row in rows):
            rows = [TypedRow(number, start) for number, start in enumerate(several.starts, start=1)]
        if not rows or not rows[-1].blank:
            rows.append(TypedRow(rows[-1].number + 1 if rows else 1, {}))
        return rows

    def _item(self, key: str, group: Group, row: TypedRow, place: str) -> Item:
        fields = {
            one.key: self._field(
                one, f"{key}.{row.number}.{one.key}", row.values.get(one.key, ""), f"{one.key} of {place}"
            )
            for one in group.inputs
        }
        shown = {one.key for one in group.inputs if one.required or one.usual}
        more = tuple(made for name, made in fields.items() if name not in shown)
        return Item(
            id=_id(f"{key}.{row.number}"),
            title=f"{words_of_key(key).removesuffix('s')} {row.number}",
            fields=tuple(made for name, made in fields.items() if name in shown),
            more=more,
            open=any(made.value for made in more),
            error=self.problems.at(place),
        )

    def _field(self, each: Input, name: str, value: str, place: str) -> Field:
        form = each.form
        error = self.problems.at(place)
        key = name.rpartition(".")[2]
        return Field(
            name=name,
            id=_id(name),
            label=capital(words_of_key(key)),
            text=f"{capital(readable(self.asked, each.text))}.",
            kind=_kind(form),
            value=value or (form.starts if isinstance(form, Crossed) else ""),
            unit=_unit(form, self.family),
            hint="" if each.default is None else f"else {each.default}",
            options=tuple(_options(form, value or (str(each.default) if each.default is not None else ""))),
            known=tuple(_known(each)),
            note="" if error or not value else echo_of(form, typed(form, value, self.family)),
            error=error,
        )


def _id(name: str) -> str:
    return re.sub(r"[._]", "-", name)


def _kind(form: Form) -> str:
    if isinstance(form, Choice):
        return "keys" if set(form.options) == DRAWN else "choice"
    if isinstance(form, Crossed):
        return "grid"
    return "lines" if isinstance(form, Several) else "count" if isinstance(form, Count) else "text"


def _unit(form: Form, family: Family) -> str:
    """The unit of a number typed without one, as it is shown beside the field."""
    if isinstance(form, Crossed):
        form = form.indication
    if isinstance(form, Several):
        form = form.form
    if isinstance(form, Group) and form.alone:
        form = next(each.form for each in form.inputs if each.key == form.alone)
    amount = form.amount if isinstance(form, Named) else form
    if not isinstance(amount, Amount):
        return ""
    shown = definition_of(amount.typed_unit(family), amount.dimension).shown
    return "" if shown == "1" else shown


def _options(form: Form, chosen: str) -> Iterator[Option]:
    for each in form.options if isinstance(form, Choice) else ():
        drawing = Markup(blade_drawing(each)) if each in DRAWN else Markup()  # noqa: S704  (our own)
        yield Option(each, each == chosen, drawing)


def _known(each: Input) -> Sequence[str]:
    """Words that a field takes besides numbers, or that are known here."""
    if isinstance(each.form, Named):
        return tuple(each.form.names)
    return tuple(usual_materials()) if each.key.endswith("material") else ()
