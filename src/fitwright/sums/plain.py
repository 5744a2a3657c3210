"""A sum as plain text, to be taken elsewhere: what was put in, the answer, cautions, the working."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from fitwright.sums.declaration import Figure, Output, PutIn, Step, Sum, SumResult
from fitwright.sums.shown import figure_text, value_text
from fitwright.sums.works import with_works, work
from fitwright.units.families import Family


def as_text(asked: Sum, inputs: Mapping[str, object], result: SumResult, family: Family) -> str:
    """Everything that the sum says, line by line."""
    lines = [asked.title, "", "Put in", *(f"  {line}" for line in _given(inputs))]
    lines += ["", "Answer", *(f"  {line}" for line in _answer(asked, result, family))]
    lines += [f"  Caution: {caution}" for caution in result.cautions]
    for step in result.working:
        lines += ["", *_step(step, family)]
    return "\n".join([*lines, "", f"Method: {work(asked.source)}"])


def _given(inputs: Mapping[str, object]) -> Iterator[str]:
    for key, value in inputs.items():
        yield from _lines(_words(key), value)


def _lines(name: str, value: object) -> Iterator[str]:
    if isinstance(value, list | tuple) and value and isinstance(value[0], Mapping):
        for number, row in enumerate(value, start=1):
            words = ", ".join(f"{_words(key)} {_typed(each)}" for key, each in row.items())
            yield f"{name} {number}: {words}"
    elif isinstance(value, str) and "\n" in value:
        yield f"{name}:"
        yield from (f"  {line}" for line in value.splitlines())
    else:
        yield f"{name}: {_typed(value)}"


def _typed(value: object) -> str:
    return "; ".join(map(str, value)) if isinstance(value, list | tuple) else str(value)


def _answer(asked: Sum, result: SumResult, family: Family) -> Iterator[str]:
    for output in asked.outputs:
        figure = result.results[output.key]
        if figure is None or figure.value is None or figure.value == ():
            continue
        if output.columns:
            yield f"{_words(output.key)}:"
            yield from (f"  {line}" for line in _rows(output, figure, family))
        else:
            yield f"{_words(output.key)}: {figure_text(figure, family, interval=output.is_interval)}"


def _rows(output: Output, figure: Figure, family: Family) -> Iterator[str]:
    for row in figure.value if isinstance(figure.value, tuple) else ():
        if isinstance(row, Mapping):
            cells = ((column, row[column.key]) for column in output.columns)
            yield ", ".join(
                f"{_words(column.key)} {value_text(cell.value, cell.dimension, family)}"  # type: ignore[arg-type]
                for column, cell in cells
            )


def _step(step: Step, family: Family) -> Iterator[str]:
    yield f"{step.title} [{work(step.source)}]" if step.source else step.title
    yield f"  {step.formula}"
    for each in step.put_in:
        yield f"  {_number(each, family)}"
    if step.result is not None:
        yield f"  = {_number(step.result, family)}"


def _number(each: PutIn, family: Family) -> str:
    origin = f" ({with_works(each.origin)})" if each.origin else ""
    return f"{each.name}: {value_text(each.value, each.dimension, family)}{origin}"


def _words(key: str) -> str:
    return key.replace("_", " ")
