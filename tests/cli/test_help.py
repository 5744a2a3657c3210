"""Every command has `--help` with an example, and exits 0."""

import re

import pytest

from fitwright.cli import _COMMANDS

GROUPS = {
    "sheet": ["validate", "diff", "show", "schema"],
    "build": ["start", "list", "take-over"],
    "work": ["done", "release", "witness", "use", "tighten", "look", "loosen", "new-set", "heat-cycle"],
    "put-right": ["concession", "permit", "rework", "rework-done", "rework-checked"],
    "shop": [
        *("person", "instrument", "calibration", "setting", "check-back", "blade-set", "part", "fit-part"),
        *("take-out", "state", "stated-size", "eye-check", "not-in-this-job", "sitting", "choice"),
        *("oil", "pressure-reading", "pin"),
        *("adopt-limit", "withdraw", "note", "rule", "list"),
    ],
}
ALONE = [name for name, _, _ in _COMMANDS if name not in GROUPS]
COMMANDS = [[name] for name in ALONE] + [[group, name] for group, names in GROUPS.items() for name in names]


@pytest.mark.parametrize("words", COMMANDS, ids=" ".join)
def test_help_shows_an_example_of_that_command(run, words):
    code, out, err = run(*words, "--help")
    assert (code, err) == (0, "")
    text = re.sub(r"\s+", " ", out)
    assert f"Example: fitwright {' '.join(words)}" in text


def test_all_commands_are_listed(run):
    code, out, _ = run("--help")
    assert code == 0
    assert all(re.search(rf"│ {name} ", out) for name, _, _ in _COMMANDS)


@pytest.mark.parametrize(
    "words", [["nothing"], ["check"], ["import"], ["shop", "nothing"], ["check", "x", "--colour"]]
)
def test_wrong_words_exit_with_2(run, words):
    code, out, err = run(*words)
    assert code == 2
    assert out + err
