"""Quick sums for people: the list, one declaration, one result with its working."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING

from rich.console import Console
from rich.table import Table
from rich.text import Text

from fitwright.cli.console import console
from fitwright.sums.declaration import Figure, Output, PutIn, Step, Sum, SumResult
from fitwright.sums.forms import Input
from fitwright.sums.shown import figure_text, value_text

if TYPE_CHECKING:
    from fitwright.units.families import Family


def print_list(sums: Iterable[Sum]) -> None:
    """Every sum with what it computes."""
    out = console()
    table = _table("sum", "computes")
    for each in sums:
        table.add_row(Text(each.name, style="bold"), Text(each.text))
    out.print(table)
    out.print(
        Text("\n`fitwright sum NAME` says what one needs; `--example` prints inputs that run.", style="dim")
    )


def print_declaration(asked: Sum) -> None:
    """What a sum needs and answers, and how to try it."""
    out = console()
    out.print(Text(f"{asked.title} ({asked.name})", style="bold"))
    out.print(Text(f"{asked.text}\n"))
    inputs = _table("input", "", "what it is")
    for each in asked.inputs:
        inputs.add_row(each.key, _need(each), Text(each.text))
    out.print(inputs)
    out.print()
    outputs = _table("answer", "SI unit", "what it is")
    for output in asked.outputs:
        outputs.add_row(output.key, _unit(output), Text(output.text))
    out.print(outputs)
    _print_cautions(out, asked.cautions)
    out.print(Text(f"\nSource: [{asked.source}] in docs/sources.toml. An example, as JSON:"))
    out.print(Text(json.dumps(asked.example, indent=1)), soft_wrap=True)


def print_result(asked: Sum, result: SumResult, family: Family) -> None:
    """The figures, then every step of the working with the numbers put in."""
    out = console()
    out.print(Text(asked.title, style="bold"))
    table = _table(None, None)
    for output in asked.outputs:
        figure = result.results[output.key]
        if figure is not None and not _is_table(output, figure):
            table.add_row(
                Text(_words(output.key), style="bold"),
                Text(figure_text(figure, family, interval=output.is_interval)),
            )
    out.print(table)
    for output in asked.outputs:
        figure = result.results[output.key]
        if figure is not None and _is_table(output, figure):
            out.print(_rows(output, figure, family))
    _print_cautions(out, result.cautions)
    for step in result.working:
        _print_step(out, step, family)


def _words(key: str) -> str:
    """The name of an answer as one reads it; programs see the key."""
    return key.replace("_", " ")


def _print_step(out: Console, step: Step, family: Family) -> None:
    source = f"  [{step.source}]" if step.source else ""
    out.print(Text(f"\n{step.title}{source}", style="bold"))
    out.print(Text(f"  {step.formula}"))
    table = _table(None, None, None)
    for each in step.put_in:
        table.add_row(*_cells("  ", each, family))
    if step.result is not None:
        table.add_row(*_cells("= ", step.result, family))
    out.print(table)


def _cells(before: str, each: PutIn, family: Family) -> tuple[Text, Text, Text]:
    return (
        Text(before + each.name),
        Text(value_text(each.value, each.dimension, family)),
        Text(each.origin, style="dim"),
    )


def _print_cautions(out: Console, cautions: Iterable[str]) -> None:
    for caution in cautions:
        out.print(Text(f"\nCaution: {caution}", style="bold"))


def _rows(output: Output, figure: Figure, family: Family) -> Table:
    table = _table(*(_words(column.key) for column in output.columns))
    table.title, table.title_justify, table.title_style = f"\n{output.text}", "left", "bold"
    rows = figure.value if isinstance(figure.value, tuple) else ()
    for row in rows:
        if isinstance(row, Mapping):
            cells = [row[column.key] for column in output.columns]
            table.add_row(*(Text(_cell(cell, family)) for cell in cells))
    return table


def _cell(figure: Figure, family: Family) -> str:
    return value_text(figure.value, figure.dimension, family)  # type: ignore[arg-type]  # cells hold no rows


def _is_table(output: Output, figure: Figure) -> bool:
    return bool(output.columns) and bool(figure.value)


def _need(each: Input) -> str:
    if each.required:
        return "needed"
    return "" if each.default is None else f"else {each.default}"


def _unit(output: Output) -> str:
    return "rows" if output.columns else output.unit or "words"


def _table(*headings: str | None) -> Table:
    table = Table(box=None, pad_edge=False, show_header=headings[0] is not None)
    for heading in headings:
        table.add_column(heading or "", overflow="fold")
    return table
