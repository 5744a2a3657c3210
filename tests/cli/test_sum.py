"""`fitwright sum`: for people with name=value, for programs with JSON in and out."""

import io
import json
import os
import subprocess
import sys

import pytest

from fitwright.cli import main
from fitwright.sums import SUMS


@pytest.fixture
def command(capsys, monkeypatch):
    """Run the command with a standard input; exit code, standard output, standard error."""

    def run(*arguments, given=""):
        data = given if isinstance(given, bytes) else given.encode()
        monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(data)))
        with pytest.raises(SystemExit) as stopped:
            main(["sum", *arguments])
        out, err = capsys.readouterr()
        return stopped.value.code, out, err

    return run


def test_without_a_name_it_lists_every_sum(command):
    code, out, _ = command()
    assert code == 0
    assert all(name in out for name in SUMS)


@pytest.mark.parametrize("name", SUMS)
def test_a_name_alone_says_what_the_sum_needs(command, name):
    code, out, _ = command(name)
    assert code == 0
    assert all(each.key in out for each in SUMS[name].inputs)
    assert all(caution[:40] in out for caution in SUMS[name].cautions)


@pytest.mark.parametrize("name", SUMS)
def test_the_example_runs_through_json(command, name):
    code, example, _ = command(name, "--example")
    assert code == 0
    code, out, err = command(name, "--json", given=example)
    assert (code, err) == (0, "")
    answer = json.loads(out)
    assert set(answer) == {each.key for each in SUMS[name].outputs} | {"working", "cautions"}


@pytest.mark.parametrize("name", SUMS)
def test_the_schema_describes_inputs_and_answer(command, name):
    code, out, _ = command(name, "--schema")
    assert code == 0
    described = json.loads(out)
    assert list(described["properties"]) == [each.key for each in SUMS[name].inputs]
    assert described["$defs"]["output"]["required"]


@pytest.mark.parametrize("name", SUMS)
def test_the_example_runs_as_arguments(command, name):
    written = [
        f"{key}={value if isinstance(value, str) else json.dumps(value)}"
        for key, value in SUMS[name].example.items()
    ]
    code, out, err = command(name, *written)
    assert (code, err) == (0, "")
    assert SUMS[name].title in out
    assert "given" in out


def test_short_texts_lists_and_repeated_names(command):
    limits = ("lower_limit=0.040 mm", "upper_limit=0.075 mm")
    code, one, _ = command("blades", "answers=0.06 mm goes; 0.07 mm does not go", *limits)
    assert code == 0
    assert "within" in one
    assert command("blades", "answers=0.06 mm goes", "answers=0.07 mm does not go", *limits)[1] == one


def test_inch_units_come_first_when_asked(command):
    _, out, _ = command("convert", "amount=0.05 mm", "--units", "inch")
    assert "1.97 thou (0.0500 mm)" in out


def test_a_list_gets_a_list_and_a_bad_object_its_error_in_place(command):
    given = '[{"amount": "1 in", "to": "mm"}, {"amount": NaN}, 3, {"amont": "1 in"}, {"amount": "2 in"}]'
    code, out, err = command("convert", "--json", given=given)
    answers = json.loads(out)
    assert (code, err) == (0, "")
    assert [list(each) == ["error"] for each in answers] == [False, True, True, True, False]
    assert answers[0]["converted"] == {"value": 25.4, "unit": "mm"}
    assert answers[0]["amount_in_si"] == {"value": 0.0254, "unit": "m"}
    assert answers[4]["converted"] is None
    assert 'did you mean "amount"?' in answers[3]["error"]


def test_an_empty_list_gets_an_empty_list(command):
    code, out, _ = command("convert", "--json", given="[]")
    assert (code, json.loads(out)) == (0, [])


@pytest.mark.parametrize(
    "given",
    ['{"amount": "5 thuo"}', "{}", '{"amount": Infinity}', "7", "null", "", "{", b"\xff\xfe", "[" * 100_000],
)
def test_a_single_bad_object_exits_with_2_and_one_sentence(command, given):
    code, out, err = command("convert", "--json", given=given)
    assert code == 2
    assert json.loads(out) == {"error": err.strip()}
    assert len(err.strip().splitlines()) == 1


@pytest.mark.parametrize(
    "arguments,words",
    [
        (("converts",), 'did you mean "convert"?'),
        (("--json",), "Name a sum"),
        (("convert", "amount"), "write name=value"),
        (("convert", "amount=5"), 'write "5 mm"'),
        (("convert", "amount=5 mm", "too=in"), 'did you mean "to"?'),
        (("convert", "--json", "amount=5 mm"), "standard input"),
        (("blades", "answers=[{"), "answers: line 1"),
        (("blades", "answers=0.05 mm jams"), 'write it as "0.05 mm goes"'),
        (("expansion", "members=[]", "temperature=300 K"), "at least 1 needed"),
    ],
)
def test_what_cannot_be_read_is_one_sentence_and_exit_2(command, arguments, words):
    code, out, err = command(*arguments)
    assert (code, out) == (2, "")
    assert words in err
    assert len(err.strip().splitlines()) == 1


def test_whole_processes_pipe_into_each_other():
    plain = {**os.environ, "PYTHONIOENCODING": "ascii"}
    run = [sys.executable, "-c", "from fitwright.cli import main; main()", "sum"]
    example = subprocess.run([*run, "centring", "--example"], capture_output=True, check=True, env=plain)
    done = subprocess.run(
        [*run, "centring", "--json"], input=example.stdout, capture_output=True, check=True, env=plain
    )
    assert json.loads(done.stdout)["verdict"] == {"value": "outside", "unit": None}


def test_conversions_need_no_numpy():
    probe = (
        "import sys; from fitwright.sums import run; run('convert', {'amount': '1 in'});"
        "sys.exit(any(name in sys.modules for name in ('numpy', 'scipy', 'pydantic')))"
    )
    assert subprocess.run([sys.executable, "-c", probe], check=False).returncode == 0
