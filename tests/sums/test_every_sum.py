"""What every sum keeps: its example runs, and its answer is exactly what it declares."""

import json
import math
import re
import tomllib

import pytest

from fitwright.sums import SUMS, SumError, run
from fitwright.sums.exchange import as_object, schema
from fitwright.sums.works import WORKS
from tests.support.compare import SOURCES, source_keys

WANTED = {
    "bearing",
    "blade-stack",
    "blades",
    "centring",
    "convert",
    "end-leakage",
    "equal-preload",
    "expansion",
    "feed-margin",
    "five-lift",
    "gauge-study",
    "groove-flow",
    "inlet-edge-loss",
    "interference",
    "missing-part",
    "relief",
    "rotor-pump",
    "slot-leakage",
    "spur-pump",
    "stretch",
    "stripping",
    "tightening",
    "viscosity",
    "wrench-extension",
}

every_sum = pytest.mark.parametrize("name", SUMS)


@pytest.fixture(scope="module")
def results():
    return {name: run(name, asked.example) for name, asked in SUMS.items()}


def test_the_sums_are_there():
    assert set(SUMS) >= WANTED


@every_sum
def test_results_are_those_declared(name, results):
    asked, result = SUMS[name], results[name]
    assert list(result.results) == [output.key for output in asked.outputs]
    for output in asked.outputs:
        figure = result.results[output.key]
        if figure is None or name == "convert":
            continue
        assert figure.unit == output.unit
        if output.columns:
            names = [column.key for column in output.columns]
            assert all(list(row) == names for row in figure.value)


@every_sum
def test_some_figure_exists_and_all_are_finite(name, results):
    figures = [figure for figure in results[name].results.values() if figure is not None]
    numbers = [
        number
        for figure in figures
        for number in (figure.value if isinstance(figure.value, tuple) else (figure.value,))
        if isinstance(number, float)
    ]
    assert numbers
    assert all(map(math.isfinite, numbers))


@every_sum
def test_the_working_says_formula_numbers_and_origin(name, results):
    working = results[name].working
    assert working
    assert all(step.title and step.formula and step.put_in for step in working)
    assert any(each.origin for step in working for each in step.put_in)
    cited = {step.source for step in working} - {"", "units are exact by definition"}
    assert cited | {SUMS[name].source} <= source_keys()


@every_sum
def test_declared_keys_are_long_words_and_described(name):
    asked = SUMS[name]
    for each in (*asked.inputs, *asked.outputs):
        # Words; a number only at the end, as the temperature of a data sheet: kinematic_viscosity_40.
        assert re.fullmatch(r"[a-z]+(_[a-z]+)*(_\d+)?", each.key)
        assert re.fullmatch(r".+[^.]", each.text)
    assert asked.title
    assert asked.text.endswith(".")


@every_sum
def test_json_is_plain_and_closed(name, results):
    written = json.loads(json.dumps(as_object(results[name]), allow_nan=False))
    described = schema(SUMS[name])
    output = described["$defs"]["output"]
    assert list(written) == output["required"] == list(output["properties"])
    for key, figure in written.items():
        if key not in ("working", "cautions"):
            assert figure is None or list(figure) == ["value", "unit"]


@every_sum
def test_the_schema_names_every_input(name):
    asked, described = SUMS[name], schema(SUMS[name])
    assert list(described["properties"]) == [each.key for each in asked.inputs]
    assert described["additionalProperties"] is False
    assert set(described["required"]) <= set(asked.example)
    json.dumps(described, allow_nan=False)


@every_sum
def test_an_unknown_key_is_refused_with_the_nearest(name):
    key = SUMS[name].inputs[0].key
    with pytest.raises(SumError, match=f'did you mean "{key}"'):
        run(name, {**SUMS[name].example, key + "x": 1})


@every_sum
def test_a_missing_input_is_named(name):
    needed = [each.key for each in SUMS[name].inputs if each.required]
    for key in needed:
        inputs = {each: value for each, value in SUMS[name].example.items() if each != key}
        with pytest.raises(SumError, match=f"{key}: missing"):
            run(name, inputs)


@every_sum
def test_null_is_the_same_as_nothing(name, results):
    optional = [each.key for each in SUMS[name].inputs if each.key not in SUMS[name].example]
    assert run(name, {**SUMS[name].example, **dict.fromkeys(optional)}).results == results[name].results


def test_works_are_those_of_the_list_of_sources():
    listed = tomllib.loads(SOURCES.read_text("utf-8"))
    for key, words in WORKS.items():
        assert str(listed[key]["year"]) in words
        title = listed[key]["title"].partition(":")[0].partition(",")[0].lower()
        assert title in words.lower() or words.startswith(listed[key]["where"].partition(" (")[0]), key


@every_sum
def test_every_work_that_a_working_cites_can_be_named(name, results):
    cited = {step.source for step in results[name].working} - {"", "units are exact by definition"}
    origins = {each.origin for step in results[name].working for each in step.put_in}
    in_origins = {key for origin in origins for key in re.findall(r"\[([a-z]\w*\d{4})\]", origin)}
    assert cited | in_origins | {SUMS[name].source} <= set(WORKS)


def test_blades_round_a_shaft_cite_works_that_are_listed():
    gaps = [{"angle": each, "at_least": "0.10 mm", "less_than": "0.15 mm"} for each in ("top", "right")]
    gaps.append({"angle": "225 deg", "at_least": "0.10 mm", "less_than": "0.20 mm"})
    cited = {step.source for step in run("centring", {"gaps": gaps}).working} - {""}
    assert cited <= source_keys()
    assert cited <= set(WORKS)


def test_work_that_can_hurt_carries_a_caution():
    for name in ("interference", "centring"):
        assert any("maker's" in caution for caution in SUMS[name].cautions)
    assert any("burn" in caution for caution in SUMS["interference"].cautions)
    for name in ("tightening", "equal-preload", "stretch", "stripping", "wrench-extension"):
        assert any("breaking fastener" in caution for caution in SUMS[name].cautions)
