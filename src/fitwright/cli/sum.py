"""`fitwright sum`: one computation on its own, for people and for programs."""

from __future__ import annotations

import json
import sys
from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, Annotated, Literal

from cyclopts import Parameter

from fitwright.cli.errors import INPUT, OK, UsageError

if TYPE_CHECKING:
    from fitwright.sums.declaration import Sum


def sum_(
    name: str | None = None,
    /,
    *inputs: Annotated[str, Parameter(help="Inputs, each as name=value with its unit.")],
    as_json: Annotated[
        bool,
        Parameter(
            name="--json",
            negative="",
            help="Read an object or a list of objects, and write the same in SI units.",
        ),
    ] = False,
    example: Annotated[bool, Parameter(negative="", help="Print inputs that run, as JSON.")] = False,
    schema: Annotated[
        bool, Parameter(negative="", help="Print the JSON Schema of the inputs and of the answer.")
    ] = False,
    units: Annotated[Literal["mm", "inch"], Parameter(help="Units to show first.")] = "mm",
) -> int:
    """Do one computation on its own, without a build. Without a name: list the sums.

    Example: fitwright sum convert amount="2.5 thou" to=mm

    Example: fitwright sum blades --example | fitwright sum blades --json
    """
    from fitwright.cli import sum_report
    from fitwright.sums import SUMS, sum_named

    if name is None:
        if as_json or example or schema:
            raise UsageError("Name a sum; `fitwright sum` lists them.")
        sum_report.print_list(SUMS.values())
        return OK
    asked = sum_named(name)
    if example:
        return _write(asked.example)
    if schema:
        from fitwright.sums.exchange import schema as schema_of

        return _write(schema_of(asked))
    if as_json:
        if inputs:
            raise UsageError("With --json the inputs are read from standard input; leave out name=value.")
        return _answer_json(asked)
    if not inputs:
        sum_report.print_declaration(asked)
        return OK
    from fitwright.sums.running import answer

    sum_report.print_result(asked, answer(asked, _given(asked, inputs)), units)
    return OK


def _given(asked: Sum, inputs: Sequence[str]) -> dict[str, object]:
    """Inputs by name; a name that comes again makes a list."""
    found: dict[str, object] = {}
    for text in inputs:
        key, equals, value = text.partition("=")
        if not equals or not key.strip():
            raise UsageError(
                f'"{text}" is no input: write name=value, with quotes round a value that has spaces.'
                f" `fitwright sum {asked.name}` lists the names."
            )
        _put(found, key.strip(), _value(value.strip(), key.strip()))
    return found


def _put(found: dict[str, object], key: str, value: object) -> None:
    if key not in found:
        found[key] = value
        return
    held = found[key]
    found[key] = [
        *(held if isinstance(held, list) else [held]),
        *(value if isinstance(value, list) else [value]),
    ]


def _value(text: str, key: str) -> object:
    """JSON where it looks like an object or a list, else the text as it stands."""
    from fitwright.sums.errors import InputError
    from fitwright.sums.exchange import parsed

    if not text.startswith(("{", "[")):
        return text
    try:
        return parsed(text)
    except InputError as error:
        raise InputError(key, str(error)) from None


def _answer_json(asked: Sum) -> int:
    from fitwright.sums.errors import InputError, SumError
    from fitwright.sums.exchange import answers, as_object, parsed
    from fitwright.sums.running import answer

    try:
        given = parsed(_standard_input())
        if isinstance(given, list):
            _write_each(answers(asked, given))
            return OK
        if not isinstance(given, dict):
            raise InputError("", "the JSON is no object; write one object or a list of objects")
        return _write(as_object(answer(asked, given)))
    except SumError as error:
        _write({"error": str(error)})
        sys.stderr.write(f"{error}\n")
        return INPUT


def _standard_input() -> str:
    from fitwright.sums.errors import InputError

    try:
        return sys.stdin.buffer.read().decode("utf-8-sig")
    except UnicodeDecodeError:
        raise InputError("", "standard input is no UTF-8; write JSON in UTF-8") from None


def _write(document: object) -> int:
    json.dump(document, sys.stdout, indent=1)
    sys.stdout.write("\n")
    return OK


def _write_each(documents: Iterable[object]) -> None:
    """A list, item by item, so that a long one needs no more memory than its input."""
    sys.stdout.write("[")
    for number, document in enumerate(documents):
        # One write each: `json.dump` would make dozens.
        sys.stdout.write((",\n" if number else "\n") + json.dumps(document))
    sys.stdout.write("\n]\n")
