"""Running a sum: inputs read by its declaration, values named and given their units."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence

from fitwright.physics.numerics.errors import PhysicsError
from fitwright.sums.declaration import Computed, Figure, Output, Row, Sum, SumResult
from fitwright.sums.errors import NoAnswerError
from fitwright.sums.registry import sum_named


def run(name: str, inputs: object) -> SumResult:
    """Do one sum.

    Parameters
    ----------
    name : str
        Name of the sum, a key of `SUMS`.
    inputs : mapping of str to object
        Inputs by name: numbers in SI, or texts with their unit.

    Returns
    -------
    SumResult
        Figures by name, the working, and cautions.

    Raises
    ------
    SumError
        If there is no such sum, an input cannot be read, or the inputs have no answer.

    Examples
    --------
    >>> run("convert", {"amount": "2.5 thou", "to": "mm"}).results["converted"].value
    0.0635
    """
    return answer(sum_named(name), inputs)


def answer(asked: Sum, inputs: object) -> SumResult:
    """The answer of one sum to its inputs; see `run`."""
    given = asked.read(inputs)
    try:
        found = asked.compute(given)
    except PhysicsError as error:
        raise NoAnswerError(asked.name, str(error)) from error
    except ArithmeticError as error:
        raise NoAnswerError(asked.name, "numbers too large or too small to compute with") from error
    figures = {output.key: _figure(asked.name, output, found.values[output.key]) for output in asked.outputs}
    return SumResult(asked.name, figures, found.working, (*asked.cautions, *found.cautions))


def _figure(name: str, output: Output, value: Computed) -> Figure | None:
    if value is None:
        return None
    if isinstance(value, Figure):
        return value
    if output.columns:
        return Figure(tuple(_row(name, output.columns, row) for row in _rows(value)))
    for number in value if isinstance(value, tuple) else (value,):
        if isinstance(number, float) and not math.isfinite(number):
            raise NoAnswerError(name, f"{output.key} has no finite value with these inputs")
    return Figure(value, output.unit, output.dimension)  # type: ignore[arg-type]  # rows went above


def _rows(value: Computed) -> Sequence[Row]:
    return [row for row in _items(value) if isinstance(row, Mapping)]


def _items(value: Computed) -> Iterable[object]:
    return value if isinstance(value, tuple) else ()


def _row(name: str, columns: Sequence[Output], row: Row) -> dict[str, Figure]:
    figures = ((column.key, _figure(name, column, row[column.key])) for column in columns)
    return {key: figure if figure is not None else Figure(None) for key, figure in figures}
