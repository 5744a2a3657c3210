"""The answer of a sum as its page shows it: what leads, every figure, tables, cautions, the working."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from markupsafe import Markup

from fitwright.assess.results import Verdict
from fitwright.drawing.marks import mark_drawing
from fitwright.sums.declaration import Figure, Output, PutIn, Step, Sum, SumResult
from fitwright.sums.shown import figure_text, value_text
from fitwright.sums.works import with_works, work
from fitwright.units.families import Family
from fitwright.web.pages.sums.fields import readable, words_of_key
from fitwright.web.writing import capital

_MARKS = {str(each).replace("-", " "): each for each in Verdict}


@dataclass(frozen=True, slots=True)
class Shown:
    """A figure: its name, its number or words, what it means, its mark if it is a verdict."""

    name: str
    number: str
    text: str
    mark: Markup
    is_words: bool


@dataclass(frozen=True, slots=True)
class Table:
    """Figures that come in rows."""

    title: str
    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


@dataclass(frozen=True, slots=True)
class Number:
    """A number of the working, and where it came from."""

    name: str
    number: str
    origin: str


@dataclass(frozen=True, slots=True)
class WorkingStep:
    """A step of the working."""

    title: str
    formula: str
    numbers: tuple[Number, ...]
    result: Number | None
    source: str


@dataclass(frozen=True, slots=True)
class Figures:
    """Everything that a sum answered."""

    leads: tuple[Shown, ...]
    others: tuple[Shown, ...]
    tables: tuple[Table, ...]
    cautions: tuple[str, ...]
    steps: tuple[WorkingStep, ...]
    source: str


def figures_of(asked: Sum, result: SumResult, family: Family) -> Figures:
    """The answer in the reader's units; what does not exist is left out."""
    shown = [(output, _shown(asked, output, result.results[output.key], family)) for output in asked.outputs]
    single = [(output, each) for output, each in shown if each is not None]
    return Figures(
        leads=tuple(each for output, each in single if output.leads),
        others=tuple(each for output, each in single if not output.leads),
        tables=tuple(_tables(asked, result.results, family)),
        cautions=result.cautions,
        steps=tuple(_step(each, family) for each in result.working),
        source=work(asked.source),
    )


def _shown(asked: Sum, output: Output, figure: Figure | None, family: Family) -> Shown | None:
    if figure is None or figure.value is None or figure.value == () or output.columns:
        return None
    number = figure_text(figure, family, interval=output.is_interval)
    verdict = _MARKS.get(number) if output.key.endswith("verdict") else None
    mark = Markup(mark_drawing(verdict)) if verdict else Markup()  # noqa: S704  (our own SVG)
    return Shown(
        capital(words_of_key(output.key)),
        number,
        readable(asked, output.text),
        mark,
        output.dimension is None and asked.name != "convert",
    )


def _tables(asked: Sum, results: Mapping[str, Figure | None], family: Family) -> Iterator[Table]:
    for output in asked.outputs:
        figure = results[output.key]
        if not output.columns or figure is None or not isinstance(figure.value, tuple) or not figure.value:
            continue
        rows = (row for row in figure.value if isinstance(row, Mapping))
        cells = (tuple(_cell(row[column.key], family) for column in output.columns) for row in rows)
        heads = tuple(capital(words_of_key(column.key)) for column in output.columns)
        yield Table(capital(output.text), heads, tuple(cells))


def _cell(figure: Figure, family: Family) -> str:
    return value_text(figure.value, figure.dimension, family)  # type: ignore[arg-type]  # cells hold no rows


def _step(step: Step, family: Family) -> WorkingStep:
    return WorkingStep(
        title=step.title,
        formula=step.formula,
        numbers=tuple(_number(each, family) for each in step.put_in),
        result=None if step.result is None else _number(step.result, family),
        source=work(step.source),
    )


def _number(each: PutIn, family: Family) -> Number:
    return Number(each.name, value_text(each.value, each.dimension, family), with_works(each.origin))
