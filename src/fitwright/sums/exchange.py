"""Sums as JSON: declarations as schemas, results as objects, lists of inputs one by one."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping, Sequence

from fitwright.sums.declaration import Figure, Output, PutIn, Step, Sum, SumResult
from fitwright.sums.errors import InputError, SumError
from fitwright.sums.forms import Group
from fitwright.sums.raw import Repeated
from fitwright.sums.running import answer


def parsed(text: str) -> object:
    """Inputs from JSON; a key that an object has twice is kept as a mark that reading refuses.

    Raises
    ------
    InputError
        If the text is no JSON.
    """
    try:
        return json.loads(text, object_pairs_hook=_object)
    except json.JSONDecodeError as error:
        place = f"line {error.lineno}, column {error.colno}"
        raise InputError(place, f"not JSON ({error.msg}); write one object or a list of objects") from None
    except RecursionError:
        raise InputError("", "the JSON is nested too deeply; write one object or a list of objects") from None
    except ValueError as error:
        raise InputError("", f"the JSON cannot be read ({error})") from None


def answers(asked: Sum, several: Sequence[object]) -> Iterator[dict[str, object]]:
    """The answers to several inputs, each in its place; one that has none is an object with `error`."""
    for inputs in several:
        try:
            yield as_object(answer(asked, inputs))
        except SumError as error:
            yield {"error": str(error)}


def as_object(result: SumResult) -> dict[str, object]:
    """A result as one JSON object: figures by name, then the working and the cautions."""
    return {
        **{key: _figure(figure) for key, figure in result.results.items()},
        "working": [_step(step) for step in result.working],
        "cautions": list(result.cautions),
    }


def schema(asked: Sum) -> dict[str, object]:
    """JSON Schema of the inputs of a sum, with that of its answer among the definitions."""
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": asked.title,
        "description": f"{asked.text} A value is a number in SI, or a text with its unit.",
        **Group(asked.inputs).schema(),
        "examples": [asked.example],
        "$defs": {"output": _output_schema(asked)},
    }


def _object(pairs: list[tuple[str, object]]) -> dict[str, object]:
    found = dict(pairs)
    if len(found) < len(pairs):
        keys = [key for key, _ in pairs]
        found |= {key: Repeated() for key in keys if keys.count(key) > 1}
    return found


def _figure(figure: Figure | None) -> object:
    """A figure as an object with value and unit; null where it does not exist."""
    if figure is None:
        return None
    value: object = figure.value
    if isinstance(value, tuple):
        value = [_item(each) for each in value]
    return {"value": value, "unit": figure.unit}


def _item(each: object) -> object:
    """One of several values, or one row of further figures."""
    if not isinstance(each, Mapping):
        return each
    return {key: _figure(figure if figure.value is not None else None) for key, figure in each.items()}


def _step(step: Step) -> dict[str, object]:
    return {
        "title": step.title,
        "formula": step.formula,
        "put_in": [_put_in(each) for each in step.put_in],
        "result": None if step.result is None else _put_in(step.result),
        "source": step.source or None,
    }


def _put_in(each: PutIn) -> dict[str, object]:
    unit = Output(each.name, "", each.dimension).unit
    value = list(each.value) if isinstance(each.value, tuple) else each.value
    return {"name": each.name, "value": value, "unit": unit, "origin": each.origin or None}


def _output_schema(asked: Sum) -> dict[str, object]:
    steps = {"type": "array", "items": {"type": "object"}}
    return {
        "type": "object",
        "properties": {
            **{each.key: _described(each) for each in asked.outputs},
            "working": {"description": "every step: formula, numbers put in, source", **steps},
            "cautions": {"type": "array", "items": {"type": "string"}},
        },
        "required": [*(each.key for each in asked.outputs), "working", "cautions"],
        "additionalProperties": False,
    }


def _described(output: Output) -> dict[str, object]:
    value: dict[str, object] = {}
    if output.columns:
        columns = {each.key: _described(each) for each in output.columns}
        value = {"type": "array", "items": {"type": "object", "properties": columns}}
    figure = {
        "type": ["object", "null"],
        "properties": {"value": value, "unit": {"type": ["string", "null"]}},
    }
    unit = {} if output.unit is None else {"unit": output.unit}
    return {"description": output.text, **figure, **unit}
